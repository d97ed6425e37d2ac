//! Time of one balance of a vehicle of several spaces, from nothing: sixty gaps shared out over the
//! spaces, a doorway from each to the next.
#![expect(clippy::unwrap_used, reason = "a benchmark stops where anything fails")]

use divan::{Bencher, black_box};
use gapledger::physics::network::{InnerOpening, OuterGap, Space};
use gapledger::physics::{FlowLaw, GapFlow, Gas, Network, Path, Workspace};

const GAPS: usize = 60;

fn main() {
    divan::main();
}

fn gas(density: f64) -> Gas {
    Gas {
        density,
        viscosity: 1.78e-5,
    }
}

/// Every fourth gap a tall seal; every second doorway a bulkhead with cable holes.
#[expect(clippy::cast_precision_loss, reason = "remainders of small numbers")]
fn vehicle(spaces: usize) -> (Network, Vec<f64>) {
    let outside = gas(1.27);
    let density = |space: usize| 1.22 - 0.01 * (space % 3) as f64;
    let outer = (0..GAPS).map(|at| {
        let space = at % spaces;
        let law = FlowLaw::Crack {
            length: 0.5 + 0.05 * (at % 9) as f64,
            width: 1e-3 + 2e-4 * (at % 5) as f64,
            depth: 30e-3,
            bends: 1,
        };
        let low = 0.5 + 0.2 * (at % 8) as f64;
        let rise = if at % 4 == 0 { 1.5 } else { 0.0 };
        let flow = GapFlow::new(law).unwrap();
        OuterGap {
            space,
            path: Path::new(&flow, &outside, &gas(density(space)), low, low + rise),
        }
    });
    let inner = (1..spaces).map(|to| {
        let (area, rise) = if to % 2 == 0 {
            (20e-4, 0.0)
        } else {
            (0.9, 1.8)
        };
        let law = FlowLaw::Opening {
            area,
            discharge: 0.61,
        };
        let (one, other) = (gas(density(to - 1)), gas(density(to)));
        let flow = GapFlow::new(law).unwrap();
        InnerOpening {
            from: to - 1,
            to,
            path: Path::new(&flow, &one, &other, 0.6, 0.6 + rise),
        }
    });
    let network = Network {
        outside,
        datum: 1.5,
        spaces: (0..spaces)
            .map(|space| Space {
                gas: gas(density(space)),
            })
            .collect(),
        outer: outer.collect(),
        inner: inner.collect(),
        fans: Vec::new(),
    };
    let coefficients = (0..GAPS).map(|at| 0.5 - 0.25 * (at % 6) as f64);
    (network, coefficients.collect())
}

#[divan::bench(args = [1, 4, 16])]
fn one_balance(bencher: Bencher<'_, '_>, spaces: usize) {
    let (network, coefficients) = vehicle(spaces);
    let mut workspace = Workspace::default();
    bencher.bench_local(move || {
        workspace.start_from(&[0.0]);
        network
            .solve(black_box(8.0), &coefficients, &mut workspace)
            .unwrap()
    });
}
