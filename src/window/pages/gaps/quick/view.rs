//! What the bar for quick entry remembers between frames.

use super::draft::Draft;
use crate::survey::GapId;

/// What the bar remembers between frames.
#[derive(Clone, Debug, Default)]
pub(in crate::window) struct QuickEntry {
    pub(super) draft: Draft,
    /// The draft before what is being typed, for Esc.
    pub(super) settled: Draft,
    /// What takes the focus in the next frame.
    pub(super) wanted: Option<Wanted>,
    /// The gap added last.
    pub(super) added: Option<GapId>,
}

/// What takes the focus.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    /// The choice of a shape.
    Shape,
    /// The first size.
    FirstSize,
}

impl QuickEntry {
    /// Puts the focus on the choice of a shape in the next frame.
    pub(in crate::window::pages::gaps) fn jump(&mut self) {
        self.wanted = Some(Wanted::Shape);
    }
}
