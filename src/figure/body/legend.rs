//! What the marks mean, each with its words.

use super::marks::{role, shape};
use crate::figure::scene::{Point, Role, Scene, Shape, Stroke};
use crate::survey::gap::{Certainty, Purpose};

/// Side of the small drawing of a mark, mm.
const SIDE: f64 = 5.0;
/// Radius of the marks in it, mm.
const RADIUS: f64 = 1.7;

/// A mark and what it means.
#[derive(Clone, Debug, PartialEq)]
pub struct LegendEntry {
    /// The mark.
    pub scene: Scene,
    /// What it means.
    pub words: String,
}

/// Every shape, every outline, and what else a mark tells.
#[must_use]
pub fn legend() -> Vec<LegendEntry> {
    let mut entries: Vec<LegendEntry> = Purpose::ALL
        .map(|purpose| {
            let shape = mark((purpose, Certainty::Measured), Some(role(purpose)));
            entry([shape], purpose.name())
        })
        .into();
    entries.extend(Certainty::ALL.map(|certainty| {
        let shape = mark((Purpose::Unintended, certainty), Some(Role::Leak));
        entry([shape], format!("outline: {}", certainty.name()))
    }));
    let hollow = || mark((Purpose::Unintended, Certainty::Measured), None);
    let seam = {
        let points = vec![
            Point::new(0.5, SIDE * 0.7),
            Point::new(SIDE * 0.5, SIDE * 0.3),
            Point::new(SIDE - 0.5, SIDE * 0.3),
        ];
        Shape::line(points, Stroke::solid(Role::Leak, 1.0))
    };
    entries.push(entry([seam], "line: a long gap along its seal, to scale"));
    entries.push(entry([hollow()], "hollow, ?: its place is not known"));
    let stroke = Shape::line(
        vec![Point::new(0.4, SIDE - 0.4), Point::new(SIDE - 0.4, 0.4)],
        Stroke::solid(Role::Ink, 0.4),
    );
    entries.push(entry([hollow(), stroke], "struck: sealed"));
    let ring = |radius| {
        Shape::circle(
            Point::new(SIDE / 2.0, SIDE / 2.0),
            radius,
            None,
            Stroke::solid(Role::Ink, 0.4),
        )
    };
    entries.push(entry(
        [ring(1.2), ring(2.0)],
        "two rings: many in one place",
    ));
    entries
}

fn mark(kind: (Purpose, Certainty), fill: Option<Role>) -> Shape {
    let centre = Point::new(SIDE / 2.0, SIDE / 2.0);
    shape(centre, RADIUS, kind, fill, Role::Ink)
}

fn entry<const N: usize>(shapes: [Shape; N], words: impl Into<String>) -> LegendEntry {
    let words = words.into();
    let mut scene = Scene::new(SIDE, SIDE);
    for shape in shapes {
        scene.add(shape);
    }
    scene.description.clone_from(&words);
    LegendEntry { scene, words }
}
