//! A result with its kind: how many digits it can answer for, in which unit it is shown, how far
//! off it may be, and why it is not known where it is not.
//!
//! One rule for each kind, so that no number reads differently on page, paper and window. A number
//! and its unit are kept on one line by a no-break space; below zero stands a minus sign, not a
//! hyphen.

use super::answer::{Answer, LeakageTotal};
use super::interval::Interval;
pub use super::written_money::{
    NO_BREAK, money, money_about, money_round, price, price_about, price_round,
};

use super::words::{figure, given};
use super::written_money::decimals;
use crate::physics::units::{CM_PER_M, CM2_PER_M2, GRAMS_PER_KG, MM_PER_M, MM2_PER_M2};
use crate::survey::number::{NOT_A_NUMBER, with_unit};

/// Signs behind which a unit stands without a space.
const DEGREE: char = '°';

/// What a number is: its unit and how it is rounded. Values go in with the unit they are shown in,
/// except where a variant says otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Air changes per hour.
    AirChanges,
    /// Air changes per hour at 50 Pa.
    AirChangesAt50Pa,
    /// Water, L/day.
    LitresPerDay,
    /// Water, L.
    Litres,
    /// Water or air, g/h.
    GramsPerHour,
    /// Air, kg/h.
    KilogramsPerHour,
    /// Air, m³/h.
    CubicMetresPerHour,
    /// Air by area, m³/(h m²).
    CubicMetresPerHourAndSquareMetre,
    /// Heat or power, W.
    Watts,
    /// Energy, kWh.
    KilowattHours,
    /// A leakage area, in m², shown in cm².
    LeakageCm2,
    /// A leakage area, in m², shown in mm².
    LeakageMm2,
    /// The side of a square hole, in m, shown in mm.
    SideMm,
    /// The side of a square hole, in m, shown in cm.
    SideCm,
    /// The index of mould, 0 to 6, to a tenth.
    MouldIndex,
    /// A temperature, °C, to a tenth.
    Celsius,
    /// A difference of temperature, K, to a tenth.
    Kelvin,
    /// Relative humidity, 0…1, shown as whole percent.
    RelativeHumidity,
    /// A share, 0…1, shown as percent: below ten with a tenth.
    Share,
    /// A share, 0…1, shown as whole percent.
    WholePercent,
    /// A speed, m/s.
    MetresPerSecond,
    /// A pressure, Pa.
    Pascals,
    /// A volume, m³.
    CubicMetres,
    /// An area, m².
    SquareMetres,
    /// A length, m.
    Metres,
    /// Heat loss, W/K.
    WattsPerKelvin,
    /// Water in air, kg/kg, shown in g/kg.
    GramsPerKilogram,
    /// Electric current, A.
    Amperes,
    /// A time, days.
    Days,
    /// A time, minutes.
    Minutes,
    /// A time, hours.
    Hours,
    /// A density, kg/m³.
    KilogramsPerCubicMetre,
    /// Carbon dioxide, ppm.
    PartsPerMillion,
    /// An angle, degrees.
    Degrees,
    /// Money, to the hundredth. The currency is the survey's: see [`price`].
    Money,
    /// Money that hangs on results, such as what heat costs: see [`money_about`].
    MoneyAbout,
    /// Time until something has paid for itself, winters.
    Winters,
    /// Outside air for each sleeper, m³/h.
    AirPerSleeper,
    /// A pure number.
    Plain,
}

