//! What the drawing of the unfolded body remembers between frames, and how it is found again.

use super::sight::Sight;
use crate::figure::body::{Arrangement, BodyFigure};
use crate::figure::scene::Point;
use crate::survey::{Facing, FittingId, GapId, Position};
use crate::window::body::{Frame, REACH};
use crate::window::pages::kept::Kept;
use eframe::egui::{Id, Pos2};

/// What the drawing remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct BodyView {
    pub(super) sight: Sight,
    /// A step of enlarging or reducing that a key or button asked for.
    pub(super) enlarge_wanted: Option<f32>,
    pub(super) drag: Option<Drag>,
    /// Keys move a gap or a fitting: while Ctrl is held it is one step.
    pub(super) nudged: bool,
    pub(super) legend: bool,
    /// Pointer and keys mean windows, doors and vents, and not the gaps.
    pub(super) fittings: bool,
    /// The fitting that is chosen.
    pub(super) fitting: Option<FittingId>,
    pub(super) drawn: Kept<Made, BodyFigure>,
    pub(super) shown: Option<Frame>,
}

/// What a drawing was made from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Made {
    /// Revisions of survey and results.
    pub(super) revisions: (u64, u64),
    /// The gap selected and those beside it.
    pub(super) selected: (Option<GapId>, Vec<GapId>),
    /// The fitting chosen.
    pub(super) fitting: Option<FittingId>,
    /// Something is being moved: numbers stay beside their marks.
    pub(super) moving: bool,
    /// Arrangement and width.
    pub(super) paper: (Arrangement, f64),
}

impl BodyView {
    /// Where a place of the vehicle was on the screen in the last frame.
    #[must_use]
    pub fn on_screen(&self, facing: Facing, position: &Position) -> Option<Pos2> {
        let figure = self.drawn.last()?;
        let (point, _) = figure.layout.place(facing, position);
        Some(self.shown?.to_screen(point))
    }

    /// Where the mark of a gap was on the screen in the last frame.
    #[must_use]
    pub fn mark_on_screen(&self, gap: GapId) -> Option<Pos2> {
        let at = self.drawn.last()?.place_of(gap)?.at;
        Some(self.shown?.to_screen(at))
    }
}

impl BodyView {
    /// Whether something is being moved, by pointer or keys.
    pub(super) fn is_moving(&self) -> bool {
        self.is_dragged() || self.nudged
    }

    /// Whether the pointer holds a mark or a fitting, and moves it.
    #[must_use]
    pub fn is_dragged(&self) -> bool {
        matches!(self.drag, Some(Drag::Mark { .. } | Drag::Fitting { .. }))
    }

    /// Where the middle of a fitting was on the screen in the last frame.
    #[must_use]
    pub fn fitting_on_screen(&self, fitting: FittingId) -> Option<Pos2> {
        let places = &self.drawn.last()?.fittings;
        let place = places.iter().find(|place| place.id == fitting)?;
        Some(self.shown?.to_screen(place.panel.middle()))
    }
}

/// Id of the drawing, which takes the focus for all its marks.
pub(super) fn drawing_id() -> Id {
    Id::unique("the unfolded body")
}

/// What the pointer drags.
#[derive(Clone, Copy, Debug)]
pub(super) enum Drag {
    /// A mark, held at this way from its middle, mm.
    Mark { gap: GapId, grip: Point },
    /// A fitting, held so.
    Fitting { fitting: FittingId, grip: Point },
    /// The drawing.
    Sight,
    /// Nothing any more, though the button is still down.
    Over,
}

/// The gaps whose mark is at a point of the screen.
pub(super) fn gaps_at(figure: &BodyFigure, frame: Frame, at: Pos2) -> Vec<GapId> {
    figure.gaps_at(frame.to_scene(at), f64::from(REACH / frame.scale))
}
