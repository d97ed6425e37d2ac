//! The unfolded body: the vehicle with its gaps, or with the air that flows through them.

mod labels;
mod layout;
mod legend;
mod marks;
mod moving;
mod opening;
mod outline;
mod spread;

pub use layout::{Arrangement, Layout, Panel, Picked, Recorded};
pub use legend::{LegendEntry, legend};
pub use marks::{MarkPlace, Show};

use super::scene::{Anchor, Dash, Point, Role, Scene, Shape, Stroke};
use crate::assess::number::significant;
use crate::assess::{Assessment, DirectionAnswer};
use crate::survey::gap::Facing;
use crate::survey::{GapId, Survey};
use layout::SIDES;

/// The drawing and where its faces lie.
#[derive(Clone, Debug, PartialEq)]
pub struct BodyFigure {
    /// The drawing.
    pub scene: Scene,
    /// Where the faces lie.
    pub layout: Layout,
    /// Where the marks are, in the order of the ledger.
    pub places: Vec<MarkPlace>,
}

impl BodyFigure {
    /// Where the mark of a gap is drawn.
    #[must_use]
    pub fn place_of(&self, gap: GapId) -> Option<&MarkPlace> {
        self.places.iter().find(|place| place.gap == gap)
    }

    /// The gaps whose mark is nearest to a point, if within `reach` mm of its edge: one, or all
    /// that share a mark. Of several marks that hold the point the smallest counts.
    #[must_use]
    pub fn gaps_at(&self, point: Point, reach: f64) -> Vec<GapId> {
        let outside = |place: &MarkPlace| (place.at.distance(point) - place.reach).max(0.0);
        let nearest = self
            .places
            .iter()
            .filter(|place| outside(place) <= reach)
            .min_by(|a, b| {
                let by_reach = a.reach.total_cmp(&b.reach);
                outside(a).total_cmp(&outside(b)).then(by_reach)
            });
        let Some(nearest) = nearest else {
            return Vec::new();
        };
        if nearest.sharing == 1 {
            return vec![nearest.gap];
        }
        let here = |place: &&MarkPlace| place.sharing > 1 && place.at == nearest.at;
        let sharing = self.places.iter().filter(here);
        sharing.map(|place| place.gap).collect()
    }

    /// The gaps face by face from the top of the drawing, on each from left to right: the order
    /// in which the keyboard steps through them.
    #[must_use]
    pub fn reading_order(&self) -> Vec<GapId> {
        let face = |facing: Facing| match facing {
            Facing::Offside => 0,
            Facing::Front => 1,
            Facing::Roof => 2,
            Facing::Rear => 3,
            Facing::Nearside => 4,
            Facing::Underfloor | Facing::Cavity(_) => 5,
        };
        let mut places: Vec<&MarkPlace> = self.places.iter().collect();
        places.sort_by(|a, b| {
            let (by_x, by_y) = (a.at.x.total_cmp(&b.at.x), a.at.y.total_cmp(&b.at.y));
            face(a.face).cmp(&face(b.face)).then(by_x).then(by_y)
        });
        places.into_iter().map(|place| place.gap).collect()
    }
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
    let places = marks::gaps(&mut scene, &layout, survey, assessment, show);
    if let Some(direction) = show.direction {
        marks::flows(&mut scene, &layout, survey, &places, direction);
    }
    scene.description = format!(
        "The {} unfolded, with {} gaps marked on its faces",
        survey.vehicle.kind.name(),
        survey.gaps.len()
    );
    BodyFigure {
        scene,
        layout,
        places,
    }
}

/// The level at which inside and outside pressure are equal, on the four sides.
fn neutral_level(scene: &mut Scene, layout: &Layout, direction: &DirectionAnswer) {
    let Some(level) = direction.neutral_level else {
        return;
    };
    if !(layout.floor_height_m..=layout.height_m).contains(&level) {
        return;
    }
    for facing in SIDES {
        let at = |along, across| layout.on_face(facing, along, across, level);
        let points = vec![at(0.0, 0.0), at(layout.length_m, layout.width_m)];
        scene.add(Shape::line(
            points,
            Stroke::new(Role::Second, 0.35, Dash::Dotted),
        ));
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
    let corner = layout.panel(Facing::Roof);
    let size = (layout.height_m * layout.scale / 2.0).min(18.0);
    let centre = Point::new(corner.left - size - 4.0, corner.top - size - 8.0);
    // The front is to the left: wind from the front blows to the right, angles count clockwise.
    let radians = direction.from_front_deg.to_radians();
    let (dx, dy) = (-radians.cos(), -radians.sin());
    let from = Point::new(centre.x + dx * size * 0.8, centre.y + dy * size * 0.8);
    let to = Point::new(centre.x - dx * size * 0.8, centre.y - dy * size * 0.8);
    scene.add(Shape::arrow(from, to, Role::Ink, 1.2));
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
