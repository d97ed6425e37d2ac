//! The survey file: what is written is read back, nothing else is taken, and saving never loses
//! a survey.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "helpers of tests may fail loudly"
)]

mod exit_codes;
mod guide;
mod headless;
mod headless_guide;
mod headless_page;
mod hostile;
mod invented;
mod known;
mod loading;
#[cfg(feature = "sheet")]
mod manual;
mod measured;
mod records;
mod refusals;
mod round_trip;
mod saving;
mod saving_fails;
#[cfg(feature = "sheet")]
mod sheet;
#[cfg(feature = "sheet")]
mod sheet_fill;
#[cfg(feature = "sheet")]
mod sheet_long;
mod sheet_marks;
#[cfg(feature = "sheet")]
mod sheet_pages;
mod undone;
mod unprivileged;
mod winter;
#[cfg(feature = "sheet")]
mod wishes;
