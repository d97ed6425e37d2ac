//! The rose: air changes per hour against wind direction.

use super::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use super::styles::{self, numbered};
use crate::assess::Assessment;
use crate::assess::number::significant;
use crate::physics::counts::whole;

/// What the rose's upright means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RoseFrame {
    /// The vehicle's front is up.
    Vehicle,
    /// North is up; needs the heading.
    Compass,
}

/// How many rings at most.
const RINGS: f64 = 4.0;

/// Draws a rose `size` mm wide and high; the cases of [`drawn`], told apart by dash and marker.
///
/// Distance from the inmost ring is the air change with the wind from that side, by its square root:
/// still air can then be told from none beside a gale, and no curve lies under the vehicle.
/// `heading_deg` turns it into compass terms where it is known.
///
/// ```text
/// r = r₀ + (R − r₀) √(a / A)
/// ```
/// where a is the air change, A that of the outer ring, r₀ and R the radii of the inmost and the outer
/// ring, mm.
#[must_use]
pub fn rose(
    assessment: &Assessment,
    heading_deg: Option<f64>,
    frame: RoseFrame,
    size: f64,
) -> Scene {
    let mut scene = Scene::new(size, size);
    let centre = Point::new(size / 2.0, size / 2.0);
    let radius = size / 2.0 - 9.0;
    let turn = match (frame, heading_deg) {
        (RoseFrame::Compass, Some(heading)) => heading,
        _ => 0.0,
    };
    let curves = curves(assessment);
    let most = curves
        .iter()
        .flat_map(|(_, values)| values.iter())
        .fold(0.0_f64, |a, (_, b)| a.max(*b));
    scene.description = "Air changes per hour against the direction the wind comes from".to_owned();
    if most <= 0.0 {
        scene.text(centre, "not known", 3.0, Role::Faint, Anchor::Middle);
        return scene;
    }
    let step = ring_step(most);
    let outer = (most / step).ceil() * step;
    rings(&mut scene, centre, radius, outer);
    vehicle(&mut scene, centre, turn);
    let lines: Vec<(String, Vec<Point>)> = curves
        .into_iter()
        .map(|(name, values)| {
            let points = values.iter().map(|(from_front, ach)| {
                polar(centre, reach(radius, *ach, outer), from_front + turn)
            });
            (name, points.collect())
        })
        .collect();
    for (number, (_, points)) in lines.iter().enumerate() {
        let style = numbered(number);
        let round: Vec<Point> = points.iter().chain(points.first()).copied().collect();
        if !round.is_empty() {
            scene.add(Shape::line(
                round,
                Stroke::new(style.role, style.width, style.dash),
            ));
        }
        for point in points {
            styles::mark(&mut scene, *point, MARKER, style);
        }
    }
    // After all lines, so that none runs through a name.
    for (number, (name, points)) in lines.iter().enumerate() {
        label(&mut scene, name, points, number, numbered(number).role);
    }
    captions(&mut scene, centre, radius, frame);
    let at = Point::new(1.0, size - 2.0);
    let words = "inmost ring: none; square-root scale";
    scene.text(at, words, 2.2, Role::Faint, Anchor::Left);
    scene
}

/// Places of the cases that a rose shows, in the order of the survey: all, or as many as there
/// are styles, the calmest and the windiest among them.
#[must_use]
pub fn drawn(assessment: &Assessment) -> Vec<usize> {
    let extremes = assessment.calmest_and_windiest.unwrap_or((0, 0));
    styles::drawn(assessment.cases.len(), extremes)
}

/// Radius of the inmost ring, no air change at all: outside the vehicle in the middle, mm.
const NONE_RADIUS: f64 = 7.5;
/// Rings are so far apart at least, as parts of the way from the inmost to the outer.
const APART: f64 = 0.17;

/// How far from the middle an air change stands, mm.
fn reach(radius: f64, ach: f64, outer: f64) -> f64 {
    NONE_RADIUS + (radius - NONE_RADIUS) * (ach / outer).max(0.0).sqrt()
}

