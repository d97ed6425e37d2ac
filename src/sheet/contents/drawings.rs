//! Drawings and photos.

use super::Material;
use crate::assess::shown;
use crate::assess::{Comparison, NotKnown};
use crate::figure;
use crate::figure::body::body;
use crate::figure::outline::{Sizes, small_of};
use crate::figure::rose::drawn;
use crate::figure::{Arrangement, Point, Role, RoseFrame, Scene, Shape, Show, Stroke, rose};
use crate::physics::counts::count;
use crate::report::words::name;
use crate::report::{self, Block, Photo, Section, in_short};
use crate::sheet::blocks::Picture;
use crate::sheet::choices::{Choices, Kind, Paper};
use crate::sheet::svg::{svg, svg_exactly};
use crate::survey::{GapId, PhotoMark, Survey};
use std::sync::Arc;

/// Margin left and right of the text, mm; the template has the same.
const MARGIN: f64 = 17.0;
/// Height of a row of photos, mm.
const ROW: f64 = 48.0;
/// Height below which a row is not made fuller, mm.
const LEAST_ROW: f64 = 34.0;
/// Room that the words under a narrow photo have, mm; the template has the same.
const LEAST_CELL: f64 = 30.0;
/// Space between photos, mm.
const BETWEEN: f64 = 4.0;

type Files = Vec<(String, Picture)>;

/// Width of the text, mm.
pub(super) fn text_width(paper: Paper) -> f64 {
    paper.size_mm().0 - 2.0 * MARGIN
}

/// The unfolded body, and on the report the rose.
pub(super) fn section(material: &Material<'_>, choices: &Choices) -> (Section, Files) {
    let mut section = Section::new("Where the gaps are");
    let show = Show {
        numbers: true,
        ..Show::default()
    };
    let width = text_width(choices.paper);
    let figure = body(
        material.told.survey,
        material.told.assessment,
        Arrangement::Square,
        width,
        &show,
    );
    let mut files = Vec::new();
    let shown = shown::Shown::written(choices.units, choices.dates, material.told.survey);
    let mut add = |section: &mut Section, name: &str, scene: &Scene, caption: &str| {
        let scene = &*scene.shown(&shown);
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
        "The body unfolded, its sides as one standing there sees them; roof and underfloor seen from above, \
         the underfloor through the floor. A line is a long gap along its seal, to scale. The area of a mark, \
         and of a line, grows with the leakage area. Circle or plain line: unintended. \
         Square: safety ventilation. Triangle pointing down: gas drop-out. Hexagon: appliance air. \
         Diamond: drain. Triangle pointing up: user ventilation. Outline or line unbroken: measured; dashed: \
         estimated; dotted: guessed. Hollow or thin, and struck through: sealed. Hollow with a question mark: its \
         place is not fully known.",
    );
    if choices.kind != Kind::Report {
        return (section, files);
    }
    section.heading("Air change by wind direction");
    if let Some(unknown) = nothing_known(material) {
        section.paragraph(format!("Not known: {}.", unknown.reason));
        return (section, files);
    }
    let rose = rose(
        material.told.assessment,
        material.told.survey.site.heading_deg,
        RoseFrame::Vehicle,
        90.0,
    );
    add(&mut section, "rose", &rose, &rose_caption(material));
    (section, files)
}

/// Width and height of the vehicle at the head, mm; the template has the same.
const COVER: (f64, f64) = (58.0, 26.0);

/// The vehicle from its side, with what it shows.
pub(super) fn cover(survey: &Survey) -> ((String, Picture), String) {
    let scene = small_of(&Sizes::of(&survey.vehicle), COVER);
    let alt = scene.description.clone();
    (("cover".to_owned(), drawing(&scene)), alt)
}

/// The steps of a work order on the unfolded body, by their numbers, and nothing else: with few marks
/// they are drawn large.
pub(super) fn steps(material: &Material<'_>, paper: Paper, steps: &[GapId]) -> (Section, Files) {
    let mut section = Section::new("Where the steps are");
    let step = |id: GapId| {
        (1..)
            .zip(steps)
            .find(|(_, gap)| **gap == id)
            .map(|(at, _)| GapId(at))
    };
    let mut survey = material.told.survey.clone();
    survey
        .gaps
        .retain_mut(|gap| step(gap.id).map(|number| gap.id = number).is_some());
    let mut assessment = material.told.assessment.clone();
    let answers = &mut assessment.gaps;
    answers.retain_mut(|gap| step(gap.id).map(|number| gap.id = number).is_some());
    if survey.gaps.is_empty() {
        return (section, Files::new());
    }
    let show = Show {
        numbers: true,
        ..Show::default()
    };
    let width = text_width(paper);
    let scene = body(&survey, &assessment, Arrangement::Tall, width, &show).scene;
    section.push(Block::Figure {
        file: "body".to_owned(),
        width_mm: format!("{:.1}", scene.width.min(width)),
        alt: scene.description.clone(),
        caption: "The numbers are those of the steps. The body unfolded, seen from above with the front to \
                  the left; the underfloor as seen from above through the floor. Hollow with a question \
                  mark: its place is not fully known."
            .to_owned(),
    });
    (section, vec![("body".to_owned(), drawing(&scene))])
}

