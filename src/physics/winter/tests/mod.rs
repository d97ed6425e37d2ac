//! Closed forms, steady weather, books, and steps made finer.

mod closed_forms;
mod heater;
mod seasons;
mod steady;

use super::{Body, Forcing, Marched, Strategy, Surface, march};
use crate::physics::air::{MoistAir, STANDARD_PRESSURE};
use std::convert::Infallible;
use std::ops::ControlFlow;

/// A vehicle of 25 m³ with 60 W/K, furniture and cold glass.
pub(super) fn body() -> Body {
    Body {
        heat_capacity: 750e3,
        fabric: 60.0,
        volume: 25.0,
        buffer: 3.0,
        surfaces: vec![
            Surface {
                area: 2.5,
                temperature_factor: 0.55,
            },
            Surface {
                area: 18.0,
                temperature_factor: 0.78,
            },
        ],
    }
}

/// An hour of outside air at a temperature and humidity, and nothing else.
pub(super) fn plain(t_c: f64, rh: f64) -> Forcing {
    Forcing {
        outside: MoistAir::from_relative_humidity(t_c, rh, STANDARD_PRESSURE).expect("air"),
        envelope_gain: 0.0,
        seen_c: vec![t_c; 2],
        vapour_source: 0.0,
        liquid_source: 0.0,
        gains: 0.0,
        present: false,
    }
}

/// Marches with a constant flow of dry air, kg/s.
pub(super) fn marched(
    body: &Body,
    hours: &[Forcing],
    strategy: &Strategy<'_>,
    flow: f64,
    steps: u32,
) -> Marched {
    let air = |_: usize, _: f64| Ok::<f64, Infallible>(flow);
    let never = || ControlFlow::Continue(());
    march(body, hours, strategy, &air, (steps, &never))
        .expect("no flow is unknown")
        .expect("never given up")
}
