//! Format 2: machines, heaters and fans.

use super::super::stored::{Number, Text, list, numbered, record};
use super::super::v1::equipment::{FanDirection, HeaterFuel, MachineKind, MachinePoint};
use super::super::v1::ids::{FanId, HeaterId, MachineId, SpaceId};

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
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tub_l: Option<Number>,
        #[serde(default = "yes")]
        hygrostat: bool,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        points: Vec<MachinePoint>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        price: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        upkeep_per_month: Option<Number>,
        #[serde(default)]
        owned: bool,
    }
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
        #[serde(default, skip_serializing_if = "Option::is_none")]
        price: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        upkeep_per_month: Option<Number>,
        #[serde(default)]
        owned: bool,
    }
}

fn yes() -> bool {
    true
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
        #[serde(default, skip_serializing_if = "Option::is_none")]
        most_pressure_pa: Option<Number>,
        on_laid_up: bool,
        on_in_use: bool,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        space: Option<SpaceId>,
    }
}

numbered!(Machine = "machine", Heater = "heater", Fan = "fan");
