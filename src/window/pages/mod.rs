//! The pages, in the order of the job.

pub mod air_change;
pub mod drying_heat;
mod fields;
pub mod gaps;
pub mod in_short;
pub mod job_sheet;
mod kept;
pub mod measurements;
mod not_found;
mod plots;
pub mod sealing_plan;
mod sections;
mod space_choice;
pub mod vehicle;
pub mod winter;
pub mod working;
