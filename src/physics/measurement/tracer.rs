//! How fast a gas that nobody adds to any longer is carried off.

use super::Limits;
use super::line::{Line, LineError};
use crate::physics::units::SECONDS_PER_HOUR;

/// One reading of a decay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Its number among all that were written down, from 1.
    pub number: usize,
    /// Time since the first reading, s.
    pub time_s: f64,
    /// What was read: carbon dioxide, or water in the air, in any unit.
    pub inside: f64,
    /// What the outside air has of it, in the same unit.
    pub background: f64,
}

/// Why a decay gives no air change.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum DecayError {
    /// A reading does not lie above the outside air.
    #[error(
        "reading {0} does not lie above the outside air; leave it out, or end the decay before it"
    )]
    NotAbove(usize),
    /// The line failed.
    #[error(transparent)]
    Line(#[from] LineError),
}

/// Air changes per hour by the decay of a tracer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Decay {
    /// Air changes per hour with their 95 % limits.
    pub per_hour: Limits,
    /// r² of the line on logarithms.
    pub r_squared: f64,
}

/// Fits the decay.
///
/// ```text
/// ln(C − C_bg) = ln(C₀ − C_bg) − N t
/// ```
/// where N are the air changes per unit of time. ASTM E741 **\[S\]**, whose scope names vehicles, and
/// ISO 12569 **\[R\]**. Water that materials give back makes N by humidity too small.
///
/// # Errors
/// A reading at or below the background, or too few for a line.
pub fn decay(readings: &[Reading]) -> Result<Decay, DecayError> {
    let mut points = Vec::with_capacity(readings.len());
    for reading in readings {
        let above = reading.inside - reading.background;
        if above <= 0.0 {
            return Err(DecayError::NotAbove(reading.number));
        }
        points.push((reading.time_s / SECONDS_PER_HOUR, above.ln()));
    }
    let line = Line::through(&points)?;
    let slope = line.slope_limits();
    Ok(Decay {
        per_hour: Limits {
            low: -slope.high,
            value: -slope.value,
            high: -slope.low,
        },
        r_squared: line.r_squared,
    })
}
