//! What a season comes to: hours counted by their means.

use super::hours::Outdoors;
use super::mould::MouldAt;
use crate::assess::answer::Answer;
use crate::physics::counts::count;
use crate::physics::winter::{Books, HourInside};

/// How much colder than the room's mean the coldest corner with water pipes may be, K **\[A\]**.
pub const COLDEST_CORNER_K: f64 = 2.0;
/// Relative humidities above which hours are counted.
pub const COUNTED_RH: [f64; 3] = [0.6, 0.7, 0.8];

/// Humidity over a season.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Humidity {
    /// Hours above 60, 70 and 80 %.
    pub hours_above: [usize; 3],
    /// Share of the hours above 60, 70 and 80 %.
    pub share_above: [f64; 3],
    /// Mean, 0 to 1.
    pub mean: f64,
    /// A tenth of the hours is below.
    pub low: f64,
    /// A tenth of the hours is above.
    pub high: f64,
}

/// Frost at a water system.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Frost {
    /// Hours below 0 °C.
    pub hours: usize,
    /// Longest spell of them on end, h.
    pub longest_h: usize,
    /// Nights (noon to noon) with such an hour.
    pub nights: usize,
    /// How far below, summed over those hours, K h.
    pub degree_hours: f64,
}

/// A season with one option.
#[derive(Clone, Debug, PartialEq)]
pub struct Season {
    /// Hour by hour.
    pub hours: Vec<HourInside>,
    /// Humidity inside.
    pub humidity: Humidity,
    /// Mean temperature inside, °C.
    pub mean_c: f64,
    /// Frost inside, at the room's mean temperature.
    pub frost: Frost,
    /// The same in the coldest corner, [`COLDEST_CORNER_K`] colder.
    pub frost_in_corner: Frost,
    /// Hours in which water condenses.
    pub condensation_hours: usize,
    /// Water that ran off surfaces, L.
    pub run_off_l: f64,
    /// Water that machine or tub took, L.
    pub removed_l: f64,
    /// Electricity of the machine, kWh.
    pub machine_kwh: f64,
    /// Heat of the heater, kWh.
    pub heater_kwh: f64,
    /// Hours, in all, that the machine ran.
    pub machine_hours: f64,
    /// Hours in which it was too cold for the machine.
    pub too_cold_hours: f64,
    /// What electricity, fuel and upkeep of the season cost.
    pub cost: Answer<f64>,
    /// Days until the tub was full; `None` where there is none, or it was not.
    pub tub_full_days: Option<f64>,
    /// Mould, where it may grow.
    pub mould: Vec<MouldAt>,
    /// Books of heat and water.
    pub books: Books,
}

impl Season {
    /// The highest index of mould on boards and furniture, wherever that is; `None` where there is
    /// no surface that it could grow on.
    #[must_use]
    pub fn worst_mould(&self) -> Option<f64> {
        let all = self.mould.iter().map(MouldAt::highest_on_boards);
        all.max_by(f64::total_cmp)
    }
}

/// Humidity over the hours that are known; `None` where none is.
pub(super) fn humidity(rh: impl Iterator<Item = f64>) -> Option<Humidity> {
    let mut all: Vec<f64> = rh.collect();
    if all.is_empty() {
        return None;
    }
    let hours_above = COUNTED_RH.map(|limit| all.iter().filter(|rh| **rh > limit).count());
    let hours = count(all.len());
    let mean = all.iter().sum::<f64>() / hours;
    all.sort_by(f64::total_cmp);
    Some(Humidity {
        hours_above,
        share_above: hours_above.map(|above| count(above) / hours),
        mean,
        low: quantile(&all, 0.1),
        high: quantile(&all, 0.9),
    })
}

/// Quantile of sorted numbers, straight between two.
pub(super) fn quantile(sorted: &[f64], share: f64) -> f64 {
    let at = share * count(sorted.len().saturating_sub(1));
    let low = crate::physics::counts::whole(at);
    let of = |at: usize| sorted.get(at).copied();
    match (of(low), of(low + 1)) {
        (Some(low_value), Some(high)) => low_value + (at - count(low)) * (high - low_value),
        (Some(only), None) => only,
        (None, _) => f64::NAN,
    }
}

/// Frost over hours with their temperature, °C; those that are not known end a spell and do not
/// count.
pub(super) fn frost(hours: impl Iterator<Item = (u8, Option<f64>)>) -> Frost {
    let mut found = Frost::default();
    let mut spell = 0;
    let mut counted_tonight = false;
    for (hour, t_c) in hours {
        // Nights run from noon to noon.
        if hour == 13 {
            counted_tonight = false;
        }
        if let Some(below) = t_c.filter(|t_c| *t_c < 0.0) {
            found.hours += 1;
            found.degree_hours -= below;
            spell += 1;
            found.longest_h = found.longest_h.max(spell);
            if !counted_tonight {
                found.nights += 1;
                counted_tonight = true;
            }
        } else {
            spell = 0;
        }
    }
    found
}

/// Frost at a temperature of every hour.
pub(super) fn frost_of(outdoors: &[Outdoors], t_c: impl Fn(usize) -> f64) -> Frost {
    let hours = outdoors.iter().enumerate();
    frost(hours.map(|(at, hour)| (hour.hour.hour, (!hour.not_known).then(|| t_c(at)))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nights_of_frost_run_from_noon_to_noon_and_spells_are_on_end() {
        // Two days by hour: frost from 22 to 3, and from 1 to 2 in the next night.
        let hours = (1..=48u8).map(|at| {
            let hour = (at - 1) % 24 + 1;
            let cold = (22..=27).contains(&at) || at == 46;
            (hour, Some(if cold { -1.0 } else { 1.0 }))
        });
        let found = frost(hours);
        assert_eq!((found.hours, found.longest_h, found.nights), (7, 6, 2));
        assert!((found.degree_hours - 7.0).abs() < 1e-12);
        let unknown = frost([(1, Some(-1.0)), (2, None), (3, Some(-1.0))].into_iter());
        assert_eq!(
            (unknown.hours, unknown.longest_h, unknown.nights),
            (2, 1, 1)
        );
    }

    #[test]
    fn humidity_is_counted_by_hours_and_quantiles() {
        // numpy: quantile([0, .01 … 1], .1) = 0.1, .9 = 0.9; 20 of 101 above 0.8.
        let found = humidity((0..=100).map(|percent| f64::from(percent) / 100.0)).expect("hours");
        assert!((found.low - 0.1).abs() < 1e-12 && (found.high - 0.9).abs() < 1e-12);
        assert_eq!(found.hours_above, [40, 30, 20]);
        assert!((found.mean - 0.5).abs() < 1e-12);
        assert!(humidity(std::iter::empty()).is_none());
    }
}
