//! What came of a test of the air change.

use super::in_weather::ExpectedAir;
use super::verdict::Verdict;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::possible::site_pressure;
use crate::assess::prepared::Prepared;
use crate::assess::sound::sound;
use crate::assess::spread::{TWO_SIDED_95, sigma_within};
use crate::assess::stores::given_back;
use crate::physics::air::MoistAir;
use crate::physics::measurement::Limits;
use crate::physics::measurement::tracer::{Reading, decay};
use crate::physics::measurement::water_balance::{Collected, Measured, dry_air_flow};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::{AirTest, AirTestBy, Item, Survey};

const SECONDS_PER_MINUTE: f64 = 60.0;
/// Factor within which 95 % of air changes by a gas lie, besides the scatter of the readings: air that
/// is not well mixed, a gauge at one place **\[A\]**.
const MIXING: f64 = 1.2;
/// The same by the water in the air alone, which furniture gives back: within 30 % of measured values,
/// Building and Environment 36, 2001, 129–138 **\[S, abstract\]**.
const BY_MOISTURE: f64 = 1.3;
/// Standard error of a logger's humidity, points **\[A\]**.
const RH_ERROR: f64 = 2.0;
/// That of its temperature, K **\[A\]**.
const T_ERROR: f64 = 0.3;
/// Standard error of water weighed, kg, and as a share of it **\[A\]**.
const WEIGHED: (f64, f64) = (0.02, 0.01);
/// That of water given off, as a share of it **\[A\]**.
const GIVEN_OFF: f64 = 0.2;

/// What came of a test of the air change.
#[derive(Clone, Debug)]
pub struct AirOutcome {
    /// Air changes per hour, with their limits by the readings alone.
    pub ach_per_h: Answer<Limits>,
    /// Outside air that came in, kg/s.
    pub inflow_kg_s: Answer<Limits>,
    /// r² of the decay.
    ///
    /// # Errors
    /// Where none was fitted.
    pub r_squared: Answer<f64>,
    /// What the survey leads one to expect of the same state in the same weather.
    pub expected: Answer<ExpectedAir>,
    by: AirTestBy,
}

impl AirOutcome {
    /// Works out a test.
    ///
    /// # Errors
    /// [`NotKnown`] where something is missing, or the air change cannot be told from none.
    pub(crate) fn of(survey: &Survey, prepared: &Prepared, test: &AirTest) -> Answer<Self> {
        sound(&prepared.findings, |place| {
            place.item == Item::AirTest(test.id)
        })?;
        let volume = prepared.volume_m3.clone();
        let density = || inside(survey, test).map(|air| air.density());
        let (ach_per_h, inflow_kg_s, r_squared) = if test.by.is_decay() {
            let (per_hour, r_squared) = by_decay(test)?;
            let each = volume.and_then(|volume| Ok(volume * density()? / SECONDS_PER_HOUR));
            let inflow = each.map(|each| per_hour.map(|ach| ach * each));
            (Ok(per_hour), inflow, Ok(r_squared))
        } else {
            let inflow = by_water(survey, &volume, test)?;
            let each = volume.and_then(|volume| Ok(SECONDS_PER_HOUR / (volume * density()?)));
            let ach = each.map(|each| inflow.map(|flow| flow * each));
            (
                ach,
                Ok(inflow),
                Err(NotKnown::because("no decay was fitted")),
            )
        };
        Ok(Self {
            ach_per_h,
            inflow_kg_s,
            r_squared,
            expected: ExpectedAir::of(survey, test),
            by: test.by,
        })
    }

    /// Standard deviation of the logarithm of the air change: of its limits, and of what readings do
    /// not show.
    ///
    /// # Errors
    /// [`NotKnown`] where the air change is not.
    pub fn sigma(&self) -> Answer<f64> {
        let inflow = self.inflow_kg_s.clone()?;
        let half = inflow
            .relative_half()
            .ok_or_else(|| NotKnown::because(HOLDS_ZERO))?;
        let besides = match self.by {
            AirTestBy::PeopleLeft | AirTestBy::Gas | AirTestBy::WaterCollected => MIXING,
            AirTestBy::Moisture => BY_MOISTURE,
        };
        Ok((half.ln_1p() / TWO_SIDED_95).hypot(sigma_within(besides)))
    }

    /// How test and survey stand to each other.
    ///
    /// # Errors
    /// [`NotKnown`] where nothing can be expected of the state tested.
    pub fn verdict(&self) -> Answer<Verdict> {
        let expected = self.expected.as_ref().map_err(Clone::clone)?;
        let measured = self.inflow_kg_s.clone()?.value;
        Ok(Verdict::on(
            (measured, self.sigma()?),
            (expected.inflow_kg_s, expected.sigma),
        ))
    }
}

