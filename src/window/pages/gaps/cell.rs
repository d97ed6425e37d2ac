//! Editing one cell of the ledger in its place.

use super::change::change;
use super::columns::{Column, Editing};
use super::ledger_view::{Cell, LedAway, LedgerView, ledger_id};
use super::view::GapsContext;
use crate::survey::findings::body_reaches;
use crate::survey::leave::states;
use crate::survey::number::whole;
use crate::survey::{
    Certainty, Edit, Facing, Field, Gap, GapId, Item, Place, Purpose, Survey, WorkState,
};
use crate::window::changes_of_many::{remedied, remedy_kinds, remedy_words};
use crate::window::theme::palette;
use crate::window::widgets::{self, NumberField, TextField};
use eframe::egui;
use egui::{Area, EventFilter, Frame, Id, Key, Order, Rect, Ui, UiBuilder};

/// Begins to edit a cell, or leads to the field of the form that can.
pub(super) fn begin(ui: &Ui, context: &mut GapsContext<'_>, id: GapId, column: Column) {
    let survey = context.survey;
    let Some(gap) = survey.gap(id) else { return };
    match column.editing() {
        Editing::Form => {
            context.view.edit_wanted = true;
            context.view.ledger.led_away = Some(LedAway::Soon);
        }
        Editing::Sizes => {
            context.view.ledger.led_away = Some(LedAway::Soon);
            let item = Item::Gap(id);
            let field = gap.form.sizes().first().map(|(field, _)| *field);
            context.queue.go_to(Place { item, field });
        }
        Editing::Words(_) | Editing::Number(_) | Editing::Choice => {
            let cell = Cell {
                gap: id,
                column,
                option: current(survey, gap, column),
                begun: true,
            };
            if let Some(input) = cell.input() {
                ui.memory_mut(|memory| memory.request_focus(input));
            }
            context.view.ledger.cell = Some(cell);
        }
    }
    ui.ctx().request_repaint();
}

/// What a column offers for a gap: each option in words, with the gap as it would then be.
fn options(survey: &Survey, gap: &Gap, column: Column) -> Vec<(String, Gap)> {
    let with = |change: &dyn Fn(&mut Gap)| {
        let mut changed = gap.clone();
        change(&mut changed);
        changed
    };
    match column {
        Column::Zone => {
            let zones = survey.zones.iter();
            zones
                .map(|zone| (zone.name.clone(), with(&|gap| gap.zone = zone.id)))
                .collect()
        }
        Column::Facing => all(gap, Facing::ALL, Facing::name, |gap| &mut gap.facing),
        Column::Certainty => all(gap, Certainty::ALL, Certainty::name, |gap| {
            &mut gap.certainty
        }),
        Column::Mark | Column::Purpose => {
            all(gap, Purpose::ALL, Purpose::name, |gap| &mut gap.purpose)
        }
        Column::State => all(gap, states(survey, gap), WorkState::name, |gap| {
            &mut gap.state
        }),
        Column::Remedy => remedy_kinds(survey, &[gap])
            .into_iter()
            .map(|kind| {
                let remedied = with(&|gap| gap.remedy = remedied(gap, kind));
                (remedy_words(kind).to_owned(), remedied)
            })
            .collect(),
        _ => Vec::new(),
    }
}

/// Each of these in a part of the gap, with its name.
fn all<T: Copy>(
    gap: &Gap,
    all: impl IntoIterator<Item = T>,
    name: fn(T) -> &'static str,
    part: fn(&mut Gap) -> &mut T,
) -> Vec<(String, Gap)> {
    let option = |one: T| {
        let mut changed = gap.clone();
        *part(&mut changed) = one;
        (name(one).to_owned(), changed)
    };
    all.into_iter().map(option).collect()
}

/// The option that the gap has now.
fn current(survey: &Survey, gap: &Gap, column: Column) -> usize {
    let options = options(survey, gap, column);
    let now = options.iter().position(|(_, changed)| changed == gap);
    now.unwrap_or(0)
}

