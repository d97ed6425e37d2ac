//! The sections of a page that holds more than one screen shows.

use crate::window::theme::{bold, palette};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Button, RichText, Stroke, Ui, vec2};

/// Draws the names of the sections; `Some` is the one newly chosen.
pub(super) fn choose<S: Copy + PartialEq>(
    ui: &mut Ui,
    sections: &[(S, &str)],
    shown: S,
) -> Option<S> {
    let mut chosen = None;
    ui.horizontal_wrapped(|ui| {
        for &(section, name) in sections {
            if one(ui, name, section == shown) {
                chosen = Some(section);
            }
        }
    });
    ui.add_space(2.0);
    chosen
}

fn one(ui: &mut Ui, name: &str, shown: bool) -> bool {
    let palette = palette(ui);
    let mut words = RichText::new(name).color(palette.muted);
    if shown {
        words = words.family(bold()).color(palette.text);
    }
    let response = ui.add(Button::new(words).frame_when_inactive(false));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_role(Role::Tab);
        node.set_selected(shown);
    });
    if shown {
        let rect = response.rect.shrink2(vec2(7.0, 0.0));
        let line = Stroke::new(2.0, palette.outline);
        ui.painter()
            .hline(rect.x_range(), rect.bottom() - 1.0, line);
    }
    response.clicked() && !shown
}