/// Why an air change is not told.
const HOLDS_ZERO: &str =
    "the air change cannot be told from none: its interval holds zero; read longer, or more often";

/// Why a decay that rises tells none.
const RISES: &str = "the readings rise: somebody or something inside still gives it off, or the outside air \
                     was misread";

/// The air changes by a decay, and its r².
fn by_decay(test: &AirTest) -> Answer<(Limits, f64)> {
    let background = test
        .background
        .ok_or_else(|| NotKnown::because("what the outside air has of it is not given"))?;
    let whole = (1..).zip(&test.readings).filter_map(|(number, reading)| {
        Some(Reading {
            number,
            time_s: reading.minutes? * SECONDS_PER_MINUTE,
            inside: reading.value?,
            background,
        })
    });
    let readings: Vec<Reading> = whole.collect();
    let found = decay(&readings).map_err(|error| NotKnown::because(error.to_string()))?;
    if found.per_hour.high < 0.0 {
        return Err(NotKnown::because(RISES));
    }
    if found.per_hour.low <= 0.0 {
        return Err(NotKnown::because(HOLDS_ZERO));
    }
    Ok((found.per_hour, found.r_squared))
}

/// Outside air by the water collected, kg/s.
///
/// ```text
/// m_da = (D − S − S_store)/(W_o − W_i)      m = m_da (1 + W_o)
/// ```
/// METHOD section *Air change by loggers*.
fn by_water(survey: &Survey, volume: &Answer<f64>, test: &AirTest) -> Answer<Limits> {
    let given = |value: Option<f64>, what: &str| {
        value.ok_or_else(|| NotKnown::because(format!("{what} is not given")))
    };
    let seconds = given(test.hours, "for how long water was collected")? * SECONDS_PER_HOUR;
    let collected = given(test.collected_l, "how much water was collected")?;
    let given_off = given(test.given_off_l, "how much water was given off meanwhile")?;
    let start = given(test.start_rh_percent, "the humidity inside at the start")? / 100.0;
    let end = given(test.end_rh_percent, "the humidity inside at the end")? / 100.0;
    let (inside, inside_error) = humidity(survey, test.inside_c, test.inside_rh_percent, "inside")?;
    let (outside, outside_error) =
        humidity(survey, test.outside_c, test.outside_rh_percent, "outside")?;
    let measured = |value: f64, error: f64| Measured { value, error };
    // One logger read both: what it is off by falls out of their difference.
    let ends = (measured(start, 0.0), measured(end, 0.0));
    let found = dry_air_flow(&Collected {
        removed: measured(
            collected / seconds,
            WEIGHED.0.hypot(WEIGHED.1 * collected) / seconds,
        ),
        sources: measured(given_off / seconds, GIVEN_OFF * given_off / seconds),
        from_store: given_back(survey, volume.clone()?, ends, seconds),
        difference: measured(outside - inside, inside_error.hypot(outside_error)),
    });
    let found = found.map_err(|error| NotKnown::because(error.to_string()))?;
    Ok(found.map(|dry| dry * (1.0 + outside)))
}

/// Humidity ratio of a mean state, with its standard error by the logger's.
fn humidity(survey: &Survey, t_c: Option<f64>, rh: Option<f64>, which: &str) -> Answer<(f64, f64)> {
    let missing = |what: &str| NotKnown::because(format!("the mean {what} {which} is not given"));
    let t_c = t_c.ok_or_else(|| missing("temperature"))?;
    let rh = rh.ok_or_else(|| missing("humidity"))?;
    let pressure = site_pressure(survey)?;
    let ratio = |t_c: f64, rh: f64| {
        let air = MoistAir::from_relative_humidity(t_c, rh / 100.0, pressure);
        air.map(|air| air.humidity_ratio)
            .map_err(|error| NotKnown::because(error.to_string()))
    };
    let here = ratio(t_c, rh)?;
    let by_rh = here - ratio(t_c, rh - RH_ERROR.min(rh))?;
    let by_t = ratio(t_c + T_ERROR, rh)? - here;
    Ok((here, by_rh.hypot(by_t)))
}

/// The air inside during a test; humidity changes its density by less than one percent, and is left
/// out where it was not read **\[A\]**.
fn inside(survey: &Survey, test: &AirTest) -> Answer<MoistAir> {
    let t_c = test
        .inside_c
        .ok_or_else(|| NotKnown::because("the temperature inside during the test is not given"))?;
    let pressure = site_pressure(survey)?;
    let rh = test.inside_rh_percent.map_or(0.0, |rh| rh / 100.0);
    MoistAir::from_relative_humidity(t_c, rh, pressure)
        .map_err(|error| NotKnown::because(error.to_string()))
}
