//! How the lines of weather cases are told apart, the same on every drawing and plot: by dash and
//! marker first, by colour besides.

use super::scene::{Dash, Point, Role, Scene, Shape, Stroke};
use std::collections::HashSet;

/// The sign at each point of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Marker {
    /// A filled circle.
    Circle,
    /// A filled square.
    Square,
    /// A filled triangle that points up.
    Triangle,
    /// Two crossing strokes.
    Cross,
}

/// How one line is told apart from the others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// Colour.
    pub role: Role,
    /// How it is broken.
    pub dash: Dash,
    /// The sign at each point.
    pub marker: Marker,
    /// Width, mm.
    pub width: f64,
}

const fn style(role: Role, dash: Dash, marker: Marker, width: f64) -> Style {
    Style {
        role,
        dash,
        marker,
        width,
    }
}

/// How many lines a drawing shows at most; their styles differ in colour, dash and marker.
pub const DRAWN: usize = 4;

const STYLES: [Style; DRAWN] = [
    style(Role::First, Dash::Solid, Marker::Circle, 0.6),
    style(Role::Second, Dash::Dashed, Marker::Square, 0.6),
    style(Role::Third, Dash::Dotted, Marker::Triangle, 0.6),
    style(Role::Ink, Dash::Solid, Marker::Cross, 1.1),
];

/// Lines that stand for no weather case: in ink, told apart by dash and marker.
pub const PLAIN: [Style; 3] = [
    style(Role::Ink, Dash::Solid, Marker::Circle, 0.8),
    style(Role::Ink, Dash::Dashed, Marker::Triangle, 0.6),
    style(Role::Ink, Dash::Dotted, Marker::Square, 0.6),
];

/// The style of the line with this number. After four the colours begin anew, with other dashes
/// and markers: sixteen lines can be told apart.
#[must_use]
pub fn numbered(number: usize) -> Style {
    let of = |at: usize| STYLES.get(at % DRAWN).copied();
    let (own, other) = (of(number), of(number + number / DRAWN));
    let own = own.unwrap_or(STYLES[0]);
    Style {
        dash: other.map_or(own.dash, |other| other.dash),
        marker: other.map_or(own.marker, |other| other.marker),
        ..own
    }
}

/// Places of the cases that a drawing shows, in the order of the survey: all, or [`DRAWN`] of
/// them, the calmest and the windiest among these.
#[must_use]
pub fn drawn(count: usize, (calmest, windiest): (usize, usize)) -> Vec<usize> {
    let mut places: Vec<usize> = [calmest, windiest].into_iter().chain(0..count).collect();
    let mut seen = HashSet::new();
    places.retain(|place| *place < count && seen.insert(*place));
    places.truncate(DRAWN);
    places.sort_unstable();
    places
}

/// The style of each of `count` weather cases, in the order of the survey. Those of [`drawn`]
/// have the first ones.
#[must_use]
pub fn of_cases(count: usize, calmest_and_windiest: (usize, usize)) -> Vec<Style> {
    let drawn = drawn(count, calmest_and_windiest);
    let mut beyond = drawn.len()..;
    (0..count)
        .map(|place| {
            let number = drawn.iter().position(|other| *other == place);
            number.or_else(|| beyond.next()).map_or(STYLES[0], numbered)
        })
        .collect()
}

/// Adds a marker `radius` mm large.
pub fn mark(scene: &mut Scene, at: Point, radius: f64, style: Style) {
    let corner = |x: f64, y: f64| Point::new(at.x + x * radius, at.y + y * radius);
    let filled = |points: Vec<Point>| Shape::polygon(points, style.role, None);
    match style.marker {
        Marker::Circle => scene.add(Shape::circle(at, radius, style.role, None)),
        Marker::Square => {
            let side = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
            scene.add(filled(side.map(|(x, y)| corner(0.9 * x, 0.9 * y)).to_vec()));
        }
        Marker::Triangle => scene.add(filled(vec![
            corner(0.0, -1.2),
            corner(1.1, 0.8),
            corner(-1.1, 0.8),
        ])),
        Marker::Cross => {
            for (x, y) in [(1.0, 1.0), (1.0, -1.0)] {
                scene.add(Shape::line(
                    vec![corner(-x, -y), corner(x, y)],
                    Stroke::solid(style.role, 0.4),
                ));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sixteen_lines_differ_in_more_than_colour_wherever_their_colour_is_the_same() {
        for one in 0..16 {
            for other in 0..one {
                let (a, b) = (numbered(one), numbered(other));
                assert!(
                    a.role != b.role || a.marker != b.marker,
                    "{one} and {other}"
                );
            }
        }
        // The four of a drawing differ in each, so that no one needs colours to read it.
        for one in 0..DRAWN {
            for other in 0..one {
                let (a, b) = (numbered(one), numbered(other));
                assert_ne!(a.marker, b.marker);
                assert!(
                    a.role != b.role && (a.dash, a.width.to_bits()) != (b.dash, b.width.to_bits())
                );
            }
        }
    }

    #[test]
    fn of_many_cases_the_calmest_and_the_windiest_are_always_drawn() {
        assert_eq!(drawn(7, (4, 6)), [0, 1, 4, 6]);
        assert_eq!(drawn(4, (2, 0)), [0, 1, 2, 3]);
        assert_eq!(drawn(1, (0, 0)), [0]);
        assert_eq!(drawn(0, (0, 0)), [0; 0]);
    }

    #[test]
    fn a_case_has_the_style_that_it_is_drawn_with() {
        let styles = of_cases(7, (4, 6));
        for (number, place) in drawn(7, (4, 6)).into_iter().enumerate() {
            assert_eq!(styles[place], numbered(number));
        }
        for one in 0..7 {
            for other in 0..one {
                assert_ne!(styles[one], styles[other], "{one} and {other}");
            }
        }
    }
}
