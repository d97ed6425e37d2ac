//! Which parts of the page are shown, and how they share the space.

use super::{body, cards, form_alone, ledger, ledger_and_form, quick};
use crate::window::page::PageContext;
use crate::window::widgets::{self, Moved};
use eframe::egui;
use egui::{Panel, ScrollArea, Ui, vec2};

/// Which of ledger and unfolded body are shown; the selected gap's form always is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Parts {
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

    fn name(self) -> &'static str {
        Self::ALL
            .into_iter()
            .find(|(one, ..)| *one == self)
            .map_or("", |(_, name, _)| name)
    }
}

/// Which parts are shown and how they share the width. Outlasts the survey and the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Division {
    parts: Parts,
    /// Share of the body beside the ledger.
    both: f32,
    /// Share of the body where the form alone stands beside it.
    alone: f32,
}

impl Default for Division {
    fn default() -> Self {
        Self {
            parts: Parts::default(),
            both: 0.44,
            alone: 0.62,
        }
    }
}

const PARTS_KEY: &str = "gaps parts";
const BOTH_KEY: &str = "body beside ledger";
const ALONE_KEY: &str = "body beside form";

impl Division {
    /// As it was stored in an earlier run; what cannot be read is as at first.
    #[must_use]
    pub fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        let mut division = Self::default();
        let Some(storage) = storage else {
            return division;
        };
        let parts = storage.get_string(PARTS_KEY);
        let known = Parts::ALL
            .into_iter()
            .find(|(_, name, _)| parts.as_deref() == Some(*name));
        division.parts = known.map_or(division.parts, |(one, ..)| one);
        for (key, share) in [
            (BOTH_KEY, &mut division.both),
            (ALONE_KEY, &mut division.alone),
        ] {
            let kept = storage.get_string(key).and_then(|kept| kept.parse().ok());
            *share = kept.filter(|kept| SHARES.contains(kept)).unwrap_or(*share);
        }
        division
    }

    /// Keeps it for the next run.
    pub fn store(&self, storage: &mut dyn eframe::Storage) {
        storage.set_string(PARTS_KEY, self.parts.name().to_owned());
        storage.set_string(BOTH_KEY, self.both.to_string());
        storage.set_string(ALONE_KEY, self.alone.to_string());
    }
}

/// Shares of the body that make sense.
const SHARES: std::ops::RangeInclusive<f32> = 0.1..=0.9;
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
/// Height of the ledger where everything scrolls.
const LEDGER_LOW: f32 = 170.0;

/// Draws the choice.
pub(super) fn choose(ui: &mut Ui, division: &mut Division) {
    ui.separator();
    for (one, name, words) in Parts::ALL {
        let label = ui.selectable_label(division.parts == one, name);
        if label.on_hover_text(words).clicked() {
            division.parts = one;
        }
    }
    ui.separator();
}

/// Draws quick entry and the parts chosen.
pub(super) fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
    let parts = context.view.division.parts;
    let room = ui.available_size();
    if room.x < BESIDE_LEAST || room.y < HIGH_LEAST {
        ScrollArea::vertical().id_salt("low page").show(ui, |ui| {
            one_below_the_other(ui, context, parts);
            widgets::follow_focus(ui);
        });
        return;
    }
    quick::show(ui, context);
    match parts {
        Parts::Ledger => ledger_and_form(ui, context),
        Parts::Body => {
            beside(ui, context, true);
            form_alone(ui, context);
        }
        Parts::Both => {
            beside(ui, context, false);
            ledger_and_form(ui, context);
        }
    }
}

/// The body at the left of the space, with an edge that can be moved.
fn beside(ui: &mut Ui, context: &mut PageContext<'_>, alone: bool) {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::looks::tests::Stored;

    #[test]
    fn the_division_of_the_page_is_as_it_was_in_the_next_run() {
        let mut stored = Stored::default();
        assert_eq!(Division::stored(Some(&stored)), Division::default());
        for (parts, ..) in Parts::ALL {
            let division = Division {
                parts,
                both: 0.35,
                alone: 0.7,
            };
            division.store(&mut stored);
            assert_eq!(Division::stored(Some(&stored)), division);
        }
        for nonsense in ["NaN", "-4", "wide", "1"] {
            stored.0.insert(BOTH_KEY.to_owned(), nonsense.to_owned());
            let read = Division::stored(Some(&stored));
            assert!(
                (read.both - Division::default().both).abs() < 1e-6,
                "{nonsense}"
            );
        }
    }
}
