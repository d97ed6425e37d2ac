//! Drawings.

use super::Material;
use crate::assess::{Comparison, NotKnown};
use crate::figure;
use crate::figure::body::body;
use crate::figure::outline::{Sizes, small_of};
use crate::figure::rose::drawn;
use crate::figure::{Arrangement, RoseFrame, Scene, Show, rose};
use crate::report::{self, Block, Section, in_short};
use crate::sheet::blocks::Picture;
use crate::sheet::choices::{Choices, Kind, Paper};
use crate::sheet::svg::svg;
use crate::survey::{GapId, Survey};
use std::sync::Arc;

/// Margin left and right of the text, mm; the template has the same.
const MARGIN: f64 = 17.0;
pub(super) type Files = Vec<(String, Picture)>;

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
    let shown = choices.shown(material.told.survey);
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
        material.told.survey.site.front_points_to(),
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
        large: true,
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
pub(super) fn options(
    told: &report::Material<'_>,
    comparison: &Comparison,
    choices: &Choices,
) -> (Block, (String, Picture)) {
    let name = "options".to_owned();
    let scene = figure::options(comparison, text_width(choices.paper));
    let scene = scene.shown(&choices.shown(told.survey)).into_owned();
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
    let scene = scene.shown(&choices.shown(told.survey)).into_owned();
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

pub(super) fn picture_of(scene: &Scene, text: String) -> Picture {
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

/// Width and height of a logo, mm: as large as its corner allows.
pub(super) fn logo_size(logo: Option<&Picture>) -> (String, String) {
    const MOST: (f64, f64) = (52.0, 14.0);
    let Some(logo) = logo else {
        return (String::new(), String::new());
    };
    let (wide, high) = (f64::from(logo.width.max(1)), f64::from(logo.height.max(1)));
    let scale = (MOST.0 / wide).min(MOST.1 / high);
    (
        format!("{:.2}", wide * scale),
        format!("{:.2}", high * scale),
    )
}
