//! A winter that was run, with every option in it.

use super::count::Season;
use super::options::WinterOption;
use super::run::{Weathered, Winter};
use crate::assess::answer::Answer;
use crate::assess::drying::OptionKind;
use crate::climate::Hour;
use crate::physics::MoistAir;
use crate::survey::TypicalWinter;

/// Least share of a winter that an option must spare of humidity above 80 % to be named for it.
pub const WORTH_NAMING: f64 = 0.01;

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

    /// The option with the fewest hours above 80 %, the cheaper of two alike, by its place; `None` where
    /// none spares a hundredth of the winter against doing nothing.
    #[must_use]
    pub fn driest(&self) -> Option<usize> {
        let wet = |season: &Season| season.humidity.share_above[2];
        let most = wet(self.nothing()?) - WORTH_NAMING;
        let known = self.seasons.iter().enumerate();
        let known = known.filter_map(|(at, season)| Some((at, season.as_ref().ok()?)));
        let cost = |season: &Season| season.cost.clone().unwrap_or(f64::INFINITY);
        let driest =
            known
                .filter(|(_, season)| wet(season) < most)
                .min_by(|(_, one), (_, other)| {
                    let by_cost = cost(one).total_cmp(&cost(other));
                    wet(one).total_cmp(&wet(other)).then(by_cost)
                });
        driest.map(|(at, _)| at)
    }

    /// Place of doing nothing.
    #[must_use]
    pub fn idle(&self) -> Option<usize> {
        let mut all = self.options().iter();
        all.position(|option| option.kind == OptionKind::Nothing)
    }

    /// Doing nothing, where it is known.
    #[must_use]
    pub fn nothing(&self) -> Option<&Season> {
        self.seasons.get(self.idle()?)?.as_ref().ok()
    }
}
