//! From the structs of format 1 to those of format 2.

use super::super::stored::{Number, PhotoName, Text};
use super::equipment::{FanDirection, HeaterFuel, MachineKind, MachinePoint, MoistureSource};
use super::fabric::FabricElement;
use super::gap::{
    Behind, Certainty, Closing, CostBasis, Facing, Form, LeadsTo, PhotoMark, Position, WorkState,
    Zone,
};
use super::ids::{ApplianceId, FanId, GapId, HeaterId, MachineId, SpaceId, WeatherId, ZoneId};
use super::site::{
    ApplianceKind, Drying, Header, SetUp, Shelter, Targets, Terrain, VehicleKind, WeatherCase,
};
use super::space::{InnerOpening, Space};

/// What stands in format 2 for a value of format 1. Nothing is lost.
pub(super) trait Later {
    /// The type of format 2.
    type Later;
    /// The value of format 2.
    fn later(self) -> Self::Later;
}

impl<T: Later> Later for Option<T> {
    type Later = Option<T::Later>;
    fn later(self) -> Self::Later {
        self.map(T::later)
    }
}

impl<T: Later> Later for Vec<T> {
    type Later = Vec<T::Later>;
    fn later(self) -> Self::Later {
        self.into_iter().map(T::later).collect()
    }
}

/// What format 2 takes over from format 1 as it is.
macro_rules! unchanged {
    ($($kind:ty),+ $(,)?) => {$(
        impl Later for $kind {
            type Later = Self;
            fn later(self) -> Self {
                self
            }
        }
    )+};
}

unchanged!(
    bool,
    u32,
    Number,
    Text,
    ApplianceId,
    FanId,
    GapId,
    HeaterId,
    MachineId,
    SpaceId,
    WeatherId,
    ZoneId,
    ApplianceKind,
    Behind,
    Certainty,
    Closing,
    CostBasis,
    Drying,
    FabricElement,
    Facing,
    FanDirection,
    Form,
    Header,
    HeaterFuel,
    InnerOpening,
    LeadsTo,
    MachineKind,
    MachinePoint,
    MoistureSource,
    PhotoMark,
    PhotoName,
    Position,
    SetUp,
    Shelter,
    Space,
    Targets,
    Terrain,
    VehicleKind,
    WeatherCase,
    WorkState,
    Zone,
);

/// A struct that is only read: each of its fields becomes the field of format 2 of the same name,
/// and what format 2 has besides gets the value that stands after `new`, which is what a survey
/// of format 1 meant.
macro_rules! replaced {
    (
        $(#[$meta:meta])*
        $name:ident { $($(#[$field_meta:meta])* $field:ident: $kind:ty,)+ }
        $(new { $($new:ident: $value:expr,)+ })?
    ) => {
        #[derive(serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        $(#[$meta])*
        pub(super) struct $name {
            $($(#[$field_meta])* $field: $kind,)+
        }

        impl Later for $name {
            type Later = v2::$name;
            fn later(self) -> v2::$name {
                v2::$name {
                    $($field: self.$field.later(),)+
                    $($($new: $value,)+)?
                }
            }
        }
    };
}

/// Words that are only read: each becomes the word of format 2 of the same name.
macro_rules! replaced_words {
    ($($(#[$meta:meta])* $name:ident { $($variant:ident = $word:literal,)+ })+) => {$(
        $(#[$meta])*
        #[derive(Clone, Copy, serde::Deserialize)]
        pub(super) enum $name {
            $(#[serde(rename = $word)] $variant,)+
        }

        impl Later for $name {
            type Later = v2::$name;
            fn later(self) -> v2::$name {
                match self {
                    $(Self::$variant => v2::$name::$variant,)+
                }
            }
        }
    )+};
}

pub(super) use {replaced, replaced_words};
