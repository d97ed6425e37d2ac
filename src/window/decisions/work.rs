//! The work itself, on the worker's side.

use super::{Asked, Best, Dated, Effort, Ranking, SealingPart, Ticked, Understood};
use crate::assess::sealing::{Aim, Prospect, plan, ticked};
use crate::assess::spaces::closing_effects;
use crate::assess::uncertainty::Uncertainty;
use crate::assess::{Answer, ach_against_temperature, assess, parking, pressure_set_sensitivity};
use crate::sheet::uncertainty::uncertainty_watched;
use crate::survey::Survey;
use crate::window::errand::Line;
use std::ops::ControlFlow;

/// The draws; `None` where nobody wants them any more.
pub(super) fn draw<O: Send>(
    survey: &Survey,
    effort: Effort,
    line: &Line<'_, O>,
) -> Option<Answer<Uncertainty>> {
    let answer = uncertainty_watched(survey, effort.draws, effort.threads, &watch(line));
    (!line.stopped()).then_some(answer)
}

/// The ranking and the plan as ticked first, the order after them.
pub(super) fn seal((revision, survey, aim): &Asked<Aim>, line: &Line<'_, Dated<SealingPart>>) {
    let send = |answer| {
        line.send(Dated {
            revision: *revision,
            answer,
        });
    };
    let prospect = Prospect::new(survey);
    let ranking = prospect.as_ref().map_err(Clone::clone).and_then(|found| {
        Ok(Ranking {
            aim: *aim,
            before: found.before().clone(),
            ranked: found.rank(*aim)?,
            left_open: found.left_open().to_vec(),
        })
    });
    send(SealingPart::Ranking(ranking));
    if line.stopped() {
        return;
    }
    let (sealables, refused) = ticked(survey);
    send(SealingPart::Ticked(Box::new(Ticked {
        plan: (!sealables.is_empty()).then(|| plan(survey, &sealables)),
        refused,
    })));
    let mut watch = watch(line);
    let order = prospect.and_then(|found| found.order_watched(*aim, &mut watch));
    send(SealingPart::Order(order));
}

pub(super) fn understand((revision, survey, ()): &Asked<()>, line: &Line<'_, Dated<Understood>>) {
    let answer = Understood {
        against_temperature: ach_against_temperature(survey),
        parking: parking(survey, &assess(survey)),
        pressure_sets: pressure_set_sensitivity(survey),
        closing: closing_effects(survey),
    };
    line.send(Dated {
        revision: *revision,
        answer,
    });
}

pub(super) fn search(
    (revision, survey, (aim, budget)): &Asked<(Aim, f64)>,
    line: &Line<'_, Dated<Best>>,
) {
    let mut watch = watch(line);
    let best = Prospect::new(survey)
        .and_then(|found| found.best_within_watched(*aim, *budget, &mut watch))
        .and_then(|sealables| plan(survey, &sealables));
    line.send(Dated {
        revision: *revision,
        answer: Best {
            aim: *aim,
            budget: *budget,
            plan: best,
        },
    });
}

fn watch<O>(line: &Line<'_, O>) -> impl Fn(f64) -> ControlFlow<()> {
    move |share| {
        line.progress(share);
        if line.stopped() {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    }
}
