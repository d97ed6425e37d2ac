//! The coupled balance of heat and water against nested brentq, every kind of machine.
//!
//! The behaviour of the machines is an assumption of the program **\[A\]**, written down a second
//! time in `machines.py`; moist air is psychrolib's; the solution shares no layout with the
//! program's, which has no outer loops for hygrostat and thermostat.

use std::collections::BTreeMap;
use std::convert::Infallible;

use gapledger::physics::MoistAir;
use gapledger::physics::coupled::{self, AirFlow, ColdSurface, Heater, Inside, Running, Steady};
use gapledger::physics::machine::{Kind, Machine, MakerPoint};

use crate::assert_close;
use crate::tables::{Room, rooms};

fn kind(name: &str) -> Kind {
    match name {
        "compressor" => Kind::Compressor,
        "thermoelectric" => Kind::Thermoelectric,
        "rotor" => Kind::DesiccantRotor,
        "salt" => Kind::SaltTub,
        other => panic!("unknown kind {other}"),
    }
}

fn machine(row: &Room) -> Option<Machine> {
    if row.kind == "none" {
        return None;
    }
    if let Some(surface) = row.tub_m2 {
        return Some(Machine::salt_tub(surface).unwrap());
    }
    let figures: Vec<MakerPoint> = row
        .figures
        .split(';')
        .map(|figure| {
            let numbers: Vec<f64> = figure.split('/').map(|n| n.parse().unwrap()).collect();
            let [t_c, rh, removal, power] = numbers[..] else {
                panic!("case {}: {figure}", row.case);
            };
            MakerPoint {
                t_c,
                rh,
                removal,
                power,
            }
        })
        .collect();
    Some(Machine::new(kind(&row.kind), &figures, row.lowest_room_c).unwrap())
}

fn surfaces(row: &Room) -> Vec<ColdSurface> {
    let surface = |text: &str| {
        let numbers: Vec<f64> = text.split('/').map(|n| n.parse().unwrap()).collect();
        let [area, temperature_factor, outside_seen_c] = numbers[..] else {
            panic!("case {}: {text}", row.case);
        };
        ColdSurface {
            area,
            temperature_factor,
            outside_seen_c,
        }
    };
    let all = row.surfaces.split(';').filter(|text| !text.is_empty());
    all.map(surface).collect()
}

fn flow(row: &Room, t_c: f64) -> Result<f64, Infallible> {
    Ok(row.still_kg_s + row.stack_kg_s_k05 * (t_c - row.t_out_c).abs().sqrt())
}

/// The room with its steady state, handed to a look at both.
fn solved<Found>(row: &Room, look: impl FnOnce(&Inside<'_>, Steady) -> Found) -> Found {
    let (machine, surfaces) = (machine(row), surfaces(row));
    let inside = Inside {
        outside: MoistAir::from_relative_humidity(row.t_out_c, row.rh_out, row.pressure_pa)
            .unwrap(),
        fabric: row.fabric_w_per_k,
        vapour_source: row.vapour_kg_s,
        liquid_source: row.liquid_kg_s,
        gains: row.gains_w,
        heater: row.heater_w.map(|rating| Heater {
            rating,
            set_point_c: row.set_point_c,
            water_per_joule: row.water_kg_per_j,
        }),
        machine: machine.as_ref(),
        hygrostat: row.hygrostat_rh,
        surfaces: &surfaces,
    };
    let steady = coupled::solve(&inside, |t_c| flow(row, t_c)).unwrap();
    look(&inside, steady)
}

/// What clears the first surface, where the table tells of it.
#[test]
fn what_clears_a_surface_agrees_with_brentq() {
    let (mut removals, mut warmths) = (0, 0);
    for row in rooms() {
        let Some(removal) = row.clearing_removal_kg_s else {
            continue;
        };
        let case = row.case;
        let found = solved(&row, |inside, steady| {
            let first = inside.surfaces[0];
            let limit = row.limit.unwrap();
            let flow = AirFlow {
                exact: |t_c| flow(&row, t_c),
                near: |_| None,
            };
            coupled::clearing(inside, &steady, (&first, limit), 30.0, &flow).unwrap()
        });
        let what = format_args!("case {case}, removal").to_string();
        assert_close(found.removal, removal, 1e-13, &what);
        removals += 1;
        if let Some(warm_c) = row.clearing_c {
            let what = format!("case {case}, warmth: {found:?}");
            assert_close(found.warm_c.unwrap(), warm_c, 1e-6, &what);
            warmths += 1;
        }
    }
    assert!(removals >= 30 && warmths >= 15, "{removals}, {warmths}");
}

#[test]
fn rooms_agree_with_nested_brentq() {
    for row in rooms() {
        let (steady, case) = (solved(&row, |_, steady| steady), row.case);
        assert_eq!(
            steady.running == Running::Runs,
            row.runs == 1,
            "case {case}"
        );
        let checks = [
            ("inside temperature", steady.inside.t_c, row.t_in_c, 1e-8),
            (
                "humidity ratio",
                steady.inside.humidity_ratio,
                row.humidity_ratio,
                0.0,
            ),
            ("removal", steady.removal, row.removal_kg_s, 1e-13),
            ("duty", steady.duty, row.duty, 1e-8),
            ("machine", steady.machine_power, row.machine_w, 1e-6),
            ("heater", steady.heater_power, row.heater_out_w, 1e-6),
            (
                "condensation",
                steady.condensation,
                row.condensation_kg_s,
                1e-13,
            ),
            (
                "on surfaces",
                steady.on_surfaces,
                row.on_surfaces_kg_s,
                1e-13,
            ),
        ];
        for (what, found, reference, floor) in checks {
            assert_close(
                found,
                reference,
                floor,
                &format_args!("case {case}, {what}"),
            );
        }
    }
}

#[test]
fn the_table_covers_every_kind_and_every_way_of_running() {
    let rows = rooms();
    assert!(rows.len() >= 100);
    let mut ways: BTreeMap<&str, [u32; 3]> = BTreeMap::new();
    for row in &rows {
        let [full, part, stopped] = ways.entry(row.kind.as_str()).or_default();
        match row.duty {
            duty if duty >= 1.0 => *full += 1,
            duty if duty > 0.0 => *part += 1,
            _ => *stopped += 1,
        }
    }
    for kind in ["compressor", "thermoelectric", "rotor"] {
        assert!(
            ways[kind].iter().all(|count| *count >= 2),
            "{kind}: {:?}",
            ways[kind]
        );
    }
    assert!(ways["salt"][0] >= 20 && ways["none"][2] >= 20);
    let heater = |held: fn(f64, f64) -> bool| {
        rows.iter()
            .filter(|row| {
                row.heater_w
                    .is_some_and(|rating| held(row.heater_out_w, rating))
            })
            .count()
    };
    assert!(heater(|out, rating| out >= rating) >= 10, "full output");
    assert!(
        heater(|out, rating| out > 0.0 && out < rating) >= 10,
        "on its thermostat"
    );
    assert!(
        rows.iter()
            .filter(|row| row.condensation_kg_s > 0.0)
            .count()
            >= 10
    );
    let wet = rows.iter().filter(|row| row.on_surfaces_kg_s > 0.0);
    assert!(wet.count() >= 30, "surfaces take water");
}
