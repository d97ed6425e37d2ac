//! The Gaps page: quick entry, the unfolded body, the ledger, the selected gap.

mod body;
mod cell;
mod columns;
mod filter;
mod form;
mod keys;
mod listing;
mod many;
mod mark;
mod parts;
mod path;
mod photos;
mod quick;
mod rows;
mod selection;
pub(super) mod sizes;
mod table;
mod words;
pub(super) mod work;
mod zones;

pub use columns::{Column, Columns};
pub use parts::Division;

use crate::survey::{GapId, Item, Survey};
use crate::window::commands::Command;
use crate::window::lightbox::Lightbox;
use crate::window::page::PageContext;
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{ScrollArea, Ui};

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct GapsView {
    selected: Option<GapId>,
    /// The ledger: its rows, and what is selected beside the one gap.
    ledger: selection::LedgerView,
    /// The form's first field takes the focus in the next frame.
    edit_wanted: bool,
    /// The ledger scrolls to the selected row in the next frame.
    scroll_wanted: bool,
    /// The unfolded body.
    body: body::BodyView,
    /// The bar for quick entry.
    pub(in crate::window) quick: quick::QuickEntry,
    /// A gap that was asked for, to select once it is in the survey, and whether its form then
    /// takes the focus.
    adding: Option<(GapId, bool)>,
    /// Name of a zone about to be added.
    new_zone: String,
    /// The photo shown large.
    pub(in crate::window) lightbox: Option<Lightbox>,
}

impl GapsView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if let Item::Gap(id) = item {
            self.select(Some(id));
        }
    }

    /// The selected gap, or the first where none is selected or it is gone.
    #[must_use]
    pub fn selected_in(&self, survey: &Survey) -> Option<GapId> {
        self.selected
            .filter(|&id| survey.gap(id).is_some())
            .or_else(|| survey.gaps.first().map(|gap| gap.id))
    }

    /// Selects a gap.
    pub fn select(&mut self, id: Option<GapId>) {
        self.selected = id;
        self.ledger.select_one(id);
        self.scroll_wanted = true;
    }

    /// Selects a gap and puts the focus into its form.
    pub fn select_and_edit(&mut self, id: Option<GapId>) {
        self.select(id);
        self.edit_wanted = true;
    }

    /// The unfolded body of this page.
    #[must_use]
    pub fn body(&self) -> &body::BodyView {
        &self.body
    }

    /// Selects a gap that was just asked for, once it is there.
    fn after_adding(&mut self, id: Option<GapId>, edit: bool) {
        self.adding = id.map(|id| (id, edit));
    }

    fn select_what_was_added(&mut self, survey: &Survey) {
        match self.adding {
            Some((id, true)) if survey.gap(id).is_some() => self.select_and_edit(Some(id)),
            Some((id, false)) if survey.gap(id).is_some() => self.select(Some(id)),
            _ => return,
        }
        self.adding = None;
    }
}

/// Height that the ledger keeps on a low window; the page then scrolls.
const LEDGER_LEAST: f32 = 150.0;
/// Height that the form below keeps.
const FORM_LEAST: f32 = 190.0;
/// Width of a card of the form at least.
const CARD_LEAST: f32 = 356.0;

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
    let survey = context.survey;
    context.view.gaps.select_what_was_added(survey);
    buttons(ui, context);
    parts::show(ui, context);
}

/// The ledger above, the selected gap below.
fn ledger_and_form(ui: &mut Ui, context: &mut PageContext<'_>) {
    let height = ui.available_height();
    if height < LEDGER_LEAST + FORM_LEAST {
        ScrollArea::vertical().id_salt("page").show(ui, |ui| {
            ledger(ui, context, LEDGER_LEAST);
            cards(ui, context);
            widgets::follow_focus(ui);
        });
        return;
    }
    let ledger_height = (height * 0.42).max(LEDGER_LEAST);
    ledger(ui, context, ledger_height);
    form_alone(ui, context);
}

/// The cards of the selected gap, which scroll.
fn form_alone(ui: &mut Ui, context: &mut PageContext<'_>) {
    ScrollArea::vertical()
        .id_salt("form")
        .auto_shrink(false)
        .show(ui, |ui| {
            cards(ui, context);
            widgets::follow_focus(ui);
        });
}

