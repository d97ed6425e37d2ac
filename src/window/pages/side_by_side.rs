//! Weather cases side by side: what is told in front, one column for each case.

use crate::window::theme::{bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Layout, RichText, ScrollArea, Stroke, Ui, vec2};

const LABEL: f32 = 186.0;
const COLUMN_LEAST: f32 = 176.0;

/// The columns.
pub(super) struct SideBySide {
    count: usize,
    column: f32,
}

impl SideBySide {
    /// Draws `rows` in a table with one column for each of `count` cases; it scrolls sideways
    /// where they do not fit.
    pub(super) fn show(ui: &mut Ui, salt: &str, count: usize, rows: impl FnOnce(&mut Ui, &Self)) {
        #[expect(clippy::cast_precision_loss, reason = "a handful of cases")]
        let each = (ui.available_width() - LABEL - 10.0) / count.max(1) as f32;
        let table = Self {
            count,
            column: each.clamp(COLUMN_LEAST, 420.0),
        };
        ScrollArea::horizontal()
            .id_salt(salt)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing = vec2(0.0, 2.0);
                rows(ui, &table);
            });
    }

    /// The names over the columns.
    pub(super) fn head<'n>(&self, ui: &mut Ui, names: impl Iterator<Item = &'n str>) {
        let names: Vec<&str> = names.collect();
        self.line(ui, "", "", |ui, at| {
            if let Some(name) = names.get(at) {
                ui.label(RichText::new(*name).family(bold()));
            }
        });
    }

    /// A row: what is told, small print under it, and a cell for each case.
    pub(super) fn row(
        &self,
        ui: &mut Ui,
        words: &str,
        small: &str,
        cell: impl FnMut(&mut Ui, usize),
    ) {
        self.line(ui, words, small, cell);
    }

    fn line(&self, ui: &mut Ui, words: &str, small: &str, mut cell: impl FnMut(&mut Ui, usize)) {
        let drawn = ui.horizontal_top(|ui| {
            boxed(ui, LABEL, |ui| {
                if !words.is_empty() {
                    let colour = palette(ui).muted;
                    ui.add(egui::Label::new(RichText::new(words).color(colour)).wrap());
                }
                if !small.is_empty() {
                    widgets::muted(ui, small);
                }
            });
            for at in 0..self.count {
                boxed(ui, self.column, |ui| {
                    ui.push_id(at, |ui| cell(ui, at));
                });
            }
        });
        let rect = drawn.response.rect;
        let rule = Stroke::new(1.0, palette(ui).rule);
        ui.painter()
            .hline(rect.x_range(), rect.bottom() + 1.0, rule);
        ui.add_space(3.0);
    }
}

fn boxed(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(width - 10.0);
        content(ui);
        ui.set_min_width(width);
    });
}
