//! The menu of the selected gaps, at the pointer or at their row.

use crate::window::command_entry::entry;
use crate::window::commands::Command;
use crate::window::request::Queue;
use crate::window::widgets;
use eframe::egui;
use egui::containers::menu::menu_style;
use egui::{Id, Key, Layout, Popup, PopupAnchor, PopupKind, Pos2, Rect, ScrollArea, Ui};

/// What it offers, with a rule before those marked.
const OFFERED: [(Command, bool); 9] = [
    (Command::CopyGaps, false),
    (Command::PasteGaps, false),
    (Command::DuplicateGap, false),
    (Command::MirrorGap, false),
    (Command::AddPhotos, false),
    (Command::MoveUp, true),
    (Command::MoveDown, false),
    (Command::SelectAllGaps, true),
    (Command::DeleteGap, true),
];

/// Room for the edges of the menu.
const EDGES: f32 = 24.0;

/// Where it opens.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct GapMenu {
    at: Pos2,
    /// It opens in this frame: its first entry takes the focus.
    fresh: bool,
    /// Where the row of the selected gap was drawn last.
    pub(super) row: Option<Rect>,
}

fn id() -> Id {
    Id::unique("menu of the gaps")
}

impl GapMenu {
    /// Opens it at a place of the window.
    pub(super) fn open(&mut self, ui: &Ui, at: Pos2) {
        (self.at, self.fresh) = (at, true);
        Popup::open_id(ui.ctx(), id());
        ui.ctx().request_repaint();
    }

    /// Opens it at the row of the selected gap.
    pub(super) fn open_at_row(&mut self, ui: &Ui) {
        let row = self.row.unwrap_or(ui.clip_rect());
        let at = row.left_bottom() + egui::vec2(40.0, -2.0);
        self.open(ui, ui.ctx().content_rect().clamp(at));
    }
}

/// Draws it, where it is open. Arrows go from entry to entry, Enter takes one, Esc closes it.
pub(super) fn show(ui: &Ui, menu: &mut GapMenu, several: bool, queue: &mut Queue) {
    let anchor = PopupAnchor::Position(menu.at);
    let popup = Popup::new(id(), ui.ctx().clone(), anchor, ui.layer_id())
        .kind(PopupKind::Menu)
        .open_memory(None)
        .layout(Layout::top_down_justified(egui::Align::Min))
        .style(menu_style)
        .accessible_name(if several {
            "Menu of the selected gaps"
        } else {
            "Menu of the selected gap"
        });
    popup.show(|ui| {
        // In touch size on a low screen it is longer than the screen.
        let room = ui.ctx().content_rect().height() - EDGES;
        let area = ScrollArea::vertical().max_height(room);
        area.min_scrolled_height(room).show(ui, |ui| {
            let mut entries = Vec::new();
            for (command, ruled) in OFFERED {
                if ruled {
                    ui.separator();
                }
                if let Some(line) = command.line() {
                    entries.push(entry(ui, line, line.name, true, queue).id);
                }
            }
            // In its first frame it is only measured, and nothing in it takes the focus.
            let fresh = menu.fresh && !ui.is_sizing_pass();
            menu.fresh &= ui.is_sizing_pass();
            steps(ui, &entries, fresh);
            widgets::follow_focus(ui);
        });
    });
}

/// The keyboard goes from entry to entry, and from the last to the first.
fn steps(ui: &Ui, entries: &[Id], fresh: bool) {
    let focused = ui.memory(|memory| memory.focused());
    let at = focused.and_then(|id| entries.iter().position(|entry| *entry == id));
    let pressed = |key| ui.input(|input| input.modifiers.is_none() && input.key_pressed(key));
    let last = entries.len().saturating_sub(1);
    let to = match at {
        _ if fresh => Some(0),
        Some(at) if pressed(Key::ArrowDown) => Some(if at == last { 0 } else { at + 1 }),
        Some(at) if pressed(Key::ArrowUp) => Some(at.checked_sub(1).unwrap_or(last)),
        _ if pressed(Key::Home) => Some(0),
        _ if pressed(Key::End) => Some(last),
        None if pressed(Key::ArrowDown) => Some(0),
        at => {
            if let Some(id) = at.and_then(|at| entries.get(at)) {
                widgets::hold_arrows(ui, *id);
            }
            None
        }
    };
    if let Some(id) = to.and_then(|to| entries.get(to)) {
        ui.memory_mut(|memory| memory.request_focus(*id));
        widgets::hold_arrows(ui, *id);
    }
}
