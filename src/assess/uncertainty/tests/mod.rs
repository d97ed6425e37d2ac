//! The uncertainty against what can be worked out otherwise.

use super::combine::{correlation, interval, ranks, shares};
use super::input::{Spread, UncertainInput};
use super::random::Draw;
use super::*;
use crate::assess::tests::{air, bare, gap_mut, hole};
use crate::assess::{Study, assess};
use crate::survey::gap::Cavity;
use crate::survey::{Certainty, Facing, GapId, InsideAir, Item};

mod laws;
mod spaces;
mod underfloor;
mod vehicles;

/// So many draws, cut into pieces that are put together the last first.
fn in_pieces(
    survey: &Survey,
    seed: u64,
    draws: u32,
    cuts: impl IntoIterator<Item = u32>,
) -> Uncertainty {
    let study = Study::of(survey);
    let trials = study.trials().unwrap();
    let mut from = 0;
    let mut chunks = Vec::new();
    for end in cuts.into_iter().chain([draws]) {
        chunks.push(trials.draw_chunk(seed, from..end));
        from = end;
    }
    chunks.reverse();
    trials.combine(seed, chunks).unwrap()
}

/// What two openings in line let through, for each m/s of wind: the larger of the balance,
/// `Cd √ΔCp/√(1/A₁² + 1/A₂²)` (BS 5925 [R]), and of what gusts exchange through the larger,
/// `0.025 A` with A the sharp opening by the convention's coefficient (BS 5925 [R]); `discharge` and
/// `gusts` are factors on either.
fn two_in_line(areas: [f64; 2], drop: f64, discharge: f64, gusts: f64) -> f64 {
    let [one, other] = areas;
    let series = (one.powi(-2) + other.powi(-2)).sqrt().recip();
    let balance = 0.61 * discharge * drop.sqrt() * series;
    balance.max(0.025 * gusts * 0.61 / 0.611 * one.max(other))
}

const FACE: Facing = Facing::Cavity(Cavity::Locker);
