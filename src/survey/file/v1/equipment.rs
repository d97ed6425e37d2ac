//! Format 1: moisture sources, and what machines, heaters and fans are made of.

use super::super::stored::{Entry, Number, Text, numbered, record, words};
use super::ids::SourceId;

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

numbered!(MoistureSource = "moisture source");
