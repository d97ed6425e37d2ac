//! What is told about one field.

/// Help on one field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Help {
    /// Name of the field as in the survey; empty for choices and ticks.
    pub field: &'static str,
    /// Its label; empty where the sentence fits the field under any label.
    pub label: &'static str,
    /// What to enter and how to measure it.
    pub words: &'static str,
}

pub(super) const fn help(field: &'static str, label: &'static str, words: &'static str) -> Help {
    Help {
        field,
        label,
        words,
    }
}