/// The options of drying and heating beside each other.
pub(super) fn options(comparison: &Comparison, choices: &Choices) -> (Block, (String, Picture)) {
    let name = "options".to_owned();
    let scene = figure::options(comparison, text_width(choices.paper));
    let scene = scene
        .shown(&shown::Shown::of(choices.units, choices.dates))
        .into_owned();
    let block = Block::Figure {
        file: name.clone(),
        width_mm: format!("{:.1}", scene.width),
        alt: scene.description.clone(),
        caption: "Relative humidity that each option brings in each weather case; dashed: the target. The bar \
                  is the season, each case as wide as its share of it: filled where the target is held."
            .to_owned(),
    };
    (block, (name, drawing(&scene)))
}

/// A picture of the page in short; nothing where what it shows is not known.
pub(super) fn in_short(
    told: &report::Material<'_>,
    choices: &Choices,
    picture: in_short::Picture,
) -> Option<(Block, (String, Picture))> {
    let (name, part, caption) = match picture {
        in_short::Picture::Hole => ("hole", 0.75, "Vehicle and hole to one scale."),
        in_short::Picture::Options => (
            "what-to-buy",
            1.0,
            "The bar is the season: filled for as much of it as the target is held.",
        ),
        in_short::Picture::StayOpen => ("stay-open", 0.6, "What must stay open, by number."),
    };
    let scene = in_short::scene(told, picture, part * text_width(choices.paper))?;
    let shown = shown::Shown::of(choices.units, choices.dates);
    let scene = scene.shown(&shown).into_owned();
    let block = Block::Figure {
        file: name.to_owned(),
        width_mm: format!("{:.1}", scene.width),
        alt: scene.description.clone(),
        caption: caption.to_owned(),
    };
    Some((block, (name.to_owned(), drawing(&scene))))
}

/// Why there is no rose, where no weather case has an air change.
fn nothing_known(material: &Material<'_>) -> Option<NotKnown> {
    let mut why = NotKnown::because("there is no weather case");
    for case in &material.told.assessment.cases {
        match crate::report::results::ach(case) {
            Ok(_) => return None,
            Err(unknown) => why = unknown,
        }
    }
    Some(why)
}

/// What the rose shows, with the full names of its cases.
fn rose_caption(material: &Material<'_>) -> String {
    let cases = &material.told.assessment.cases;
    let shown = drawn(material.told.assessment);
    let named = shown.iter().filter_map(|place| cases.get(*place));
    let lines: Vec<String> = named
        .zip(["unbroken", "dashed", "dotted", "thick"])
        .map(|(case, line)| format!("{line} line: {}", case.name.trim()))
        .collect();
    let mut caption = format!(
        "Air changes per hour with the wind from each side; the vehicle's front is up. {}.",
        crate::assess::words::capital(&lines.join("; "))
    );
    match cases.len().saturating_sub(shown.len()) {
        0 => {}
        1 => caption.push_str(" One more weather case is not drawn."),
        more => caption.push_str(&format!(" {more} more weather cases are not drawn.")),
    }
    caption
}

pub(super) fn drawing(scene: &Scene) -> Picture {
    picture_of(scene, svg(scene))
}

fn picture_of(scene: &Scene, text: String) -> Picture {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "tenths of millimetres on paper"
    )]
    let size = |mm: f64| (mm * 10.0) as u32;
    Picture {
        bytes: Arc::new(text.into_bytes()),
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
    let (mut files, mut photos, mut missing) = (Files::new(), Vec::new(), Vec::new());
    for gap in material.told.survey.gaps.iter().filter(|gap| of(gap.id)) {
        for photo in &gap.photos {
            let Some(picture) = material.photos.get(&photo.name) else {
                missing.push(format!("{} (gap {})", photo.name, gap.id));
                continue;
            };
            let mut caption = format!("{} · {}", gap.id, name(gap));
            if !photo.caption.trim().is_empty() {
                caption = format!("{caption}: {}", photo.caption.trim());
            }
            photos.push(Shown {
                photo,
                picture,
                caption,
            });
        }
    }
    if !photos.is_empty() {
        let rows = rows(&photos, text_width(paper), &mut files);
        section.push(Block::Photos { rows });
    }
    if !missing.is_empty() {
        section.note(format!(
            "Not in the photo folder, or not readable: {}.",
            missing.join(", ")
        ));
    }
    (section, files)
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
        let (row, later) = rest.split_at(in_a_row(rest, width));
        let height = row_height(row, width);
        let row = row.iter().map(|shown| printed(shown, height, files));
        rows.push(row.collect());
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
        let height = row_height(photos.get(..count).unwrap_or_default(), width);
        if height < LEAST_ROW && count > 1 {
            return count - 1;
        }
        if height < ROW {
            return count;
        }
    }
    photos.len()
}

/// The height at which a row just fits the width, or the usual one. A narrow photo takes the room
/// of its words.
fn row_height(row: &[Shown<'_>], width: f64) -> f64 {
    let room = width - BETWEEN * gaps_between(row.len());
    let taken = |height: f64| -> f64 {
        let widths = row.iter().map(|shown| height * shape(shown.picture));
        widths.map(|width| width.max(LEAST_CELL)).sum()
    };
    if taken(ROW) <= room {
        return ROW;
    }
    let (mut fits, mut too_high) = (0.0, ROW);
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
