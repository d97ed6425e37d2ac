//! The keyboard in the ledger: as in a spreadsheet.

use super::cell;
use super::columns::Column;
use super::ledger_view::LedAway;
use super::listing::Listing;
use super::view::GapsContext;
use crate::survey::GapId;
use crate::window::commands::Command;
use crate::window::widgets;
use eframe::egui;
use egui::{Key, Ui};

/// Runs the keys pressed while the ledger has the focus; `page` is how many rows are in sight.
pub(super) fn run(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    listing: &Listing,
    selected: Option<GapId>,
    page: usize,
) {
    if let Some(open) = context.view.ledger.cell {
        if open.offers() {
            cell::keys(ui, context, open);
        }
        return;
    }
    rows(ui, context, listing, selected, page);
    columns(ui, context);
    acts(ui, context, listing, selected);
}

fn rows(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    listing: &Listing,
    selected: Option<GapId>,
    page: usize,
) {
    let Some(last) = listing.lines.len().checked_sub(1) else {
        return;
    };
    let at = selected.and_then(|id| listing.row(id));
    let modifiers = ui.input(|input| input.modifiers);
    if modifiers.alt {
        return;
    }
    let up = |by: usize| at.map_or(last, |at| at.saturating_sub(by));
    let down = |by: usize| at.map_or(0, |at| (at + by).min(last));
    let moves = [
        (Key::ArrowUp, up(1)),
        (Key::ArrowDown, down(1)),
        (Key::PageUp, up(page)),
        (Key::PageDown, down(page)),
        (Key::Home, 0),
        (Key::End, last),
    ];
    for (key, to) in moves {
        if ui.input(|input| input.key_pressed(key))
            && at != Some(to)
            && let Some(line) = listing.lines.get(to)
        {
            let gaps = &mut context.view;
            gaps.move_to(listing, selected, line.id, modifiers.shift);
        }
    }
}

/// Left of the first column the keyboard moves by whole rows again.
fn columns(ui: &Ui, context: &mut GapsContext<'_>) {
    let pressed = |key| ui.input(|input| input.key_pressed(key) && input.modifiers.is_none());
    let shown: Vec<Column> = context.view.columns.shown().to_vec();
    let ledger = &mut context.view.ledger;
    let here = ledger.column.filter(|column| shown.contains(column));
    if pressed(Key::ArrowRight) {
        ledger.column = match here {
            Some(column) => cell::beside(&shown, column, false),
            None => Some(Column::Name),
        };
        ledger.column_scroll_wanted = true;
    }
    if pressed(Key::ArrowLeft) {
        ledger.column = here
            .filter(|column| shown.first() != Some(column))
            .and_then(|column| cell::beside(&shown, column, true));
        ledger.column_scroll_wanted = true;
    }
}

fn acts(ui: &Ui, context: &mut GapsContext<'_>, listing: &Listing, selected: Option<GapId>) {
    let pressed = |key| ui.input(|input| input.key_pressed(key) && input.modifiers.is_none());
    let column = context.view.ledger.column;
    let shown = selected.filter(|&id| listing.row(id).is_some());
    if pressed(Key::Enter) || pressed(Key::F2) {
        match (column, shown) {
            (Some(column), Some(id)) => cell::begin(ui, context, id, column),
            (None, Some(id)) if pressed(Key::F2) => cell::begin(ui, context, id, Column::Name),
            (_, Some(_)) => {
                context.view.edit_wanted = true;
                context.view.ledger.led_away = Some(LedAway::Soon);
                ui.ctx().request_repaint();
            }
            // A gap that is not among the rows is not the one that is meant.
            (_, None) => {}
        }
    }
    if pressed(Key::Delete) && shown.is_some() {
        context.queue.command(Command::DeleteGap);
    }
    if pressed(Key::Escape) {
        context.view.ledger.column = None;
        if context.view.several() {
            context.view.select(selected);
        }
    }
    if shown.is_some() && widgets::asks_for_menu(ui) {
        context.view.menu.open_at_row(ui);
    }
}