/// The keys of a cell that offers several options; the ledger has the focus meanwhile.
pub(super) fn keys(ui: &Ui, context: &mut GapsContext<'_>, cell: Cell) {
    let names = names(context.survey, cell);
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let last = names.len().saturating_sub(1);
    let mut option = cell.option;
    for (key, to) in [
        (Key::ArrowDown, (option + 1).min(last)),
        (Key::ArrowUp, option.saturating_sub(1)),
        (Key::Home, 0),
        (Key::End, last),
    ] {
        if pressed(key) {
            option = to;
        }
    }
    if let Some(spelled) = widgets::spelled(ui, ledger_id(), &names, Some(option)) {
        option = spelled;
    }
    let ledger = &mut context.view.ledger;
    ledger.cell = Some(Cell { option, ..cell });
    if pressed(Key::Enter) || pressed(Key::Tab) {
        take(context, cell, option);
    } else if pressed(Key::Escape) || pressed(Key::ArrowLeft) || pressed(Key::ArrowRight) {
        ledger.cell = None;
    }
}

fn names(survey: &Survey, cell: Cell) -> Vec<String> {
    let gap = survey.gap(cell.gap);
    let options = gap.map_or_else(Vec::new, |gap| options(survey, gap, cell.column));
    options.into_iter().map(|(name, _)| name).collect()
}

fn take(context: &mut GapsContext<'_>, cell: Cell, option: usize) {
    context.view.ledger.cell = None;
    let Some(gap) = context.survey.gap(cell.gap) else {
        return;
    };
    let chosen = options(context.survey, gap, cell.column)
        .into_iter()
        .nth(option);
    if let Some((_, changed)) = chosen {
        context.queue.edit(Edit::gap(changed), None);
    }
}

/// Draws the input or the options over the cell.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, cell: Cell, rect: Rect) {
    if cell.offers() {
        offer(ui, context, gap, cell, rect);
        return;
    }
    let inside = UiBuilder::new().max_rect(rect.shrink(1.0));
    ui.scope_builder(inside, |ui| {
        ui.spacing_mut().interact_size.y = rect.height() - 2.0;
        ui.spacing_mut().button_padding.y = 1.0;
        typed(ui, context, gap, cell, rect.width() - 10.0);
    });
}

fn typed(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, cell: Cell, width: f32) {
    let of = ("cell", gap.id);
    match cell.column.editing() {
        Editing::Words(field) => {
            let note = field == Field::GapNote;
            let value = if note { &gap.note } else { &gap.name };
            let label = format!("{}, gap {}", field.label(), gap.id);
            let typed = TextField::new(field, value)
                .label(&label)
                .id(of)
                .compact()
                .width(width)
                .show(ui, context.queue);
            if let Some(typed) = typed {
                change(context.queue, gap, |gap| {
                    *(if note { &mut gap.note } else { &mut gap.name }) = typed;
                });
            }
        }
        Editing::Number(field) => {
            let counts = field == Field::GapCount;
            let value = if counts {
                Some(f64::from(gap.count))
            } else {
                gap.position.height_m
            };
            let label = format!("{}, gap {}", field.label(), gap.id);
            let mut input = NumberField::new(field, value)
                .label(&label)
                .id(of)
                .compact()
                .width(width);
            if counts {
                input = input.whole().required();
            } else {
                input = input.on_body(body_reaches(context.survey, field));
            }
            match (input.show(ui, context.queue), counts) {
                (Some(Some(count)), true) => {
                    change(context.queue, gap, |gap| gap.count = whole(count));
                }
                (Some(height), false) => {
                    change(context.queue, gap, |gap| gap.position.height_m = height);
                }
                _ => {}
            }
        }
        _ => {}
    }
}

