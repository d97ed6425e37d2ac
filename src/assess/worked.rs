//! How a result came about: formula, what was put in, and sources with their marks.

use super::mark::Mark;

/// One result's working: how it came about, for the reader who will not trust a bare number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Working {
    /// What is worked out.
    pub title: String,
    /// The formula in plain text.
    pub formula: String,
    /// What was put in: name, value with unit.
    pub inputs: Vec<(String, String)>,
    /// What came out, with unit.
    pub result: String,
    /// Where formula and figures come from.
    pub sources: Vec<Source>,
    /// What to keep in mind.
    pub notes: Vec<String>,
}

/// A source with its mark.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// How far the source was seen.
    pub mark: Mark,
    /// The source.
    pub text: String,
}

impl Source {
    /// The source with its mark behind it.
    #[must_use]
    pub fn marked(&self) -> String {
        format!("{} {}", self.text, self.mark.bracketed())
    }
}
