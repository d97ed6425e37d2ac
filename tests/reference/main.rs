//! The program's physics against tables solved independently.
//!
//! The tables beside this file come from `make_tables.py`: moist air from psychrolib (ASHRAE
//! Fundamentals 2017 ch. 1 **\[S\]**), air balances from scipy's brentq and quad, the coupled
//! balance of heat and water from nested brentq, vehicles of several spaces from scipy's root, which
//! share no closed form with the program; the sun, its light on planes and a weather file from pvlib; and the uncertainty of a vehicle from a million draws in numpy.
//! `compare.py` makes them again and compares.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot read its table must stop"
)]
#![expect(
    clippy::float_cmp,
    reason = "the tables' inputs are counted by their exact values"
)]

mod air_balance;
mod coupled;
mod moist_air;
mod network;
mod series;
mod tables;
mod trials;
mod uncertainty;
mod weather;
mod winter;

/// Relative agreement asked for wherever both sides solve the same equations.
const RELATIVE: f64 = 1e-9;

/// Stops the test unless two numbers agree to 1e-9 of the reference, or to `floor` where the
/// reference passes through zero.
#[track_caller]
fn assert_close(found: f64, reference: f64, floor: f64, what: &dyn std::fmt::Display) {
    let allowed = (RELATIVE * reference.abs()).max(floor);
    // Written so that a NaN fails.
    let agrees = (found - reference).abs() <= allowed;
    assert!(
        agrees,
        "{what}: found {found:e}, reference {reference:e}, apart {:e}, allowed {allowed:e}",
        (found - reference).abs()
    );
}
