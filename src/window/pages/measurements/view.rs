//! What the page Measurements remembers between frames.

use super::super::kept::Kept;
use super::chart::ChartView;
use crate::figure::Scene;
use crate::survey::{FanTestId, Item, SeriesId, TrialId};
use crate::window::context::PageContext;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// What the page gets to see.
pub(super) type MeasurementsContext<'a> = PageContext<'a, MeasurementsView>;

/// Revision of the results, test, and width in millimetres that a plot was drawn for.
type PlotKey = (u64, FanTestId, f64);

/// The picture of what the methods of a trial did, where there is one, and the words.
pub(super) type Said = (Option<Scene>, crate::report::Section);

/// Revision of the study, and width of the picture by its bits.
pub(super) type SaidKey = (u64, u64);

/// The parts of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Section {
    /// Fan tests.
    #[default]
    FanTests,
    /// Tests of the air change.
    AirTests,
    /// Loggers, and the trials that stand on them.
    Trials,
}

impl Section {
    /// Every section with its name.
    pub const ALL: [(Self, &'static str); 3] = [
        (Self::FanTests, "Fan tests"),
        (Self::AirTests, "Air tests"),
        (Self::Trials, "Loggers and trials"),
    ];
}

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct MeasurementsView {
    pub(super) section: Section,
    /// The loggers whose forms are unfolded.
    pub(super) unfolded: BTreeSet<SeriesId>,
    /// The charts, one for each trial.
    charts: BTreeMap<TrialId, ChartView>,
    /// What was said of trials: picture and words.
    said: BTreeMap<TrialId, Kept<SaidKey, Said>>,
    /// The plots, one for each test.
    plots: Vec<(FanTestId, Kept<PlotKey, Scene>)>,
}

impl MeasurementsView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        self.section = match item {
            Item::Series(id) => {
                self.unfolded.insert(id);
                Section::Trials
            }
            Item::Trial(_) => Section::Trials,
            Item::AirTest(_) => Section::AirTests,
            _ => Section::FanTests,
        };
    }

    /// The part of the page that is shown.
    #[must_use]
    pub fn section(&self) -> Section {
        self.section
    }

    /// Shows a part of the page.
    pub fn show(&mut self, section: Section) {
        self.section = section;
    }

    /// What a trial says, put together where it is not there yet.
    pub(super) fn said(
        &mut self,
        trial: TrialId,
        key: SaidKey,
        make: impl FnOnce() -> Said,
    ) -> Arc<Said> {
        self.said.entry(trial).or_default().get(key, make)
    }

    /// The chart of a trial.
    pub(super) fn chart(&mut self, trial: TrialId) -> &mut ChartView {
        self.charts.entry(trial).or_default()
    }

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
