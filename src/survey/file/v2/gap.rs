//! Format 2: gaps.

use super::super::stored::{Entry, MOST_GAP_ENTRIES, Number, PhotoName, Text, list, record, words};
use super::super::v1::gap::{
    Behind, Certainty, Closing, CostBasis, Facing, Form, LeadsTo, PhotoMark, Position, WorkState,
};
use super::super::v1::ids::{GapId, SpaceId, ZoneId};

words! {
    /// What part of the vehicle it is.
    GapPart {
        NotSaid = "not_said",
        FixedJoint = "fixed_joint",
        MovingSeal = "moving_seal",
        Passage = "passage",
        GasPassage = "gas_passage",
        Hole = "hole",
        Grille = "grille",
        Drain = "drain",
        RefrigeratorSurround = "refrigerator_surround",
        Flue = "flue",
        BatteryVent = "battery_vent",
        ToiletVent = "toilet_vent",
    }
    /// The material of a remedy.
    RemedyKind {
        Strip = "strip",
        Brush = "brush",
        Sealant = "sealant",
        Grommet = "grommet",
        CoverPlate = "cover_plate",
        Curtain = "curtain",
        Trap = "trap",
        Own = "own",
    }
    /// What the opening is there for.
    Purpose {
        NotSaid = "not_said",
        Unintended = "unintended",
        SafetyVentilation = "safety_ventilation",
        GasDropOut = "gas_drop_out",
        ApplianceAir = "appliance_air",
        Drain = "drain",
        UserVentilation = "user_ventilation",
    }
}

record! {
    /// A photo with its marks.
    Photo {
        name: PhotoName,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        caption: Text,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        marks: Vec<PhotoMark>,
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        after_work: bool,
    }
}

impl Entry for Photo {
    const WORD: &'static str = "photo";
}

record! {
    /// How a gap would be sealed.
    Remedy {
        kind: RemedyKind,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        words: Text,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        leak_left_percent: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        material_cost: Option<Number>,
        #[serde(default = "CostBasis::piece")]
        cost_basis: CostBasis,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        minutes: Option<Number>,
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
        #[serde(default = "GapPart::not_said")]
        part: GapPart,
        #[serde(default = "Purpose::not_said")]
        purpose: Purpose,
        #[serde(default)]
        purpose_confirmed: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        purpose_was: Option<Purpose>,
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

impl GapPart {
    fn not_said() -> Self {
        Self::NotSaid
    }
}

impl Purpose {
    fn not_said() -> Self {
        Self::NotSaid
    }
}

impl Entry for Gap {
    const WORD: &'static str = "gap";
    const MOST: usize = MOST_GAP_ENTRIES;
    fn number(&self) -> Option<u32> {
        Some(self.id.0)
    }
}
