//! Plots: fan tests, and amounts that a table holds, as bars to compare.

use super::drawings::{drawing, text_width};
use crate::figure;
use crate::figure::ranked::Amount;
use crate::report::{self, Block, ledger, measured, sealing};
use crate::sheet::blocks::Picture;
use crate::sheet::choices::Choices;
use crate::survey::Survey;

/// The plot of each fan test that has a result.
pub(super) fn fan_tests(
    told: &report::Material<'_>,
    choices: &Choices,
) -> Vec<(Block, (String, Picture))> {
    let measured = told.study.measured();
    let shown = choices.shown(told.survey);
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

/// A plot that belongs to a section, where there is enough to compare.
pub(super) type Plot = fn(&report::Material<'_>, &Choices) -> Option<(Block, (String, Picture))>;

/// Amounts as bars, where there are enough of them.
fn bars(
    (survey, amounts): (&Survey, &[Amount]),
    (name, of, caption): (&str, &str, &str),
    choices: &Choices,
) -> Option<(Block, (String, Picture))> {
    if amounts.is_empty() {
        return None;
    }
    let shown = choices.shown(survey);
    let scene = figure::ranked(amounts, of, text_width(choices.paper));
    let scene = scene.shown(&shown).into_owned();
    let block = Block::Figure {
        file: name.to_owned(),
        width_mm: format!("{:.1}", scene.width),
        alt: scene.description.clone(),
        caption: caption.to_owned(),
    };
    Some((block, (name.to_owned(), drawing(&scene))))
}

/// The leakiest gaps.
pub(super) fn leakiest(
    told: &report::Material<'_>,
    choices: &Choices,
) -> Option<(Block, (String, Picture))> {
    bars(
        (told.survey, &ledger::leakiest(told)),
        (
            "leakiest",
            "The leakiest gaps",
            "The leakiest gaps with their EqLA and share of all gaps. Coloured as on the drawing: what must stay open, \
             what nobody wanted, what is the user\u{2019}s own.",
        ),
        choices,
    )
}

/// What the steps of the plan leave.
pub(super) fn step_by_step(
    told: &report::Material<'_>,
    choices: &Choices,
) -> Option<(Block, (String, Picture))> {
    let work = told.study.work();
    let aim = work.as_ref().map_or("", |work| work.aim.name());
    bars(
        (told.survey, &sealing::step_by_step(told.survey, work)),
        (
            "step-by-step",
            "What the steps of the plan leave",
            &format!("What is left of it after each step: {aim}."),
        ),
        choices,
    )
}
