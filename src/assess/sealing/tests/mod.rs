//! Plans, rankings and what must never be in them.

use super::library::starting_minutes;
use super::*;
use crate::assess::tests::{add, air, bare, closable, gap_mut, hole};
use crate::assess::{NotKnown, assess};
use crate::survey::leave::{Manner, Refusal};
use crate::survey::{
    CostBasis, Facing, Form, Gap, GapId, InsideAir, LeadsTo, Purpose, Remedy, RemedyKind, Survey,
    WorkState, file,
};
use proptest::prelude::*;

mod budgets;
mod costs;
mod plans;
mod promises;
mod protected;
mod truths;

/// A remedy by the piece.
fn remedy(left_percent: f64, cost: f64) -> Remedy {
    Remedy {
        kind: RemedyKind::Strip,
        words: String::new(),
        leak_left_percent: Some(left_percent),
        material_cost: Some(cost),
        cost_basis: CostBasis::Piece,
        minutes: Some(10.0),
    }
}

/// Holes of cm² on the faces in turn, each with a remedy of a price.
#[expect(clippy::cast_precision_loss, reason = "remainders of small numbers")]
fn vehicle(sizes: &[(f64, f64)]) -> Survey {
    const FACES: [Facing; 6] = [
        Facing::Front,
        Facing::Rear,
        Facing::Nearside,
        Facing::Offside,
        Facing::Roof,
        Facing::Underfloor,
    ];
    let mut survey = bare();
    for (at, (area_cm2, price)) in sizes.iter().enumerate() {
        let height = 0.6 + 0.25 * (at % 8) as f64;
        let id = hole(&mut survey, FACES[at % 6], height, *area_cm2);
        gap_mut(&mut survey, id).remedy = Some(remedy(5.0 + 10.0 * (at % 3) as f64, *price));
    }
    air(&mut survey, 5.0, 95.0, InsideAir::WarmerBy { kelvin: 6.0 });
    survey.tariffs.electricity_per_kwh = Some(0.3);
    // The owner's own work, which is to count nothing.
    survey.tariffs.workshop_per_hour = Some(0.0);
    survey
}

/// A random vehicle with so many gaps.
fn any_vehicle(gaps: std::ops::Range<usize>) -> impl Strategy<Value = Survey> {
    let gap = (0.5..120.0_f64, 1.0..60.0_f64);
    prop::collection::vec(gap, gaps).prop_map(|sizes| vehicle(&sizes))
}
