//! What is drawn on the outside of the vehicle so that it is recognised: windows, doors, vents.
//!
//! Fittings are drawing only. No result depends on them: what counts of a window is in the fabric,
//! and what leaks at it is a gap.

use super::fabric::Outline;
use super::ids::FittingId;

/// What a fitting is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FittingKind {
    /// Window.
    Window,
    /// Rooflight.
    Rooflight,
    /// Door to the living space.
    HabitationDoor,
    /// Sliding door of a van.
    SlidingDoor,
    /// Outer grille of a refrigerator.
    RefrigeratorVent,
    /// Flap of an outside locker or service point.
    LockerFlap,
}

impl FittingKind {
    /// Every kind, in the order offered.
    pub const ALL: [Self; 6] = [
        Self::Window,
        Self::Rooflight,
        Self::HabitationDoor,
        Self::SlidingDoor,
        Self::RefrigeratorVent,
        Self::LockerFlap,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Window => "window",
            Self::Rooflight => "rooflight",
            Self::HabitationDoor => "habitation door",
            Self::SlidingDoor => "sliding door",
            Self::RefrigeratorVent => "refrigerator vent",
            Self::LockerFlap => "locker flap",
        }
    }
}

/// A fitting and where it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitting {
    /// Its number.
    pub id: FittingId,
    /// What it is.
    pub kind: FittingKind,
    /// Its place and size.
    pub outline: Outline,
}
