//! Pictures of a winter hour by hour.

use super::drawings::{drawing, text_width};
use crate::assess::Study;
use crate::assess::winter::Throughout;
use crate::figure;
use crate::report::Block;
use crate::sheet::blocks::Picture;
use crate::sheet::choices::Choices;

/// The options through a winter, doing nothing and the driest before and after the plan, and the days of
/// the winter with nothing done.
pub(super) fn pictures(
    run: &Throughout,
    study: &Study,
    choices: &Choices,
) -> Vec<(Block, (String, Picture))> {
    let width = text_width(choices.paper);
    let currency = study.survey().tariffs.currency.trim();
    let doubted = study.winter_bands().and_then(|made| made.as_ref().ok());
    let bands = figure::winter::bands(run, doubted, currency, width);
    let mut drawn = vec![(
        "winter-options",
        bands,
        "Every option through the winter: share of the hours by relative humidity inside, from empty, up to 60 %, \
         to full, above 80 %.",
    )];
    let idle = run.idle();
    if let Some(Ok(planned)) = study.winter_after_plan() {
        let options: Vec<usize> = idle.into_iter().chain(run.driest()).collect();
        let both = (run, planned);
        drawn.push((
            "winter-plan",
            figure::winter::before_and_after(both, &options, currency, width),
            "The winter as the vehicle stands, and once the planned gaps are sealed.",
        ));
    }
    if let Some(at) = idle.filter(|at| run.option(*at).is_some_and(|(_, season)| season.is_ok())) {
        let calendar = figure::winter::calendar(run, at, width);
        drawn.push((
            "winter-days",
            calendar,
            "The days of the winter with nothing done.",
        ));
    }
    let shown = choices.shown(study.survey());
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
