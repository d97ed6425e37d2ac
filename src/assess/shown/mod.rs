//! Which units a person reads: metric, or those customary in the United States.
//!
//! Every number is worked out and written in metric units, once, by
//! [`Kind`](super::quantity::Kind). US customary text is a translation of that text, number by
//! number, so that a number reads the same wherever it stands, and no sentence is worded twice.
//! Files, JSON and CSV stay metric. Dates go the same way: year first where they are kept, in the
//! order of the reader's country where they are shown.
//!
//! A translated number has as many significant digits as the one that it was made from, and at
//! least two; sizes have three. Temperatures have tenths. What a person wrote is never translated.

mod cell;
mod dates;
mod digits;
mod kept;
#[cfg(test)]
mod tests;
mod text;

use crate::survey::date::DateWay;
use crate::survey::field::Range;
use crate::survey::typed::Wanted;
use crate::survey::unit::{Unit, customary, named};
use crate::survey::{Field, Survey};
use clap::ValueEnum;
use std::borrow::Cow;

/// A system of units for screen and paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, ValueEnum)]
pub enum Units {
    /// Millimetres, degrees Celsius
    #[default]
    Metric,
    /// Inches, feet, degrees Fahrenheit
    #[value(name = "us")]
    UsCustomary,
}

impl Units {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Metric, Self::UsCustomary];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::UsCustomary => "US customary",
        }
    }

    /// The unit in which this system shows what is metric in the survey.
    fn of(self, metric: &'static Unit) -> &'static Unit {
        match self {
            Self::Metric => metric,
            Self::UsCustomary => customary(metric).unwrap_or(metric),
        }
    }

    /// The symbol of the unit in which numbers of this metric unit are shown.
    #[must_use]
    pub fn symbol(self, metric: &str) -> &str {
        named(metric).map_or(metric, |unit| match self.of(unit) {
            same if same.symbol == unit.symbol => metric,
            other => other.symbol,
        })
    }

    /// A number of a metric unit in the unit in which it is shown.
    #[must_use]
    pub fn shown(self, value: f64, metric: &str) -> f64 {
        named(metric).map_or(value, |unit| unit.to(self.of(unit), value))
    }

    /// A number of a metric unit as a field shows it: what was given, or six significant digits of
    /// what it comes to in the unit shown.
    #[must_use]
    pub fn typed(self, value: f64, metric: &str) -> f64 {
        let shown = self.shown(value, metric);
        if self.symbol(metric) == metric || shown == 0.0 || !shown.is_finite() {
            return shown;
        }
        format!("{shown:.5e}").parse().unwrap_or(shown)
    }

    /// How a number typed into a field of this metric unit is read.
    #[must_use]
    pub fn wanted(self, metric: &str) -> Wanted {
        Wanted::stored(metric).shown(self.symbol(metric))
    }

    /// A range in words: `0.5 to 15 m`, `1.64 to 49.2 ft`.
    #[must_use]
    pub fn range(self, range: &Range) -> String {
        match (self, named(range.unit)) {
            (Self::UsCustomary, Some(unit)) if customary(unit).is_some() => {
                let shown = self.of(unit);
                let [low, high] = [range.lowest, range.highest]
                    .map(|end| digits::converted(&end.to_string(), unit, shown, 3));
                format!("{low} to {high} {}", shown.symbol)
            }
            _ => range.in_words(),
        }
    }
}

/// How texts, headings and numbers of a survey are shown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shown {
    units: Units,
    dates: DateWay,
    /// What people wrote in the survey that holds a metric size or a date: it stays as they wrote
    /// it.
    kept: Vec<String>,
}

impl Shown {
    /// In these units, for texts about this survey.
    #[must_use]
    pub fn new(units: Units, survey: &Survey) -> Self {
        Self::written(units, DateWay::default(), survey)
    }

