//! What was measured: which gaps by a flow test, what fan tests say of the vehicle, and what
//! measurements make of the results.

mod air;
mod by_test;
mod calibration;
mod checks;
mod fan;
#[cfg(test)]
mod tests;
pub mod trial;

pub use air::{before_an_air_test, section as air_tests};
pub(crate) use by_test::{by_test, is_by_test};
pub use calibration::section as calibration;
pub(crate) use calibration::{
    by as calibrated_by, calibrated_by_number, contradicted, sentence as calibrated_sentence,
};
pub use checks::{is_taken_off, section as checks_of_loggers, sentences as check_in_words};
pub use fan::{before_a_test, plot_caption, section};
