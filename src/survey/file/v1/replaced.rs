//! Records and words of format 1 that format 2 writes otherwise: they are only read, and become
//! those of format 2.

use super::super::stored::{Entry, MOST_GAP_ENTRIES, Number, PhotoName, Text, list, numbered};
use super::super::v2;
use super::equipment::{FanDirection, HeaterFuel, MachineKind, MachinePoint};
use super::gap::{
    Behind, Certainty, Closing, CostBasis, Facing, Form, LeadsTo, PhotoMark, Position, WorkState,
};
use super::ids::{ApplianceId, FanId, GapId, HeaterId, MachineId, SpaceId, ZoneId};
use super::later::{Later, replaced, replaced_words};
use super::site::{ApplianceKind, Shelter, Terrain, VehicleKind};

replaced_words! {
    /// Which set of pressure coefficients.
    PressureSet {
        LowRise = "low_rise",
        WallAverage = "wall_average",
    }
    /// The material of a remedy.
    RemedyKind {
        Strip = "strip",
        Brush = "brush",
        Sealant = "sealant",
        Grommet = "grommet",
        CoverPlate = "cover_plate",
        Curtain = "curtain",
        Own = "own",
    }
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

/// Size and kind of the vehicle.
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Vehicle {
    kind: VehicleKind,
    #[serde(default)]
    length_m: Option<Number>,
    #[serde(default)]
    width_m: Option<Number>,
    #[serde(default)]
    height_m: Option<Number>,
    #[serde(default)]
    floor_height_m: Option<Number>,
    #[serde(default)]
    inside_length_m: Option<Number>,
    #[serde(default)]
    inside_width_m: Option<Number>,
    #[serde(default)]
    inside_height_m: Option<Number>,
    #[serde(default)]
    volume_m3: Option<Number>,
    #[serde(default)]
    skirted: bool,
    #[serde(default = "two")]
    berths: u32,
}

impl Later for Vehicle {
    type Later = v2::Vehicle;
    fn later(self) -> v2::Vehicle {
        v2::Vehicle {
            kind: self.kind,
            length_m: self.length_m,
            width_m: self.width_m,
            height_m: self.height_m,
            floor_height_m: self.floor_height_m,
            inside_length_m: self.inside_length_m,
            inside_width_m: self.inside_width_m,
            inside_height_m: self.inside_height_m,
            volume_m3: self.volume_m3,
            underside: if self.skirted {
                v2::Underside::SkirtedLeaking
            } else {
                v2::Underside::Open
            },
            skirt_free_area_mm2: None,
            underfloor_by_place: false,
            berths: self.berths,
            code_of_practice: v2::CodeOfPractice::En721,
        }
    }
}

fn two() -> u32 {
    2
}

replaced! {
    /// An appliance that burns something inside.
    Appliance {
        id: ApplianceId,
        kind: ApplianceKind,
        #[serde(default)]
        name: Text,
        room_sealed: bool,
    }
    new { input_mj_per_h: None, }
}

replaced! {
    /// Where the vehicle stands.
    #[serde(default)]
    Site {
        terrain: Terrain,
        shelter: Shelter,
        pressure_set: PressureSet,
        heading_deg: Option<Number>,
        altitude_m: Number,
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

replaced! {
    /// How a gap would be sealed.
    Remedy {
        kind: RemedyKind,
        #[serde(default)]
        words: Text,
        #[serde(default)]
        leak_left_percent: Option<Number>,
        #[serde(default)]
        material_cost: Option<Number>,
        #[serde(default = "CostBasis::piece")]
        cost_basis: CostBasis,
        #[serde(default)]
        minutes: Option<Number>,
    }
}

replaced! {
    /// One leakage point, or several alike.
    Gap {
        id: GapId,
        zone: ZoneId,
        #[serde(default)]
        name: Text,
        facing: Facing,
        #[serde(default)]
        cavity_pressure_coefficient: Option<Number>,
        form: Form,
        #[serde(default = "one")]
        count: u32,
        #[serde(default)]
        position: Position,
        #[serde(default = "Purpose::unintended")]
        purpose: Purpose,
        #[serde(default)]
        closing: Option<Closing>,
        #[serde(default = "LeadsTo::living_space")]
        leads_to: LeadsTo,
        #[serde(default)]
        behind: Option<Behind>,
        #[serde(default)]
        space: Option<SpaceId>,
        #[serde(default = "Certainty::estimated")]
        certainty: Certainty,
        #[serde(default, deserialize_with = "list")]
        photos: Vec<Photo>,
        #[serde(default)]
        damp: Text,
        #[serde(default)]
        note: Text,
        #[serde(default)]
        remedy: Option<Remedy>,
        #[serde(default = "WorkState::open")]
        state: WorkState,
        #[serde(default)]
        state_date: Text,
    }
    // It keeps what it says, and is asked what it never said.
    new {
        part: v2::GapPart::NotSaid,
        purpose_confirmed: false,
        purpose_was: None,
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

replaced! {
    /// A photo with its marks.
    Photo {
        name: PhotoName,
        #[serde(default)]
        caption: Text,
        #[serde(default, deserialize_with = "list")]
        marks: Vec<PhotoMark>,
    }
    new { after_work: false, }
}

replaced! {
    /// What energy and work cost.
    #[serde(default)]
    Tariffs {
        currency: Text,
        electricity_per_kwh: Option<Number>,
        gas_per_kg: Option<Number>,
        liquid_fuel_per_l: Option<Number>,
        workshop_per_hour: Option<Number>,
        tax_percent: Option<Number>,
    }
    new { material_tax_percent: None, }
}

impl Default for Tariffs {
    fn default() -> Self {
        Self {
            currency: Text(String::from("EUR")),
            electricity_per_kwh: None,
            gas_per_kg: None,
            liquid_fuel_per_l: None,
            workshop_per_hour: None,
            tax_percent: None,
        }
    }
}

impl Entry for Photo {
    const WORD: &'static str = "photo";
}

replaced! {
    /// A drying machine.
    Machine {
        id: MachineId,
        #[serde(default)]
        name: Text,
        kind: MachineKind,
        #[serde(default)]
        rated_removal_l_per_day: Option<Number>,
        #[serde(default)]
        rated_temperature_c: Option<Number>,
        #[serde(default)]
        rated_rh_percent: Option<Number>,
        #[serde(default)]
        power_w: Option<Number>,
        #[serde(default)]
        airflow_m3_per_h: Option<Number>,
        #[serde(default)]
        lowest_room_c: Option<Number>,
        #[serde(default)]
        tub_area_m2: Option<Number>,
        #[serde(default = "yes")]
        hygrostat: bool,
        #[serde(default, deserialize_with = "list")]
        points: Vec<MachinePoint>,
    }
    new {
        tub_l: None,
        price: None,
        upkeep_per_month: None,
        owned: false,
    }
}

fn yes() -> bool {
    true
}

replaced! {
    /// A heater.
    Heater {
        id: HeaterId,
        #[serde(default)]
        name: Text,
        fuel: HeaterFuel,
        #[serde(default)]
        rating_w: Option<Number>,
        #[serde(default)]
        set_point_c: Option<Number>,
    }
    new {
        price: None,
        upkeep_per_month: None,
        owned: false,
    }
}

replaced! {
    /// A fan between inside and outside.
    Fan {
        id: FanId,
        #[serde(default)]
        name: Text,
        direction: FanDirection,
        #[serde(default)]
        flow_m3_per_h: Option<Number>,
        on_laid_up: bool,
        on_in_use: bool,
        #[serde(default)]
        space: Option<SpaceId>,
    }
    new { most_pressure_pa: None, }
}

numbered!(
    Appliance = "appliance",
    Machine = "machine",
    Heater = "heater",
    Fan = "fan",
);

impl Entry for Gap {
    const WORD: &'static str = "gap";
    const MOST: usize = MOST_GAP_ENTRIES;
    fn number(&self) -> Option<u32> {
        Some(self.id.0)
    }
}
