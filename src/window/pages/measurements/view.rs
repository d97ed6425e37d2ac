//! What the page Measurements remembers between frames.

use super::super::kept::Kept;
use crate::figure::Scene;
use crate::survey::FanTestId;
use crate::window::context::PageContext;
use std::sync::Arc;

/// What the page gets to see.
pub(super) type MeasurementsContext<'a> = PageContext<'a, MeasurementsView>;

/// Revision of the results, test, and width in millimetres that a plot was drawn for.
type PlotKey = (u64, FanTestId, f64);

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct MeasurementsView {
    /// The plots, one for each test.
    plots: Vec<(FanTestId, Kept<PlotKey, Scene>)>,
}

impl MeasurementsView {
    /// The plot of a test, drawn where it is not there yet.
    pub(super) fn plot(&mut self, key: PlotKey, draw: impl FnOnce() -> Scene) -> Arc<Scene> {
        let known = self.plots.iter().position(|(id, _)| *id == key.1);
        if let Some((_, kept)) = known.and_then(|at| self.plots.get_mut(at)) {
            return kept.get(key, draw);
        }
        let mut kept = Kept::default();
        let scene = kept.get(key, draw);
        self.plots.push((key.1, kept));
        scene
    }
}
