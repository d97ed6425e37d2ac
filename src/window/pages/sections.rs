//! The sections and the parts of a page that holds more than one screen shows.

use crate::window::context::PageContext;
use crate::window::theme::palette;
use crate::window::widgets::{self, Ways};
use eframe::egui;
use egui::{ScrollArea, Ui};

/// Draws the names of the sections; `Some` is the one newly chosen.
pub(super) fn choose<S: Copy + PartialEq>(
    ui: &mut Ui,
    sections: &[(S, &str)],
    shown: S,
) -> Option<S> {
    let mut chosen = None;
    ui.horizontal_wrapped(|ui| {
        for &(section, name) in sections {
            let here = section == shown;
            if widgets::tab(ui, name, here, palette(ui).text).clicked() && !here {
                chosen = Some(section);
            }
        }
    });
    ui.add_space(2.0);
    chosen
}

/// Draws the parts of a page below each other; the one that the user asked for is scrolled to.
pub(super) fn parts<'a, View, P: Copy + PartialEq>(
    ui: &mut Ui,
    context: &mut PageContext<'a, View>,
    page: &str,
    ways: fn(&mut View) -> &mut Ways<P>,
    parts: &[(P, &str)],
    mut draw: impl FnMut(&mut Ui, &mut PageContext<'a, View>, P),
) {
    ScrollArea::vertical()
        .id_salt(page)
        .auto_shrink(false)
        .show(ui, |ui| {
            if context.survey.gaps.is_empty() {
                widgets::no_gap_yet(ui, context.queue);
                ui.add_space(4.0);
            }
            for &(part, _) in parts {
                let drawn = ui.scope(|ui| draw(ui, context, part)).response;
                ways(context.view).below(ui, part, &drawn);
            }
            widgets::follow_focus(ui);
        });
}
