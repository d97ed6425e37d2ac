//! What `assess` works out beyond the assessment: uncertainty, sealing, spaces, parking.

use crate::assess::sealing::{
    Aim, Figures, LeftOpen, Order, Plan, Prospect, Ranked, StaysOpen, Work, plan, ticked,
};
use crate::assess::spaces::{ClosingEffect, closing_effects};
use crate::assess::uncertainty::Uncertainty;
use crate::assess::{
    Answer, Assessment, Parking, SetSensitivity, TemperatureCurve, ach_against_temperature,
    parking, pressure_set_sensitivity,
};
use crate::sheet::uncertainty::{processors, uncertainty_watched};
use crate::survey::{GapId, Survey};
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
    /// The planned work, or a proposal.
    pub(super) work: Answer<Work>,
    /// The planned gaps as a plan, where there are any.
    pub(super) ticked: Option<Answer<Plan>>,
    /// Gaps marked as planned that must stay open.
    pub(super) refused: Vec<(GapId, StaysOpen)>,
    pub(super) closing: Vec<ClosingEffect>,
    pub(super) against_temperature: Answer<Vec<TemperatureCurve>>,
    pub(super) pressure_sets: [SetSensitivity; 2],
    pub(super) parking: Answer<Parking>,
}

/// Ranking and order.
pub(super) struct Sealing {
    pub(super) before: Figures,
    pub(super) ranked: Vec<Ranked>,
    pub(super) left_open: Vec<LeftOpen>,
    pub(super) order: Order,
}

pub(super) fn decide(survey: &Survey, assessment: &Assessment, asked: Asked) -> Decisions {
    let prospect = Prospect::new(survey);
    let sealing = prospect
        .as_ref()
        .map_err(Clone::clone)
        .and_then(|prospect| sealing(prospect, asked.aim));
    let best = asked.budget.map(|budget| {
        let prospect = prospect.as_ref().map_err(Clone::clone)?;
        plan(survey, &prospect.best_within(asked.aim, budget)?)
    });
    let (planned, refused) = ticked(survey);
    let work = Work::of(survey);
    let plan_of_work = || work.as_ref().map(|work| work.plan.clone());
    Decisions {
        asked,
        uncertainty: uncertainty_watched(survey, asked.draws, processors(), &|_| {
            ControlFlow::Continue(())
        }),
        sealing,
        best,
        ticked: (!planned.is_empty()).then(|| plan_of_work().map_err(Clone::clone)),
        work,
        refused,
        closing: closing_effects(survey),
        against_temperature: ach_against_temperature(survey),
        pressure_sets: pressure_set_sensitivity(survey),
        parking: parking(survey, assessment),
    }
}

fn sealing(prospect: &Prospect, aim: Aim) -> Answer<Sealing> {
    Ok(Sealing {
        before: prospect.before().clone(),
        ranked: prospect.rank(aim)?,
        left_open: prospect.left_open().to_vec(),
        order: prospect.order(aim)?,
    })
}
