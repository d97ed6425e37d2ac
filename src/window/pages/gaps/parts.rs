//! Which parts of the page are shown, and how they share the space.

use super::{body, cards, form_alone, ledger, ledger_and_form, quick};
use crate::window::page::PageContext;
use eframe::egui;
use egui::{Panel, ScrollArea, Ui, vec2};

/// Which of ledger and unfolded body are shown; the selected gap's form always is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Parts {
    /// The ledger alone.
    Ledger,
    /// The unfolded body alone.
    Body,
    /// Both, one beside the other.
    #[default]
    Both,
}

impl Parts {
    const ALL: [(Self, &'static str, &'static str); 3] = [
        (Self::Ledger, "Ledger", "The ledger over all of the width"),
        (Self::Body, "Body", "The unfolded body, large"),
        (Self::Both, "Both", "The unfolded body beside the ledger"),
    ];
}

/// The body stands beside the rest on pages at least so wide, points.
const BESIDE_LEAST: f32 = 840.0;
/// Height of page from which bar, body and form need not scroll together, points.
const HIGH_LEAST: f32 = 430.0;
/// Width that the form keeps beside the body.
const FORM_LEAST: f32 = 380.0;
/// Height of the body where everything scrolls.
const BODY_LOW: f32 = 300.0;
/// Height of the ledger where everything scrolls.
const LEDGER_LOW: f32 = 170.0;

/// Draws the choice.
pub(super) fn choose(ui: &mut Ui, parts: &mut Parts) {
    ui.separator();
    for (one, name, words) in Parts::ALL {
        let label = ui.selectable_label(*parts == one, name);
        if label.on_hover_text(words).clicked() {
            *parts = one;
        }
    }
    ui.separator();
}

/// Draws quick entry and the parts chosen.
pub(super) fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
    let parts = context.view.gaps.parts;
    let room = ui.available_size();
    if room.x < BESIDE_LEAST || room.y < HIGH_LEAST {
        ScrollArea::vertical().id_salt("low page").show(ui, |ui| {
            one_below_the_other(ui, context, parts);
        });
        return;
    }
    quick::show(ui, context);
    match parts {
        Parts::Ledger => ledger_and_form(ui, context),
        Parts::Body => {
            beside(ui, context, 0.62, true);
            form_alone(ui, context);
        }
        Parts::Both => {
            beside(ui, context, 0.48, false);
            ledger_and_form(ui, context);
        }
    }
}

/// The body at the left of the space, with an edge that can be dragged.
fn beside(ui: &mut Ui, context: &mut PageContext<'_>, share: f32, alone: bool) {
    let wide = ui.available_width();
    let most = (wide - FORM_LEAST).max(300.0);
    let frame = egui::Frame::new().inner_margin(egui::Margin {
        right: 8,
        ..egui::Margin::ZERO
    });
    Panel::left(if alone { "body alone" } else { "body" })
        .frame(frame)
        .default_size((wide * share).min(most))
        .size_range(300.0..=most)
        .show(ui, |ui| body::show(ui, context, alone));
    ui.add_space(2.0);
}

fn one_below_the_other(ui: &mut Ui, context: &mut PageContext<'_>, parts: Parts) {
    quick::show(ui, context);
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
