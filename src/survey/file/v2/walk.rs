//! Format 2: what came of the usual places on the walk round.

use super::super::stored::{Entry, Text, record, words};
use super::super::v1::ids::GapId;

words! {
    /// What came of looking at a place.
    Outcome {
        Found = "found",
        Nothing = "nothing",
        NotReached = "not_reached",
    }
}

record! {
    /// What came of one place.
    Visit {
        station: Text,
        place: Text,
        outcome: Outcome,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        gaps: Vec<GapId>,
    }
}

impl Entry for Visit {
    const WORD: &'static str = "place of the walk round";
}
