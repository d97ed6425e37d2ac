//! Pictures of a winter hour by hour.

use super::drawings::{drawing, text_width};
use crate::assess::drying::OptionKind;
use crate::assess::shown;
use crate::assess::winter::Throughout;
use crate::figure;
use crate::report::Block;
use crate::sheet::blocks::Picture;
use crate::sheet::choices::Choices;
use crate::survey::Survey;

/// The options through a winter, and the days of it with nothing done.
pub(super) fn pictures(
    run: &Throughout,
    survey: &Survey,
    choices: &Choices,
) -> Vec<(Block, (String, Picture))> {
    let width = text_width(choices.paper);
    let currency = survey.tariffs.currency.trim();
    let bands = figure::winter::bands(run, currency, width);
    let mut drawn = vec![(
        "winter-options",
        bands,
        "Every option through the winter: share of the hours by relative humidity inside, from empty, up to 60 %, \
         to full, above 80 %.",
    )];
    let idle = run
        .options()
        .iter()
        .position(|option| option.kind == OptionKind::Nothing);
    if let Some(at) = idle.filter(|at| run.option(*at).is_some_and(|(_, season)| season.is_ok())) {
        let calendar = figure::winter::calendar(run, at, width);
        drawn.push((
            "winter-days",
            calendar,
            "The days of the winter with nothing done.",
        ));
    }
    let shown = shown::Shown::of(choices.units, choices.dates);
    drawn
        .into_iter()
        .map(|(name, scene, caption)| {
            let scene = scene.shown(&shown).into_owned();
            let block = Block::Figure {
                file: name.to_owned(),
                width_mm: format!("{:.1}", scene.width),
                alt: scene.description.clone(),
                caption: caption.to_owned(),
            };
            (block, (name.to_owned(), drawing(&scene)))
        })
        .collect()
}
