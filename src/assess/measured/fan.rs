//! What came of a fan test.

use super::predicted::Predicted;
use super::verdict::Verdict;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::possible::site_pressure;
use crate::assess::prepared::Prepared;
use crate::assess::sound::sound;
use crate::assess::spread::{TWO_SIDED_95, sigma_within};
use crate::physics::air::MoistAir;
use crate::physics::leakage::LeakageArea;
use crate::physics::measurement::Limits;
use crate::physics::measurement::fan_test::{
    self as physics, Direction, Doubt, Point, Readings, both_directions,
};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::{FanReadings, FanTest, Item, Survey};

/// Pascals of one hectopascal.
const HECTO: f64 = 100.0;
/// Factor within which 95 % of what fans and gauges in good order show lies, besides the scatter of
/// their readings **\[A\]**.
const GAUGES: f64 = 1.1;

/// Factor by which both directions may differ, as seals and flaps do **\[A\]**.
const ALIKE: f64 = 1.1;

/// The readings in one direction, fitted.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// Which way the fan blew.
    pub direction: Direction,
    /// The power law.
    pub fit: physics::FanTest,
}

/// What came of a fan test. Flows are at the reference air (20 °C, 101 325 Pa).
#[derive(Clone, Debug, PartialEq)]
pub struct FanOutcome {
    /// The fit of each direction that has readings.
    pub fits: Vec<Fitted>,
    /// Flow exponent, the mean of both directions.
    pub exponent: Limits,
    /// Flow at 50 Pa, m³/s.
    pub flow_50pa: Limits,
    /// Air changes per hour at 50 Pa.
    pub n50_per_h: Answer<Limits>,
    /// Equivalent leakage area (10 Pa), m².
    pub eqla: Limits,
    /// Effective leakage area (4 Pa), m².
    pub ela: Limits,
    /// What the ledger leads one to expect of the same state.
    pub predicted: Answer<Predicted>,
}

impl FanOutcome {
    /// Works out a test.
    pub(crate) fn of(survey: &Survey, prepared: &Prepared, test: &FanTest) -> Answer<Self> {
        sound(&prepared.findings, |place| {
            place.item == Item::FanTest(test.id)
        })?;
        let fits = fits(survey, test)?;
        let whole = |of: &dyn Fn(&physics::FanTest) -> Limits| mean(&fits, of);
        let flow_50pa = whole(&|fit| fit.flow_at(50.0))?;
        Ok(Self {
            exponent: whole(&physics::FanTest::exponent)?,
            n50_per_h: prepared
                .volume_m3
                .clone()
                .map(|volume| flow_50pa.map(|flow| flow * SECONDS_PER_HOUR / volume)),
            eqla: whole(&|fit| fit.area(LeakageArea::Eqla10Pa))?,
            ela: whole(&|fit| fit.area(LeakageArea::Ela4Pa))?,
            predicted: Predicted::for_test(survey, test),
            flow_50pa,
            fits,
        })
    }

    /// Flow at a pressure, Pa, m³/s, the mean of both directions.
    ///
    /// # Errors
    /// [`NotKnown`] where there is no fit, which no outcome lacks.
    pub fn flow_at(&self, pressure_pa: f64) -> Answer<Limits> {
        mean(&self.fits, &|fit| fit.flow_at(pressure_pa))
    }

    /// What the standard would not accept, of either direction, each once.
    #[must_use]
    pub fn doubts(&self) -> Vec<(Direction, Doubt)> {
        let fits = self.fits.iter();
        fits.flat_map(|fitted| {
            fitted
                .fit
                .doubts
                .iter()
                .map(|doubt| (fitted.direction, *doubt))
        })
        .collect()
    }

    /// Whether both directions were tested and show different openings: their flows at 50 Pa lie further
    /// apart than the scatter of their readings explains, `|ln(q₁/q₂)| > 2 √(σ₁² + σ₂²)`, and by a tenth
    /// at least **\[A\]**. The mean, which the standard asks for, is then that of neither.
    #[must_use]
    pub fn directions_differ(&self) -> bool {
        let [one, other] = self.fits.as_slice() else {
            return false;
        };
        let of = |fitted: &Fitted| fitted.fit.flow_at(50.0);
        let sigma = |limits: Limits| {
            let half = limits.relative_half();
            half.map(|half| half.ln_1p() / TWO_SIDED_95)
        };
        let (one, other) = (of(one), of(other));
        let apart = (one.value / other.value).ln().abs();
        let scatter = sigma(one).zip(sigma(other));
        apart > ALIKE.ln() && scatter.is_some_and(|(a, b)| apart > 2.0 * a.hypot(b))
    }

    /// Whether the standard would accept it.
    #[must_use]
    pub fn is_valid(&self) -> bool {
        self.fits.iter().all(|fitted| fitted.fit.doubts.is_empty())
    }

