//! Marks that would cover each other: a few are drawn apart, many become one with their number.

use crate::figure::scene::Point;
use crate::physics::counts::count;
use crate::survey::gap::Gap;
use std::collections::{BTreeMap, HashMap};

/// Marks whose middles are nearer than this would be one blot, mm.
const NEAR: f64 = 2.4;
/// So many are still drawn apart; more become one mark.
const APART_MOST: usize = 9;
/// What the largest of them counts for when they are drawn apart, mm.
const COUNTED_MOST: f64 = 2.6;

/// How much wider the outer ring of a shared mark is, mm.
pub(super) const RINGS_APART: f64 = 0.9;
/// Room between marks that were pushed apart, mm.
const BETWEEN: f64 = 0.4;
/// How far from its place a mark may be pushed, mm.
const FARTHEST: f64 = 9.0;
/// No two marks farther from each other than this push each other, mm.
const WIDEST: f64 = 2.0 * COUNTED_MOST + BETWEEN;
/// Rounds of pushing.
const ROUNDS: u32 = 24;

/// A gap with its mark.
pub(super) struct Placed<'a> {
    pub(super) gap: &'a Gap,
    /// Where it is.
    pub(super) home: Point,
    /// Where its mark is drawn.
    pub(super) at: Point,
    pub(super) radius: f64,
    /// Its line, where it is drawn as one, from where it is.
    pub(super) path: Vec<Point>,
    /// How broad that is, mm.
    pub(super) breadth: f64,
    /// Where it is held when it is moved.
    pub(super) grip: Point,
    /// Whether every co-ordinate of its place is known.
    pub(super) complete: bool,
    /// How many gaps share the mark.
    pub(super) sharing: usize,
    /// Whether the shared mark is drawn for this one.
    pub(super) first: bool,
}

impl Placed<'_> {
    /// Whether it is drawn as a line: it has one, and no other gap shares its mark.
    pub(super) fn is_line(&self) -> bool {
        !self.path.is_empty() && self.sharing == 1
    }

    /// Its line where it is drawn; none of a mark.
    pub(super) fn line(&self) -> Vec<Point> {
        if !self.is_line() {
            return Vec::new();
        }
        let (x, y) = (self.at.x - self.home.x, self.at.y - self.home.y);
        let moved = |point: &Point| Point::new(point.x + x, point.y + y);
        self.path.iter().map(moved).collect()
    }

    /// The ends of the stroke through a sealed one.
    pub(super) fn stroke(&self) -> (Point, Point) {
        let reach = self.radius * 1.25;
        (
            Point::new(self.at.x - reach, self.at.y + reach),
            Point::new(self.at.x + reach, self.at.y - reach),
        )
    }

    /// How far its drawing reaches from its middle, mm.
    pub(super) fn reach(&self) -> f64 {
        if self.sharing > 1 {
            self.radius + RINGS_APART
        } else {
            self.radius
        }
    }
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
    settle(placed);
}

/// The square of a grid of this width that a point lies in.
pub(super) fn cell(point: Point, width: f64) -> (i64, i64) {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "places on a drawing are a few hundred millimetres"
    )]
    let whole = |value: f64| (value / width).floor() as i64;
    (whole(point.x), whole(point.y))
}

