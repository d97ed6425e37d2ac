//! The catalogue of fields: every number, choice and text of a survey, told once.
//!
//! Findings, the window's fields with their help, the tables of the ledger and the page on the
//! file format read it. The ranges are assumptions of this project \[A\]: wide enough for any
//! leisure vehicle on a road. A number outside its range is an error at its field, and whatever
//! depends on it is *not known*.

mod air_test;
mod entry;
mod equipment;
mod fabric;
mod gap;
mod job;
mod measured;
mod stay;
mod trial;
mod vehicle;
mod weather;

use super::number::given;
use entry::Entry;
pub use entry::{Field, Range};

const PARTS: [&[Entry]; 10] = [
    vehicle::FIELDS,
    job::FIELDS,
    weather::FIELDS,
    stay::FIELDS,
    gap::FIELDS,
    fabric::FIELDS,
    equipment::FIELDS,
    measured::FIELDS,
    air_test::FIELDS,
    trial::FIELDS,
];

const COUNT: usize = Field::TrialNote as usize + 1;

/// The whole catalogue: each entry at the place of its field.
const CATALOGUE: &[Entry; COUNT] = &catalogue();

#[expect(
    clippy::indexing_slicing,
    reason = "it runs while compiling: an entry missing, twice or out of order is a compile error"
)]
const fn catalogue() -> [Entry; COUNT] {
    let mut all = [vehicle::FIELDS[0]; COUNT];
    let mut filled = 0;
    let mut part = 0;
    while part < PARTS.len() {
        let mut at = 0;
        while at < PARTS[part].len() {
            let entry = PARTS[part][at];
            assert!(entry.field as usize == filled, "an entry is out of order");
            all[filled] = entry;
            filled += 1;
            at += 1;
        }
        part += 1;
    }
    assert!(filled == COUNT, "a field has no entry");
    all
}

impl Field {
    /// Every field, in the order of the catalogue.
    pub fn all() -> impl Iterator<Item = Self> {
        CATALOGUE.iter().map(|entry| entry.field)
    }

    #[expect(
        clippy::indexing_slicing,
        reason = "the compiler has put the entry of each field at its place"
    )]
    const fn entry(self) -> &'static Entry {
        &CATALOGUE[self as usize]
    }

    /// Its name in the findings of the JSON; the same as in the survey file unless the file tells
    /// it from others by the record around it.
    #[must_use]
    pub const fn key(self) -> &'static str {
        self.entry().key
    }

    /// Its name in the survey file.
    #[must_use]
    pub const fn file_key(self) -> &'static str {
        self.entry().file_key
    }

    /// Its label in a form.
    #[must_use]
    pub const fn label(self) -> &'static str {
        self.entry().label
    }

    /// Words for it in a sentence, as a person would say them.
    #[must_use]
    pub const fn words(self) -> &'static str {
        self.entry().words
    }

    /// Its range, where it is a number.
    #[must_use]
    pub const fn range(self) -> Option<&'static Range> {
        self.entry().range.as_ref()
    }

    /// Its unit, as shown behind the number; empty for plain numbers, choices and texts.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self.range() {
            Some(range) => range.unit,
            None => "",
        }
    }

    /// Whether the field may hold this number.
    #[must_use]
    pub fn allows(self, value: f64) -> bool {
        self.range().is_none_or(|range| range.allows(value))
    }

    /// Why it cannot hold this number, as a sentence, where it cannot.
    #[must_use]
    pub fn impossible(self, value: f64) -> Option<String> {
        let range = self.range().filter(|range| !range.allows(value))?;
        let words = format!("{} is {} {}", self.words(), given(value), range.unit);
        Some(format!("{}, which is not possible", words.trim_end()))
    }

    /// What is taken while it is empty, or what might stand there; empty where nothing is.
    #[must_use]
    pub const fn when_empty(self) -> &'static str {
        self.entry().empty
    }

    /// Over how many lines it is written, where it is a text.
    #[must_use]
    pub const fn rows(self) -> usize {
        self.entry().rows
    }

    /// Whether it is a direction: a point of the compass, or degrees clockwise from north.
    #[must_use]
    pub const fn is_direction(self) -> bool {
        self.entry().direction
    }

    /// Whether it is a day, which the survey holds year first.
    #[must_use]
    pub const fn is_date(self) -> bool {
        matches!(
            self,
            Self::Date
                | Self::StateDate
                | Self::QuotationDate
                | Self::ValidUntil
                | Self::OrderDate
                | Self::InvoiceDate
                | Self::PayBy
                | Self::FanTestDate
                | Self::AirTestDate
        )
    }

    /// Whether it says where on the body something is: no gap is where its range ends.
    #[must_use]
    pub const fn is_place(self) -> bool {
        matches!(
            self,
            Self::Along | Self::Across | Self::MiddleHeight | Self::Rise
        )
    }

    /// What to enter, and how to measure it on site.
    #[must_use]
    pub const fn help(self) -> &'static str {
        self.entry().help
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_is_told_once_and_has_its_help() {
        for (at, entry) in CATALOGUE.iter().enumerate() {
            let Entry { key, label, .. } = *entry;
            assert!(!key.is_empty() && !label.is_empty());
            assert!(entry.help.ends_with('.'), "{key} {label}");
            assert!((20..260).contains(&entry.help.len()), "{key} {label}");
            let same = |other: &Entry| (other.key, other.label) == (key, label);
            assert!(!CATALOGUE[..at].iter().any(same), "{key} {label}");
        }
    }

    #[test]
    fn a_range_holds_its_ends_and_nothing_that_is_not_a_number() {
        for field in Field::all() {
            let Some(range) = field.range() else { continue };
            assert!(range.lowest < range.highest, "{field:?}");
            assert!(range.allows(range.lowest) && range.allows(range.highest));
            assert!(!range.allows(f64::NAN) && !range.allows(f64::INFINITY));
        }
    }

    #[test]
    fn a_direction_is_in_degrees_and_only_a_text_has_several_lines() {
        for field in Field::all() {
            assert!(!field.is_direction() || field.unit() == "°", "{field:?}");
            assert!(field.rows() == 1 || field.range().is_none(), "{field:?}");
        }
        assert!(Field::Heading.is_direction() && !Field::Rise.is_direction());
        assert_eq!(Field::GapNote.rows(), 3);
        assert_eq!(Field::Volume.when_empty(), "by sizes");
    }
}
