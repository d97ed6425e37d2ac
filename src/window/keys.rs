//! Every key of the window on one sheet.

use super::commands::MENUS;
use super::theme::palette;
use eframe::egui;
use egui::{Grid, Label, RichText, Ui};

/// Keys that belong to one part of the window: where, keys, what they do.
pub const KEYS_OF_PARTS: &[(&str, &str, &str)] = &[
    ("Ledger", "Arrows, Home, End", "Move through the rows"),
    ("Ledger", "Enter", "Edit the selected gap"),
    ("Ledger", "Delete", "Delete the selected gap"),
    (
        "Walk round",
        "Arrows, Home, End",
        "Up and down by places, left and right by stations",
    ),
    (
        "Ledger",
        "Shift and arrows",
        "Select several, to be changed together",
    ),
    (
        "Ledger, body",
        "Menu, Shift+F10",
        "What can be done with the selected gaps",
    ),
    ("Fields", "Tab, Shift+Tab", "Next and previous field"),
    ("Fields", "Enter", "Keep what was typed"),
    ("Fields", "Esc", "Restore what stood there before"),
    (
        "Chart of a trial",
        "Left, Right, Home, End",
        "Move the cursor; with Shift by one reading",
    ),
    (
        "Chart of a trial",
        "Page Up, Page Down",
        "Earlier and later",
    ),
    ("Chart of a trial", "+, -, 0", "Closer, wider, all"),
    (
        "Chart of a trial",
        "B, E, Esc",
        "A period begins at the cursor, ends there, is not begun after all",
    ),
    (
        "Numbers",
        "2*600+2*400",
        "Sums may be typed; comma or point",
    ),
];

/// Draws the sheet.
pub(super) fn show(ui: &mut Ui) {
    Grid::new("keys")
        .num_columns(3)
        .striped(true)
        .show(ui, |ui| {
            for (menu, lines) in MENUS {
                for line in lines {
                    let keys: Vec<String> = line
                        .shortcuts
                        .iter()
                        .map(|keys| ui.ctx().format_shortcut(keys))
                        .collect();
                    if !keys.is_empty() {
                        row(ui, menu, &keys.join(" or "), line.tooltip);
                    }
                }
            }
            for (part, keys, what) in KEYS_OF_PARTS {
                row(ui, part, keys, what);
            }
        });
}

fn row(ui: &mut Ui, part: &str, keys: &str, what: &str) {
    let muted = palette(ui).muted;
    ui.label(RichText::new(part).color(muted));
    ui.strong(keys);
    ui.add(Label::new(what).wrap());
    ui.end_row();
}
