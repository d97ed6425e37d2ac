//! The pictures of the page in short: the hole beside the vehicle, the options as bars, and the
//! openings that stay open.

mod bars;
mod hole;
mod stay_open;

pub use bars::{Bar, Heads, bars};
pub use hole::hole;
pub use stay_open::stay_open;
