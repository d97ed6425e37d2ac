//! How sure a winter is: the season again with other leakage, wind, sources and storage.

use super::count::Season;
use super::run::{Given, Winter};
use crate::assess::answer::Answer;
use crate::assess::not_known::NotKnown;
use crate::assess::study::Study;
use crate::assess::uncertainty::normal;
use std::ops::ControlFlow;

/// Draws that the program makes.
pub const WINTER_DRAWS: u32 = 30;
/// Most draws that may be asked for.
pub const MOST_WINTER_DRAWS: u32 = 1000;

/// The seed: the same survey gives the same bands.
const SEED: u64 = 20_261_129;
/// Steps an hour of a draw: what they leave open is far below what the draws spread; a test holds
/// that.
const STEPS: u32 = 2;
/// Standard deviation of the logarithm of all water given off inside **\[A\]**: 95 % within a
/// factor of 1.5.
const SOURCES: f64 = 0.207;
/// The same of what the contents store **\[A\]**: 95 % within a factor of 2.5; laminated wood alone
/// stores a third of what spruce does, and nobody measures the surface of contents.
const STORES: f64 = 0.467;
/// What the random numbers of both are told apart by.
const SOURCES_KEY: u64 = 101;
const STORES_KEY: u64 = 102;
/// Share of the draws below a band, and above it.
const OUTSIDE: f64 = 0.1;

/// A number told of a season.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Mean relative humidity, 0 to 1.
    MeanRh,
    /// Share of the hours above 80 %.
    Above80,
    /// Nights with frost inside.
    FrostNights,
    /// Hours in which water condenses.
    WetHours,
    /// Highest index of mould on boards at the worst place.
    Mould,
    /// Water taken by machine or tub, L.
    Water,
    /// Energy of machine and heater, kWh.
    Energy,
    /// Cost of that energy.
    Cost,
}

impl Figure {
    /// All, in the order of the table.
    pub const ALL: [Self; 8] = [
        Self::MeanRh,
        Self::Above80,
        Self::FrostNights,
        Self::WetHours,
        Self::Mould,
        Self::Water,
        Self::Energy,
        Self::Cost,
    ];

    /// What a season comes to; `None` where it is not known.
    #[must_use]
    pub fn of(self, season: &Season) -> Option<f64> {
        let count = crate::physics::counts::count;
        match self {
            Self::MeanRh => Some(season.humidity.mean),
            Self::Above80 => Some(season.humidity.share_above[2]),
            Self::FrostNights => Some(count(season.frost.nights)),
            Self::WetHours => Some(count(season.condensation_hours)),
            Self::Mould => season.worst_mould(),
            Self::Water => Some(season.removed_l),
            Self::Energy => Some(season.machine_kwh + season.heater_kwh),
            Self::Cost => season.cost.as_ref().ok().copied(),
        }
    }
}

/// The middle 80 % of the draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// A tenth of the draws lies below.
    pub low: f64,
    /// A tenth of the draws lies above.
    pub high: f64,
}

/// The band of each number of [`Figure::ALL`]; `None` where it is not known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bands([Option<Band>; Figure::ALL.len()]);

/// What one draw comes to for one option, as [`Figure::ALL`] has it.
pub type Drawn = [Option<f64>; Figure::ALL.len()];

impl Bands {
    /// The band of a number.
    #[must_use]
    pub fn of(&self, figure: Figure) -> Option<Band> {
        let at = Figure::ALL.iter().position(|own| *own == figure)?;
        self.0.get(at).copied().flatten()
    }

    /// Bands of draws.
    ///
    /// # Errors
    /// [`NotKnown`] where there are none.
    pub fn through(draws: &[Drawn]) -> Answer<Self> {
        if draws.is_empty() {
            return Err(NotKnown::because("no draws were asked for"));
        }
        let mut bands = [None; Figure::ALL.len()];
        for (at, band) in bands.iter_mut().enumerate() {
            let values = draws.iter().map(|draw| draw.get(at).copied().flatten());
            *band = values.collect::<Option<Vec<f64>>>().map(|mut values| {
                values.sort_by(f64::total_cmp);
                Band {
                    low: super::count::quantile(&values, OUTSIDE),
                    high: super::count::quantile(&values, 1.0 - OUTSIDE),
                }
            });
        }
        Ok(Self(bands))
    }
}

/// The draws of a winter, made ready.
pub struct Doubt<'a> {
    winter: &'a Winter,
    draws: Vec<Given>,
}

impl Winter {
    /// So many draws made ready.
    ///
    /// Air: what flows through in each hour is multiplied by what the draw of the survey's
    /// uncertainty (sizes of gaps, the surveyor, discharge, wind at the body, its pressure on walls
    /// and under the floor, gusts, leakage not found) lets in against the vehicle as surveyed, read
    /// off between the weather cases by the wind of the hour. Sources and storage: lognormal factors
    /// with mean 1.
    ///
    /// # Errors
    /// As [`Study::trials`].
    pub fn doubt(&self, study: &Study, draws: u32) -> Answer<Doubt<'_>> {
        let draws = 0..draws.min(MOST_WINTER_DRAWS);
        let air = study.trials()?.air_factors(SEED, draws.clone())?;
        let draws = draws.zip(air).map(|(number, factors)| {
            let factor = |key: u64, sigma: f64| {
                (sigma * normal(SEED, number, key) - 0.5 * sigma * sigma).exp()
            };
            let sources = factor(SOURCES_KEY, SOURCES);
            let mut forcing = self.forcing.clone();
            for hour in &mut forcing {
                hour.vapour_source *= sources;
                hour.liquid_source *= sources;
            }
            let mut body = self.body.clone();
            body.buffer *= factor(STORES_KEY, STORES);
            let hours = self.outdoors.iter();
            Given {
                body,
                forcing,
                air: hours.map(|hour| by_wind(&factors, hour.wind)).collect(),
            }
        });
        Ok(Doubt {
            winter: self,
            draws: draws.collect(),
        })
    }
}

/// A factor read off between winds, and beyond them as at the nearest.
fn by_wind(factors: &[(f64, f64)], wind: f64) -> f64 {
    let above = factors.partition_point(|(own, _)| *own < wind);
    let before = above.checked_sub(1).and_then(|at| factors.get(at));
    match (before, factors.get(above)) {
        (Some((low, one)), Some((high, other))) => {
            one + (other - one) * (wind - low) / (high - low)
        }
        (Some((_, only)), None) | (None, Some((_, only))) => *only,
        // Nothing comes in in any case, however it is drawn.
        (None, None) => 1.0,
    }
}

impl Doubt<'_> {
    /// How many draws.
    #[must_use]
    pub fn draws(&self) -> usize {
        self.draws.len()
    }

    /// How many options.
    #[must_use]
    pub fn options(&self) -> usize {
        self.winter.options().len()
    }

    /// One option in one draw; `None` where `progress`, asked for every day, gave it up.
    pub fn one(
        &self,
        option: usize,
        draw: usize,
        progress: &impl Fn() -> ControlFlow<()>,
    ) -> Option<Answer<Drawn>> {
        let Some(given) = self.draws.get(draw) else {
            return Some(Err(NotKnown::because("there is no such draw")));
        };
        let season = self
            .winter
            .season_given(option, Some(given), STEPS, progress)?;
        Some(season.map(|season| Figure::ALL.map(|figure| figure.of(&season))))
    }
}
