//! Air balances of random vehicles against an independent solver.

use gapledger::physics::network::{Body, OuterGap, Space};
use gapledger::physics::{
    Ensemble, FlowLaw, GapFlow, Gas, MoistAir, Network, Path, PlacedFlow, Workspace,
};

use crate::assert_close;
use crate::tables::{FanRow, Gap, Vehicle, constant_fans, fans, vehicles};

/// Pa: the inside pressure passes through zero, so it cannot be held to 1e-9 of itself there. Five
/// gaps in six of the table have more than 0.1 Pa across them: this is 1e-9 of that. The whole flow
/// in and out is held to 1e-9 of itself in every vehicle, however weakly driven.
const PRESSURE_FLOOR: f64 = 1e-10;
/// Share of its free flow that a fan's flow may be off by: one all but stopped has no more digits.
const FAN_ROUNDING: f64 = 1e-13;
/// Share of the whole inflow: what a flow through one gap may be off by if it is smaller itself,
/// as near zero pressure it goes with the square root of a rounding error.
const SHARE_OF_INFLOW: f64 = 1e-12;

#[test]
fn the_air_on_both_sides_agrees() {
    for (vehicle, _) in vehicles() {
        let name = format!("vehicle {}", vehicle.vehicle);
        let pressure = vehicle.pressure_pa;
        let outside =
            MoistAir::from_relative_humidity(vehicle.t_out_c, vehicle.rh_out, pressure).unwrap();
        let inside =
            MoistAir::from_relative_humidity(vehicle.t_in_c, vehicle.rh_in, pressure).unwrap();
        assert_close(outside.density(), vehicle.density_out_kg_m3, 0.0, &name);
        assert_close(inside.density(), vehicle.density_in_kg_m3, 0.0, &name);
        // Sutherland's formula [M] on both sides: psychrolib has no viscosity.
        assert_close(outside.viscosity(), vehicle.viscosity_out_pa_s, 0.0, &name);
        assert_close(inside.viscosity(), vehicle.viscosity_in_pa_s, 0.0, &name);
        let dynamic_pressure = 0.5 * outside.density() * vehicle.wind_m_s.powi(2);
        assert_close(dynamic_pressure, vehicle.dynamic_pressure_pa, 0.0, &name);
    }
}

/// From the outside pressure as well as from a guess far off: the answer may not hang on it.
#[test]
fn every_balance_agrees_from_any_start() {
    let fans = fans();
    for (vehicle, gaps) in vehicles() {
        let (network, coefficients) = laid_out(&vehicle, &gaps, &fans);
        let own = fans.iter().filter(|fan| fan.vehicle == vehicle.vehicle);
        let own: Vec<&FanRow> = own.collect();
        for start in [0.0, vehicle.inside_pressure_pa, 40.0, -1e5] {
            let name = format!("vehicle {} from {start} Pa", vehicle.vehicle);
            let mut workspace = Workspace::default();
            workspace.start_from(&[start]);
            let wind = vehicle.dynamic_pressure_pa;
            let solved = network.solve(wind, &coefficients, &mut workspace).unwrap();
            let pressure = workspace.pressures()[0];
            assert_close(pressure, vehicle.inside_pressure_pa, PRESSURE_FLOOR, &name);
            assert_close(solved.inflow, vehicle.inflow_kg_s, 0.0, &name);
            assert_close(solved.outflow, vehicle.outflow_kg_s, 0.0, &name);
            let flows = workspace.outer_flows();
            assert_eq!(flows.len(), gaps.len(), "{name}");
            for (flow, gap) in flows.iter().zip(&gaps) {
                let name = format!("{name}, gap {} ({})", gap.gap, gap.kind);
                let floor = SHARE_OF_INFLOW * vehicle.inflow_kg_s;
                assert_close(flow.forward, gap.in_kg_s, floor, &format!("{name} in"));
                assert_close(flow.back, gap.out_kg_s, floor, &format!("{name} out"));
            }
            // Behind the two constant ones that every network is laid out with.
            let moved = &workspace.fan_flows()[2..];
            assert_eq!(moved.len(), own.len(), "{name}");
            for (flow, fan) in moved.iter().zip(&own) {
                let floor = FAN_ROUNDING * fan.free_kg_s;
                assert_close(*flow, fan.flow_kg_s, floor, &format!("{name}, fan"));
            }
        }
    }
}

/// The balance that draws of the uncertainty and trials of sealing use: to the same tables.
#[test]
fn the_fast_balance_agrees_wherever_there_are_fans() {
    let fans = fans();
    for (vehicle, gaps) in vehicles() {
        let (network, coefficients) = laid_out(&vehicle, &gaps, &fans);
        if network.fans.iter().all(|fan| fan.free_flow == 0.0) {
            continue;
        }
        let ensemble = Ensemble::new(Body {
            outside: network.outside,
            datum: network.datum,
            spaces: network.spaces,
            gaps: gaps.iter().map(|gap| (0, placed(gap))).collect(),
            openings: Vec::new(),
            fans: network.fans,
        });
        let arranged = ensemble.arrange(coefficients);
        let mut member = ensemble.member();
        let wind = vehicle.dynamic_pressure_pa;
        ensemble.hold(&mut member, wind, &[]);
        let solved = ensemble.solve(&mut member, &arranged, wind, 1e-9).unwrap();
        let (name, inflow) = (format!("vehicle {}", vehicle.vehicle), vehicle.inflow_kg_s);
        assert_close(solved.inflow, inflow, 2e-9 * inflow, &name);
    }
}