/// The list of options under the cell.
fn offer(ui: &Ui, context: &mut GapsContext<'_>, gap: &Gap, cell: Cell, rect: Rect) {
    let names = names(context.survey, cell);
    let mut chosen = None;
    let area = Area::new(Id::unique("options of a cell"))
        .order(Order::Foreground)
        .fixed_pos(rect.left_bottom())
        .constrain(true);
    let shown = area.show(ui.ctx(), |ui| {
        Frame::popup(ui.style()).show(ui, |ui| {
            let colour = palette(ui).muted;
            let words = format!("{}, gap {}", cell.column.look().words, gap.id);
            ui.label(egui::RichText::new(words).small().color(colour));
            for (at, name) in names.iter().enumerate() {
                let here = at == cell.option;
                let response = ui.selectable_label(here, name);
                if here {
                    widgets::tell_name(ui, response.id, &format!("{name}, chosen by Enter"));
                }
                if response.clicked() {
                    chosen = Some(at);
                }
            }
        });
    });
    if let Some(option) = chosen {
        take(context, cell, option);
    } else if shown.response.clicked_elsewhere() {
        context.view.ledger.cell = None;
    }
}

/// What follows when the cell that is typed into is left, and whether the ledger gets the focus.
pub(super) fn after(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    shown: &[Column],
    rows: &[GapId],
) -> bool {
    let Some(cell) = context.view.ledger.cell else {
        return false;
    };
    let Some(input) = cell.input() else {
        return false;
    };
    if !ui.memory(|memory| memory.has_focus(input)) {
        put_away(ui, context, input);
        return false;
    }
    if cell.begun {
        context.view.ledger.cell = Some(Cell {
            begun: false,
            ..cell
        });
        return false;
    }
    let filter = EventFilter {
        tab: true,
        horizontal_arrows: true,
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(input, filter));
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let back = ui.input(|input| input.modifiers.shift);
    let (enter, tab) = (pressed(Key::Enter), pressed(Key::Tab));
    let (up, down) = (pressed(Key::ArrowUp), pressed(Key::ArrowDown));
    if !(enter || tab || up || down) || NumberField::refuses(ui, input) {
        return false;
    }
    put_away(ui, context, input);
    if up || down {
        if let Some(id) = neighbour(rows, cell.gap, up) {
            context.view.select(Some(id));
            begin(ui, context, id, cell.column);
            return false;
        }
    } else if tab {
        context.view.ledger.column = beside(shown, cell.column, back);
        context.view.ledger.column_scroll_wanted = true;
    }
    ui.ctx().request_repaint();
    true
}

/// Whether Enter was pressed in the field of the form that the ledger led to: the ledger then gets
/// the focus back, as from a cell.
pub(super) fn came_back(ui: &Ui, context: &mut GapsContext<'_>, here: bool) -> bool {
    let led_away = &mut context.view.ledger.led_away;
    let focused = ui.memory(|memory| memory.focused());
    match (*led_away, focused) {
        (None, _) | (Some(LedAway::Soon), None) => false,
        (Some(LedAway::Soon), Some(_)) if here => false,
        (Some(LedAway::Soon), Some(id)) => {
            *led_away = Some(LedAway::In(id));
            false
        }
        (Some(LedAway::In(id)), now) if now == Some(id) => {
            let enter = ui.input(|input| input.key_pressed(Key::Enter));
            let back = enter && !NumberField::refuses(ui, id);
            if back {
                *led_away = None;
                ui.ctx().request_repaint();
            }
            back
        }
        (Some(LedAway::In(_)), _) => {
            *led_away = None;
            false
        }
    }
}

fn put_away(ui: &Ui, context: &mut GapsContext<'_>, input: Id) {
    let LedgerView { cell, .. } = &mut context.view.ledger;
    *cell = None;
    context.queue.close_step();
    NumberField::forget(ui, input);
    TextField::forget(ui, input);
}

fn neighbour(rows: &[GapId], id: GapId, up: bool) -> Option<GapId> {
    let at = rows.iter().position(|other| *other == id)?;
    let to = if up { at.checked_sub(1)? } else { at + 1 };
    rows.get(to).copied()
}

/// The column at the right of one, or at its left; at the edge it stays.
pub(super) fn beside(shown: &[Column], column: Column, left: bool) -> Option<Column> {
    let at = shown.iter().position(|other| *other == column)?;
    let to = if left { at.saturating_sub(1) } else { at + 1 };
    shown.get(to).copied().or(Some(column))
}
