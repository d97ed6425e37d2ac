//! Rounds of draws: the first from what is known of each input, further ones round what the
//! measurements point to.

use super::input::{Spread, UncertainInput};
use super::random::Draw;
use std::collections::BTreeMap;

/// Where the draws of a round are made.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Round {
    /// Rounds before it.
    number: u32,
    /// By how much the middle of each input's normal number is moved; nothing in the first round.
    shift: BTreeMap<UncertainInput, f64>,
}

impl Round {
    /// The next round, with its draws made there.
    pub(super) fn next(&self, shift: BTreeMap<UncertainInput, f64>) -> Self {
        Self {
            number: self.number + 1,
            shift,
        }
    }

    /// How many rounds there were before it.
    pub(super) fn number(&self) -> u32 {
        self.number
    }

    /// By how much an input is moved.
    pub(super) fn shift(&self, input: UncertainInput) -> f64 {
        self.shift.get(&input).copied().unwrap_or(0.0)
    }

    /// One draw of it; no round repeats the numbers of another.
    pub(super) fn draw(&self, seed: u64, number: u32) -> Drawn<'_> {
        Drawn {
            draw: Draw::new(seed.wrapping_add(u64::from(self.number)), number),
            round: self,
        }
    }
}

/// One draw of a round.
#[derive(Clone, Copy)]
pub(super) struct Drawn<'a> {
    draw: Draw,
    round: &'a Round,
}

impl Drawn<'_> {
    /// The normal number of an input.
    #[inline]
    pub(super) fn normal(&self, input: UncertainInput) -> f64 {
        self.draw.normal(input.key()) + self.round.shift(input)
    }

    /// A normal number of its own, told apart by a key.
    pub(super) fn normal_of(&self, key: u64) -> f64 {
        self.draw.normal(key)
    }

    /// The value of an input.
    #[inline]
    pub(super) fn of(&self, input: UncertainInput, spread: Spread) -> f64 {
        spread.at(self.normal(input))
    }

    /// A number by which the draws of a round lie in the order of their values of an input; quicker.
    pub(super) fn place_of(&self, input: UncertainInput, spread: Spread) -> f64 {
        if spread.rises_throughout() {
            self.draw.even(input.key())
        } else {
            self.of(input, spread)
        }
    }

    /// Logarithm of how much more likely this draw is by what is known of each input than by the
    /// round.
    ///
    /// ```text
    /// ln(φ(z)/φ(z − μ)) = Σ ½ μ² − μ z
    /// ```
    /// where z is the normal number of an input and μ its shift.
    pub(super) fn ln_prior_over_round(&self) -> f64 {
        let shifts = self.round.shift.iter();
        shifts
            .map(|(input, shift)| 0.5 * shift * shift - shift * self.normal(*input))
            .sum()
    }
}
