//! The doubt against what can be worked out otherwise.

use super::combine::{correlation, interval, ranks, shares};
use super::doubt::{Doubt, Spread};
use super::random::Draw;
use super::*;
use crate::assess::assess;
use crate::assess::tests::{air, bare, gap_mut, hole};
use crate::survey::gap::Cavity;
use crate::survey::{Facing, GapId, InsideAir, Item};

mod laws;
mod spaces;
mod vehicles;

const FACE: Facing = Facing::Cavity(Cavity::Locker);