    /// Standard deviation of the logarithm of the flow at 50 Pa.
    ///
    /// ```text
    /// σ_m = √((½ ln(high/low)/1.96)² + (ln 1.1/1.96)²)
    /// ```
    /// where low and high are the limits by the readings' own scatter, and 1.1 the factor within which
    /// fans and gauges are right **\[A\]**.
    ///
    /// # Errors
    /// [`NotKnown`] where the limits hold zero.
    pub fn sigma(&self) -> Answer<f64> {
        let half = self.flow_50pa.relative_half().ok_or_else(|| {
            NotKnown::because(
                "the test\u{2019}s own limits hold zero: the readings scatter too much",
            )
        })?;
        Ok((half.ln_1p() / TWO_SIDED_95).hypot(sigma_within(GAUGES)))
    }

    /// How test and survey stand to each other at 50 Pa.
    ///
    /// # Errors
    /// [`NotKnown`] where nothing can be expected of the state tested.
    pub fn verdict(&self) -> Answer<Verdict> {
        let predicted = self.predicted.as_ref().map_err(Clone::clone)?;
        let expected = predicted.flow_at(50.0);
        if expected <= 0.0 {
            return Err(NotKnown::because("nothing leaks by the survey"));
        }
        let measured = (self.flow_50pa.value, self.sigma()?);
        Ok(Verdict::on(measured, (expected, predicted.sigma_at(50.0))))
    }

    /// Equivalent leakage area that the test shows and the ledger does not, m²; negative where the
    /// ledger has more. Its limits are those of two independent numbers.
    ///
    /// ```text
    /// A = A_m − A_p     half = √(h_m² + h_p²)   (on each side)
    /// ```
    ///
    /// # Errors
    /// [`NotKnown`] where nothing can be expected of the state tested.
    pub fn not_found(&self) -> Answer<Limits> {
        let predicted = self.predicted.as_ref().map_err(Clone::clone)?;
        let pressure = LeakageArea::Eqla10Pa.reference_pressure();
        let expected = super::predicted::within(predicted.eqla(), predicted.sigma_at(pressure));
        let value = self.eqla.value - expected.value;
        let below = (self.eqla.value - self.eqla.low).hypot(expected.high - expected.value);
        let above = (self.eqla.high - self.eqla.value).hypot(expected.value - expected.low);
        Ok(Limits {
            low: value - below,
            value,
            high: value + above,
        })
    }
}

/// The mean of the directions that have readings.
fn mean(fits: &[Fitted], of: &dyn Fn(&physics::FanTest) -> Limits) -> Answer<Limits> {
    match fits {
        [one] => Ok(of(&one.fit)),
        [one, other] => Ok(both_directions(of(&one.fit), of(&other.fit))),
        _ => Err(NotKnown::because("no readings are written down yet")),
    }
}

/// The fits of both directions. Humidity changes the density of the air by less than one percent
/// here, and is left out **\[A\]**.
fn fits(survey: &Survey, test: &FanTest) -> Answer<Vec<Fitted>> {
    let both = [
        (Direction::Depressurising, &test.blowing_out),
        (Direction::Pressurising, &test.blowing_in),
    ];
    let there: Vec<_> = both
        .into_iter()
        .filter(|(_, readings)| !points(readings).is_empty())
        .collect();
    if there.is_empty() {
        return Err(NotKnown::because("no readings are written down yet"));
    }
    let pressure = match test.barometer_hpa {
        Some(barometer) => barometer * HECTO,
        None => site_pressure(survey)?,
    };
    let density = |t_c: Option<f64>, which: &str| {
        let t_c = t_c.ok_or_else(|| {
            NotKnown::because(format!(
                "the temperature {which} during the test is not given"
            ))
        })?;
        let air = MoistAir::new(t_c, 0.0, pressure);
        air.map(|air| air.density())
            .map_err(|error| NotKnown::because(error.to_string()))
    };
    let inside_density = density(test.inside_c, "inside")?;
    let outside_density = density(test.outside_c, "outside")?;
    let fit = |(direction, readings): (Direction, &FanReadings)| {
        let zero = [readings.zero_before_pa, readings.zero_after_pa];
        let zero: Vec<f64> = zero.into_iter().flatten().collect();
        let fit = physics::FanTest::from_readings(&Readings {
            direction,
            points: &points(readings),
            zero_flow_pa: &zero,
            inside_density,
            outside_density,
        });
        let fit = fit.map_err(|error| NotKnown::because(format!("{}: {error}", way(direction))))?;
        Ok(Fitted { direction, fit })
    };
    there.into_iter().map(fit).collect()
}

/// A direction in words.
#[must_use]
pub fn way(direction: Direction) -> &'static str {
    match direction {
        Direction::Depressurising => "blowing out",
        Direction::Pressurising => "blowing in",
    }
}

/// The readings that have both numbers.
fn points(of: &FanReadings) -> Vec<Point> {
    let whole = (1..).zip(&of.readings).filter_map(|(number, reading)| {
        Some(Point {
            number,
            pressure_pa: reading.pressure_pa?,
            flow: reading.flow_m3_per_h? / SECONDS_PER_HOUR,
        })
    });
    whole.collect()
}
