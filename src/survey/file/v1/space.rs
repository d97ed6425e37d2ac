//! Format 1: spaces inside and the openings between them.

use super::super::stored::{Number, Text, numbered, record};
use super::gap::{Certainty, Closing, Form};
use super::ids::{InnerOpeningId, SpaceId};

record! {
    /// A space inside the vehicle.
    Space {
        id: SpaceId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        volume_m3: Option<Number>,
        #[serde(default = "as_warm")]
        warmer_by_k: Number,
    }
}

fn as_warm() -> Number {
    Number(0.0)
}

record! {
    /// An opening between two spaces.
    InnerOpening {
        id: InnerOpeningId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        from: SpaceId,
        to: SpaceId,
        form: Form,
        #[serde(default = "one")]
        count: u32,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        height_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rise_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        closing: Option<Closing>,
        #[serde(default = "Certainty::estimated")]
        certainty: Certainty,
    }
}

fn one() -> u32 {
    1
}

numbered!(Space = "space", InnerOpening = "inner opening");
