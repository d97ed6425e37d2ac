//! Workings: how a headline number came about, for the reader who will not trust a bare one.

mod air;
mod decisions;
mod drying;
mod heat;
mod leakage;

pub use decisions::{ranking_working, uncertainty_working};
pub use drying::drying_working;

use super::answer::{Assessment, NotKnown, Source, Working};
use super::mark::Mark;
use super::quantity::{Kind, NO_BREAK};
use super::topic::Topic;
use super::words::{figure, given};
use crate::physics::units::{LITRES_PER_DAY, SECONDS_PER_HOUR};
use crate::survey::Survey;

/// The working of a result; `None` where the survey holds no such gap, case or element, and for
/// what is worked out beside the assessment, which [`drying_working`], [`uncertainty_working`] and
/// [`ranking_working`] explain.
#[must_use]
pub fn working(survey: &Survey, assessment: &Assessment, topic: Topic) -> Option<Working> {
    match topic {
        Topic::Volume => Some(leakage::volume(survey, assessment)),
        Topic::Gap(id) => leakage::gap(survey, assessment, id),
        Topic::LeakageArea => Some(leakage::area(survey, assessment)),
        Topic::Exponent => Some(leakage::exponent(assessment)),
        Topic::AirChange(id) => air::air_change(survey, assessment, id),
        Topic::CrossCheck(id) => air::cross_check(survey, assessment, id),
        Topic::Removal(id) => heat::removal(survey, assessment, id),
        Topic::Heat(id) => heat::set_temperature(assessment, id),
        Topic::FrostGuard(id) => heat::frost_guard(assessment, id),
        Topic::FabricElement(id) => heat::element(survey, id),
        Topic::SafetyVentilation => Some(leakage::safety(survey, assessment)),
        Topic::Drying(_) | Topic::Uncertainty | Topic::Ranking => None,
    }
}

/// Puts a working together line by line.
struct Sheet(Working);

impl Sheet {
    fn new(title: impl Into<String>, formula: &str) -> Self {
        Self(Working {
            title: title.into(),
            formula: formula.to_owned(),
            inputs: Vec::new(),
            result: String::new(),
            sources: Vec::new(),
            notes: Vec::new(),
        })
    }

    fn input(&mut self, name: &str, value: impl Into<String>) -> &mut Self {
        self.0.inputs.push((name.to_owned(), value.into()));
        self
    }

    fn number(&mut self, name: &str, value: f64, digits: i32, unit: &str) -> &mut Self {
        self.input(name, with_unit(value, digits, unit))
    }

    /// A flow of air, from kg/s.
    fn kg_per_h(&mut self, name: &str, kg_s: f64) -> &mut Self {
        self.number(name, kg_s * SECONDS_PER_HOUR, 3, "kg/h")
    }

    /// A flow of water, from kg/s.
    fn litres_per_day(&mut self, name: &str, kg_s: f64) -> &mut Self {
        self.number(name, kg_s * LITRES_PER_DAY, 3, "L/day")
    }

    fn percent(&mut self, name: &str, share: f64) -> &mut Self {
        self.input(name, percent(share))
    }

    /// A number as it was typed in.
    fn typed(&mut self, name: &str, value: f64, unit: &str) -> &mut Self {
        self.input(name, spaced(&given(value), unit))
    }

    fn source(&mut self, mark: Mark, text: &str) -> &mut Self {
        self.0.sources.push(Source {
            mark,
            text: text.to_owned(),
        });
        self
    }

    /// Read in the source itself.
    fn read(&mut self, text: &str) -> &mut Self {
        self.source(Mark::Read, text)
    }

    /// Relayed by another text.
    fn relayed(&mut self, text: &str) -> &mut Self {
        self.source(Mark::Relayed, text)
    }

    fn memory(&mut self, text: &str) -> &mut Self {
        self.source(Mark::Memory, text)
    }

    fn computed(&mut self, text: &str) -> &mut Self {
        self.source(Mark::Computed, text)
    }

    fn assumed(&mut self, text: &str) -> &mut Self {
        self.source(Mark::Assumption, text)
    }

    fn note(&mut self, text: impl Into<String>) -> &mut Self {
        self.0.notes.push(text.into());
        self
    }

    fn result(&mut self, text: impl Into<String>) -> &mut Self {
        self.0.result = text.into();
        self
    }

    /// No result, and why.
    fn unknown(&mut self, reason: &NotKnown) {
        self.result(not_known(reason));
    }

    fn finish(&mut self) -> Working {
        self.0.clone()
    }
}

fn with_unit(value: f64, digits: i32, unit: &str) -> String {
    spaced(&figure(value, digits), unit)
}

fn percent(share: f64) -> String {
    with_unit(share * 100.0, 3, "%")
}

/// A number and its unit, which stay on one line.
fn spaced(number: &str, unit: &str) -> String {
    match unit {
        "" => number.to_owned(),
        unit => format!("{number}{NO_BREAK}{unit}"),
    }
}

/// A temperature that was worked out.
fn celsius(temperature_c: f64) -> String {
    Kind::Celsius.text(temperature_c)
}

fn not_known(reason: &NotKnown) -> String {
    reason.to_string()
}
