//! A small generic library: sizes, not makers. Every figure is an assumption of this project
//! **\[A\]**, near the middle of what such machines are sold with. So are the prices, invented ones in
//! the survey's currency, whatever that is.

use crate::survey::{Heater, HeaterFuel, HeaterId, Machine, MachineId, MachineKind};

/// Id of a machine or heater that is not in the survey.
const NONE: u32 = 0;

/// The generic machine of a kind.
#[must_use]
pub fn machine(kind: MachineKind) -> Machine {
    let none = Machine::new(MachineId(NONE), kind);
    match kind {
        MachineKind::SaltTub => Machine {
            name: "salt tub, 0.02 m²".to_owned(),
            tub_area_m2: Some(0.02),
            tub_l: Some(2.0),
            price: Some(10.0),
            // A kilogram of salt or so.
            upkeep_per_month: Some(4.0),
            hygrostat: false,
            ..none
        },
        MachineKind::Thermoelectric => Machine {
            name: "thermoelectric unit, 60 W".to_owned(),
            rated_removal_l_per_day: Some(0.5),
            rated_temperature_c: Some(30.0),
            rated_rh_percent: Some(80.0),
            power_w: Some(60.0),
            airflow_m3_per_h: Some(25.0),
            price: Some(60.0),
            ..none
        },
        MachineKind::DesiccantRotor => Machine {
            name: "small desiccant rotor, 330 W".to_owned(),
            rated_removal_l_per_day: Some(3.5),
            rated_temperature_c: Some(20.0),
            rated_rh_percent: Some(60.0),
            power_w: Some(330.0),
            airflow_m3_per_h: Some(80.0),
            price: Some(190.0),
            ..none
        },
        MachineKind::Compressor => Machine {
            name: "large compressor unit, 280 W".to_owned(),
            rated_removal_l_per_day: Some(14.0),
            rated_temperature_c: Some(30.0),
            rated_rh_percent: Some(80.0),
            power_w: Some(280.0),
            airflow_m3_per_h: Some(200.0),
            price: Some(220.0),
            lowest_room_c: Some(5.0),
            ..none
        },
    }
}

/// The generic background heater: electric, 500 W, on a thermostat at the set temperature, °C.
#[must_use]
pub fn heater(set_temperature_c: f64) -> Heater {
    Heater {
        name: "background heat, 500 W".to_owned(),
        rating_w: Some(500.0),
        set_point_c: Some(set_temperature_c),
        price: Some(40.0),
        ..Heater::new(HeaterId(NONE), HeaterFuel::Electricity)
    }
}

/// State that makers usually rate a kind at: °C, relative humidity. Common practice, no source.
#[must_use]
pub fn rating_state(kind: MachineKind) -> (f64, f64) {
    match kind {
        MachineKind::DesiccantRotor => (20.0, 0.6),
        MachineKind::Compressor | MachineKind::Thermoelectric | MachineKind::SaltTub => (30.0, 0.8),
    }
}

/// The largest size of a kind that makers offer at its rating state, L/day **\[A\]**; `None` for a
/// tub, which has no rating.
#[must_use]
pub fn largest_l_per_day(kind: MachineKind) -> Option<f64> {
    match kind {
        MachineKind::Compressor => Some(70.0),
        MachineKind::DesiccantRotor => Some(20.0),
        MachineKind::Thermoelectric => Some(2.0),
        MachineKind::SaltTub => None,
    }
}
