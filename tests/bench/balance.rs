//! Time of one air balance: a warm start from the answer for the neighbouring wind direction.
//!
//! `cargo bench --bench balance`. One balance of 60 gaps is to take less than 10 µs.

#![expect(
    clippy::unwrap_used,
    reason = "a bench stops at the first thing that is wrong"
)]

use divan::Bencher;
use divan::counter::ItemsCount;
use gapledger::physics::air::{MoistAir, STANDARD_PRESSURE};
use gapledger::physics::network::{OuterGap, Space};
use gapledger::physics::pressure_coefficient::WindBody;
use gapledger::physics::{
    Face, FlowLaw, GapFlow, Gas, Network, Path, PressureSet, Shelter, Underside, Workspace,
};

const DIRECTIONS: u32 = 16;

fn main() {
    divan::main();
}

/// Gaps of a leisure vehicle in turn: joints, cable holes, door seals, grilles, tested parts.
#[expect(clippy::cast_precision_loss, reason = "remainders of small numbers")]
fn gap(number: usize) -> (GapFlow, f64, f64) {
    let vary = 1.0 + 0.1 * (number % 7) as f64;
    let z = 0.5 + 0.3 * (number % 8) as f64;
    let crack = |length, width, bends| FlowLaw::Crack {
        length,
        width,
        depth: 30e-3,
        bends,
    };
    let (law, rise) = match number % 10 {
        0..=3 => (crack(0.8 * vary, 0.8e-3 * vary, 0), 0.0),
        4 | 5 => (crack(1.8, 1.5e-3 * vary, 1), 1.7),
        6..=8 => (
            FlowLaw::Opening {
                area: 3e-4 * vary,
                discharge: 0.61,
            },
            0.0,
        ),
        _ => (
            FlowLaw::Opening {
                area: 60e-4,
                discharge: 0.61,
            },
            0.0,
        ),
    };
    let flow = GapFlow::new(law).unwrap();
    let flow = if number % 10 == 8 {
        flow.behind(20e-4).unwrap()
    } else {
        flow
    };
    (flow, z, z + rise)
}

struct Vehicle {
    network: Network,
    dynamic_pressure: f64,
    /// Pressure coefficients for each wind direction.
    coefficients: Vec<Vec<f64>>,
}

fn vehicle(gaps: usize, with_power_laws: bool) -> Vehicle {
    let air = |t_c| MoistAir::from_relative_humidity(t_c, 0.8, STANDARD_PRESSURE).unwrap();
    let (outside, inside) = (air(5.0), air(12.0));
    let (gas_out, gas_in) = (Gas::from(&outside), Gas::from(&inside));
    let body = WindBody {
        set: PressureSet::LowRise,
        shelter: Shelter::Exposed,
        underside: Underside::Open,
        length: 6.2,
        width: 2.2,
    };
    let face = |number: usize| *Face::ALL.get(number % Face::ALL.len()).unwrap();
    let outer = (0..gaps)
        .map(|number| {
            let (flow, low, high) = gap(number);
            let flow = if with_power_laws && number % 6 == 0 {
                GapFlow::new(FlowLaw::Power {
                    coefficient: 3e-4,
                    exponent: 0.62,
                })
                .unwrap()
            } else {
                flow
            };
            OuterGap {
                space: 0,
                path: Path::new(&flow, &gas_out, &gas_in, low, high),
            }
        })
        .collect();
    let coefficients = (0..DIRECTIONS)
        .map(|step| {
            let from_deg = 360.0 / f64::from(DIRECTIONS) * f64::from(step);
            (0..gaps)
                .map(|number| body.coefficient(face(number), from_deg))
                .collect()
        })
        .collect();
    Vehicle {
        network: Network {
            outside: gas_out,
            datum: 1.5,
            spaces: vec![Space { gas: gas_in }],
            outer,
            inner: Vec::new(),
            fans: Vec::new(),
        },
        dynamic_pressure: 0.5 * gas_out.density * 9.0,
        coefficients,
    }
}

fn all_directions(bencher: Bencher<'_, '_>, vehicle: &Vehicle) {
    let mut workspace = Workspace::default();
    bencher
        .counter(ItemsCount::new(DIRECTIONS))
        .bench_local(|| {
            workspace.start_from(&[0.0]);
            let mut inflow = 0.0;
            for coefficients in &vehicle.coefficients {
                let solved = vehicle
                    .network
                    .solve(vehicle.dynamic_pressure, coefficients, &mut workspace)
                    .unwrap();
                inflow += solved.inflow;
            }
            inflow
        });
}

/// Sixteen wind directions one after the other; an item is one balance.
#[divan::bench(args = [1, 10, 60, 300, 1000])]
fn warm_started(bencher: Bencher<'_, '_>, gaps: usize) {
    all_directions(bencher, &vehicle(gaps, false));
}

/// The same with a tested component (power law) in every sixth place.
#[divan::bench(args = [60])]
fn warm_started_with_power_laws(bencher: Bencher<'_, '_>, gaps: usize) {
    all_directions(bencher, &vehicle(gaps, true));
}

/// Ready-made curves for all gaps, as each new inside temperature needs.
#[divan::bench(args = [60])]
fn curves(bencher: Bencher<'_, '_>, gaps: usize) {
    let flows: Vec<_> = (0..gaps).map(gap).collect();
    let air = MoistAir::from_relative_humidity(5.0, 0.8, STANDARD_PRESSURE).unwrap();
    let gas = Gas::from(&air);
    bencher.counter(ItemsCount::new(gaps)).bench(|| {
        flows
            .iter()
            .map(|(flow, low, high)| Path::new(flow, &gas, &gas, *low, *high))
            .collect::<Vec<_>>()
    });
}
