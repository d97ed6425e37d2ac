//! The work itself, on the worker's side.

use super::{Asked, Dated, Effort, SealingPart, Understood};
use crate::assess::sealing::Aim;
use crate::assess::uncertainty::Uncertainty;
use crate::assess::{Answer, Best, Study};
use crate::survey::Survey;
use crate::tasks;
use crate::window::errand::Line;
use std::ops::ControlFlow;
use std::sync::Arc;

/// The draws; `None` where nobody wants them any more.
pub(super) fn draw<O: Send>(
    survey: &Survey,
    effort: Effort,
    line: &Line<'_, O>,
) -> Option<Answer<Uncertainty>> {
    let study = Study::of(survey);
    tasks::uncertainty(&study, effort.draws, effort.threads, &watch(line)).cloned()
}

/// The ranking and the plan as ticked first, the order after them.
pub(super) fn seal((revision, survey, aim): &Asked<Aim>, line: &Line<'_, Dated<SealingPart>>) {
    let send = |answer| {
        line.send(Dated {
            revision: *revision,
            answer,
        });
    };
    let study = Study::new(Arc::clone(survey));
    send(SealingPart::Ranking(study.ranking(*aim).clone()));
    if line.stopped() {
        return;
    }
    send(SealingPart::Ticked(Box::new(study.ticked().clone())));
    let mut watch = watch(line);
    if let Some(order) = study.order_watched(*aim, &mut watch) {
        send(SealingPart::Order(order.clone()));
    }
}

pub(super) fn understand((revision, survey, ()): &Asked<()>, line: &Line<'_, Dated<Understood>>) {
    let study = Study::new(Arc::clone(survey));
    let answer = Understood {
        against_temperature: study.temperature_curves().clone(),
        parking: study.parking().clone(),
        pressure_sets: study.pressure_sets().clone(),
        closing: study.closing_effects().to_vec(),
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
    let study = Study::new(Arc::clone(survey));
    if let Some(best) = study.best(*aim, *budget, &mut watch) {
        line.send(Dated {
            revision: *revision,
            answer: Best::clone(&best),
        });
    }
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
