//! Marks that would cover each other: a few are drawn apart, many become one with their number.

use crate::figure::scene::Point;
use crate::survey::gap::Gap;
use std::collections::HashMap;

/// Marks whose middles are nearer than this would be one blot, mm.
const NEAR: f64 = 2.4;
/// So many are still drawn apart; more become one mark.
const APART_MOST: usize = 9;
/// What the largest of them counts for when they are drawn apart, mm.
const COUNTED_MOST: f64 = 2.6;

/// A gap with its mark.
pub(super) struct Placed<'a> {
    pub(super) gap: &'a Gap,
    /// Where it is.
    pub(super) home: Point,
    /// Where its mark is drawn.
    pub(super) at: Point,
    pub(super) radius: f64,
    /// Whether every co-ordinate of its place is known.
    pub(super) complete: bool,
    /// How many gaps share the mark.
    pub(super) sharing: usize,
    /// Whether the shared mark is drawn for this one.
    pub(super) first: bool,
}

/// Moves marks apart that lie on each other, in the order of the ledger.
pub(super) fn spread(placed: &mut [Placed<'_>]) {
    for group in groups(placed) {
        match group.len() {
            0 | 1 => {}
            few if few <= APART_MOST => apart(placed, &group),
            _ => together(placed, &group),
        }
    }
}

/// Each mark joins the first group whose first mark is near; so a row of marks along a seam does
/// not become one long group.
fn groups(placed: &[Placed<'_>]) -> Vec<Vec<usize>> {
    let cell = |point: Point| {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "places on a drawing are a few hundred millimetres"
        )]
        let whole = |value: f64| (value / NEAR).floor() as i64;
        (whole(point.x), whole(point.y))
    };
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let mut seeds: HashMap<(i64, i64), Vec<(usize, Point)>> = HashMap::new();
    for (at, mark) in placed.iter().enumerate() {
        let (x, y) = cell(mark.home);
        let near = (x - 1..=x + 1)
            .flat_map(|x| (y - 1..=y + 1).map(move |y| (x, y)))
            .filter_map(|cell| seeds.get(&cell))
            .flatten()
            .filter(|(_, seed)| seed.distance(mark.home) < NEAR)
            .map(|(group, _)| *group)
            .min();
        match near.and_then(|group| groups.get_mut(group)) {
            Some(group) => group.push(at),
            None => {
                let seed = (groups.len(), mark.home);
                seeds.entry((x, y)).or_default().push(seed);
                groups.push(vec![at]);
            }
        }
    }
    groups
}

/// On a ring round their middle, so far from each other that each can be seen and hit.
fn apart(placed: &mut [Placed<'_>], group: &[usize]) {
    #[expect(clippy::cast_precision_loss, reason = "a handful of marks")]
    let count = group.len() as f64;
    let (mut middle, mut largest) = (Point::default(), 0.0_f64);
    for &at in group {
        if let Some(mark) = placed.get(at) {
            middle.x += mark.home.x / count;
            middle.y += mark.home.y / count;
            largest = largest.max(mark.radius.min(COUNTED_MOST));
        }
    }
    let ring = (largest + 0.4) / (std::f64::consts::PI / count).sin();
    for (number, &at) in group.iter().enumerate() {
        #[expect(clippy::cast_precision_loss, reason = "a handful of marks")]
        let turn = std::f64::consts::TAU * number as f64 / count;
        if let Some(mark) = placed.get_mut(at) {
            mark.at = Point::new(middle.x - ring * turn.cos(), middle.y - ring * turn.sin());
        }
    }
}

/// One mark for all, as large as the largest.
fn together(placed: &mut [Placed<'_>], group: &[usize]) {
    let largest = group
        .iter()
        .filter_map(|&at| placed.get(at))
        .map(|mark| mark.radius)
        .fold(0.0, f64::max);
    let first = group.first().and_then(|&at| placed.get(at));
    let Some(home) = first.map(|mark| mark.home) else {
        return;
    };
    for (number, &at) in group.iter().enumerate() {
        if let Some(mark) = placed.get_mut(at) {
            (mark.at, mark.radius) = (home, largest.max(COUNTED_MOST));
            mark.sharing = group.len();
            mark.first = number == 0;
        }
    }
}