/// Each mark joins the first group whose first mark is near; so a row of marks along a seam does
/// not become one long group.
fn groups(placed: &[Placed<'_>]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let mut seeds: HashMap<(i64, i64), Vec<(usize, Point)>> = HashMap::new();
    for (at, mark) in placed.iter().enumerate() {
        let (x, y) = cell(mark.home, NEAR);
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
    let all = count(group.len());
    let (mut middle, mut largest) = (Point::default(), 0.0_f64);
    for &at in group {
        if let Some(mark) = placed.get(at) {
            middle.x += mark.home.x / all;
            middle.y += mark.home.y / all;
            largest = largest.max(mark.radius.min(COUNTED_MOST));
        }
    }
    let ring = (largest + 0.4) / (std::f64::consts::PI / all).sin();
    let places = (0..group.len()).map(|number| {
        let turn = std::f64::consts::TAU * count(number) / all;
        Point::new(middle.x - ring * turn.cos(), middle.y - ring * turn.sin())
    });
    let places: Vec<Point> = places.collect();
    let around = around(placed, group, middle);
    for (&at, place) in around.iter().zip(nearest_turn(placed, &around, &places)) {
        if let Some(mark) = placed.get_mut(at) {
            mark.at = place;
        }
    }
}

/// The marks of a group in the order in which they lie round their middle, so that the lines to
/// them do not cross; those in one place stay in the order of the ledger.
fn around(placed: &[Placed<'_>], group: &[usize], middle: Point) -> Vec<usize> {
    let angle = |at: usize| {
        placed.get(at).map_or(0.0, |mark| {
            if mark.home.distance(middle) < 0.05 {
                return 0.0;
            }
            let (dx, dy) = (middle.x - mark.home.x, middle.y - mark.home.y);
            dy.atan2(dx).rem_euclid(std::f64::consts::TAU)
        })
    };
    let mut around: Vec<(f64, usize)> = group.iter().map(|&at| (angle(at), at)).collect();
    around.sort_by(|a, b| a.0.total_cmp(&b.0));
    around.into_iter().map(|(_, at)| at).collect()
}

/// The places turned so that the marks, in their order, lie as near to home as can be.
fn nearest_turn(placed: &[Placed<'_>], around: &[usize], places: &[Point]) -> Vec<Point> {
    let turned = |by: usize| {
        let mut places = places.to_vec();
        places.rotate_left(by);
        places
    };
    let way = |places: &[Point]| -> f64 {
        let homes = around.iter().filter_map(|&at| placed.get(at));
        homes
            .zip(places)
            .map(|(mark, place)| mark.home.distance(*place))
            .sum()
    };
    let mut best = turned(0);
    for by in 1..places.len() {
        let other = turned(by);
        if way(&other) < way(&best) - 1e-9 {
            best = other;
        }
    }
    best
}

/// Pushes marks of different groups off each other, a little at a time and never far from home.
fn settle(placed: &mut [Placed<'_>]) {
    for _ in 0..ROUNDS {
        let pushes = pushes(placed);
        if pushes.is_empty() {
            return;
        }
        for (at, (x, y)) in pushes {
            let Some(mark) = placed.get_mut(at) else {
                continue;
            };
            let (x, y) = (mark.at.x + x - mark.home.x, mark.at.y + y - mark.home.y);
            let far = x.hypot(y);
            let share = if far > FARTHEST { FARTHEST / far } else { 1.0 };
            mark.at = Point::new(mark.home.x + x * share, mark.home.y + y * share);
        }
    }
}

/// Which way each mark is pushed by those that lie on it, in the order of the ledger.
fn pushes(placed: &[Placed<'_>]) -> BTreeMap<usize, (f64, f64)> {
    let counted = |mark: &Placed<'_>| mark.reach().min(COUNTED_MOST);
    let mut cells: HashMap<(i64, i64), Vec<usize>> = HashMap::new();
    let mut pushes: BTreeMap<usize, (f64, f64)> = BTreeMap::new();
    for (at, mark) in placed.iter().enumerate().filter(|(_, mark)| mark.first) {
        let (x, y) = cell(mark.at, WIDEST);
        let near = (x - 1..=x + 1).flat_map(|x| (y - 1..=y + 1).map(move |y| (x, y)));
        for &other_at in near.filter_map(|cell| cells.get(&cell)).flatten() {
            let Some(other) = placed.get(other_at) else {
                continue;
            };
            let wanted = counted(mark) + counted(other) + BETWEEN;
            let between = mark.at.distance(other.at);
            if between >= wanted - 1e-6 {
                continue;
            }
            let (dx, dy) = if between > 1e-6 {
                (
                    (mark.at.x - other.at.x) / between,
                    (mark.at.y - other.at.y) / between,
                )
            } else {
                (1.0, 0.0)
            };
            // A shared mark stays where it is.
            let parts = match (mark.sharing > 1, other.sharing > 1) {
                (false, false) => (0.5, 0.5),
                (false, true) => (1.0, 0.0),
                (true, false) => (0.0, 1.0),
                (true, true) => continue,
            };
            let depth = wanted - between;
            for (which, part) in [(at, parts.0), (other_at, -parts.1)] {
                if part != 0.0 {
                    let push = pushes.entry(which).or_default();
                    push.0 += dx * depth * part;
                    push.1 += dy * depth * part;
                }
            }
        }
        cells.entry((x, y)).or_default().push(at);
    }
    pushes
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
