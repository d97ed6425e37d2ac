//! Vehicles of several spaces against scipy.

use gapledger::physics::network::{Body, OpeningFlow, Space, Workspace};
use gapledger::physics::{Ensemble, Gas, PlacedFlow};

use crate::air_balance::flow_of;
use crate::assert_close;
use crate::tables::{
    FanRow, NetworkSpace, NetworkVehicle, NetworkWay, constant_fans, network_fans, networks,
};

/// Pa: pressures pass through zero.
const PRESSURE_FLOOR: f64 = 2e-8;
/// Share of a vehicle's inflow that a flow through one way may be off by if it is smaller itself:
/// scipy balances no space to better than a few parts in 1e10, and near zero pressure a flow goes
/// with the square root of what is off.
const SHARE_OF_INFLOW: f64 = 1e-8;
/// Share of its free flow that a fan's flow may be off by: what [`PRESSURE_FLOOR`] leaves.
const FAN: f64 = 1e-8;
/// Share by which the whole inflow may differ.
const INFLOW: f64 = 3e-9;

/// The vehicle, and the pressure coefficients of its outer ways. The table lists outer and inner
/// ways one after the other.
fn laid_out(
    vehicle: &NetworkVehicle,
    spaces: &[NetworkSpace],
    ways: &[NetworkWay],
    fans: &[FanRow],
) -> (Body, Vec<f64>) {
    let constant = spaces
        .iter()
        .flat_map(|space| constant_fans(space.space, space.supply_kg_s, space.extract_kg_s));
    let slowed = fans.iter().filter(|fan| fan.vehicle == vehicle.vehicle);
    let mut body = Body {
        outside: Gas {
            density: vehicle.density_out_kg_m3,
            viscosity: vehicle.viscosity_out_pa_s,
        },
        datum: vehicle.datum_m,
        spaces: spaces
            .iter()
            .map(|space| Space {
                gas: Gas {
                    density: space.density_kg_m3,
                    viscosity: space.viscosity_pa_s,
                },
            })
            .collect(),
        gaps: Vec::new(),
        openings: Vec::new(),
        fans: constant.chain(slowed.map(FanRow::fan)).collect(),
    };
    let mut coefficients = Vec::new();
    for way in ways {
        let placed = PlacedFlow {
            flow: flow_of(&way.gap()),
            z_low: way.z_low_m,
            z_high: way.z_high_m,
        };
        match way.from_space {
            None => {
                body.gaps.push((way.to_space, placed));
                coefficients.push(way.cp);
            }
            Some(from) => body.openings.push(([from, way.to_space], placed)),
        }
    }
    (body, coefficients)
}

#[test]
fn every_vehicle_of_several_spaces_agrees_with_scipy() {
    let mut workspace = Workspace::default();
    let fans = network_fans();
    for (vehicle, spaces, ways) in networks() {
        let (body, coefficients) = laid_out(&vehicle, &spaces, &ways, &fans);
        let wind = vehicle.dynamic_pressure_pa;
        let solved = body
            .network()
            .solve(wind, &coefficients, &mut workspace)
            .unwrap();
        let name = format!("vehicle {}", vehicle.vehicle);
        let inflow = vehicle.inflow_kg_s;
        assert_close(solved.inflow, inflow, INFLOW * inflow, &name);
        assert_close(solved.outflow, inflow, INFLOW * inflow, &name);
        for (found, space) in workspace.pressures().iter().zip(&spaces) {
            let what = format_args!("{name}, space {}", space.space);
            assert_close(*found, space.pressure_pa, PRESSURE_FLOOR, &what);
        }
        let flows: Vec<OpeningFlow> = [workspace.outer_flows(), workspace.inner_flows()].concat();
        let (of_outer, of_inner): (Vec<&NetworkWay>, Vec<&NetworkWay>) =
            ways.iter().partition(|way| way.from_space.is_none());
        assert_eq!(flows.len(), ways.len(), "{name}");
        for (at, (flow, way)) in flows
            .iter()
            .zip(of_outer.iter().chain(&of_inner))
            .enumerate()
        {
            let what = format_args!("{name}, way {at} ({})", way.kind);
            let floor = SHARE_OF_INFLOW * inflow;
            assert_close(flow.forward, way.in_kg_s, floor, &what);
            assert_close(flow.back, way.out_kg_s, floor, &what);
        }
        let own = fans.iter().filter(|fan| fan.vehicle == vehicle.vehicle);
        let moved = workspace.fan_flows().iter().skip(2 * spaces.len());
        for (flow, fan) in moved.zip(own) {
            let floor = FAN * fan.free_kg_s;
            assert_close(*flow, fan.flow_kg_s, floor, &format!("{name}, {fan:?}"));
        }
    }
}

/// The balance that draws of the uncertainty use, from a vehicle without pressures: to the same
/// tables.
#[test]
fn the_fast_balance_of_several_spaces_agrees_with_scipy() {
    let fans = network_fans();
    for (vehicle, spaces, ways) in networks() {
        let (body, coefficients) = laid_out(&vehicle, &spaces, &ways, &fans);
        let ensemble = Ensemble::new(body);
        let arranged = ensemble.arrange(coefficients);
        let mut member = ensemble.member();
        let wind = vehicle.dynamic_pressure_pa;
        ensemble.hold(&mut member, wind, &[]);
        let solved = ensemble.solve(&mut member, &arranged, wind, 1e-9).unwrap();
        let name = format!("vehicle {}", vehicle.vehicle);
        let inflow = vehicle.inflow_kg_s;
        assert_close(solved.inflow, inflow, 2.0 * INFLOW * inflow, &name);
    }
}

#[test]
fn the_table_holds_every_kind_of_vehicle() {
    let vehicles = networks();
    assert!(vehicles.len() >= 200, "{} vehicles", vehicles.len());
    for count in 2..=6 {
        let of_count = vehicles
            .iter()
            .filter(|(_, spaces, _)| spaces.len() == count);
        assert!(of_count.count() >= 20, "{count} spaces");
    }
    let ways = || vehicles.iter().flat_map(|(_, _, ways)| ways);
    let inner = || ways().filter(|way| way.from_space.is_some());
    let both_ways = inner().filter(|way| way.in_kg_s > 0.0 && way.out_kg_s > 0.0);
    assert!(both_ways.count() >= 50, "doorways with air both ways");
    let exchanging =
        ways().filter(|way| way.from_space.is_none() && way.in_kg_s * way.out_kg_s > 0.0);
    assert!(exchanging.count() >= 50, "outer gaps with air both ways");
    let fans = |of: fn(&NetworkSpace) -> f64| {
        let spaces = vehicles.iter().flat_map(|(_, spaces, _)| spaces);
        spaces.filter(|space| of(space) > 0.0).count()
    };
    assert!(fans(|space| space.supply_kg_s) >= 30 && fans(|space| space.extract_kg_s) >= 60);
    let slowed = network_fans();
    let share = |fan: &FanRow| fan.flow_kg_s / fan.free_kg_s;
    let count = |what: fn(f64) -> bool| slowed.iter().filter(|fan| what(share(fan))).count();
    assert!(count(|share| share >= 1.0) >= 15 && count(|share| share <= 0.0) >= 10);
    assert!(count(|share| share > 0.0 && share < 1.0) >= 50);
    for kind in ["opening", "crack", "power"] {
        assert!(
            inner().filter(|way| way.kind == kind).count() >= 50,
            "{kind}"
        );
    }
}
