//! The window: everything that draws, and nothing that computes.
//!
//! The survey changes only through the queue of [`page::Queue`], which runs at the start of each
//! frame; results come from [`jobs`].

pub mod commands;
pub mod dialogs;
pub mod format;
pub mod jobs;
pub mod page;
pub mod pages;
pub mod theme;
pub mod widgets;
