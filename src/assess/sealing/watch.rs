//! Long searches say how far they are and can be given up.

use crate::assess::answer::{Answer, NotKnown};
use crate::physics::counts::count;
use std::ops::ControlFlow;

/// Hears the share that is done, 0…1, again and again, and says whether to go on.
pub type Watch<'a> = &'a mut dyn FnMut(f64) -> ControlFlow<()>;

/// A search and whoever watches it.
#[derive(Default)]
pub(super) struct Watched<'a> {
    watch: Option<Watch<'a>>,
    share: f64,
}

impl<'a> Watched<'a> {
    pub(super) fn by(watch: Watch<'a>) -> Self {
        Self {
            watch: Some(watch),
            share: 0.0,
        }
    }

    /// So many steps of so many are done.
    pub(super) fn reached(&mut self, done: usize, of: usize) {
        self.share = count(done) / count(of.max(1));
    }

    /// Goes on, or not.
    pub(super) fn ask(&mut self) -> Answer<()> {
        let Some(watch) = &mut self.watch else {
            return Ok(());
        };
        if watch(self.share).is_break() {
            return Err(NotKnown::because("the search was given up"));
        }
        Ok(())
    }
}
