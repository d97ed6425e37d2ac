//! The unfolded body: the vehicle with its gaps, or with the air that flows through them.

mod labels;
mod layout;
mod legend;
mod marks;
mod moving;
mod outline;
mod seam;
mod spread;

pub use labels::LabelPlace;
pub use layout::{Arrangement, Layout, Panel, Picked};
pub use legend::{LegendEntry, legend};
pub(crate) use marks::role;
pub use marks::{MarkPlace, Show};
pub use outline::FittingPlace;

use super::outline::fittings;
use super::scene::{Anchor, Dash, Point, Role, Scene, Shape, Stroke, from_line};
use crate::assess::number::significant;
use crate::assess::{Assessment, DirectionAnswer};
use crate::survey::gap::Facing;
use crate::survey::{FittingId, GapId, Survey};
use layout::SIDES;
use seam::Openings;
use std::cmp::Ordering;

/// The drawing and where its faces lie.
#[derive(Clone, Debug, PartialEq)]
pub struct BodyFigure {
    /// The drawing.
    pub scene: Scene,
    /// Where the faces lie.
    pub layout: Layout,
    /// Where the marks are, in the order of the ledger.
    pub places: Vec<MarkPlace>,
    /// Where the numbers are.
    pub labels: Vec<LabelPlace>,
    /// Where the fittings are, in their order.
    pub fittings: Vec<FittingPlace>,
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
        let outside = |place: &MarkPlace| {
            let away = if place.path.is_empty() {
                place.at.distance(point)
            } else {
                from_line(&place.path, point).min(place.at.distance(point))
            };
            (away - place.reach).max(0.0)
        };
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

    /// The fitting that is drawn at a point: of several the smallest.
    #[must_use]
    pub fn fitting_at(&self, point: Point) -> Option<FittingId> {
        let here = self
            .fittings
            .iter()
            .filter(|place| place.panel.holds(point));
        let area = |place: &&FittingPlace| {
            let panel = place.panel;
            (panel.right - panel.left) * (panel.bottom - panel.top)
        };
        let smallest = here.min_by(|a, b| area(a).total_cmp(&area(b)));
        smallest.map(|place| place.id)
    }

    /// The gaps face by face in the order of a walk round, on each from left to right: the order
    /// in which the keyboard steps through them.
    #[must_use]
    pub fn reading_order(&self) -> Vec<GapId> {
        let mut places: Vec<&MarkPlace> = self.places.iter().collect();
        places.sort_by(|a, b| reading(a.face, a.at, b.face, b.at));
        places.into_iter().map(|place| place.gap).collect()
    }

    /// The fittings in the same order.
    #[must_use]
    pub fn fittings_in_order(&self) -> Vec<FittingId> {
        let mut places: Vec<&FittingPlace> = self.fittings.iter().collect();
        places.sort_by(|a, b| reading(a.face, a.panel.middle(), b.face, b.panel.middle()));
        places.into_iter().map(|place| place.id).collect()
    }
}

/// Which of two places is read first: by face, then from left to right, then from the top.
fn reading(a_face: Facing, a: Point, b_face: Facing, b: Point) -> Ordering {
    let face = |facing: Facing| match facing {
        Facing::Front => 0,
        Facing::Nearside => 1,
        Facing::Rear => 2,
        Facing::Offside => 3,
        Facing::Roof => 4,
        Facing::Underfloor | Facing::Cavity(_) => 5,
    };
    let (by_x, by_y) = (a.x.total_cmp(&b.x), a.y.total_cmp(&b.y));
    face(a_face).cmp(&face(b_face)).then(by_x).then(by_y)
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
    let shown = fittings::shown(survey);
    let fittings = outline::faces(&mut scene, &layout, survey, &shown);
    if let Some(id) = show.fitting {
        chosen(&mut scene, &fittings, id);
    }
    if let Some(direction) = show.direction {
        neutral_level(&mut scene, &layout, direction);
        wind(&mut scene, &layout, direction);
    }
    let openings = Openings::of(&layout, survey, &shown);
    let (places, labels) = marks::gaps(&mut scene, &layout, (survey, &openings), assessment, show);
    if let Some(direction) = show.direction {
        marks::flows(&mut scene, &places, direction);
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
        labels,
        fittings,
    }
}

/// A frame round the fitting that is chosen.
fn chosen(scene: &mut Scene, fittings: &[FittingPlace], id: FittingId) {
    const OUT: f64 = 0.9;
    if let Some(place) = fittings.iter().find(|place| place.id == id) {
        let panel = place.panel;
        scene.add(Shape::rectangle(
            (
                Point::new(panel.left - OUT, panel.top - OUT),
                Point::new(panel.right + OUT, panel.bottom + OUT),
            ),
            None,
            Stroke::solid(Role::Selected, 0.6),
        ));
    }
}

/// The level at which inside and outside pressure are equal, on the four sides.
fn neutral_level(scene: &mut Scene, layout: &Layout, direction: &DirectionAnswer) {
    let Some(level) = direction.neutral_level else {
        return;
    };
    if !(layout.sizes.floor_height_m..=layout.sizes.height_m).contains(&level) {
        return;
    }
    for facing in SIDES {
        let panel = layout.panel(facing);
        let y = layout.spot(facing, (0.0, level)).y;
        let points = vec![Point::new(panel.left, y), Point::new(panel.right, y)];
        scene.add(Shape::line(
            points,
            Stroke::new(Role::Second, 0.35, Dash::Dotted),
        ));
    }
    let panel = layout.panel(Facing::Nearside);
    let down = (layout.sizes.height_m - level) * layout.scale;
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
    let free = layout.free();
    let (wide, tall) = (free.right - free.left, free.bottom - free.top);
    let size = (wide / 2.0).min(tall / 2.0 - 2.0).clamp(2.0, 18.0);
    let centre = free.middle();
    // Beside the roof, whose front is to the left: wind from the front blows to the right, angles count clockwise.
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
