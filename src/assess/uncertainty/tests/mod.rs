//! The uncertainty against what can be worked out otherwise.

use super::combine::{correlation, interval, ranks, shares};
use super::input::{Spread, UncertainInput};
use super::random::Draw;
use super::*;
use crate::assess::tests::{air, bare, gap_mut, hole};
use crate::assess::{Study, assess};
use crate::survey::gap::Cavity;
use crate::survey::{Facing, GapId, InsideAir, Survey};

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

const FACE: Facing = Facing::Cavity(Cavity::Locker);
