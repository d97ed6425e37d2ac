//! What the Winter page remembers between frames.

use super::super::kept::Kept;
use super::span::{Lines, LinesKey, Span};
use crate::assess::winter::Throughout;
use crate::figure::Scene;
use crate::report::Section;
use crate::survey::{Field, Place};
use crate::window::context::PageContext;
use crate::window::widgets::Ways;

/// What the page gets to see.
pub(super) type WinterContext<'a> = PageContext<'a, WinterView>;

/// Whether the winter after the plan, its draws, and the trials that it is held against, are there.
pub(super) type Stage = (bool, bool, bool);

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct WinterView {
    pub(super) ways: Ways<Part>,
    /// The two options compared hour by hour, by their places.
    pub(super) compared: Option<[usize; 2]>,
    pub(super) span: Span,
    /// Where the span begins, hours of the season.
    pub(super) from_h: usize,
    /// The monthly means are unfolded.
    pub(super) months_open: bool,
    /// The figures behind the pictures are unfolded.
    pub(super) figures_open: bool,
    pub(super) sentences: Kept<u64, Vec<String>>,
    pub(super) sections: Kept<(u64, Stage), Vec<Section>>,
    pub(super) laid: Kept<(u64, Stage), Option<Section>>,
    pub(super) bands: Kept<(u64, Stage, f64), Scene>,
    pub(super) both: Kept<(u64, Stage, [usize; 2], f64), Scene>,
    pub(super) calendar: Kept<(u64, usize, f64), Scene>,
    pub(super) lines: Kept<LinesKey, Lines>,
}

impl WinterView {
    /// Makes a field visible, for a finding's way to its place.
    pub fn reveal(&mut self, place: Place) {
        self.ways.ask(Part::Stay);
        let of_month = [
            Field::MonthMean,
            Field::MonthRange,
            Field::MonthRh,
            Field::MonthWind,
            Field::MonthSun,
        ];
        self.months_open |= of_month.into_iter().any(|field| place.is_at(field));
    }
}

/// The parts of the page, from what the owner asks to what the engineer checks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Picture,
    Plan,
    Calendar,
    Hours,
    Figures,
    Stay,
}

impl Part {
    pub(super) const ALL: [(Self, &'static str); 6] = [
        (Self::Picture, "options"),
        (Self::Plan, "before and after the plan"),
        (Self::Calendar, "calendar"),
        (Self::Hours, "hours"),
        (Self::Figures, "figures, frost and mould"),
        (Self::Stay, "weather and place"),
    ];
}

/// The two options compared: those chosen, otherwise doing nothing and the driest, or the next that is
/// known.
pub(super) fn compared(context: &WinterContext<'_>, run: &Throughout) -> [usize; 2] {
    let there = |at: &usize| *at < run.options().len();
    let chosen = context.view.compared.filter(|pair| pair.iter().all(there));
    chosen.unwrap_or_else(|| {
        let is_known = |at: &usize| run.option(*at).is_some_and(|(_, season)| season.is_ok());
        let known = || (0..run.options().len()).filter(is_known);
        let first = run.idle().filter(is_known).or_else(|| known().next());
        let first = first.unwrap_or(0);
        let next = || known().find(|at| *at != first);
        [first, run.driest().or_else(next).unwrap_or(first)]
    })
}
