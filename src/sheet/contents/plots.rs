//! The plots of fan tests.

use super::drawings::{drawing, text_width};
use crate::assess::shown;
use crate::figure;
use crate::report::{self, Block, measured};
use crate::sheet::blocks::Picture;
use crate::sheet::choices::Choices;

/// The plot of each fan test that has a result.
pub(super) fn fan_tests(
    told: &report::Material<'_>,
    choices: &Choices,
) -> Vec<(Block, (String, Picture))> {
    let measured = told.study.measured();
    let shown = shown::Shown::of(choices.units, choices.dates);
    let tests = told.survey.fan_tests.iter().filter_map(|test| {
        let outcome = measured.fan_test(test.id).ok()?;
        let scene = figure::fan_test(outcome, 0.7 * text_width(choices.paper));
        let scene = scene.shown(&shown).into_owned();
        let name = format!("fan-{}", test.id);
        let block = Block::Figure {
            file: name.clone(),
            width_mm: format!("{:.1}", scene.width),
            alt: scene.description.clone(),
            caption: measured::plot_caption(test),
        };
        Some((block, (name, drawing(&scene))))
    });
    tests.collect()
}
