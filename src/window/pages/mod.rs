//! The pages, in the order of the job.

pub mod air_change;
pub mod drying_heat;
pub mod gaps;
pub mod vehicle;
pub mod working;
