//! Down to which outside temperature each heater holds its set point.

use super::answer::{Answer, CaseAnswer, CaseHeater, GuardHeat, NotKnown};
use super::possible::site_pressure;
use super::quantity::Kind;
use super::weather::Vehicle;
use super::words::{figure, listed};
use crate::physics::MoistAir;
use crate::physics::root::{Guess, NoRoot, Probe, falling_root};
use crate::survey::findings::called;
use crate::survey::{
    Field, Finding, Heater, HeaterId, Item, Place, SetUp, Severity, Survey, WeatherCase,
};

/// Coldest outside air that is looked at, °C: what holds there holds anywhere.
pub const COLDEST_C: f64 = -60.0;
/// Temperatures nearer than this are one, K.
const FINEST_K: f64 = 1e-4;
/// Heat nearer than this to the rating is the rating, W.
const FINEST_W: f64 = 1e-3;

/// The temperature that a heater is to hold, °C: its thermostat's, or without one that of frost guard
/// while laid up and of comfort in use.
fn held_c(survey: &Survey, heater: &Heater) -> f64 {
    let targets = &survey.targets;
    let wanted = survey
        .set_up
        .choose(targets.frost_guard_c, targets.comfort_c);
    heater.set_point_c.unwrap_or(wanted)
}

impl Vehicle<'_> {
    /// What each heater holds in the wind of a case.
    pub(super) fn heaters(&self, case: &WeatherCase) -> Vec<CaseHeater> {
        let heaters = self.survey.heaters.iter();
        heaters
            .map(|heater| {
                let inside_c = held_c(self.survey, heater);
                let sound = self.first_error(case).and_then(|()| self.sound(heater));
                let (needed_w, lowest_outside_c) = self.held(case, inside_c, &sound);
                let guard_c = self.survey.targets.frost_guard_c;
                let guard = || {
                    let same = inside_c.total_cmp(&guard_c).is_eq();
                    let (needed_w, lowest_outside_c) = match same {
                        true => (needed_w.clone(), lowest_outside_c.clone()),
                        false => self.held(case, guard_c, &sound),
                    };
                    GuardHeat {
                        needed_w,
                        lowest_outside_c,
                    }
                };
                CaseHeater {
                    id: heater.id,
                    inside_c,
                    frost_guard: (self.survey.set_up == SetUp::LaidUp).then(guard),
                    needed_w,
                    lowest_outside_c,
                }
            })
            .collect()
    }

    /// Heat to hold a temperature at the design outside, W, and the coldest outside air in which a
    /// rating does, °C.
    fn held(
        &self,
        case: &WeatherCase,
        inside_c: f64,
        rating: &Answer<f64>,
    ) -> (Answer<f64>, Answer<f64>) {
        let design = self.survey.targets.design_outside_c;
        let needed = |outside_c: f64| self.needed(case, inside_c, outside_c);
        let rating = || rating.clone();
        (
            rating().and_then(|_| needed(design.min(inside_c))),
            rating().and_then(|rating| lowest(inside_c, rating, needed)),
        )
    }

    /// The rating of a heater, W, where nothing recorded of it is impossible.
    fn sound(&self, heater: &Heater) -> Answer<f64> {
        self.no_error(|place| {
            place.item == Item::Heater(heater.id)
                || (place.item == Item::Targets
                    && (place.is_at(Field::DesignOutside)
                        || place
                            .is_at(self.survey.set_up.choose(Field::FrostGuard, Field::Comfort))))
        })?;
        heater
            .rating_w
            .ok_or_else(|| NotKnown::because("the rating of the heater is not given"))
    }

    /// Heat to hold a temperature at another outside, in the wind and at the relative humidity of a
    /// case, W.
    fn needed(&self, case: &WeatherCase, inside_c: f64, outside_c: f64) -> Answer<f64> {
        let pressure = site_pressure(self.survey)?;
        let rh = case.outside_rh_percent / 100.0;
        let outside = MoistAir::from_relative_humidity(outside_c, rh, pressure)?;
        self.heat_need(case, &outside, inside_c)?.total_w()
    }
}

/// The outside temperature at which a rating is just enough, °C; [`COLDEST_C`] where it is enough there.
///
/// ```text
/// P = (ΣUA + H_v) (T_set − T_o)
/// ```
/// where P is the rating, W, ΣUA the fabric's loss, W/K, and H_v what the air takes along, W/K, with
/// the air flow solved at that very difference. Without sun, people or machines **\[A\]**.
///
/// # Errors
/// As the heat needed.
fn lowest(inside_c: f64, rating: f64, mut needed: impl FnMut(f64) -> Answer<f64>) -> Answer<f64> {
    const FIRST_K: f64 = 10.0;
    let per_kelvin = needed(inside_c - FIRST_K)? / FIRST_K;
    let guess = Guess {
        start: inside_c - rating / per_kelvin,
        slope: per_kelvin,
        finest: FINEST_K,
    };
    let lacking = |outside_c: f64| {
        let value = needed(outside_c)? - rating;
        Ok::<_, NotKnown>(Probe {
            value,
            close: value.abs() <= FINEST_W,
        })
    };
    match falling_root(lacking, (COLDEST_C, inside_c), guess) {
        Ok(crossing) => Ok(0.5 * (crossing.above + crossing.below)),
        Err(NoRoot::BelowSpan) => Ok(COLDEST_C),
        Err(NoRoot::AboveSpan) => Ok(inside_c),
        Err(NoRoot::Function(unknown)) => Err(unknown),
    }
}

/// A degree is told to tenths: what is nearer to the design temperature reaches it.
const TOLD_K: f64 = 0.05;

