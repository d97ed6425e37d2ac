//! The inside as more than one space: cab, living space, washroom, garage, and what joins them.

use super::gap::{Certainty, Closing, Form};
use super::ids::{InnerOpeningId, SpaceId};

/// A space inside the vehicle. A survey that lists none, or one, is of a single space.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// Its number.
    pub id: SpaceId,
    /// Its name.
    pub name: String,
    /// Its share of the gross internal volume, m³, where somebody wants its own air change.
    pub volume_m3: Option<f64>,
    /// How much warmer than the first space it is, K; below zero it is colder.
    pub warmer_by_k: f64,
}

/// A way for air between two spaces: a doorway, a curtain, gaps in a bulkhead.
#[derive(Clone, Debug, PartialEq)]
pub struct InnerOpening {
    /// Its number.
    pub id: InnerOpeningId,
    /// Its name.
    pub name: String,
    /// One space it joins.
    pub from: SpaceId,
    /// The other.
    pub to: SpaceId,
    /// Form and sizes of one of them.
    pub form: Form,
    /// How many alike.
    pub count: u32,
    /// Height of its middle above ground, m.
    pub height_m: Option<f64>,
    /// Height that it spans, m: a doorway spans its own height. `None` is flat.
    pub rise_m: Option<f64>,
    /// How it closes, if it does: a curtain, a door.
    pub closing: Option<Closing>,
    /// How its size was found.
    pub certainty: Certainty,
}

impl InnerOpening {
    /// A new opening with nothing measured: one of it, size estimated.
    #[must_use]
    pub fn new(id: InnerOpeningId, from: SpaceId, to: SpaceId, form: Form) -> Self {
        Self {
            id,
            name: String::new(),
            from,
            to,
            form,
            count: 1,
            height_m: None,
            rise_m: None,
            closing: None,
            certainty: Certainty::Estimated,
        }
    }
}
