//! The shell of the window: it owns everything, runs what the user asked for, and puts the pages
//! on the screen. It stands above all pages; none of them names it.

mod file_work;
mod files;
mod gaps;
mod loggers;
mod photos;
mod rescue;
mod run;
mod samples;
mod screens;
mod state;
mod undo;
mod usual;
pub mod view;
mod walk;
mod weather;

pub use super::start::Start;
pub use state::App;
