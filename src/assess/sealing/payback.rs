//! When sealing has paid for itself by the heat it saves.

use crate::assess::answer::Answer;

/// Winters after which it is no longer said to pay for itself **\[A\]**: seals, sealant and vehicle do
/// not last so long.
pub const MOST_WINTERS: f64 = 30.0;

/// When something has paid for itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Payback {
    /// After so many winters, [`MOST_WINTERS`] at most.
    Winters(f64),
    /// Never by heat alone: later than that, or it saves no money.
    NeverByHeatAlone,
}

impl Payback {
    /// Of a cost and what is saved in a winter, both money: `cost/saved`.
    ///
    /// # Errors
    /// [`crate::assess::NotKnown`] where either is.
    pub(super) fn of(cost: Answer<f64>, saved: &Answer<f64>) -> Answer<Self> {
        let (cost, saved) = (cost?, saved.clone()?);
        let winters = cost / saved;
        Ok(if saved > 0.0 && winters <= MOST_WINTERS {
            Self::Winters(winters)
        } else {
            Self::NeverByHeatAlone
        })
    }
}
