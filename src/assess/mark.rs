//! How far a source was seen: the letter printed behind it, and what the letter means.

/// How far a source was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Read in the source named.
    Read,
    /// Read in a text that relays the source.
    Relayed,
    /// Stated from memory, not checked against the source.
    Memory,
    /// Common practice in the trade, no source.
    CommonPractice,
    /// Computed by this project.
    Computed,
    /// An assumption of this project.
    Assumption,
}

impl Mark {
    /// All of them, from what was read to what is assumed.
    pub const ALL: [Self; 6] = [
        Self::Read,
        Self::Relayed,
        Self::Memory,
        Self::CommonPractice,
        Self::Computed,
        Self::Assumption,
    ];

    /// The letter printed in brackets.
    #[must_use]
    pub fn letter(self) -> char {
        match self {
            Self::Read => 'S',
            Self::Relayed => 'R',
            Self::Memory => 'M',
            Self::CommonPractice => 'C',
            Self::Computed => 'N',
            Self::Assumption => 'A',
        }
    }

    /// The letter in its brackets, as it stands behind a source.
    #[must_use]
    pub fn bracketed(self) -> String {
        format!("[{}]", self.letter())
    }

    /// What the letter means.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::Relayed => "read in a text that relays the source",
            Self::Memory => "stated from memory, not checked against the source",
            Self::CommonPractice => "common practice, no source",
            Self::Computed => "computed by this project, method and validation written down",
            Self::Assumption => "an assumption of this project",
        }
    }

    /// A text without the marks that stand in it, for readers who look nothing up.
    #[must_use]
    pub fn without(text: &str) -> String {
        let all = Self::ALL.into_iter();
        all.fold(text.to_owned(), |text, mark| {
            text.replace(&format!(" {}", mark.bracketed()), "")
        })
    }

    /// The line that explains all marks, wherever some of them are shown.
    #[must_use]
    pub fn legend() -> String {
        explained(&Self::ALL)
    }

    /// The line that explains those marks that stand in a text; `None` where it has none.
    #[must_use]
    pub fn legend_of(text: &str) -> Option<String> {
        let there = Self::ALL.into_iter();
        let there: Vec<Self> = there
            .filter(|mark| text.contains(&mark.bracketed()))
            .collect();
        (!there.is_empty()).then(|| explained(&there))
    }
}

/// No full stop at its end: some surfaces show it bare.
fn explained(marks: &[Mark]) -> String {
    let each: Vec<String> = marks
        .iter()
        .map(|mark| format!("{} {}", mark.bracketed(), mark.words()))
        .collect();
    format!("Marks behind a source: {}", each.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_marks_of_a_text_are_explained() {
        let text = "a price is this program's suggestion [A], the area is relayed [R]";
        assert_eq!(
            Mark::legend_of(text).as_deref(),
            Some(
                "Marks behind a source: [R] read in a text that relays the source; \
                 [A] an assumption of this project"
            )
        );
        assert_eq!(
            Mark::legend_of("no mark, though a list [1] and an [X]"),
            None
        );
        assert_eq!(
            Mark::without("as relayed [R], a guess [A]. [X]"),
            "as relayed, a guess. [X]"
        );
        for mark in Mark::ALL {
            assert_eq!(Mark::legend().matches(&mark.bracketed()).count(), 1);
        }
    }
}
