//! The measurements, worked out once.

use super::{Part, Study};
use crate::assess::measured::Measured;

impl Study {
    /// What came of the measurements.
    pub fn measured(&self) -> &Measured {
        self.once(&self.kept.measured, Part::Measured, || {
            Measured::of(&self.survey, self.prepared())
        })
    }
}
