//! In steady weather the season ends in the state of the steady balance.

use super::super::{Forcing, Heating, STEPS_PER_HOUR, Strategy};
use super::{body, marched, plain};
use crate::physics::coupled::{self, ColdSurface, Heater, Inside};
use crate::physics::machine::{Kind, Machine, MakerPoint};
use std::convert::Infallible;

fn machine(kind: Kind) -> Machine {
    let rated = MakerPoint {
        t_c: if kind == Kind::DesiccantRotor {
            20.0
        } else {
            30.0
        },
        rh: if kind == Kind::DesiccantRotor {
            0.6
        } else {
            0.8
        },
        removal: 10.0 / 86_400.0,
        power: 280.0,
    };
    Machine::new(kind, &[rated], None).expect("a machine")
}

/// Both states for the same vehicle, machine and heater.
fn agree(
    hour: &Forcing,
    machine: Option<&Machine>,
    hygrostat: Option<f64>,
    heating: Option<Heating>,
) {
    let body = body();
    let flow = 0.012;
    let strategy = Strategy {
        machine,
        hygrostat,
        tub: None,
        heating,
    };
    let found = marched(
        &body,
        &vec![hour.clone(); 1500],
        &strategy,
        flow,
        STEPS_PER_HOUR,
    );
    let surfaces: Vec<ColdSurface> = body
        .surfaces
        .iter()
        .zip(&hour.seen_c)
        .map(|(surface, seen_c)| ColdSurface {
            area: surface.area,
            temperature_factor: surface.temperature_factor,
            outside_seen_c: *seen_c,
        })
        .collect();
    let inside = Inside {
        outside: hour.outside,
        fabric: body.fabric,
        vapour_source: hour.vapour_source,
        liquid_source: hour.liquid_source,
        gains: hour.gains,
        heater: heating.map(|heating| Heater {
            rating: heating.rating,
            set_point_c: heating.set_c,
            water_per_joule: heating.water_per_joule,
        }),
        machine,
        hygrostat,
        surfaces: &surfaces,
    };
    let steady = coupled::solve(&inside, |_| Ok::<_, Infallible>(flow)).expect("a state");
    let last = &found.hours[1499];
    let off_t = last.t_c - steady.inside.t_c;
    let off_rh = last.rh - steady.relative_humidity();
    assert!(off_t.abs() < 1e-3, "{} {}", last.t_c, steady.inside.t_c);
    assert!(
        off_rh.abs() < 1e-4,
        "{} {}",
        last.rh,
        steady.relative_humidity()
    );
    assert!((last.removed / 3600.0 - steady.removal).abs() < 1e-8);
    assert!((last.heater - steady.heater_power).abs() < 0.1);
    assert!((last.machine - steady.machine_power).abs() < 0.2);
    let condensed = steady.on_surfaces + steady.condensation;
    assert!((last.condensed / 3600.0 - condensed).abs() < 1e-8);
    if condensed > 1e-7 {
        // What condenses runs off once the surfaces are full.
        assert!(last.run_off > 0.0 && last.run_off <= last.condensed + 1e-12);
    }
}

fn thermostat(set_c: f64, rating: f64, water_per_joule: f64) -> Heating {
    Heating {
        rating,
        set_c: Some(set_c),
        set_present_c: None,
        only_present: false,
        water_per_joule,
    }
}

#[test]
fn nothing_done() {
    agree(&plain(5.0, 0.87), None, None, None);
}

#[test]
fn people_inside_and_surfaces_that_get_wet() {
    let hour = Forcing {
        vapour_source: 80e-3 / 3600.0,
        liquid_source: 60e-3 / 3600.0,
        gains: 150.0,
        ..plain(2.0, 0.9)
    };
    agree(&hour, None, None, None);
    agree(&hour, None, None, Some(thermostat(18.0, 3000.0, 0.0)));
}

#[test]
fn machines_with_and_without_a_hygrostat() {
    for kind in [Kind::Compressor, Kind::Thermoelectric, Kind::DesiccantRotor] {
        for hygrostat in [None, Some(0.6)] {
            agree(&plain(8.0, 0.85), Some(&machine(kind)), hygrostat, None);
        }
    }
}

#[test]
fn a_machine_that_is_too_cold_takes_neither_water_nor_watts() {
    agree(
        &plain(1.0, 0.9),
        Some(&machine(Kind::Compressor)),
        Some(0.6),
        None,
    );
}

#[test]
fn heaters_with_and_without_a_thermostat_and_one_whose_flame_is_inside() {
    let endless = Heating {
        set_c: None,
        ..thermostat(0.0, 280.0, 0.0)
    };
    agree(&plain(3.0, 0.9), None, None, Some(endless));
    agree(
        &plain(-5.0, 0.9),
        None,
        None,
        Some(thermostat(5.0, 400.0, 0.0)),
    );
    agree(
        &plain(-5.0, 0.9),
        None,
        None,
        Some(thermostat(8.0, 2000.0, 3.5e-8)),
    );
}

#[test]
fn heater_and_machine_together() {
    let heating = Some(thermostat(10.0, 1000.0, 0.0));
    agree(
        &plain(2.0, 0.92),
        Some(&machine(Kind::Compressor)),
        Some(0.55),
        heating,
    );
}
