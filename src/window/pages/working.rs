//! The working panel: how a result came about.

use crate::assess::Topic;
use crate::window::page::PageContext;
use eframe::egui;

/// Draws the working of one result; the window puts it into a panel at the right.
pub fn show(_ui: &mut egui::Ui, _context: &mut PageContext<'_>, _topic: Topic) {}
