//! Names beside their points, clear of each other and of every mark.

use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::physics::counts::count;

/// Height of letters, mm.
pub(super) const LETTER: f64 = 2.4;
/// Width of a letter on average, in heights of it.
const LETTER_WIDTH: f64 = 0.66;
/// Half the height that a name takes, mm.
const HALF: f64 = 1.7;
/// Half the size of a mark, mm.
const MARK: f64 = 1.0;
/// Names further from their point than this are led to it by a line, mm.
const NEAR: f64 = 4.2;
/// Where a name may stand: beside its point, then ever further above and below.
const OFFSETS: [(f64, f64); 12] = [
    (2.0, 2.8),
    (2.0, -2.8),
    (-2.0, 2.8),
    (-2.0, -2.8),
    (2.6, 6.6),
    (2.6, -6.6),
    (-2.6, 6.6),
    (-2.6, -6.6),
    (3.2, 10.4),
    (3.2, -10.4),
    (-3.2, 10.4),
    (-3.2, -10.4),
];

/// A rectangle: left, top, right, bottom, mm.
#[derive(Clone, Copy)]
struct Taken(f64, f64, f64, f64);

impl Taken {
    fn meets(self, other: Self) -> bool {
        self.0 < other.2 && other.0 < self.2 && self.1 < other.3 && other.1 < self.3
    }
}

/// The places already taken.
pub(super) struct Names(Vec<Taken>);

impl Names {
    /// Nothing written yet; the marks at these points stay free.
    pub(super) fn beside(marks: impl Iterator<Item = Point>) -> Self {
        let mark = |at: Point| Taken(at.x - MARK, at.y - MARK, at.x + MARK, at.y + MARK);
        Self(marks.map(mark).collect())
    }

    /// Keeps names off an upright or level line.
    pub(super) fn keep_clear(&mut self, from: Point, to: Point) {
        const BESIDE: f64 = 0.5;
        self.0.push(Taken(
            from.x.min(to.x) - BESIDE,
            from.y.min(to.y) - BESIDE,
            from.x.max(to.x) + BESIDE,
            from.y.max(to.y) + BESIDE,
        ));
    }

    /// Writes a name at the first free place beside its point; where all are taken, at the last.
    pub(super) fn write(&mut self, scene: &mut Scene, at: Point, words: &str, role: Role) {
        let long = count(words.chars().count()) * LETTER * LETTER_WIDTH;
        let taken = |(x, y): (f64, f64)| {
            let (left, middle) = (at.x + x, at.y + y);
            let left = if x < 0.0 { left - long } else { left };
            Taken(left, middle - HALF, left + long, middle + HALF)
        };
        let free = |offset: &&(f64, f64)| {
            let place = taken(**offset);
            let within = place.0 >= 0.0 && place.2 <= scene.width;
            within && !self.0.iter().any(|other| other.meets(place))
        };
        let last = OFFSETS.last().copied().unwrap_or_default();
        let offset = OFFSETS.iter().find(free).copied().unwrap_or(last);
        self.0.push(taken(offset));
        let place = Point::new(at.x + offset.0, at.y + offset.1);
        if place.distance(at) > NEAR {
            let short = offset.1 - HALF.copysign(offset.1);
            scene.add(Shape::line(
                vec![at, Point::new(place.x, at.y + short)],
                Stroke::solid(Role::Faint, 0.2),
            ));
        }
        let anchor = if offset.0 < 0.0 {
            Anchor::Right
        } else {
            Anchor::Left
        };
        scene.text(place, words, LETTER, role, anchor);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_points_close_together_keep_clear_of_each_other() {
        let mut scene = Scene::new(100.0, 100.0);
        let at = |number: u32| Point::new(50.0 + f64::from(number) * 1.6, 50.0);
        let mut names = Names::beside((0..6).map(at));
        for number in 0..6 {
            names.write(&mut scene, at(number), "warming", Role::Ink);
        }
        let written = &names.0[6..];
        assert_eq!(written.len(), 6);
        for (index, one) in written.iter().enumerate() {
            let others = names
                .0
                .iter()
                .enumerate()
                .filter(|(other, _)| *other != index + 6);
            for (_, other) in others {
                assert!(!one.meets(*other));
            }
        }
        // The far ones are led to their points.
        let lines = scene.marks.iter();
        assert!(
            lines
                .filter(|mark| matches!(mark.shape, Shape::Polyline { .. }))
                .count()
                >= 2
        );
    }
}
