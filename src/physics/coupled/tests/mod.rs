//! The coupled balance against closed forms, its own books and what the trade sees.

mod books;
mod cold;
mod limits;
mod trade;
mod truths;

use std::convert::Infallible;

use super::{Heater, Inside, Steady};
use crate::physics::air::{MoistAir, STANDARD_PRESSURE};
use crate::physics::machine::{Kind, Machine, MakerPoint};

const DAY: f64 = 86_400.0;

fn air(t_c: f64, rh: f64) -> MoistAir {
    MoistAir::from_relative_humidity(t_c, rh, STANDARD_PRESSURE).expect("a state")
}

fn inside<'a>(outside: MoistAir, fabric: f64) -> Inside<'a> {
    Inside {
        outside,
        fabric,
        vapour_source: 0.0,
        liquid_source: 0.0,
        gains: 0.0,
        heater: None,
        machine: None,
        hygrostat: None,
        surfaces: &[],
    }
}

fn electric(rating: f64, set_point_c: Option<f64>) -> Heater {
    Heater {
        rating,
        set_point_c,
        water_per_joule: 0.0,
    }
}

fn machine(kind: Kind, t_c: f64, rh: f64, litres_per_day: f64, power: f64) -> Machine {
    let rated = MakerPoint {
        t_c,
        rh,
        removal: litres_per_day / DAY,
        power,
    };
    Machine::new(kind, &[rated], None).expect("a machine")
}

/// Solves with the same flow at every temperature.
fn steady(inside: &Inside<'_>, flow: f64) -> Steady {
    super::solve(inside, |_| Ok::<_, Infallible>(flow)).expect("a steady state")
}
