//! The winter of a study: run by tasks, kept here.

use super::{Part, Study};
use crate::assess::answer::Answer;
use crate::assess::winter::{Doubted, Laid, Throughout};

impl Study {
    /// The winter hour by hour, once somebody has run it.
    #[must_use]
    pub fn winter(&self) -> Option<&Answer<Throughout>> {
        self.kept.winter.get()
    }

    /// Keeps a winter that was run; the first that is kept stays.
    pub fn keep_winter(&self, run: Answer<Throughout>) -> &Answer<Throughout> {
        self.once(&self.kept.winter, Part::Winter, || run)
    }

    /// The same winter with the planned gaps sealed, once somebody has run it; `None` while none is
    /// planned, too.
    #[must_use]
    pub fn winter_after_plan(&self) -> Option<Answer<&Throughout>> {
        // Whoever ran it has made the study of the plan.
        match self.kept.as_planned.get()? {
            Ok(planned) => Some(planned.winter()?.as_ref().map_err(Clone::clone)),
            Err(unknown) => Some(Err(unknown.clone())),
        }
    }

    /// How sure the winter is, once somebody has made the draws.
    #[must_use]
    pub fn winter_bands(&self) -> Option<&Answer<Doubted>> {
        self.kept.winter_bands.get()
    }

    /// The winter's calculation laid over the trials, once somebody has run it.
    #[must_use]
    pub fn winter_laid(&self) -> Option<&[Laid]> {
        self.kept.winter_laid.get().map(Vec::as_slice)
    }

    /// Keeps what came of laying it over; the first that is kept stays.
    pub fn keep_winter_laid(&self, laid: Vec<Laid>) -> &[Laid] {
        self.kept.winter_laid.get_or_init(|| laid)
    }

    /// Keeps the draws of a winter; the first that are kept stay.
    pub fn keep_winter_bands(&self, made: Answer<Doubted>) -> &Answer<Doubted> {
        self.once(&self.kept.winter_bands, Part::WinterBands, || made)
    }
}
