//! What the page In short remembers between frames.

use super::super::kept::Kept;
use crate::assess::Study;
use crate::figure::Scene;
use crate::report::Material;
use crate::report::in_short::{InShort, Picture, in_short};
use crate::window::context::PageContext;
use std::sync::Arc;

/// What the page gets to see.
pub(super) type InShortContext<'a> = PageContext<'a, InShortView>;

/// What a picture is of: a revision, with or without its winter, so many millimetres wide.
pub(super) type Drawn = (u64, bool, f64);

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct InShortView {
    /// What is told of a revision, without or with how sure it is, the winter and the trials.
    told: Kept<(u64, [bool; 3]), InShort>,
    /// The pictures.
    pub(super) hole: Kept<Drawn, Option<Scene>>,
    pub(super) options: Kept<Drawn, Option<Scene>>,
    pub(super) stay_open: Kept<Drawn, Option<Scene>>,
}

impl InShortView {
    /// Where a picture is kept.
    pub(super) fn kept(&mut self, picture: Picture) -> &mut Kept<Drawn, Option<Scene>> {
        match picture {
            Picture::Hole => &mut self.hole,
            Picture::Options => &mut self.options,
            Picture::StayOpen => &mut self.stay_open,
        }
    }
}

/// The page as it is told.
pub(super) struct Told {
    pub(super) page: Arc<InShort>,
    /// Revision that it is of.
    pub(super) revision: u64,
    /// Whether its winter was run.
    pub(super) wintered: bool,
    /// Whether the survey has changed since.
    pub(super) of_older: bool,
}

/// What is told of the newest revision that is there; `None` before the first.
pub(super) fn told(context: &mut InShortContext<'_>) -> Option<Told> {
    let (revision, study) = of(context)?;
    let sure = study.uncertainty().is_some();
    let wintered = study.winter().is_some();
    let known = [sure, wintered, study.tried().is_some()];
    let page = context
        .view
        .told
        .get((revision, known), || in_short(&Material::of(study)));
    Some(Told {
        page,
        revision,
        wintered,
        of_older: revision != context.revision,
    })
}

/// The newest study of which the page's parts are there, and its revision.
pub(super) fn of<'a>(context: &InShortContext<'a>) -> Option<(u64, &'a Study)> {
    context.answers.first_work()
}
