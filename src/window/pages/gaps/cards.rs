//! The ledger and the cards of the selected gap, below each other.

use super::division::{Division, Parts, SHARES};
use super::view::GapsContext;
use super::{form, many, path, photos, table, walk, work, zones};
use crate::survey::{GapId, Item};
use crate::window::widgets::{self, Moved, finding_list};
use eframe::egui;
use egui::{ScrollArea, Ui};

/// Height that the ledger keeps on a low window; the page then scrolls.
const LEDGER_LEAST: f32 = 150.0;
/// Height that the form below keeps.
const FORM_LEAST: f32 = 190.0;
/// Height of the edge between ledger and form.
const EDGE: f32 = 9.0;
/// Width of a card of the form at least.
const CARD_LEAST: f32 = 356.0;

/// The ledger above, the selected gap below.
pub(super) fn ledger_and_form(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let height = ui.available_height();
    if height < LEDGER_LEAST + FORM_LEAST {
        ScrollArea::vertical().id_salt("page").show(ui, |ui| {
            ledger(ui, context, LEDGER_LEAST);
            cards(ui, context);
            widgets::follow_focus(ui);
        });
        return;
    }
    let room = ui.available_rect_before_wrap();
    let most = height - FORM_LEAST;
    let above = (height * context.view.division.above).clamp(LEDGER_LEAST, most);
    ledger(ui, context, above);
    edge_above_the_form(ui, context, room, most);
    form_alone(ui, context);
}

/// The edge between ledger and form; it moves what is above it.
fn edge_above_the_form(ui: &mut Ui, context: &mut GapsContext<'_>, room: egui::Rect, most: f32) {
    let (rect, _) =
        ui.allocate_exact_size(egui::vec2(ui.available_width(), EDGE), egui::Sense::hover());
    let moved = widgets::level_edge(ui, "Edge between ledger and form", rect);
    let height = match moved {
        Some(Moved::To(y)) => y - room.top(),
        Some(Moved::Back) => Division::default().above * room.height(),
        None => return,
    };
    // What stands under the ledger belongs to what is above the edge.
    let under = rect.center().y - room.top() - context.view.division.above * room.height();
    let under = if matches!(moved, Some(Moved::Back)) {
        0.0
    } else {
        under.max(0.0)
    };
    let share = (height - under).clamp(LEDGER_LEAST, most) / room.height();
    context.view.division.above = share.clamp(*SHARES.start(), *SHARES.end());
}

/// The cards of the selected gap, which scroll.
pub(super) fn form_alone(ui: &mut Ui, context: &mut GapsContext<'_>) {
    ScrollArea::vertical()
        .id_salt("form")
        .auto_shrink(false)
        .show(ui, |ui| {
            cards(ui, context);
            widgets::follow_focus(ui);
        });
}

/// The ledger, or the walk round in its place.
pub(super) fn ledger(ui: &mut Ui, context: &mut GapsContext<'_>, height: f32) {
    if context.view.division.parts == Parts::Walk {
        walk::show(ui, context, height);
        return;
    }
    let top = ui.cursor().top();
    table::above(ui, context);
    let height = (height - (ui.cursor().top() - top)).max(LEDGER_LEAST);
    let wide = ui.available_width();
    ui.allocate_ui(egui::vec2(wide, height), |ui| {
        ui.set_min_height(height);
        ui.set_max_height(height);
        table::show(ui, context);
    });
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

pub(super) fn cards(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let Some(id) = context.view.selected_in(context.survey) else {
        widgets::columns(ui, CARD_LEAST, 1, |ui, _| {
            widgets::card(ui, "Zones", |ui| zones::show(ui, context));
        });
        return;
    };
    if context.view.several() {
        widgets::columns(ui, CARD_LEAST, 2, |ui, at| match at {
            0 => widgets::card(ui, &many::title(context), |ui| many::show(ui, context)),
            _ => widgets::card(ui, "Zones", |ui| zones::show(ui, context)),
        });
        context.view.edit_wanted = false;
        return;
    }
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
    context.view.edit_wanted = false;
}

fn draw(ui: &mut Ui, context: &mut GapsContext<'_>, id: GapId, card: Card) {
    let Some(gap) = context.survey.gap(id) else {
        return;
    };
    let marks = context.marks(Item::Gap(id));
    match card {
        Card::Gap => {
            let title = format!("Gap {id}");
            widgets::card(ui, &title, |ui| form::gap(ui, context, gap));
        }
        Card::Noticed => {
            widgets::card(ui, "Noticed", |ui| {
                finding_list(ui, context.queue, marks.all(), false);
            });
        }
        Card::Place => {
            widgets::card(ui, "Place", |ui| path::place(ui, context, gap));
        }
        Card::Path => {
            widgets::card(ui, "Way of the air", |ui| {
                path::show(ui, context, gap);
            });
        }
        Card::Work => {
            widgets::card(ui, "Remedy and work", |ui| {
                work::show(ui, context, gap);
            });
        }
        Card::Notes => {
            widgets::card(ui, "Photos and notes", |ui| {
                photos::show(ui, context, gap, marks);
                work::notes(ui, context, gap);
            });
        }
        Card::Zones => {
            widgets::card(ui, "Zones", |ui| zones::show(ui, context));
        }
    }
}
