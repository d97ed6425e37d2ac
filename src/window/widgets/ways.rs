//! The ways to the parts of a long page: links that stay in sight above it, and the part that was
//! asked for scrolled to.

use super::words::{link, muted};
use crate::window::theme::palette;
use eframe::egui;
use egui::{Align, Response, RichText, Ui};

/// The part of a page that was asked for and is not yet in sight.
#[derive(Clone, Copy, Debug)]
pub struct Ways<P> {
    wanted: Option<P>,
}

impl<P> Default for Ways<P> {
    fn default() -> Self {
        Self { wanted: None }
    }
}

impl<P: Copy + PartialEq> Ways<P> {
    /// Asks for a part.
    pub fn ask(&mut self, part: P) {
        self.wanted = Some(part);
    }

    /// The part that was asked for and is not yet in sight.
    #[must_use]
    pub fn wanted(&self) -> Option<P> {
        self.wanted
    }

    /// Draws a link to each part, in a row that its surroundings may wrap.
    pub fn links(&mut self, ui: &mut Ui, parts: &[(P, &str)]) {
        let colour = palette(ui).accent;
        for (at, (part, words)) in parts.iter().enumerate() {
            if at > 0 {
                muted(ui, "·");
            }
            if link(ui, RichText::new(*words).color(colour)).clicked() {
                self.ask(*part);
            }
        }
    }

    /// The links in a row of their own above the page.
    pub fn row(&mut self, ui: &mut Ui, parts: &[(P, &str)]) {
        ui.horizontal_wrapped(|ui| self.links(ui, parts));
        ui.add_space(2.0);
    }

    /// To be called below a part that has just been drawn: scrolls to it where it was asked for.
    pub fn below(&mut self, ui: &mut Ui, part: P, drawn: &Response) {
        if self.wanted == Some(part) {
            self.wanted = None;
            drawn.scroll_to_me(Some(Align::Min));
        }
        ui.add_space(4.0);
    }
}
