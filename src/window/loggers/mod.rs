//! Files of loggers on their way into the survey: opened by a worker, looked at by the user, who may
//! change everything that was guessed, and then read whole.

mod chosen;
mod columns;
mod known;
mod show;
mod work;

pub use chosen::{Chosen, LoggerFile, Place, Taken, placed, taken};
pub use known::KnownShapes;
pub use show::{progress, show};
pub use work::{Again, Ask, ReadFile, Told, Whence, Worker};
