//! What a chart of a trial remembers between frames.

use super::span::{self, Span};
use crate::figure::styles::Style;
use crate::figure::trial::Points;
use crate::window::pages::kept::Kept;
use std::sync::Arc;

/// What a drag on the chart does.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Tool {
    /// It moves the view.
    #[default]
    Move,
    /// It marks a period, or moves the end of one.
    Mark,
}

/// A period that was marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Marked {
    /// A new one between two moments, s.
    New(i64, i64),
    /// The one with this place in the list now begins and ends here.
    Moved(usize, i64, i64),
}

/// What is being dragged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Dragged {
    /// A new period from this moment to where the pointer is.
    From(i64, i64),
    /// An end of the period with this place: the end that stays, and where the other is now.
    End(usize, i64, i64),
}

/// The lines of one plot: name, look, and the pieces without holes.
pub(super) type Drawn = Vec<(String, Style, Vec<Points>)>;

/// What lines are made for: revision, plot, from, to, pairs of points.
type LinesKey = (u64, usize, Span, usize);

/// What the chart remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct ChartView {
    shown: Option<Span>,
    /// Where the cursor stands, s.
    pub(super) cursor: Option<i64>,
    /// A period begun by key, s.
    pub(super) begun: Option<i64>,
    pub(super) tool: Tool,
    pub(super) dragged: Option<Dragged>,
    kept: [Kept<LinesKey, Drawn>; 3],
}

impl ChartView {
    /// The span in view.
    pub(super) fn shown(&self, all: Span) -> Span {
        self.shown.map_or(all, |shown| span::within(shown, all))
    }

    /// Shows a span.
    pub(super) fn show(&mut self, shown: Span) {
        self.shown = Some(shown);
    }

    /// The lines of a plot, made where they are not there yet.
    pub(super) fn lines(&mut self, key: LinesKey, make: impl FnOnce() -> Drawn) -> Arc<Drawn> {
        match self.kept.get_mut(key.1) {
            Some(kept) => kept.get(key, make),
            None => Arc::new(make()),
        }
    }
}
