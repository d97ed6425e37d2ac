//! Drawings, and the tables of the curves, made once for each result and choice, not in every frame.

use super::super::kept::Kept;
use crate::assess::{CaseAir, DirectionAnswer};
use crate::figure::body::{BodyFigure, body};
use crate::figure::rose::rose;
use crate::figure::{self, Arrangement, RoseFrame, Scene, Show};
use crate::report::{Material, Section, dependence};
use crate::survey::{GapId, Survey, WeatherId};
use crate::window::answers::Results;
use std::sync::Arc;

/// Size of the rose on paper, mm: it decides how large its letters are.
pub(super) const ROSE_MM: f64 = 92.0;
/// Width of the unfolded body on paper, mm: it decides how large marks and letters are on it.
const PICTURE_MM: f64 = 330.0;
/// Width of the section on paper, mm.
const SECTION_MM: f64 = 110.0;

/// Revisions of the survey and of the results.
type Dates = (u64, u64);

/// What the page keeps.
#[derive(Clone, Debug, Default)]
pub(super) struct Drawings {
    rose: Kept<(Dates, RoseFrame), Scene>,
    body: Kept<(u64, WeatherId, usize, Option<GapId>), BodyFigure>,
    section: Kept<(u64, WeatherId, usize), Option<Scene>>,
    by_direction: Kept<u64, Section>,
    by_speed: Kept<Option<u64>, Section>,
}

impl Drawings {
    /// The rose, without the needle.
    pub(super) fn rose(
        &mut self,
        dates: Dates,
        results: &Results,
        heading_deg: Option<f64>,
        frame: RoseFrame,
    ) -> Arc<Scene> {
        self.rose.get((dates, frame), || {
            rose(results.assessment(), heading_deg, frame, ROSE_MM)
        })
    }

    /// The unfolded body with the flows of a case in a direction.
    pub(super) fn body(
        &mut self,
        (survey, results): (&Survey, &Results),
        (case, at): (WeatherId, usize),
        direction: &DirectionAnswer,
        selected: Option<GapId>,
    ) -> Arc<BodyFigure> {
        // Flows are shown only of the survey as it is.
        self.body.get((results.revision, case, at, selected), || {
            let show = Show {
                selected,
                also: &[],
                direction: Some(direction),
                numbers: true,
                ..Show::default()
            };
            let assessment = results.assessment();
            body(survey, assessment, Arrangement::Wide, PICTURE_MM, &show)
        })
    }

    /// The section with the pressures of a case in a direction.
    pub(super) fn section(
        &mut self,
        (survey, revision): (&Survey, u64),
        (case, at): (WeatherId, usize),
        air: &CaseAir,
        direction: &DirectionAnswer,
    ) -> Arc<Option<Scene>> {
        self.section.get((revision, case, at), || {
            figure::section(&survey.vehicle, air, direction, SECTION_MM)
        })
    }

    /// The table of the curves against wind direction.
    pub(super) fn by_direction(&mut self, results: &Results, told: &Material<'_>) -> Arc<Section> {
        let table = || dependence::by_direction(told);
        self.by_direction.get(results.revision, table)
    }

    /// The table of the curve against wind speed.
    pub(super) fn by_speed(&mut self, results: &Results) -> Arc<Section> {
        let table = || dependence::by_speed(results.wind_curve());
        self.by_speed.get(results.wind_curve_revision(), table)
    }

    /// How many drawings and tables were made.
    pub(super) fn times_made(&self) -> u64 {
        self.rose.times_made()
            + self.body.times_made()
            + self.section.times_made()
            + self.by_direction.times_made()
            + self.by_speed.times_made()
    }
}