    /// In these units and with dates written so, for texts about this survey.
    #[must_use]
    pub fn written(units: Units, dates: DateWay, survey: &Survey) -> Self {
        let mut shown = Self::of(units, dates);
        if !shown.changes_nothing() {
            shown.kept = kept::of(survey);
        }
        shown
    }

    /// In these units, for texts that are about no survey.
    #[must_use]
    pub fn of(units: Units, dates: DateWay) -> Self {
        Self {
            units,
            dates,
            kept: Vec::new(),
        }
    }

    /// How dates are written.
    #[must_use]
    pub fn dates(&self) -> DateWay {
        self.dates
    }

    /// The system of units.
    #[must_use]
    pub fn units(&self) -> Units {
        self.units
    }

    /// Whether texts are shown as they are.
    #[must_use]
    pub fn changes_nothing(&self) -> bool {
        self.units == Units::Metric && self.dates == DateWay::YearMonthDay
    }

    /// A text, its sizes in the units chosen.
    ///
    /// ```
    /// use gapledger::assess::shown::{Shown, Units};
    /// use gapledger::survey::{Survey, VehicleKind};
    /// let us = Shown::new(Units::UsCustomary, &Survey::new(VehicleKind::Other));
    /// assert_eq!(us.text("held at 20 °C, 600 × 3 mm"), "held at 68 °F, 23.6 × 0.118 in");
    /// ```
    #[must_use]
    pub fn text<'a>(&self, text: &'a str) -> Cow<'a, str> {
        if self.changes_nothing() {
            return Cow::Borrowed(text);
        }
        match self.kept_in(text) {
            None => self.rewritten(text),
            Some((at, end)) => {
                let (before, after) = (text.get(..at), text.get(end..));
                let mut out = self.text(before.unwrap_or_default()).into_owned();
                out.push_str(text.get(at..end).unwrap_or_default());
                out.push_str(&self.text(after.unwrap_or_default()));
                Cow::Owned(out)
            }
        }
    }

    fn rewritten<'a>(&self, text: &'a str) -> Cow<'a, str> {
        let sized = match self.units {
            Units::Metric => Cow::Borrowed(text),
            Units::UsCustomary => text::rewritten(text),
        };
        match sized {
            Cow::Borrowed(text) => dates::written(text, self.dates),
            Cow::Owned(text) => Cow::Owned(dates::written(&text, self.dates).into_owned()),
        }
    }

    /// A heading or a label that may end in a unit of its own, and that unit, so that the numbers
    /// under it are shown alike.
    #[must_use]
    pub fn head<'a>(&self, text: &'a str) -> (Cow<'a, str>, Option<&'static Unit>) {
        if self.units == Units::Metric || self.kept_in(text).is_some() {
            return (self.text(text), None);
        }
        match cell::unit_in(text) {
            None => (self.text(text), None),
            Some((at, unit)) => {
                let (before, rest) = text.split_at_checked(at).unwrap_or((text, ""));
                let after = rest.get(unit.symbol.len()..).unwrap_or_default();
                let symbol = self.units.of(unit).symbol;
                let head = format!("{}{symbol}{after}", self.text(before));
                (Cow::Owned(head), Some(unit))
            }
        }
    }

    /// What stands in a cell under a heading of this unit.
    #[must_use]
    pub fn cell<'a>(&self, text: &'a str, unit: Option<&'static Unit>) -> Cow<'a, str> {
        match unit {
            Some(unit) if self.units != Units::Metric && self.kept_in(text).is_none() => {
                cell::numbers(text, unit, self.units.of(unit))
            }
            _ => self.text(text),
        }
    }

    /// Where something stands in a text that a person wrote.
    fn kept_in(&self, text: &str) -> Option<(usize, usize)> {
        let found = self.kept.iter().filter_map(|kept| {
            let at = text.find(kept.as_str())?;
            Some((at, at + kept.len()))
        });
        found.min()
    }

    /// The help of a field in these units.
    #[must_use]
    pub fn help(&self, field: Field) -> Cow<'static, str> {
        self.text(field.help())
    }
}
