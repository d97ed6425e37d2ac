//! A winter that was run, with every option in it.

use super::count::Season;
use super::options::WinterOption;
use super::run::{Weathered, Winter};
use crate::assess::answer::Answer;
use crate::assess::drying::OptionKind;
use crate::climate::Hour;
use crate::physics::MoistAir;
use crate::survey::TypicalWinter;

/// A winter and what every option comes to in it.
pub struct Throughout {
    winter: Winter,
    seasons: Vec<Answer<Season>>,
    hours: Vec<Hour>,
    air: Vec<MoistAir>,
    typical: Option<TypicalWinter>,
}

impl Throughout {
    /// A winter with its seasons, one for each option; the typical winter where the weather is
    /// invented.
    #[must_use]
    pub fn new(
        winter: Winter,
        seasons: Vec<Answer<Season>>,
        typical: Option<TypicalWinter>,
    ) -> Self {
        let (hours, air) = winter.outside().map(|(hour, air)| (*hour, *air)).unzip();
        Self {
            winter,
            seasons,
            hours,
            air,
            typical,
        }
    }

    /// The winter made ready.
    #[must_use]
    pub fn winter(&self) -> &Winter {
        &self.winter
    }

    /// The weather.
    #[must_use]
    pub fn weathered(&self) -> &Weathered {
        self.winter.weathered()
    }

    /// The options, in the order of Drying & heat.
    #[must_use]
    pub fn options(&self) -> &[WinterOption] {
        self.winter.options()
    }

    /// What each comes to.
    pub fn seasons(&self) -> &[Answer<Season>] {
        &self.seasons
    }

    /// The hours of the season.
    #[must_use]
    pub fn hours(&self) -> &[Hour] {
        &self.hours
    }

    /// The air outside in each of them.
    #[must_use]
    pub fn air(&self) -> &[MoistAir] {
        &self.air
    }

    /// The typical winter, where the weather is invented.
    #[must_use]
    pub fn typical(&self) -> Option<TypicalWinter> {
        self.typical
    }

    /// An option with its season.
    #[must_use]
    pub fn option(&self, at: usize) -> Option<(&WinterOption, &Answer<Season>)> {
        Some((self.options().get(at)?, self.seasons.get(at)?))
    }

    /// Doing nothing, where it is known.
    #[must_use]
    pub fn nothing(&self) -> Option<&Season> {
        let mut all = self.options().iter().zip(&self.seasons);
        let (_, season) = all.find(|(option, _)| option.kind == OptionKind::Nothing)?;
        season.as_ref().ok()
    }
}
