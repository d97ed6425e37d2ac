//! What is covered for a fan test, told of the survey as a whole.

use super::Survey;
use super::fan_test::{Covered, FanTest};
use super::ids::FanTestId;

impl Survey {
    /// The fan test with this id.
    #[must_use]
    pub fn fan_test(&self, id: FanTestId) -> Option<&FanTest> {
        self.fan_tests.iter().find(|test| test.id == id)
    }

    /// Whether anything is still covered that was covered for a test.
    #[must_use]
    pub fn is_anything_covered(&self) -> bool {
        let mut tests = self.fan_tests.iter();
        tests.any(|test| test.still_covered().next().is_some())
    }

    /// An opening covered for a test, in words: its gap with number and name, or the words given.
    #[must_use]
    pub fn covered_in_words(&self, covered: &Covered) -> String {
        let what = covered.what.trim();
        match covered.gap {
            Some(id) => {
                let name = self.gap(id).map_or(what, |gap| gap.name.trim());
                let name = if name.is_empty() { what } else { name };
                if name.is_empty() {
                    format!("gap {id}")
                } else {
                    format!("gap {id} \u{201c}{name}\u{201d}")
                }
            }
            None if what.is_empty() => "an opening without a name".to_owned(),
            None => format!("\u{201c}{what}\u{201d}"),
        }
    }
}
