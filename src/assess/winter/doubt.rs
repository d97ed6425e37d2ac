//! How sure a winter is: the season again with other leakage, wind, sources and storage.

use super::bands::{Drawn, Figure};
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