impl Kind {
    /// The unit it is shown in; empty for a pure number.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::AirChanges | Self::AirChangesAt50Pa => "/h",
            Self::LitresPerDay => "L/day",
            Self::Litres => "L",
            Self::GramsPerHour => "g/h",
            Self::KilogramsPerHour => "kg/h",
            Self::CubicMetresPerHour | Self::AirPerSleeper => "m³/h",
            Self::CubicMetresPerHourAndSquareMetre => "m³/(h\u{a0}m²)",
            Self::Watts => "W",
            Self::KilowattHours => "kWh",
            Self::LeakageCm2 => "cm²",
            Self::LeakageMm2 => "mm²",
            Self::SideMm => "mm",
            Self::SideCm => "cm",
            Self::Celsius => "°C",
            Self::Kelvin => "K",
            Self::RelativeHumidity | Self::Share | Self::WholePercent => "%",
            Self::MetresPerSecond => "m/s",
            Self::Pascals => "Pa",
            Self::CubicMetres => "m³",
            Self::SquareMetres => "m²",
            Self::Metres => "m",
            Self::WattsPerKelvin => "W/K",
            Self::GramsPerKilogram => "g/kg",
            Self::Amperes => "A",
            Self::Days => "days",
            Self::Minutes => "minutes",
            Self::Hours => "hours",
            Self::KilogramsPerCubicMetre => "kg/m³",
            Self::PartsPerMillion => "ppm",
            Self::Degrees => "°",
            Self::Winters => "winters",
            Self::Money | Self::MoneyAbout | Self::MouldIndex | Self::Plain => "",
        }
    }

    /// What the value is multiplied by to be shown in its unit.
    fn scale(self) -> f64 {
        match self {
            Self::LeakageCm2 => CM2_PER_M2,
            Self::LeakageMm2 => MM2_PER_M2,
            Self::SideMm => MM_PER_M,
            Self::SideCm => CM_PER_M,
            Self::GramsPerKilogram => GRAMS_PER_KG,
            Self::RelativeHumidity | Self::Share | Self::WholePercent => 100.0,
            _ => 1.0,
        }
    }

    /// The number alone: as many digits as the method can answer for.
    #[must_use]
    pub fn number(self, value: f64) -> String {
        let shown = value * self.scale();
        match self {
            Self::AirChanges
            | Self::LitresPerDay
            | Self::Litres
            | Self::GramsPerHour
            | Self::Watts
            | Self::KilowattHours
            | Self::Amperes
            | Self::Days
            | Self::Winters
            | Self::Minutes
            | Self::Hours
            | Self::AirPerSleeper
            | Self::MetresPerSecond
            | Self::PartsPerMillion => figure(shown, 2),
            Self::Money => money(shown),
            Self::MoneyAbout => money_about(shown),
            Self::KilogramsPerCubicMetre => figure(shown, 4),
            Self::Celsius | Self::Kelvin | Self::MouldIndex => decimals(shown, 1),
            Self::RelativeHumidity | Self::WholePercent | Self::Degrees => decimals(shown, 0),
            // A hundredth of a gram is what the best loggers tell.
            Self::GramsPerKilogram => decimals(shown, 2),
            Self::Share => percent(shown),
            _ => figure(shown, 3),
        }
    }

    /// The number with its unit.
    #[must_use]
    pub fn text(self, value: f64) -> String {
        self.with_unit(&self.number(value))
    }

    /// A number as it was typed in, in the unit it is shown in, with that unit.
    #[must_use]
    pub fn typed(self, shown: f64) -> String {
        self.with_unit(&given(shown))
    }

    /// The two ends of an interval: `0.62 to 1.2`, or one number where both read the same. Two
    /// digits say how far a result may be off.
    #[must_use]
    pub fn range(self, interval: &Interval) -> String {
        self.span(interval.low, interval.high)
    }

    /// From one value to another with two digits each: `0.62 to 1.2`, or one number where both
    /// read the same.
    #[must_use]
    pub fn span(self, low: f64, high: f64) -> String {
        let [low, high] = [low.min(high), low.max(high)].map(|end| figure(end * self.scale(), 2));
        if low == high {
            low
        } else {
            format!("{low} to {high}")
        }
    }

    /// A number in words with this kind's unit behind it.
    #[must_use]
    pub fn with_unit(self, number: &str) -> String {
        let unit = self.unit();
        if number.ends_with(NOT_A_NUMBER) {
            number.to_owned()
        } else if unit.starts_with(DEGREE) && unit.chars().count() == 1 {
            format!("{number}{unit}")
        } else {
            with_unit(number, unit)
        }
    }

    /// A quantity of this kind.
    #[must_use]
    pub fn of(self, value: impl Into<Answer<f64>>) -> Quantity {
        Quantity::new(self, value.into())
    }
}

/// Percent: whole numbers from ten up, else one decimal.
fn percent(value: f64) -> String {
    /// What rounding may leave of all of it.
    const ROUNDING: f64 = 1e-6;
    let nearly_all = (99.5..100.0 - ROUNDING).contains(&value);
    if value > 0.0 && value < 0.05 {
        "< 0.1".to_owned()
    } else if nearly_all && value >= 99.95 {
        "> 99.9".to_owned()
    } else {
        decimals(value, u8::from(value < 9.95 || nearly_all))
    }
}

/// A result of some kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Quantity {
    kind: Kind,
    value: Answer<f64>,
    at_least: bool,
    interval: Option<Interval>,
}

impl Quantity {
    /// A value of a kind, or why it is not known.
    #[must_use]
    pub fn new(kind: Kind, value: Answer<f64>) -> Self {
        Self {
            kind,
            value,
            at_least: false,
            interval: None,
        }
    }

    /// A figure of a total. One that lacks gaps without a size is at least so much; one that holds
    /// no sized gap at all is not known, never zero.
    #[must_use]
    pub fn of_total(
        kind: Kind,
        total: &Answer<LeakageTotal>,
        of: impl FnOnce(&LeakageTotal) -> f64,
    ) -> Self {
        let value = total.as_ref().map_err(Clone::clone).and_then(|total| {
            total.known()?;
            Ok(of(total))
        });
        let lacks_some = total.as_ref().is_ok_and(LeakageTotal::lacks_some);
        Self::new(kind, value).at_least(lacks_some)
    }

    /// Whether something that belongs to it is missing, so that it is at least so much.
    #[must_use]
    pub fn at_least(mut self, lacks_some: bool) -> Self {
        self.at_least = lacks_some;
        self
    }

    /// The same with the interval that it very likely lies in, where that was worked out.
    #[must_use]
    pub fn within(mut self, interval: Option<&Interval>) -> Self {
        self.interval = interval.copied();
        self
    }

    /// Its kind.
    #[must_use]
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// Its value.
    ///
    /// # Errors
    /// [`NotKnown`](super::answer::NotKnown) with the reason.
    pub fn value(&self) -> Answer<f64> {
        self.value.clone()
    }

