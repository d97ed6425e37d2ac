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
    /// The same of warmth.
    pub false_warmth: f64,
}

/// Counted in 200 invented trials of each length by `tests/reference/trials.py` **\[N\]**; a test
/// counts them again.
pub const CHANCES: [Chances; 5] = [
    counted(4, 1, [0.975, 0.05, 0.09]),
    counted(7, 1, [0.988, 0.04, 0.09]),
    counted(14, 1, [0.985, 0.05, 0.105]),
    counted(4, 2, [0.955, 0.09, 0.04]),
    counted(7, 2, [0.983, 0.02, 0.055]),
];

const fn counted(days: usize, pairs: usize, shares: [f64; 3]) -> Chances {
    let [covered, false_effects, false_warmth] = shares;
    Chances {
        days,
        pairs,
        covered,
        false_effects,
        false_warmth,
    }
}
