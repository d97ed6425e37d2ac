//! Photos in rows, and those of before and after the work in pairs.

use super::Material;
use super::drawings::{Files, picture_of, text_width};
use crate::figure::{Point, Role, Scene, Shape, Stroke};
use crate::physics::counts::count;
use crate::report::words::name;
use crate::report::{Block, Photo, Section};
use crate::sheet::blocks::Picture;
use crate::sheet::choices::{Kind, Paper};
use crate::sheet::svg::svg_exactly;
use crate::survey::{GapId, PhotoMark};

/// Height of a row of photos, mm.
const ROW: f64 = 48.0;
/// Height of a pair of photos, mm: what changed must be seen.
const PAIR: f64 = 62.0;
/// Height below which a row is not made fuller, mm.
const LEAST_ROW: f64 = 34.0;
/// Room that the words under a narrow photo have, mm; the template has the same.
const LEAST_CELL: f64 = 30.0;
/// Space between photos, mm.
const BETWEEN: f64 = 4.0;

/// Photos of some gaps in rows; those that are not there are named. Before the work only photos of
/// gaps as they were found are shown; after it, each of them stands beside one of the same gap now.
pub(super) fn photos(
    material: &Material<'_>,
    (kind, paper): (Kind, Paper),
    of: impl Fn(GapId) -> bool,
) -> (Section, Files) {
    let mut section = Section::new(match kind {
        Kind::Completion => "Before and after in photos",
        _ => "Photos",
    });
    let (mut files, mut pairs) = (Files::new(), Vec::new());
    let (mut single, mut missing) = (Vec::new(), Vec::new());
    for gap in material.told.survey.gaps.iter().filter(|gap| of(gap.id)) {
        let (mut found, mut after) = (Vec::new(), Vec::new());
        for photo in &gap.photos {
            if photo.after_work && matches!(kind, Kind::Quotation | Kind::WorkOrder) {
                continue;
            }
            let Some(picture) = material.photos.get(&photo.name) else {
                missing.push(format!("{} (gap {})", photo.name, gap.id));
                continue;
            };
            let mut caption = format!("{} · {}", gap.id, name(gap));
            match (photo.after_work, kind) {
                (true, _) => caption.push_str(" · after the work"),
                (false, Kind::Completion) => caption.push_str(" · as found"),
                (false, _) => {}
            }
            if !photo.caption.trim().is_empty() {
                caption = format!("{caption}: {}", photo.caption.trim());
            }
            let shown = Shown {
                photo,
                picture,
                caption,
            };
            if photo.after_work {
                after.push(shown);
            } else {
                found.push(shown);
            }
        }
        if kind == Kind::Completion {
            let both = found.len().min(after.len());
            pairs.extend(
                found
                    .drain(..both)
                    .zip(after.drain(..both))
                    .map(<[_; 2]>::from),
            );
        }
        single.extend(found.into_iter().chain(after));
    }
    let width = text_width(paper);
    let mut all: Vec<Vec<Photo>> = pairs
        .iter()
        .map(|pair| row(pair, width, PAIR, &mut files))
        .collect();
    all.extend(rows(&single, width, &mut files));
    if !all.is_empty() {
        section.push(Block::Photos { rows: all });
    }
    if !missing.is_empty() {
        section.note(format!(
            "Not in the photo folder, or not readable: {}.",
            missing.join(", ")
        ));
    }
    (section, files)
}

/// A row of photos, at most so high, mm.
fn row(photos: &[Shown<'_>], width: f64, most: f64, files: &mut Files) -> Vec<Photo> {
    let height = row_height(photos, width, most);
    let row = photos.iter().map(|shown| printed(shown, height, files));
    row.collect()
}

/// A photo to print.
struct Shown<'a> {
    photo: &'a crate::survey::Photo,
    picture: &'a Picture,
    caption: String,
}

