//! The periods of a trial as bands.

use crate::survey::{Survey, Trial};

/// A period as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Its number and what ran: `2: salt tub`.
    pub label: String,
    /// From, s.
    pub from_s: i64,
    /// To, s.
    pub to_s: i64,
    /// The others are held against it.
    pub is_reference: bool,
}

/// The periods of a trial whose ends are known, in its order.
#[must_use]
pub fn bands(survey: &Survey, trial: &Trial) -> Vec<Band> {
    let reference = trial.reference_period().map(|period| period.id);
    let numbered = trial.periods.iter().enumerate();
    let drawn = numbered.filter_map(|(at, period)| {
        let (from_s, to_s) = period.span_s()?;
        Some(Band {
            label: format!("{}: {}", at + 1, survey.ran_in_words(period)),
            from_s,
            to_s,
            is_reference: reference == Some(period.id),
        })
    });
    drawn.collect()
}
