//! What `assess` was asked for besides the survey: how many draws, and what the plan is for.

use crate::assess::sealing::{Aim, Watch, Wish};
use crate::assess::{Best, Study};
use crate::survey::{Edit, EditRefused, SetUp, Survey};
use clap::{Args, ValueEnum};
use std::ops::ControlFlow;
use std::sync::Arc;

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

/// A sum of money as typed: finite and not below zero.
pub(super) fn sum_of_money(text: &str) -> Result<f64, String> {
    match text.replace(',', ".").parse::<f64>() {
        Ok(sum) if sum.is_finite() && sum >= 0.0 => Ok(sum),
        _ => Err("a sum of money is a number from 0 up, such as 150".to_owned()),
    }
}

/// Most draws: a hundred times as many as usual, so that nobody waits for hours.
const MOST_DRAWS: u32 = 1_000_000;

/// A number of draws as typed.
pub(super) fn draws(text: &str) -> Result<u32, String> {
    whole_number(text, (0, MOST_DRAWS))
}

/// A whole number as typed, both ends in.
pub(super) fn whole_number(text: &str, (least, most): (u32, u32)) -> Result<u32, String> {
    let number = text.trim().parse::<u32>().ok();
    number
        .filter(|number| (least..=most).contains(number))
        .ok_or_else(|| format!("write a whole number from {least} to {most}"))
}

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

/// What a plan or a sheet is to go by instead of what the file says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Args)]
pub struct WishArguments {
    /// Work it out for this set-up instead of the one the file shows
    #[arg(long, value_name = "SET-UP")]
    pub set_up: Option<SetUpWord>,
    /// Take the best set of gaps for at most this sum of the survey's currency, whatever is marked
    #[arg(long, value_name = "SUM", value_parser = sum_of_money)]
    pub budget: Option<f64>,
    /// What sealing is to save most of
    #[arg(long, value_name = "AIM")]
    pub aim: Option<AimWord>,
}

impl WishArguments {
    /// A study of a survey that goes by it.
    ///
    /// # Errors
    /// [`EditRefused`] where the set-up cannot be changed.
    pub(super) fn study(self, mut survey: Survey) -> Result<Study, EditRefused> {
        if let Some(word) = self.set_up {
            survey.apply(Edit::SetUp(word.into()))?;
        }
        let wish = Wish {
            aim: self.aim.map(Into::into),
            budget: self.budget,
        };
        Ok(Study::wishing(Arc::new(survey), wish))
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
    pub(super) fn best(self, study: &Study, watch: Watch<'_>) -> Option<Arc<Best>> {
        study.best(self.aim, self.budget?, watch)
    }

    /// The same to the end, whoever waits.
    pub(super) fn found_best(self, study: &Study) -> Option<Arc<Best>> {
        self.best(study, &mut |_| ControlFlow::Continue(()))
    }
}