/// Photos in rows of equal height. A full row is as wide as the text.
fn rows(photos: &[Shown<'_>], width: f64, files: &mut Files) -> Vec<Vec<Photo>> {
    let mut rows = Vec::new();
    let mut rest = photos;
    while !rest.is_empty() {
        let (next, later) = rest.split_at(in_a_row(rest, width));
        rows.push(row(next, width, ROW, files));
        rest = later;
    }
    rows
}

/// A photo so high, with its marks over it.
fn printed(shown: &Shown<'_>, height: f64, files: &mut Files) -> Photo {
    let file = format!("photo-{}", files.len());
    files.push((file.clone(), shown.picture.clone()));
    let width = height * shape(shown.picture);
    let marks = (!shown.photo.marks.is_empty()).then(|| {
        let name = format!("{file}-marks");
        let scene = marks(&shown.photo.marks, width, height);
        files.push((name.clone(), picture_of(&scene, svg_exactly(&scene))));
        name
    });
    Photo {
        file,
        width_mm: format!("{width:.2}"),
        height_mm: format!("{height:.2}"),
        caption: shown.caption.clone(),
        marks,
    }
}

/// Marks on a photo of this size, mm: in colour on white, so that they show on any ground.
fn marks(marks: &[PhotoMark], width: f64, height: f64) -> Scene {
    let mut scene = Scene::new(width, height);
    for (role, line) in [(Role::Ground, 1.5), (Role::Leak, 0.7)] {
        for mark in marks {
            scene.add(match *mark {
                PhotoMark::Circle {
                    across,
                    down,
                    radius,
                } => Shape::circle(
                    Point::new(across * width, down * height),
                    radius * width,
                    None,
                    Stroke::solid(role, line),
                ),
                PhotoMark::Arrow {
                    from_across,
                    from_down,
                    across,
                    down,
                } => Shape::arrow(
                    Point::new(from_across * width, from_down * height),
                    Point::new(across * width, down * height),
                    role,
                    line,
                ),
            });
        }
    }
    scene
}

/// How many photos go into the next row: as many as make it full, unless the last would make all
/// of them small. A panorama so has a row of its own.
fn in_a_row(photos: &[Shown<'_>], width: f64) -> usize {
    for count in 1..=photos.len() {
        let height = row_height(photos.get(..count).unwrap_or_default(), width, ROW);
        if height < LEAST_ROW && count > 1 {
            return count - 1;
        }
        if height < ROW {
            return count;
        }
    }
    photos.len()
}

/// The height at which a row just fits the width, or the most. A narrow photo takes the room of its
/// words.
fn row_height(row: &[Shown<'_>], width: f64, most: f64) -> f64 {
    let room = width - BETWEEN * gaps_between(row.len());
    let taken = |height: f64| -> f64 {
        let widths = row.iter().map(|shown| height * shape(shown.picture));
        widths.map(|width| width.max(LEAST_CELL)).sum()
    };
    if taken(most) <= room {
        return most;
    }
    let (mut fits, mut too_high) = (0.0, most);
    for _ in 0..40 {
        let middle = f64::midpoint(fits, too_high);
        if taken(middle) <= room {
            fits = middle;
        } else {
            too_high = middle;
        }
    }
    fits
}

fn gaps_between(photos: usize) -> f64 {
    count(photos.saturating_sub(1))
}

/// Width over height.
fn shape(picture: &Picture) -> f64 {
    f64::from(picture.width.max(1)) / f64::from(picture.height.max(1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Arc;

    fn picture(width: u32, height: u32) -> Picture {
        Picture {
            bytes: Arc::default(),
            width,
            height,
        }
    }

    fn number(text: &str) -> f64 {
        text.parse().expect("a number")
    }

    #[test]
    fn no_row_is_wider_than_the_text_whatever_its_photos_are() {
        let shapes = [
            picture(6000, 500),
            picture(200, 4000),
            picture(4000, 1500),
            picture(1500, 4000),
            picture(40, 30),
        ];
        let photo = crate::survey::Photo::new("one.jpg");
        for start in 0..shapes.len() {
            let pictures = shapes.iter().cycle().skip(start).step_by(3).take(12);
            let photos: Vec<Shown<'_>> = pictures
                .map(|picture| Shown {
                    photo: &photo,
                    picture,
                    caption: String::new(),
                })
                .collect();
            for row in rows(&photos, 176.0, &mut Files::new()) {
                let cells = row
                    .iter()
                    .map(|photo| number(&photo.width_mm).max(LEAST_CELL));
                let wide: f64 = cells.sum::<f64>() + BETWEEN * gaps_between(row.len());
                assert!(wide <= 176.1, "{wide} {row:?}");
                // Nobody sees a gap on a stamp: only what is alone is lower.
                assert!(row.len() == 1 || number(&row[0].height_mm) >= LEAST_ROW - 0.01);
            }
        }
    }

    #[test]
    fn photos_of_a_row_are_equally_high_and_fit_the_width() {
        let (wide, tall) = (picture(4000, 3000), picture(3000, 4000));
        let mut photo = crate::survey::Photo::new("one.jpg");
        photo.marks.push(PhotoMark::Circle {
            across: 0.5,
            down: 0.25,
            radius: 0.1,
        });
        let photos: Vec<Shown<'_>> = [&wide, &tall, &wide, &wide, &tall]
            .into_iter()
            .map(|picture| Shown {
                photo: &photo,
                picture,
                caption: String::new(),
            })
            .collect();
        let mut files = Files::new();
        let rows = rows(&photos, 176.0, &mut files);
        assert_eq!(files.len(), 10, "each photo and its marks");
        let drawn = String::from_utf8_lossy(&files[1].1.bytes).into_owned();
        let centre = drawn
            .split("cx=\"")
            .nth(1)
            .and_then(|rest| rest.split('"').next());
        let middle = number(&rows[0][0].width_mm) / 2.0;
        assert!(
            (number(centre.expect("a circle")) - middle).abs() < 0.01,
            "{drawn}"
        );
        assert_eq!(rows.iter().map(Vec::len).sum::<usize>(), 5);
        for row in &rows {
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
            first + BETWEEN * gaps_between(rows[0].len()) > 165.0,
            "the row is as good as full"
        );
    }
}
