//! A winter hour by hour as drawings: the options as bands of humidity, and a calendar of its days.

mod bands;
mod calendar;

pub use bands::{bands, before_and_after};
pub use calendar::calendar;

use super::scene::{Point, Role, Scene, Shape, Stroke};
use crate::assess::winter::COUNTED_RH;

/// How damp it is, from the driest: up to 60, 70 and 80 %, and above.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Damp {
    Dry,
    Fair,
    Humid,
    Wet,
}

impl Damp {
    const ALL: [Self; 4] = [Self::Dry, Self::Fair, Self::Humid, Self::Wet];

    fn of(rh: f64) -> Self {
        let [fair, damp, wet] = COUNTED_RH;
        if rh > wet {
            Self::Wet
        } else if rh > damp {
            Self::Humid
        } else if rh > fair {
            Self::Fair
        } else {
            Self::Dry
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Dry => "up to 60 %",
            Self::Fair => "60 to 70 %",
            Self::Humid => "70 to 80 %",
            Self::Wet => "above 80 %",
        }
    }

    /// From one stroke of its hatching to the next, mm; `None`: no strokes.
    fn hatched(self) -> Option<f64> {
        match self {
            Self::Dry | Self::Wet => None,
            Self::Fair => Some(2.2),
            Self::Humid => Some(0.9),
        }
    }

    /// Fills a rectangle so that it is told apart without colour: empty, hatched wide, hatched
    /// close, full.
    fn fill(self, scene: &mut Scene, (from, to): (Point, Point)) {
        let full = (self == Self::Wet).then_some(Role::Leak);
        let outline = Stroke::solid(Role::Ink, 0.2);
        scene.add(Shape::rectangle((from, to), full, outline));
        let Some(apart) = self.hatched() else { return };
        let high = to.y - from.y;
        let mut at = from.x - high + apart;
        while at < to.x {
            // Cut off where it leaves the rectangle.
            let (left, right) = (at.max(from.x), (at + high).min(to.x));
            if right > left {
                let start = Point::new(left, to.y - (left - at));
                let end = Point::new(right, to.y - (right - at));
                scene.add(Shape::line(vec![start, end], Stroke::solid(Role::Ink, 0.2)));
            }
            at += apart;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dampness_has_the_limits_that_hours_are_counted_by() {
        let of = |rh: f64| Damp::of(rh);
        assert_eq!(
            [0.3, 0.6, 0.61, 0.7, 0.75, 0.8, 0.801, 1.0].map(of),
            [
                Damp::Dry,
                Damp::Dry,
                Damp::Fair,
                Damp::Fair,
                Damp::Humid,
                Damp::Humid,
                Damp::Wet,
                Damp::Wet
            ]
        );
    }

    #[test]
    fn each_dampness_is_filled_in_another_way_and_within_its_rectangle() {
        let (from, to) = (Point::new(10.0, 5.0), Point::new(30.0, 8.0));
        let counts = Damp::ALL.map(|damp| {
            let mut scene = Scene::new(40.0, 10.0);
            damp.fill(&mut scene, (from, to));
            let mut filled = false;
            for mark in &scene.marks {
                let points = match &mark.shape {
                    Shape::Polyline { points, .. } => points,
                    Shape::Polygon { points, fill, .. } => {
                        filled |= fill.is_some();
                        points
                    }
                    _ => continue,
                };
                for point in points {
                    let (x, y) = (point.x, point.y);
                    assert!(
                        x > 9.999 && x < 30.001 && y > 4.999 && y < 8.001,
                        "{damp:?} {x} {y}"
                    );
                }
            }
            (scene.marks.len(), filled)
        });
        for (at, one) in counts.iter().enumerate() {
            assert!(counts[..at].iter().all(|other| other != one), "{counts:?}");
        }
    }
}
