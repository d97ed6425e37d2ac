//! Format 2: the vehicle and its appliances, and where it stands.

use super::super::stored::{Number, Text, numbered, record, words};
use super::super::v1::ids::ApplianceId;
use super::super::v1::site::{ApplianceKind, Shelter, Terrain, VehicleKind};

words! {
    /// Code of practice for fixed ventilation.
    CodeOfPractice {
        En721 = "en_721",
        AsNzs5601 = "as_nzs_5601_2",
    }
    /// Which set of pressure coefficients.
    PressureSet {
        LowRise = "low_rise",
        WallAverage = "wall_average",
        VehicleBody = "vehicle_body",
    }
    /// How the space under the floor stands to the wind.
    Underside {
        Open = "open",
        ClosedOneSide = "closed_one_side",
        SkirtedLeaking = "skirted_leaking",
        SkirtedTight = "skirted_tight",
    }
}

record! {
    /// Size and kind of the vehicle.
    Vehicle {
        kind: VehicleKind,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        length_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        width_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        height_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        floor_height_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside_length_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside_width_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside_height_m: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        volume_m3: Option<Number>,
        #[serde(default = "Underside::open")]
        underside: Underside,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        skirt_free_area_mm2: Option<Number>,
        #[serde(default)]
        underfloor_by_place: bool,
        #[serde(default = "two")]
        berths: u32,
        #[serde(default = "CodeOfPractice::usual")]
        code_of_practice: CodeOfPractice,
    }
}

impl Underside {
    fn open() -> Self {
        Self::Open
    }
}

fn two() -> u32 {
    2
}

impl CodeOfPractice {
    fn usual() -> Self {
        Self::En721
    }
}

record! {
    /// An appliance that burns something inside.
    Appliance {
        id: ApplianceId,
        kind: ApplianceKind,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        room_sealed: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        input_mj_per_h: Option<Number>,
    }
}

record! {
    /// Where the vehicle stands.
    #[serde(default)]
    Site {
        terrain: Terrain,
        shelter: Shelter,
        pressure_set: PressureSet,
        #[serde(skip_serializing_if = "Option::is_none")]
        heading_deg: Option<Number>,
        altitude_m: Number,
        #[serde(skip_serializing_if = "Option::is_none")]
        prevailing_wind_deg: Option<Number>,
    }
}

impl Default for Site {
    fn default() -> Self {
        Self {
            terrain: Terrain::ScatteredWindbreaks,
            shelter: Shelter::PartSheltered,
            pressure_set: PressureSet::LowRise,
            heading_deg: None,
            altitude_m: Number(0.0),
            prevailing_wind_deg: None,
        }
    }
}

numbered!(Appliance = "appliance");