/// Half the size of a marker, mm.
const MARKER: f64 = 0.8;
/// Letters of a curve's name, mm.
const NAME: f64 = 2.8;
/// Width of a letter by its height, on average.
const MEAN_LETTER: f64 = 0.6;
/// Lines of a curve's name at most.
const NAME_LINES: usize = 2;

/// Writes the name of a curve at its edge; each curve at another direction, so that names of
/// curves close together do not overlap.
fn label(scene: &mut Scene, name: &str, points: &[Point], curve: usize, role: Role) {
    let at = (2 + 4 * curve) % points.len().max(1);
    let Some(point) = points.get(at) else {
        return;
    };
    let right = point.x >= scene.width / 2.0;
    let (shift, anchor, room) = if right {
        (1.2, Anchor::Left, scene.width - point.x)
    } else {
        (-1.2, Anchor::Right, point.x)
    };
    let letters = whole(room / (NAME * MEAN_LETTER));
    let lines = fitted(name, letters.max(6));
    let (height, mut y) = (1.2 * NAME, point.y);
    y -= height / 2.0 * f64::from(u8::from(lines.len() > 1));
    for line in lines {
        scene.text(Point::new(point.x + shift, y), line, NAME, role, anchor);
        y += height;
    }
}

/// A name in lines of so many letters, broken at spaces; what is too long ends in `…`.
fn fitted(name: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in name.split_whitespace() {
        let full = lines.len() == NAME_LINES;
        match lines.last_mut() {
            Some(line) if full || line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    for line in &mut lines {
        if line.chars().count() > letters {
            let kept: String = line.chars().take(letters.saturating_sub(1)).collect();
            *line = format!("{}…", kept.trim_end());
        }
    }
    lines
}

type Curve = (String, Vec<(f64, f64)>);

/// The cases of [`drawn`]; one whose air is not known has no values and keeps its style.
fn curves(assessment: &Assessment) -> Vec<Curve> {
    let places = drawn(assessment).into_iter();
    places
        .filter_map(|place| assessment.cases.get(place))
        .map(|case| {
            let directions = case.air.iter().flat_map(|air| &air.directions);
            let values = directions.filter_map(|direction| {
                let ach = direction.ach_per_h.as_ref().ok()?;
                Some((direction.from_front_deg, *ach))
            });
            (case.name.clone(), values.collect())
        })
        .collect()
}

/// A round distance between rings: 1, 2 or 5 times a power of ten.
fn ring_step(most: f64) -> f64 {
    let raw = most / RINGS;
    let power = 10.0_f64.powf(raw.log10().floor());
    let factor = [1.0, 2.0, 5.0]
        .into_iter()
        .find(|factor| factor * power >= raw);
    factor.map_or(10.0 * power, |factor| factor * power)
}

fn polar(centre: Point, distance: f64, clockwise_from_up_deg: f64) -> Point {
    let angle = clockwise_from_up_deg.to_radians();
    Point::new(
        centre.x + distance * angle.sin(),
        centre.y - distance * angle.cos(),
    )
}

/// Air changes at which rings stand, from the outer one inwards: round ones below it, not too close.
fn ring_values(outer: f64) -> Vec<f64> {
    let mut values = vec![outer];
    let mut place = 1.0_f64;
    let power = 10.0_f64.powf(outer.log10().floor());
    let round = [5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01].map(|part| part * power);
    for value in round {
        let at = (value / outer).sqrt();
        if place - at >= APART && at >= APART {
            values.push(value);
            place = at;
        }
    }
    values
}

fn rings(scene: &mut Scene, centre: Point, radius: f64, outer: f64) {
    let none = Stroke::solid(Role::Faint, 0.3);
    scene.add(Shape::circle(centre, NONE_RADIUS, None, none));
    for value in ring_values(outer) {
        let away = reach(radius, value, outer);
        let line = Stroke::solid(Role::Faint, 0.2);
        scene.add(Shape::circle(centre, away, None, line));
        scene.text(
            polar(centre, away, 22.5),
            format!("{} /h", significant(value, 2)),
            2.2,
            Role::Faint,
            Anchor::Left,
        );
    }
    for spoke in 0..8 {
        let towards = 45.0 * f64::from(spoke);
        let points = [NONE_RADIUS, radius].map(|away| polar(centre, away, towards));
        let points = points.to_vec();
        scene.add(Shape::line(points, Stroke::solid(Role::Faint, 0.15)));
    }
}

/// Adds a needle that points to where the wind comes from.
pub fn needle(scene: &mut Scene, clockwise_from_up_deg: f64) {
    let centre = Point::new(scene.width / 2.0, scene.height / 2.0);
    let radius = scene.width / 2.0 - 9.0;
    scene.add(Shape::arrow(
        polar(centre, radius + 1.0, clockwise_from_up_deg),
        polar(centre, 8.0, clockwise_from_up_deg),
        Role::Selected,
        0.5,
    ));
}

/// A small body in the middle, its front towards the heading.
fn vehicle(scene: &mut Scene, centre: Point, turn_deg: f64) {
    let corner = |along: f64, across: f64| {
        let nose = polar(centre, along, turn_deg);
        polar(nose, across, turn_deg + 90.0)
    };
    scene.add(Shape::polygon(
        vec![
            corner(6.0, 0.0),
            corner(4.0, 2.2),
            corner(-5.0, 2.2),
            corner(-5.0, -2.2),
            corner(4.0, -2.2),
        ],
        Role::Body,
        Stroke::solid(Role::Ink, 0.35),
    ));
}

fn captions(scene: &mut Scene, centre: Point, radius: f64, frame: RoseFrame) {
    let names = match frame {
        RoseFrame::Vehicle => ["front", "offside", "rear", "nearside"],
        RoseFrame::Compass => ["N", "E", "S", "W"],
    };
    for (quarter, name) in (0..).zip(names) {
        let at = polar(centre, radius + 4.0, 90.0 * f64::from(quarter));
        scene.text(at, name, 2.8, Role::Ink, Anchor::Middle);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_keeps_its_start_and_says_that_more_follows() {
        assert_eq!(fitted("still, hard frost", 10), ["still,", "hard frost"]);
        assert_eq!(fitted("windy", 10), ["windy"]);
        let long = fitted("still and very damp night in the valley", 10);
        assert_eq!(long, ["still and", "very damp…"]);
        assert_eq!(fitted("Donnerwetter", 6), ["Donne…"]);
    }

    /// A still night of 0.08 /h beside a gale of 4 /h: by hand, √(0.08/4) = 0.1414 of the way.
    #[test]
    fn still_air_can_be_read_beside_a_gale() {
        let radius = 37.0;
        let still = reach(radius, 0.08, 4.0);
        assert!((still - (NONE_RADIUS + 0.141_42 * (radius - NONE_RADIUS))).abs() < 1e-3);
        // Clear of the ring of none by more than a marker, and of the vehicle, whose nose is at 6 mm.
        assert!(still - NONE_RADIUS > 2.0 * MARKER && NONE_RADIUS > 6.0);
        assert!((reach(radius, 4.0, 4.0) - radius).abs() < 1e-12);
    }

    #[test]
    fn rings_are_round_and_apart() {
        for outer in [0.04, 1.0, 3.0, 4.0, 7.0, 60.0] {
            let values = ring_values(outer);
            assert!((3..=6).contains(&values.len()), "{outer}: {values:?}");
            let places: Vec<f64> = values.iter().map(|one| (one / outer).sqrt()).collect();
            let apart = |pair: &[f64]| pair[0] - pair[1] >= APART;
            assert!(places.windows(2).all(apart), "{outer}: {values:?}");
        }
    }

    #[test]
    fn rings_stand_at_round_values_and_are_few() {
        for most in [0.013, 0.4, 0.99, 1.0, 3.7, 8.0, 42.0] {
            let step = ring_step(most);
            let rings = (most / step).ceil();
            assert!(
                (1.0..=RINGS).contains(&rings),
                "{most}: {rings} rings of {step}"
            );
            let mantissa = step / 10.0_f64.powf((step * 1.000_001).log10().floor());
            assert!(
                [1.0, 2.0, 5.0]
                    .iter()
                    .any(|round| (mantissa - round).abs() < 1e-6)
            );
        }
    }
}
