//! What the page tells, put together once for each comparison and choice, not in every frame.

use super::super::kept::Kept;
use super::shown::Shown;
use crate::assess::{Answer, Comparison};
use crate::figure::{self, Psychrometric, Scene};
use crate::report::drying::{self, Told};
use crate::report::{Section, Table};
use crate::survey::Survey;
use std::sync::Arc;

/// Revisions of the survey and of the comparison.
pub(super) type Dates = (u64, u64);

/// What the page keeps.
#[derive(Clone, Debug, Default)]
pub(super) struct Texts {
    whole: Kept<Dates, Whole>,
    shown: Kept<(Dates, usize, usize), OfShown>,
    /// The picture of the options, so many millimetres wide.
    options: Kept<(Dates, f64), Scene>,
    /// The psychrometric chart.
    chart: Kept<(Dates, usize, usize, f64), Answer<Psychrometric>>,
}

/// What is told of the whole comparison.
#[derive(Clone, Debug)]
pub(super) struct Whole {
    pub(super) summary: Vec<String>,
    pub(super) notes: Vec<String>,
    pub(super) options: Vec<Told>,
    pub(super) figures: Section,
    pub(super) machines: Section,
    pub(super) heaters: Section,
    pub(super) drying_out: Section,
    pub(super) warming_up: Section,
    pub(super) night: Section,
}

/// What is told of the option and the weather that were chosen.
#[derive(Clone, Debug)]
pub(super) struct OfShown {
    pub(super) states: Table,
    pub(super) warmth_alone: Option<String>,
    pub(super) surfaces: Section,
}

impl Texts {
    pub(super) fn whole(
        &mut self,
        dates: Dates,
        survey: &Survey,
        comparison: &Comparison,
    ) -> Arc<Whole> {
        self.whole.get(dates, || Whole {
            summary: drying::summary(comparison),
            notes: drying::summary_notes(comparison),
            options: drying::told(comparison),
            figures: drying::figures(survey, comparison),
            machines: drying::machines(survey, comparison),
            heaters: drying::heaters(survey, comparison),
            drying_out: drying::drying_out(comparison),
            warming_up: drying::warming_up(comparison),
            night: drying::night(comparison),
        })
    }

    pub(super) fn of_shown(
        &mut self,
        dates: Dates,
        comparison: &Comparison,
        shown: Shown,
    ) -> Arc<OfShown> {
        let (case, option) = (shown.case(comparison), shown.option(comparison));
        self.shown.get((dates, case, option), || OfShown {
            states: drying::states(comparison, case),
            warmth_alone: drying::warmth_alone(comparison, case),
            surfaces: drying::surfaces(comparison, option, case),
        })
    }

    /// The picture of the options.
    pub(super) fn options(
        &mut self,
        dates: Dates,
        comparison: &Comparison,
        width: f64,
    ) -> Arc<Scene> {
        self.options
            .get((dates, width), || figure::options(comparison, width))
    }

    /// The chart of the weather and option that were chosen.
    pub(super) fn chart(
        &mut self,
        dates: Dates,
        comparison: &Comparison,
        shown: Shown,
        size: (f64, f64),
    ) -> Arc<Answer<Psychrometric>> {
        let (case, option) = (shown.case(comparison), shown.option(comparison));
        self.chart.get((dates, case, option, size.0), || {
            figure::psychrometric(comparison, case, Some(option), size)
        })
    }
}
