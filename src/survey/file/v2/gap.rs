//! Format 2: gaps.

use super::super::stored::{Entry, MOST_GAP_ENTRIES, Number, Text, list, record, words};
use super::super::v1::gap::{
    Behind, Certainty, Closing, Facing, Form, LeadsTo, Photo, Position, Remedy, WorkState,
};
use super::super::v1::ids::{GapId, SpaceId, ZoneId};

words! {
    /// What the opening is there for.
    Purpose {
        Unintended = "unintended",
        SafetyVentilation = "safety_ventilation",
        GasDropOut = "gas_drop_out",
        ApplianceAir = "appliance_air",
        Drain = "drain",
        UserVentilation = "user_ventilation",
    }
}

record! {
    /// One leakage point, or several alike.
    Gap {
        id: GapId,
        zone: ZoneId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        facing: Facing,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        cavity_pressure_coefficient: Option<Number>,
        form: Form,
        #[serde(default = "one")]
        count: u32,
        #[serde(default, skip_serializing_if = "Position::is_unknown")]
        position: Position,
        #[serde(default = "Purpose::unintended")]
        purpose: Purpose,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        closing: Option<Closing>,
        #[serde(default = "LeadsTo::living_space")]
        leads_to: LeadsTo,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        behind: Option<Behind>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        space: Option<SpaceId>,
        #[serde(default = "Certainty::estimated")]
        certainty: Certainty,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        photos: Vec<Photo>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        damp: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        note: Text,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        remedy: Option<Remedy>,
        #[serde(default = "WorkState::open")]
        state: WorkState,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        state_date: Text,
    }
}

fn one() -> u32 {
    1
}

impl Purpose {
    fn unintended() -> Self {
        Self::Unintended
    }
}

impl Entry for Gap {
    const WORD: &'static str = "gap";
    const MOST: usize = MOST_GAP_ENTRIES;
    fn number(&self) -> Option<u32> {
        Some(self.id.0)
    }
}
