//! The survey calibrated by its measurements.

use super::Study;
use crate::assess::answer::Answer;
use crate::assess::calibration::Calibration;
use crate::assess::factors::Factors;
use crate::assess::model::Model;
use crate::assess::prepared::Prepared;
use crate::assess::uncertainty::Trials;
use crate::survey::Survey;
use std::sync::{Arc, OnceLock};

impl Study {
    /// What the measurements make of the survey: nothing where there are none, or it is turned off.
    pub fn calibration(&self) -> &Arc<Calibration> {
        let of = || Arc::new(Calibration::of(&self.survey));
        self.kept.calibration.get_or_init(of)
    }

    /// A study of the same vehicle in another state, to which the same measurements speak.
    pub(crate) fn with_survey(&self, survey: Survey) -> Self {
        let mut other = Self::new(Arc::new(survey));
        other.kept.calibration = OnceLock::from(Arc::clone(self.calibration()));
        other
    }

    /// The same survey as it would be without its measurements.
    pub fn as_surveyed(&self) -> &Self {
        let plain = self.kept.as_surveyed.get_or_init(|| {
            self.calibration().is_any().then(|| {
                let mut other = Self::new(Arc::clone(&self.survey));
                other.kept.calibration = OnceLock::from(Arc::new(Calibration::default()));
                Box::new(other)
            })
        });
        plain.as_deref().unwrap_or(self)
    }

    /// Draws are made of the sizes as surveyed, and weighed by the measurements.
    pub(super) fn made_ready_for_draws(&self) -> Answer<Trials> {
        let (survey, calibration) = (&self.survey, self.calibration());
        if !calibration.is_any() {
            return Trials::new(survey, self.prepared(), calibration, || self.model());
        }
        let plain = Prepared::new(survey, &Factors::default());
        let model = || Model::new(survey, &plain, false).map(Arc::new);
        Trials::new(survey, &plain, calibration, model)
    }
}
