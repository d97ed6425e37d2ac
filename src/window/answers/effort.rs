//! How much is made of longer work.

use crate::assess::uncertainty::DRAWS;
use crate::assess::winter::WINTER_DRAWS;
use crate::tasks::processors;
use std::time::Duration;

/// How much work is made of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Draws of what is in doubt.
    pub draws: u32,
    /// The same of a winter.
    pub winter_draws: u32,
    /// Threads that draw.
    pub threads: usize,
    /// Time without an edit after which longer work begins.
    pub pause: Duration,
}

impl Effort {
    /// As the program works.
    #[must_use]
    pub fn program() -> Self {
        Self {
            draws: DRAWS,
            winter_draws: WINTER_DRAWS,
            threads: processors(),
            pause: Duration::from_millis(700),
        }
    }

    /// As tests work: few draws, on the caller's thread, at once.
    #[must_use]
    pub fn test() -> Self {
        Self {
            draws: 120,
            winter_draws: 3,
            threads: 1,
            pause: Duration::ZERO,
        }
    }
}
