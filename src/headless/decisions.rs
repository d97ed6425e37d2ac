//! What `assess` works out on request: uncertainty, sealing.

use crate::assess::sealing::{Aim, Figures, LeftOpen, Order, Plan, Ranked, StaysOpen};
use crate::assess::uncertainty::Uncertainty;
use crate::assess::{Answer, NotKnown, Study};
use crate::survey::GapId;
use crate::tasks::{self, processors, to_the_end};
use clap::ValueEnum;
use std::ops::ControlFlow;

/// What a sealing plan is for, as written on the command line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum AimWord {
    /// Air change in the windiest weather case
    #[default]
    AchWindy,
    /// Water to remove
    Water,
    /// Heat that the air takes along
    Heat,
    /// What that heat costs in a winter
    WinterCost,
}

impl From<AimWord> for Aim {
    fn from(word: AimWord) -> Self {
        match word {
            AimWord::AchWindy => Self::AchWindy,
            AimWord::Water => Self::Water,
            AimWord::Heat => Self::Heat,
            AimWord::WinterCost => Self::WinterCost,
        }
    }
}

/// What was asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Asked {
    pub(super) draws: u32,
    pub(super) aim: Aim,
    pub(super) budget: Option<f64>,
}

/// All of it.
pub(super) struct Decisions {
    pub(super) asked: Asked,
    pub(super) uncertainty: Answer<Uncertainty>,
    pub(super) sealing: Answer<Sealing>,
    /// The best set within the budget, where one was named.
    pub(super) best: Option<Answer<Plan>>,
    /// The planned gaps as a plan, where there are any.
    pub(super) ticked: Option<Answer<Plan>>,
    /// Gaps marked as planned that must stay open.
    pub(super) refused: Vec<(GapId, StaysOpen)>,
}

/// Ranking and order.
pub(super) struct Sealing {
    pub(super) before: Figures,
    pub(super) ranked: Vec<Ranked>,
    pub(super) left_open: Vec<LeftOpen>,
    pub(super) order: Order,
}

pub(super) fn decide(study: &Study, asked: Asked) -> Decisions {
    let ticked = study.ticked();
    let uncertainty = tasks::uncertainty(study, asked.draws, processors(), &to_the_end);
    let go_on = |_| ControlFlow::Continue(());
    Decisions {
        asked,
        uncertainty: uncertainty.map_or_else(|| Err(not_made()), Clone::clone),
        sealing: sealing(study, asked.aim),
        best: asked.budget.map(|budget| {
            let best = study.best(asked.aim, budget, &mut { go_on });
            best.map_or_else(|| Err(not_made()), |best| best.plan.clone())
        }),
        ticked: ticked.plan.clone(),
        refused: ticked.refused.clone(),
    }
}

/// Nobody gives anything up here.
fn not_made() -> NotKnown {
    NotKnown::because("it was given up")
}

fn sealing(study: &Study, aim: Aim) -> Answer<Sealing> {
    let ranking = study.ranking(aim).clone()?;
    Ok(Sealing {
        before: ranking.before,
        ranked: ranking.ranked,
        left_open: ranking.left_open,
        order: study.order(aim).clone()?,
    })
}