    /// The number without its unit: `≥ 41.2`.
    ///
    /// # Errors
    /// [`NotKnown`](super::answer::NotKnown) with the reason.
    pub fn number(&self) -> Answer<String> {
        let value = self.value.as_ref().map_err(Clone::clone)?;
        let number = self.kind.number(*value);
        Ok(if self.at_least {
            format!("≥{NO_BREAK}{number}")
        } else {
            number
        })
    }

    /// The number with its unit: `≥ 41.2 cm²`.
    ///
    /// # Errors
    /// [`NotKnown`](super::answer::NotKnown) with the reason.
    pub fn text(&self) -> Answer<String> {
        self.number().map(|number| self.kind.with_unit(&number))
    }

    /// Where it very likely lies, as far as that was worked out.
    #[must_use]
    pub fn interval(&self) -> Option<Interval> {
        self.interval
    }

    /// The interval without its unit, where it was worked out: `30 to 55`.
    #[must_use]
    pub fn range(&self) -> Option<String> {
        self.interval.map(|interval| self.kind.range(&interval))
    }

    /// Number, unit and interval: `41.2 cm², very likely 30 to 55 cm²`; *not known* with its
    /// reason.
    #[must_use]
    pub fn sentence(&self) -> String {
        match (self.text(), self.range()) {
            (Err(unknown), _) => unknown.to_string(),
            (Ok(text), None) => text,
            (Ok(text), Some(range)) => {
                format!("{text}, very likely {}", self.kind.with_unit(&range))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::{LeakageFigures, NotKnown};

    fn total(gaps: usize, not_sized: usize) -> Answer<LeakageTotal> {
        Ok(LeakageTotal {
            gaps,
            not_sized,
            left_out: 0,
            figures: LeakageFigures {
                eqla: 0.004_123,
                ..LeakageFigures::default()
            },
        })
    }

    #[test]
    fn a_total_without_any_sized_gap_is_not_zero() {
        let of = |total| Quantity::of_total(Kind::LeakageCm2, &total, |total| total.figures.eqla);
        assert!(of(total(0, 2)).number().is_err());
        assert_eq!(
            of(total(1, 2)).text(),
            Ok("≥\u{a0}41.2\u{a0}cm²".to_owned())
        );
        assert_eq!(of(total(1, 0)).text(), Ok("41.2\u{a0}cm²".to_owned()));
    }

    #[test]
    fn each_kind_has_its_digits_and_its_unit() {
        for (kind, value, text) in [
            (Kind::AirChanges, 3.42, "3.4\u{a0}/h"),
            (Kind::Watts, 1234.0, "1200\u{a0}W"),
            (Kind::SideMm, 0.111, "111\u{a0}mm"),
            (Kind::Celsius, -6.04, "−6.0\u{a0}°C"),
            (Kind::Celsius, -0.04, "0.0\u{a0}°C"),
            (Kind::RelativeHumidity, 0.614, "61\u{a0}%"),
            (Kind::Share, 0.0996, "10\u{a0}%"),
            (Kind::Share, 0.0162, "1.6\u{a0}%"),
            (Kind::Share, 0.0001, "< 0.1\u{a0}%"),
            // All of it is told of nothing less.
            (Kind::Share, 0.9962, "99.6\u{a0}%"),
            (Kind::Share, 0.9996, "> 99.9\u{a0}%"),
            (Kind::Share, 1.0 - 1e-12, "100\u{a0}%"),
            (Kind::Degrees, 112.5, "113°"),
            (Kind::Plain, 0.6543, "0.654"),
        ] {
            assert_eq!(kind.text(value), text);
        }
    }

    #[test]
    fn an_interval_stands_behind_its_number() {
        let interval = Interval {
            low: 0.62,
            high: 1.23,
            mean: 0.9,
            standard_deviation: 0.2,
        };
        let known = Kind::AirChanges.of(Ok(0.88)).within(Some(&interval));
        assert_eq!(
            known.sentence(),
            "0.88\u{a0}/h, very likely 0.62 to 1.2\u{a0}/h"
        );
        let unknown = Kind::AirChanges.of(Err(NotKnown::because("no volume is given")));
        assert_eq!(unknown.sentence(), "not known: no volume is given");
    }

    #[test]
    fn a_result_that_is_no_number_is_called_so_without_a_unit() {
        let kinds = [
            Kind::Share,
            Kind::SquareMetres,
            Kind::Celsius,
            Kind::Degrees,
            Kind::Watts,
        ];
        for (kind, value) in kinds
            .into_iter()
            .zip([f64::NAN, f64::INFINITY].into_iter().cycle())
        {
            assert_eq!(kind.text(value), "not a number", "{kind:?}");
        }
    }

    #[test]
    fn money_reads_the_same_everywhere() {
        assert_eq!(price(1234.4, "£"), "£\u{a0}1234.40");
        assert_eq!(price(3.456, " "), "3.46");
        assert_eq!(money(-0.001), "0.00");
        assert_eq!(money(-12.345), "−12.35");
    }
}
