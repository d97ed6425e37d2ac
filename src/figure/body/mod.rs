//! The unfolded body: the vehicle with its gaps, or with the air that flows through them.

mod layout;
mod marks;
mod outline;

pub use layout::{Arrangement, Layout, Panel, Picked};

use super::scene::{Anchor, Dash, Point, Role, Scene, Shape};
use crate::assess::number::significant;
use crate::assess::{Assessment, DirectionAnswer};
use crate::survey::{GapId, Survey};

/// What to draw on the body.
#[derive(Clone, Copy, Debug)]
pub struct Show<'a> {
    /// The gap drawn as selected.
    pub selected: Option<GapId>,
    /// One wind direction, to draw its flows and neutral level.
    pub direction: Option<&'a DirectionAnswer>,
    /// Whether each mark carries its number.
    pub numbers: bool,
}

/// The drawing and where its faces lie.
#[derive(Clone, Debug, PartialEq)]
pub struct BodyFigure {
    /// The drawing.
    pub scene: Scene,
    /// Where the faces lie.
    pub layout: Layout,
}

/// Draws the unfolded body about `width` mm wide.
#[must_use]
pub fn body(
    survey: &Survey,
    assessment: &Assessment,
    arrangement: Arrangement,
    width: f64,
    show: &Show<'_>,
) -> BodyFigure {
    let layout = Layout::new(&survey.vehicle, arrangement, width);
    let (width, height) = layout.size();
    let mut scene = Scene::new(width, height);
    outline::faces(&mut scene, &layout, survey);
    if let Some(direction) = show.direction {
        neutral_level(&mut scene, &layout, direction);
        wind(&mut scene, &layout, direction);
    }
    marks::gaps(&mut scene, &layout, survey, assessment, show);
    if let Some(direction) = show.direction {
        marks::flows(&mut scene, &layout, survey, direction);
    }
    scene.description = format!(
        "The {} unfolded, with {} gaps marked on its faces",
        survey.vehicle.kind.name(),
        survey.gaps.len()
    );
    BodyFigure { scene, layout }
}

/// The level at which inside and outside pressure are equal, on the four sides.
fn neutral_level(scene: &mut Scene, layout: &Layout, direction: &DirectionAnswer) {
    use crate::survey::gap::{Facing, Position};
    let Some(level) = direction.neutral_level else {
        return;
    };
    if !(layout.floor_height_m..=layout.height_m).contains(&level) {
        return;
    }
    for facing in [
        Facing::Nearside,
        Facing::Offside,
        Facing::Front,
        Facing::Rear,
    ] {
        let at = |along: f64, across: f64| {
            let position = Position {
                along_m: Some(along),
                across_m: Some(across),
                height_m: Some(level),
                rise_m: None,
            };
            layout.place(facing, &position).0
        };
        let points = vec![at(0.0, 0.0), at(layout.length_m, layout.width_m)];
        scene.add(Shape::Polyline {
            points,
            role: Role::Second,
            width: 0.35,
            dash: Dash::Dotted,
        });
    }
    let panel = layout.panel(Facing::Nearside);
    let down = (layout.height_m - level) * layout.scale;
    scene.text(
        Point::new(panel.left + 1.5, panel.top + down - 2.0),
        format!("neutral level {} m", significant(level, 3)),
        2.4,
        Role::Second,
        Anchor::Left,
    );
}

/// A broad arrow in the corner that shows where the wind comes from.
fn wind(scene: &mut Scene, layout: &Layout, direction: &DirectionAnswer) {
    use crate::survey::gap::Facing;
    let corner = layout.panel(Facing::Roof);
    let size = (layout.height_m * layout.scale / 2.0).min(18.0);
    let centre = Point::new(corner.left - size - 4.0, corner.top - size - 8.0);
    // The front is to the left: wind from the front blows to the right, angles count clockwise.
    let radians = direction.from_front_deg.to_radians();
    let (dx, dy) = (-radians.cos(), -radians.sin());
    let from = Point::new(centre.x + dx * size * 0.8, centre.y + dy * size * 0.8);
    let to = Point::new(centre.x - dx * size * 0.8, centre.y - dy * size * 0.8);
    scene.add(Shape::Arrow {
        from,
        to,
        role: Role::Ink,
        width: 1.2,
    });
    scene.text(
        Point::new(centre.x, centre.y + size + 3.0),
        format!("wind {:.0}° from front", direction.from_front_deg),
        2.4,
        Role::Ink,
        Anchor::Middle,
    );
}

#[cfg(test)]
mod tests;