fn buttons(ui: &mut Ui, context: &mut PageContext<'_>) {
    let some = !context.survey.gaps.is_empty();
    ui.horizontal_wrapped(|ui| {
        for command in [
            Command::AddGap,
            Command::DuplicateGap,
            Command::MirrorGap,
            Command::DeleteGap,
        ] {
            let Some(line) = command.line() else { continue };
            let enabled = some || command == Command::AddGap;
            let keys = line.shortcuts.first();
            let keys = keys.map_or_else(String::new, |keys| ui.ctx().format_shortcut(keys));
            let button = ui
                .add_enabled(enabled, egui::Button::new(line.name))
                .on_hover_text(format!("{} ({keys})", line.tooltip));
            if button.clicked() {
                context.queue.command(command);
            }
        }
        parts::choose(ui, &mut context.view.division);
        widgets::muted(
            ui,
            "Arrows move, Enter edits, Insert adds, Delete deletes; with Shift several are selected.",
        );
    });
}

fn ledger(ui: &mut Ui, context: &mut PageContext<'_>, height: f32) {
    let top = ui.cursor().top();
    table::above(ui, context);
    let height = (height - (ui.cursor().top() - top)).max(LEDGER_LEAST);
    let wide = ui.available_width();
    ui.allocate_ui(egui::vec2(wide, height), |ui| {
        ui.set_min_height(height);
        ui.set_max_height(height);
        table::show(ui, context);
    });
    table::below(ui, context);
    ui.add_space(6.0);
}

/// The cards below the ledger, in the order of work.
#[derive(Clone, Copy, PartialEq)]
enum Card {
    Gap,
    Noticed,
    Place,
    Path,
    Work,
    Notes,
    Zones,
}

fn cards(ui: &mut Ui, context: &mut PageContext<'_>) {
    let Some(id) = context.view.gaps.selected_in(context.survey) else {
        widgets::columns(ui, CARD_LEAST, 1, |ui, _| {
            widgets::card(ui, "Zones", |ui| zones::show(ui, context));
        });
        return;
    };
    let noticed = context.marks(Item::Gap(id)).all().next().is_some();
    let mut cards = vec![Card::Gap];
    if noticed {
        cards.push(Card::Noticed);
    }
    cards.extend([Card::Place, Card::Path, Card::Work]);
    // Three columns are the usual number: photos and notes then head the last one.
    cards.extend(if noticed {
        [Card::Zones, Card::Notes]
    } else {
        [Card::Notes, Card::Zones]
    });
    widgets::columns(ui, CARD_LEAST, cards.len(), |ui, at| {
        if let Some(&card) = cards.get(at) {
            ui.push_id((id, at), |ui| draw(ui, context, id, card));
        }
    });
    context.view.gaps.edit_wanted = false;
}

fn draw(ui: &mut Ui, context: &mut PageContext<'_>, id: GapId, card: Card) {
    let Some(gap) = context.survey.gap(id) else {
        return;
    };
    let marks = context.marks(Item::Gap(id));
    match card {
        Card::Gap => {
            let title = format!("Gap {id}");
            widgets::card(ui, &title, |ui| form::gap(ui, context, gap, marks));
        }
        Card::Noticed => {
            widgets::card(ui, "Noticed", |ui| {
                finding_list(ui, context.queue, marks.all(), false);
            });
        }
        Card::Place => {
            widgets::card(ui, "Place", |ui| path::place(ui, context, gap, marks));
        }
        Card::Path => {
            widgets::card(ui, "Way of the air", |ui| {
                path::show(ui, context, gap, marks);
            });
        }
        Card::Work => {
            widgets::card(ui, "Remedy and work", |ui| {
                work::show(ui, context, gap, marks);
            });
        }
        Card::Notes => {
            widgets::card(ui, "Photos and notes", |ui| {
                photos::show(ui, context, gap, marks);
                work::notes(ui, context, gap, marks);
            });
        }
        Card::Zones => {
            widgets::card(ui, "Zones", |ui| zones::show(ui, context));
        }
    }
}
