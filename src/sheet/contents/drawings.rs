//! Drawings and photos.

use super::Material;
use super::words::name;
use crate::figure::body::body;
use crate::figure::{Arrangement, RoseFrame, Scene, Show, rose};
use crate::sheet::blocks::{Block, Photo, Picture, Section};
use crate::sheet::choices::{Choices, Kind, Paper};
use crate::sheet::svg::svg;
use crate::survey::GapId;
use std::sync::Arc;

/// Margin left and right of the text, mm; the template has the same.
const MARGIN: f64 = 17.0;
/// Height of a row of photos, mm.
const ROW: f64 = 48.0;
/// Space between photos, mm.
const BETWEEN: f64 = 4.0;

type Files = Vec<(String, Picture)>;

/// Width of the text, mm.
fn text_width(paper: Paper) -> f64 {
    paper.size_mm().0 - 2.0 * MARGIN
}

/// The unfolded body, and on the report the rose.
pub(super) fn section(material: &Material<'_>, choices: &Choices) -> (Section, Files) {
    let mut section = Section::new("Where the gaps are");
    let show = Show {
        selected: None,
        direction: None,
        numbers: true,
    };
    let width = text_width(choices.paper);
    let figure = body(
        material.survey,
        material.assessment,
        Arrangement::Tall,
        width,
        &show,
    );
    let mut files = Vec::new();
    let mut add = |section: &mut Section, name: &str, scene: &Scene, caption: &str| {
        files.push((name.to_owned(), drawing(scene)));
        section.push(Block::Figure {
            file: name.to_owned(),
            width_mm: format!("{:.1}", scene.width.min(width)),
            alt: scene.description.clone(),
            caption: caption.to_owned(),
        });
    };
    add(
        &mut section,
        "body",
        &figure.scene,
        "The body unfolded, seen from above with the front to the left; the underfloor as seen from above \
         through the floor. The area of a mark grows with the leakage area. Circle: unintended. \
         Square: safety ventilation. Triangle pointing down: gas drop-out. Hexagon: appliance air. \
         Diamond: drain. Triangle pointing up: user ventilation. Outline unbroken: measured; dashed: \
         estimated; dotted: guessed. Hollow: sealed, or its place is not fully known.",
    );
    if choices.kind != Kind::Report {
        return (section, files);
    }
    let rose = rose(
        material.assessment,
        material.survey.site.heading_deg,
        RoseFrame::Vehicle,
        90.0,
    );
    add(
        &mut section,
        "rose",
        &rose,
        "Air changes per hour with the wind from each side; the vehicle's front is up.",
    );
    (section, files)
}

fn drawing(scene: &Scene) -> Picture {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "tenths of millimetres on paper"
    )]
    let size = |mm: f64| (mm * 10.0) as u32;
    Picture {
        bytes: Arc::new(svg(scene).into_bytes()),
        width: size(scene.width),
        height: size(scene.height),
    }
}

/// Photos of some gaps in rows; those that are not there are named.
pub(super) fn photos(
    material: &Material<'_>,
    paper: Paper,
    of: impl Fn(GapId) -> bool,
) -> (Section, Files) {
    let mut section = Section::new("Photos");
    let (mut files, mut photos, mut missing) = (Vec::new(), Vec::new(), Vec::new());
    for gap in material.survey.gaps.iter().filter(|gap| of(gap.id)) {
        for photo in &gap.photos {
            let caption = format!("{} · {}", gap.id, name(gap));
            let Some(picture) = material.photos.get(photo) else {
                missing.push(format!("{photo} (gap {})", gap.id));
                continue;
            };
            let file = format!("photo-{}", files.len());
            files.push((file.clone(), picture.clone()));
            photos.push((file, picture, caption));
        }
    }
    if !photos.is_empty() {
        section.push(Block::Photos {
            rows: rows(&photos, text_width(paper)),
        });
    }
    if !missing.is_empty() {
        section.note(format!(
            "Not in the photo folder, or not readable: {}.",
            missing.join(", ")
        ));
    }
    (section, files)
}

/// Photos in rows of equal height. A full row is as wide as the text.
fn rows(photos: &[(String, &Picture, String)], width: f64) -> Vec<Vec<Photo>> {
    let mut rows = Vec::new();
    let mut rest = photos;
    while !rest.is_empty() {
        let count = in_a_row(rest, width);
        let (row, later) = rest.split_at(count);
        let shapes: f64 = row.iter().map(|(_, picture, _)| shape(picture)).sum();
        let room = width - BETWEEN * gaps_between(count);
        let height = (room / shapes).min(ROW);
        rows.push(
            row.iter()
                .map(|(file, picture, caption)| Photo {
                    file: file.clone(),
                    width_mm: format!("{:.1}", height * shape(picture)),
                    height_mm: format!("{height:.1}"),
                    caption: caption.clone(),
                })
                .collect(),
        );
        rest = later;
    }
    rows
}

/// How many photos go into the next row: as many as make it full.
fn in_a_row(photos: &[(String, &Picture, String)], width: f64) -> usize {
    let mut used = 0.0;
    for (at, (_, picture, _)) in photos.iter().enumerate() {
        used += ROW * shape(picture);
        if used >= width - BETWEEN * gaps_between(at + 1) {
            return at + 1;
        }
    }
    photos.len()
}

#[expect(clippy::cast_precision_loss, reason = "a handful of photos")]
fn gaps_between(count: usize) -> f64 {
    count.saturating_sub(1) as f64
}

/// Width over height, within what can be looked at in a row.
fn shape(picture: &Picture) -> f64 {
    let height = f64::from(picture.height.max(1));
    (f64::from(picture.width) / height).clamp(0.4, 3.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(width: u32, height: u32) -> Picture {
        Picture {
            bytes: Arc::default(),
            width,
            height,
        }
    }

    #[test]
    fn photos_of_a_row_are_equally_high_and_fit_the_width() {
        let (wide, tall) = (picture(4000, 3000), picture(3000, 4000));
        let photos: Vec<(String, &Picture, String)> = [&wide, &tall, &wide, &wide, &tall]
            .into_iter()
            .map(|picture| (String::new(), picture, String::new()))
            .collect();
        let rows = rows(&photos, 176.0);
        assert_eq!(rows.iter().map(Vec::len).sum::<usize>(), 5);
        for row in &rows {
            let number = |text: &str| text.parse::<f64>().expect("a number");
            let width: f64 = row.iter().map(|photo| number(&photo.width_mm)).sum();
            assert!(
                width + BETWEEN * gaps_between(row.len()) <= 176.3,
                "{width}"
            );
            for photo in row {
                assert_eq!(photo.height_mm, row[0].height_mm);
                assert!(number(&photo.height_mm) <= ROW);
            }
        }
        let first: f64 = rows[0]
            .iter()
            .map(|photo| photo.width_mm.parse::<f64>().expect("a number"))
            .sum();
        assert!(
            first + BETWEEN * gaps_between(rows[0].len()) > 175.0,
            "a full row fills the width"
        );
    }
}
