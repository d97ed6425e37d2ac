//! What `assess` was asked for besides the survey: how many draws, and what the plan is for.

use crate::assess::sealing::Aim;
use crate::assess::{Best, Study};
use crate::survey::SetUp;
use clap::ValueEnum;
use std::ops::ControlFlow;
use std::sync::Arc;

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

/// A set-up as written on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SetUpWord {
    /// Standing unused through winter
    LaidUp,
    /// People live in it
    InUse,
}

impl From<SetUpWord> for SetUp {
    fn from(word: SetUpWord) -> Self {
        match word {
            SetUpWord::LaidUp => Self::LaidUp,
            SetUpWord::InUse => Self::InUse,
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

impl Asked {
    /// The best set within the budget, where one was named.
    pub(super) fn best(self, study: &Study) -> Option<Arc<Best>> {
        let mut go_on = |_| ControlFlow::Continue(());
        study.best(self.aim, self.budget?, &mut go_on)
    }
}