/// Fans at every part of their law.
#[test]
fn the_table_holds_fans_that_run_free_slowed_and_stopped() {
    let fans = fans();
    for way in ["supply", "extract"] {
        let own = || fans.iter().filter(|fan| fan.way == way);
        let count = |what: fn(f64) -> bool| {
            let shares = own().map(|fan| fan.flow_kg_s / fan.free_kg_s);
            shares.filter(|share| what(*share)).count()
        };
        assert!(count(|share| share >= 1.0) >= 10, "{way} free");
        assert!(
            count(|share| share > 0.2 && share < 0.9) >= 10,
            "{way} slowed"
        );
        assert!(
            count(|share| share > 0.0 && share < 0.02) >= 5,
            "{way} all but stopped"
        );
        assert!(count(|share| share <= 0.0) >= 4, "{way} stopped");
    }
}

#[test]
fn the_table_holds_every_kind_of_gap_and_drive() {
    let vehicles = vehicles();
    assert!(vehicles.len() >= 200, "{} vehicles", vehicles.len());
    let count = |what: &dyn Fn(&Vehicle) -> bool| vehicles.iter().filter(|(v, _)| what(v)).count();
    assert!(count(&|v| v.wind_m_s == 0.0) >= 20, "no wind");
    assert!(count(&|v| v.wind_m_s >= 20.0) >= 20, "storm");
    assert!(
        count(&|v| v.t_in_c == v.t_out_c) >= 20,
        "no difference of temperature"
    );
    assert!(
        count(&|v| (v.t_in_c - v.t_out_c - 40.0).abs() < 0.01) >= 20,
        "40 K warmer inside"
    );
    assert!(count(&|v| v.t_in_c < v.t_out_c) >= 10, "colder inside");
    assert!(count(&|v| v.supply_kg_s > 0.0) >= 20, "supply fan");
    assert!(count(&|v| v.extract_kg_s > 0.0) >= 20, "extract fan");

    let gaps = || vehicles.iter().flat_map(|(_, gaps)| gaps);
    for kind in ["opening", "crack", "power"] {
        for behind in [false, true] {
            for tall in [false, true] {
                let found = gaps()
                    .filter(|gap| {
                        gap.kind == kind
                            && gap.behind_area_m2.is_some() == behind
                            && (gap.z_high_m > gap.z_low_m) == tall
                    })
                    .count();
                assert!(found >= 50, "{kind}, behind {behind}, tall {tall}: {found}");
            }
        }
    }
    let both_ways = gaps()
        .filter(|gap| gap.in_kg_s > 0.0 && gap.out_kg_s > 0.0)
        .count();
    assert!(both_ways >= 50, "{both_ways} gaps pass air both ways");
}

/// The network, and the pressure coefficients of its gaps; first the constant fans, then those
/// that pressure slows.
fn laid_out(vehicle: &Vehicle, gaps: &[Gap], fans: &[FanRow]) -> (Network, Vec<f64>) {
    let outside = Gas {
        density: vehicle.density_out_kg_m3,
        viscosity: vehicle.viscosity_out_pa_s,
    };
    let inside = Gas {
        density: vehicle.density_in_kg_m3,
        viscosity: vehicle.viscosity_in_pa_s,
    };
    let outer = gaps.iter().map(|gap| OuterGap {
        space: 0,
        path: Path::new(&flow_of(gap), &outside, &inside, gap.z_low_m, gap.z_high_m),
    });
    let slowed = fans.iter().filter(|fan| fan.vehicle == vehicle.vehicle);
    let network = Network {
        outside,
        datum: vehicle.datum_m,
        spaces: vec![Space { gas: inside }],
        outer: outer.collect(),
        inner: Vec::new(),
        fans: constant_fans(0, vehicle.supply_kg_s, vehicle.extract_kg_s)
            .into_iter()
            .chain(slowed.map(FanRow::fan))
            .collect(),
    };
    (network, gaps.iter().map(|gap| gap.cp).collect())
}

fn placed(gap: &Gap) -> PlacedFlow {
    PlacedFlow {
        flow: flow_of(gap),
        z_low: gap.z_low_m,
        z_high: gap.z_high_m,
    }
}

pub(crate) fn flow_of(gap: &Gap) -> GapFlow {
    let law = match gap.kind.as_str() {
        "opening" => FlowLaw::Opening {
            area: gap.area_m2.unwrap(),
            discharge: gap.discharge.unwrap(),
        },
        "crack" => FlowLaw::Crack {
            length: gap.length_m.unwrap(),
            width: gap.width_m.unwrap(),
            depth: gap.depth_m.unwrap(),
            bends: gap.bends.unwrap(),
        },
        "power" => FlowLaw::Power {
            coefficient: gap.coefficient_m3_per_s_pa_n.unwrap(),
            exponent: gap.exponent.unwrap(),
        },
        other => panic!("no such kind of gap: {other}"),
    };
    let flow = GapFlow::new(law).unwrap().times(gap.multiplier).unwrap();
    match gap.behind_area_m2 {
        Some(area) => flow.behind(area).unwrap(),
        None => flow,
    }
}
