//! Format 1: machines, heaters, fans and moisture sources.

use super::ids::{FanId, HeaterId, MachineId, SourceId, SpaceId};
use super::stored::{Entry, Number, Text, list, numbered, record, words};

words! {
    /// How a drying machine works.
    MachineKind {
        Compressor = "compressor",
        DesiccantRotor = "desiccant_rotor",
        Thermoelectric = "thermoelectric",
        SaltTub = "salt_tub",
    }
    /// What a heater burns or draws.
    HeaterFuel {
        Electricity = "electricity",
        FluedGas = "flued_gas",
        UnfluedGas = "unflued_gas",
        LiquidFuel = "liquid_fuel",
    }
    /// Which way a fan moves air.
    FanDirection {
        Extract = "extract",
        Supply = "supply",
    }
    /// What gives off water.
    SourceKind {
        PersonAwake = "person_awake",
        PersonAsleep = "person_asleep",
        Cooking = "cooking",
        Clothes = "clothes",
        UnfluedFlame = "unflued_flame",
        Other = "other",
    }
}

record! {
    /// A further figure of the maker's.
    MachinePoint {
        temperature_c: Number,
        rh_percent: Number,
        removal_l_per_day: Number,
        power_w: Number,
    }
}

impl Entry for MachinePoint {
    const WORD: &'static str = "machine point";
}

record! {
    /// A drying machine.
    Machine {
        id: MachineId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        kind: MachineKind,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rated_removal_l_per_day: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rated_temperature_c: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rated_rh_percent: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        power_w: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        airflow_m3_per_h: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        lowest_room_c: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tub_area_m2: Option<Number>,
        #[serde(default = "yes")]
        hygrostat: bool,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        points: Vec<MachinePoint>,
    }
}

fn yes() -> bool {
    true
}

record! {
    /// A heater.
    Heater {
        id: HeaterId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        fuel: HeaterFuel,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rating_w: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        set_point_c: Option<Number>,
    }
}

record! {
    /// A fan between inside and outside.
    Fan {
        id: FanId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        direction: FanDirection,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        flow_m3_per_h: Option<Number>,
        on_laid_up: bool,
        on_in_use: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        space: Option<SpaceId>,
    }
}

record! {
    /// A source of moisture.
    MoistureSource {
        id: SourceId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        kind: SourceKind,
        #[serde(default = "one")]
        count: u32,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rate_g_per_h: Option<Number>,
        hours_per_day: Number,
        laid_up: bool,
        in_use: bool,
    }
}

fn one() -> u32 {
    1
}

numbered!(
    Machine = "machine",
    Heater = "heater",
    Fan = "fan",
    MoistureSource = "moisture source",
);
