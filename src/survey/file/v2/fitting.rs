//! Format 2: what is drawn on the outside of the vehicle.

use super::super::stored::{Stored, list, numbered, numbers, record, words};
use super::super::v1::fabric::Outline;
use crate::survey::file::live;
use serde::{Deserialize, Serialize};

numbers!(FittingId);

words! {
    /// What a fitting is.
    FittingKind {
        Window = "window",
        Rooflight = "rooflight",
        HabitationDoor = "habitation_door",
        SlidingDoor = "sliding_door",
        RefrigeratorVent = "refrigerator_vent",
        LockerFlap = "locker_flap",
    }
}

record! {
    /// A fitting and where it is drawn.
    Fitting {
        id: FittingId,
        kind: FittingKind,
        outline: Outline,
    }
}

numbered!(Fitting = "fitting");

/// All fittings, where they are not the usual ones.
#[derive(Serialize, Deserialize)]
#[serde(transparent)]
pub(in crate::survey::file) struct Fittings(#[serde(deserialize_with = "list")] Vec<Fitting>);

impl Stored for Fittings {
    type Live = Vec<live::Fitting>;
    fn live(self) -> Self::Live {
        self.0.live()
    }
    fn stored(live: &Self::Live) -> Self {
        Self(Stored::stored(live))
    }
}