/// Two figures of it, rounded up: with less than what is told the heater would still fall short.
fn enough(watts: f64) -> f64 {
    let step = 10_f64.powf(watts.log10().floor() - 1.0);
    (watts / step).ceil() * step
}

/// Down to which cold one of the survey's heaters holds, in the worst of the weather cases' winds.
#[derive(Clone, Debug, PartialEq)]
pub struct Reach {
    /// The heater.
    pub heater: HeaterId,
    /// Heat at full output, W.
    pub rating_w: f64,
    /// Temperature that it is to hold, °C.
    pub held_c: f64,
    /// Coldest outside air in which it does, in whatever wind, °C; [`COLDEST_C`] where it does there.
    pub down_to_c: f64,
    /// Outside temperature that heat must last for, °C.
    pub design_c: f64,
    /// A rating that would hold it there, W, rounded up; `None` where its own does, or where that is
    /// not known.
    pub enough_w: Option<f64>,
}

impl Reach {
    /// Whether it holds down to the temperature that heat must last for.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.down_to_c <= self.design_c.min(self.held_c) + TOLD_K
    }
}

/// How far each heater reaches whose reach is known, in the survey's order.
#[must_use]
pub fn reaches(survey: &Survey, cases: &[CaseAnswer]) -> Vec<Reach> {
    reach_of(survey, cases, |own| {
        Some((own.inside_c, &own.needed_w, &own.lowest_outside_c))
    })
}

/// How far each reaches as a frost guard, whatever it is set to; none in use.
#[must_use]
pub fn guard_reaches(survey: &Survey, cases: &[CaseAnswer]) -> Vec<Reach> {
    let guard_c = survey.targets.frost_guard_c;
    reach_of(survey, cases, |own| {
        let guard = own.frost_guard.as_ref()?;
        Some((guard_c, &guard.needed_w, &guard.lowest_outside_c))
    })
}

/// A temperature that is held, the heat it takes, and the coldest outside air in which it is.
type Held<'a> = (f64, &'a Answer<f64>, &'a Answer<f64>);

fn reach_of(
    survey: &Survey,
    cases: &[CaseAnswer],
    held: impl for<'a> Fn(&'a CaseHeater) -> Option<Held<'a>>,
) -> Vec<Reach> {
    let heaters = survey.heaters.iter().enumerate();
    let reach = |(at, heater): (usize, &Heater)| {
        let own = || {
            let own = cases.iter().filter_map(|case| case.heaters.get(at));
            own.filter_map(&held)
        };
        let lowest = own().filter_map(|(_, _, lowest)| lowest.as_ref().ok().copied());
        let needed = own().filter_map(|(_, needed, _)| needed.as_ref().ok().copied());
        let reach = Reach {
            heater: heater.id,
            rating_w: heater.rating_w?,
            held_c: own().map(|(held_c, _, _)| held_c).next()?,
            down_to_c: lowest.reduce(f64::max)?,
            design_c: survey.targets.design_outside_c,
            enough_w: needed.reduce(f64::max).map(enough),
        };
        Some(Reach {
            enough_w: reach.enough_w.filter(|_| !reach.holds()),
            ..reach
        })
    };
    heaters.filter_map(reach).collect()
}

/// Heaters that do not hold their set point down to the design temperature.
pub(super) fn findings(survey: &Survey, cases: &[CaseAnswer]) -> Vec<Finding> {
    let short = reaches(survey, cases);
    let short = short.iter().filter(|reach| !reach.holds());
    short
        .filter_map(|reach| too_weak(survey, cases, reach))
        .collect()
}

fn too_weak(survey: &Survey, cases: &[CaseAnswer], reach: &Reach) -> Option<Finding> {
    let mut heaters = survey.heaters.iter();
    let heater = heaters.find(|heater| heater.id == reach.heater)?;
    let told = cases.iter().filter_map(|case| {
        let mut heaters = case.heaters.iter();
        let own = heaters.find(|own| own.id == reach.heater)?;
        let lowest = Kind::Celsius.text(*own.lowest_outside_c.as_ref().ok()?);
        Some(format!("{lowest} in \u{201c}{}\u{201d}", case.name))
    });
    let needed = reach.enough_w.map_or_else(String::new, |watts| {
        format!("; {} would", told_watts(watts))
    });
    let water = match survey.set_up {
        SetUp::LaidUp => "drain the water system; then ",
        SetUp::InUse => "",
    };
    Some(Finding {
        severity: Severity::Warning,
        place: Place::at(Item::Heater(heater.id), Field::Rating),
        sentence: format!(
            "{}: {} hold {} only down to {} outside, not down to the {} that heat must last for{needed}",
            called("heater", &heater.name),
            Kind::Watts.typed(reach.rating_w),
            Kind::Celsius.typed(reach.held_c),
            listed(told),
            Kind::Celsius.typed(reach.design_c),
        ),
        advice: format!("{water}seal gaps, or take a heater strong enough"),
    })
}

/// A rating that would do, with the two figures it was rounded up to.
#[must_use]
pub fn told_watts(watts: f64) -> String {
    Kind::Watts.with_unit(&figure(watts, 2))
}

#[cfg(test)]
mod tests {
    use super::enough;

    #[test]
    fn the_heat_told_is_never_less_than_what_is_needed() {
        for watts in [1_767.3, 1_540.0, 1_501.0, 3_848.0, 990.5, 87.2] {
            let told = enough(watts);
            assert!(told >= watts && told <= 1.1 * watts, "{told} for {watts}");
        }
        assert!((enough(1_540.0) - 1_600.0).abs() < 1e-9);
    }
}
