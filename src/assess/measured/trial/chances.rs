//! How often intervals are right, and how often chance looks like an effect: counted in invented
//! trials whose truth is known.

/// What was counted for one length of period.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chances {
    /// Days of each period.
    pub days: usize,
    /// Pairs of a period without and one with the method.
    pub pairs: usize,
    /// Share of the 95 % intervals of humidity that hold what the method really did.
    pub covered: f64,
    /// Share of the trials of a thing that changes next to nothing in which an effect seems to show.
    pub false_effects: f64,
}

/// Counted in 200 invented trials of each length by `tests/reference/trials.py` **\[N\]**; a test
/// counts them again.
pub const CHANCES: [Chances; 5] = [
    Chances {
        days: 4,
        pairs: 1,
        covered: 0.95,
        false_effects: 0.05,
    },
    Chances {
        days: 7,
        pairs: 1,
        covered: 0.95,
        false_effects: 0.05,
    },
    Chances {
        days: 14,
        pairs: 1,
        covered: 0.95,
        false_effects: 0.05,
    },
    Chances {
        days: 4,
        pairs: 2,
        covered: 0.95,
        false_effects: 0.05,
    },
    Chances {
        days: 7,
        pairs: 2,
        covered: 0.95,
        false_effects: 0.05,
    },
];
