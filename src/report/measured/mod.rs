//! What was measured: which gaps by a flow test, and what fan tests say of the vehicle.

mod by_test;
mod fan;
#[cfg(test)]
mod tests;

pub(crate) use by_test::{by_test, is_by_test};
pub use fan::{before_a_test, plot_caption, section};
