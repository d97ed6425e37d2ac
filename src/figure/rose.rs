//! The rose: air changes per hour against wind direction.

use super::scene::{Anchor, Dash, Point, Role, Scene, Shape};
use crate::assess::Assessment;
use crate::assess::number::significant;

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

/// Draws a rose `size` mm wide and high; the survey's first four cases, told apart by dash and width.
///
/// Distance from the middle is the air change with the wind from that side. `heading_deg` turns
/// it into compass terms where it is known.
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
    rings(&mut scene, centre, radius, step, outer);
    vehicle(&mut scene, centre, turn);
    for (at, ((name, values), style)) in (0..).zip(curves.iter().zip(STYLES)) {
        let mut points: Vec<Point> = values
            .iter()
            .map(|(from_front, ach)| polar(centre, radius * ach / outer, from_front + turn))
            .collect();
        label(&mut scene, name, &points, at, style.role);
        points.extend(points.first().copied());
        scene.add(Shape::Polyline {
            points,
            role: style.role,
            width: style.width,
            dash: style.dash,
        });
    }
    captions(&mut scene, centre, radius, frame);
    scene
}

/// How one line is told apart from the others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Style {
    /// Colour.
    pub role: Role,
    /// How it is broken.
    pub dash: Dash,
    /// Width, mm.
    pub width: f64,
}

const fn style(role: Role, dash: Dash, width: f64) -> Style {
    Style { role, dash, width }
}

/// The styles of the first cases; further ones are not drawn.
pub const STYLES: [Style; 4] = [
    style(Role::First, Dash::Solid, 0.6),
    style(Role::Second, Dash::Dashed, 0.6),
    style(Role::Third, Dash::Dotted, 0.6),
    style(Role::Ink, Dash::Solid, 1.1),
];

/// Writes the name of a curve at its edge; each curve at another direction, so that names of
/// curves close together do not overlap.
fn label(scene: &mut Scene, name: &str, points: &[Point], curve: usize, role: Role) {
    let at = (2 + 4 * curve) % points.len().max(1);
    if let Some(point) = points.get(at) {
        let right = point.x >= scene.width / 2.0;
        let (shift, anchor) = if right {
            (1.2, Anchor::Left)
        } else {
            (-1.2, Anchor::Right)
        };
        scene.text(
            Point::new(point.x + shift, point.y),
            name,
            2.8,
            role,
            anchor,
        );
    }
}

type Curve = (String, Vec<(f64, f64)>);

fn curves(assessment: &Assessment) -> Vec<Curve> {
    let mut curves = Vec::new();
    for case in assessment.cases.iter().take(STYLES.len()) {
        if let Ok(air) = &case.air {
            let values = air.directions.iter().filter_map(|direction| {
                let ach = direction.ach_per_h.as_ref().ok()?;
                Some((direction.from_front_deg, *ach))
            });
            curves.push((case.name.clone(), values.collect()));
        }
    }
    curves
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

fn rings(scene: &mut Scene, centre: Point, radius: f64, step: f64, outer: f64) {
    let mut value = step;
    while value <= outer * (1.0 + 1e-9) {
        scene.add(Shape::Circle {
            centre,
            radius: radius * value / outer,
            fill: None,
            outline: Some(Role::Faint),
            width: 0.2,
            dash: Dash::Solid,
        });
        let at = polar(centre, radius * value / outer, 22.5);
        scene.text(
            at,
            format!("{} /h", significant(value, 2)),
            2.2,
            Role::Faint,
            Anchor::Left,
        );
        value += step;
    }
    for spoke in 0..8 {
        let end = polar(centre, radius, 45.0 * f64::from(spoke));
        let points = vec![centre, end];
        scene.add(Shape::Polyline {
            points,
            role: Role::Faint,
            width: 0.15,
            dash: Dash::Solid,
        });
    }
}

/// Adds a needle that points to where the wind comes from.
pub fn needle(scene: &mut Scene, clockwise_from_up_deg: f64) {
    let centre = Point::new(scene.width / 2.0, scene.height / 2.0);
    let radius = scene.width / 2.0 - 9.0;
    scene.add(Shape::Arrow {
        from: polar(centre, radius + 1.0, clockwise_from_up_deg),
        to: polar(centre, 8.0, clockwise_from_up_deg),
        role: Role::Selected,
        width: 0.5,
    });
}

/// A small body in the middle, its front towards the heading.
fn vehicle(scene: &mut Scene, centre: Point, turn_deg: f64) {
    let corner = |along: f64, across: f64| {
        let nose = polar(centre, along, turn_deg);
        polar(nose, across, turn_deg + 90.0)
    };
    scene.add(Shape::Polygon {
        points: vec![
            corner(6.0, 0.0),
            corner(4.0, 2.2),
            corner(-5.0, 2.2),
            corner(-5.0, -2.2),
            corner(4.0, -2.2),
        ],
        fill: Some(Role::Body),
        outline: Some(Role::Ink),
        width: 0.35,
        dash: Dash::Solid,
    });
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
