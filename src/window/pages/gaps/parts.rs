//! The parts of the page beside or below each other, as the window has room.

use super::cards::{cards, form_alone, ledger, ledger_and_form};
use super::division::{Division, Parts, SHARES};
use super::view::GapsContext;
use super::{body, quick};
use crate::window::widgets::{self, Moved};
use eframe::egui;
use egui::{Align, Layout, Panel, ScrollArea, Ui, vec2};

/// The body stands beside the rest on pages at least so wide, points.
const BESIDE_LEAST: f32 = 840.0;
/// Height of page from which bar, body and form need not scroll together, points.
const HIGH_LEAST: f32 = 430.0;
/// Width that the body keeps.
const BODY_LEAST: f32 = 300.0;
/// Width that the form keeps beside the body.
const FORM_LEAST: f32 = 380.0;
/// Height of the body where everything scrolls.
const BODY_LOW: f32 = 300.0;
/// Height left below body and ledger, so that what follows is seen to begin there and a
/// finger can take the page by it.
const LOW_EDGE: f32 = 52.0;
/// Height of the ledger where everything scrolls.
const LEDGER_LOW: f32 = 170.0;

/// Draws quick entry and the parts chosen.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let parts = context.view.division.parts;
    let room = ui.available_size();
    if room.x < BESIDE_LEAST || room.y < HIGH_LEAST {
        ScrollArea::vertical().id_salt("low page").show(ui, |ui| {
            if room.x < BESIDE_LEAST || parts == Parts::Ledger {
                one_below_the_other(ui, context, parts);
            } else {
                low(ui, context, parts, room.y - LOW_EDGE);
            }
            widgets::follow_focus(ui);
        });
        return;
    }
    if parts != Parts::Walk {
        quick::show(ui, context);
    }
    match parts {
        Parts::Ledger => ledger_and_form(ui, context),
        Parts::Body => {
            beside(ui, context, true);
            form_alone(ui, context);
        }
        Parts::Both | Parts::Walk => {
            beside(ui, context, false);
            ledger_and_form(ui, context);
        }
    }
}

/// The body at the left of the space, with an edge that can be moved.
fn beside(ui: &mut Ui, context: &mut GapsContext<'_>, alone: bool) {
    let room = ui.available_rect_before_wrap();
    let most = (room.width() - FORM_LEAST).max(BODY_LEAST);
    let division = context.view.division;
    let share = if alone { division.alone } else { division.both };
    let width = (room.width() * share).clamp(BODY_LEAST, most);
    let frame = egui::Frame::new().inner_margin(egui::Margin {
        right: 8,
        ..egui::Margin::ZERO
    });
    Panel::left(if alone { "body alone" } else { "body" })
        .frame(frame)
        .resizable(false)
        .show_separator_line(false)
        .exact_size(width)
        .show(ui, |ui| body::show(ui, context, alone));
    ui.add_space(2.0);
    let edge = room.left() + width;
    let name = if alone {
        "Edge between body and form"
    } else {
        "Edge between body and ledger"
    };
    let moved = widgets::edge(ui, name, egui::Rangef::new(edge - 8.0, edge + 2.0), room);
    let to = match moved {
        Some(Moved::To(x)) => (x + 3.0 - room.left()).clamp(BODY_LEAST, most) / room.width(),
        Some(Moved::Back) => {
            let first = Division::default();
            if alone { first.alone } else { first.both }
        }
        None => return,
    };
    let division = &mut context.view.division;
    *(if alone {
        &mut division.alone
    } else {
        &mut division.both
    }) = to.clamp(*SHARES.start(), *SHARES.end());
}

/// On a low page: the body beside ledger or walk round over all of its height, the rest below.
fn low(ui: &mut Ui, context: &mut GapsContext<'_>, parts: Parts, height: f32) {
    let room = ui.available_width() - ui.spacing().item_spacing.x;
    let left = match parts {
        Parts::Body => room,
        _ => (room * context.view.division.both).clamp(BODY_LEAST, room - FORM_LEAST),
    };
    ui.horizontal_top(|ui| {
        for (at, width) in [left, room - left].into_iter().enumerate() {
            if at == 1 && parts == Parts::Body {
                continue;
            }
            ui.allocate_ui_with_layout(vec2(width, height), Layout::top_down(Align::Min), |ui| {
                ui.set_width(width);
                ui.set_max_height(height);
                match at {
                    0 => body::show(ui, context, parts == Parts::Body),
                    _ => ledger(ui, context, height),
                }
            });
        }
    });
    if parts != Parts::Walk {
        quick::show(ui, context);
    }
    cards(ui, context);
}

fn one_below_the_other(ui: &mut Ui, context: &mut GapsContext<'_>, parts: Parts) {
    if parts != Parts::Walk {
        quick::show(ui, context);
    }
    if parts != Parts::Ledger {
        let size = vec2(ui.available_width(), BODY_LOW);
        ui.allocate_ui(size, |ui| {
            ui.set_max_height(BODY_LOW);
            body::show(ui, context, parts == Parts::Body);
        });
        ui.add_space(6.0);
    }
    if parts != Parts::Body {
        ledger(ui, context, LEDGER_LOW);
    }
    cards(ui, context);
}
