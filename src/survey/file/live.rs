//! The runtime types that the types of this format stand for.

pub(super) use crate::physics::pressure_coefficient::{PressureSet, Underside};
pub(super) use crate::physics::wind::{Shelter, Terrain};
pub(super) use crate::survey::*;
