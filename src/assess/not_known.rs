//! Why a result cannot be given: what stands in its place, never a default.

use crate::physics::machine::MachineError;
use crate::physics::{AirError, NetworkError, OpeningError};

/// Why a result cannot be given, in a plain sentence without full stop.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not known: {reason}")]
pub struct NotKnown {
    /// The reason.
    pub reason: String,
}

impl NotKnown {
    /// Not known, for this reason.
    #[must_use]
    pub fn because(reason: impl Into<String>) -> Self {
        Self {
            reason: reason.into(),
        }
    }
}

/// An error of the physics or of a state of air is the reason by itself.
impl<E: PhysicsError> From<E> for NotKnown {
    fn from(error: E) -> Self {
        Self::because(error.to_string())
    }
}

/// Errors that say in a plain sentence what is not possible.
trait PhysicsError: std::error::Error {}

impl PhysicsError for AirError {}
impl PhysicsError for MachineError {}
impl PhysicsError for OpeningError {}
impl PhysicsError for NetworkError {}

/// A result, or why it is not known.
pub type Answer<T> = Result<T, NotKnown>;
