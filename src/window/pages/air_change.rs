//! The AirChange page.

use crate::survey::Item;
use crate::window::page::PageContext;
use eframe::egui;

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct AirChangeView {}

impl AirChangeView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, _item: Item) {}
}

/// Draws the page.
pub fn show(_ui: &mut egui::Ui, _context: &mut PageContext<'_>) {}
