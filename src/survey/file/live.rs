//! The runtime types that the types of this format stand for.

pub(super) use crate::physics::pressure_coefficient::{PressureSet, Underside};
pub(super) use crate::physics::wind::{Shelter, Terrain};
pub(super) use crate::series::{
    Column as LoggerColumn, DateOrder, Decimal, Encoding, Mapping, Separator, Unit as LoggerUnit,
    What, Zone as LoggerZone,
};
pub(super) use crate::survey::*;
