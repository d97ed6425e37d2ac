//! The page In short: the owner's answer, each line with the way to the page that has more of it.

mod pictures;
mod view;

pub use view::InShortView;

use crate::report::in_short::{Leads, Line, Part, Picture};
use crate::window::commands::Command;
use crate::window::page::Page;
use crate::window::request::Queue;
use crate::window::theme::{bold, palette};
use crate::window::units;
use crate::window::widgets::{self, report};
use eframe::egui;
use egui::{RichText, ScrollArea, Ui};
use view::{InShortContext, Told};

/// Width of a card at least.
const CARD_LEAST: f32 = 430.0;
/// Height of the letters of the headline, points.
const HEADLINE: f32 = 19.0;

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut InShortContext<'_>) {
    let Some(told) = view::told(context) else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    ScrollArea::vertical()
        .id_salt("in short")
        .auto_shrink(false)
        .show(ui, |ui| {
            if told.of_older {
                widgets::muted(ui, "This is being worked out anew.");
            }
            for line in &told.page.headline {
                headline(ui, context.queue, line);
            }
            ui.add_space(6.0);
            cards(ui, context, &told);
            widgets::follow_focus(ui);
        });
}

/// Wide parts over the whole page, the others beside each other.
fn cards(ui: &mut Ui, context: &mut InShortContext<'_>, told: &Told) {
    let mut parts = told.page.parts.as_slice();
    while let Some(first) = parts.first() {
        let narrow = parts.iter().take_while(|part| !is_wide(part)).count();
        if narrow == 0 {
            card(ui, context, told, first);
            ui.add_space(4.0);
        } else {
            widgets::columns(ui, CARD_LEAST, narrow, |ui, at| {
                if let Some(part) = parts.get(at) {
                    card(ui, context, told, part);
                }
            });
        }
        parts = parts.get(narrow.max(1)..).unwrap_or_default();
    }
}

fn is_wide(part: &Part) -> bool {
    part.table.is_some()
}

fn card(ui: &mut Ui, context: &mut InShortContext<'_>, told: &Told, part: &Part) {
    widgets::card(ui, &units::text(ui.ctx(), &part.title), |ui| {
        if let Some(picture) = part.picture {
            pictures::show(ui, context, told, picture);
        }
        lines(ui, context.queue, &part.lines);
        let drawn = part.picture == Some(Picture::Options);
        if !drawn {
            lines(ui, context.queue, &part.pictured);
        }
        if let Some(table) = part.table.as_ref().filter(|_| !drawn) {
            report::table(ui, context.queue, table);
        }
        lines(ui, context.queue, &part.below);
        for note in &part.notes {
            widgets::muted(ui, units::text(ui.ctx(), note));
        }
    });
}

/// One line of the headline, large, with its way.
fn headline(ui: &mut Ui, queue: &mut Queue, line: &Line) {
    ui.horizontal_wrapped(|ui| {
        let words = units::text(ui.ctx(), &line.text);
        let large = RichText::new(&words).family(bold()).size(HEADLINE);
        ui.label(large.color(report::sign_colour(ui, &words)));
        follow(ui, queue, line.leads_to, &words);
    });
}

/// The way that a line leads.
fn follow(ui: &mut Ui, queue: &mut Queue, leads: Leads, words: &str) {
    let (name, follow) = way(leads);
    // Kept in one line: broken, it would seem to be two links.
    let whole = name.replace(' ', "\u{a0}");
    let link = RichText::new(format!("{whole}\u{a0}→")).color(palette(ui).accent);
    if widgets::named_link(ui, link, &format!("{name}: {words}")) {
        follow(queue);
    }
}

/// Each line with its way at its end.
fn lines(ui: &mut Ui, queue: &mut Queue, lines: &[Line]) {
    for line in lines {
        ui.horizontal_wrapped(|ui| {
            let words = units::text(ui.ctx(), &line.text);
            let colour = if line.grave {
                palette(ui).danger
            } else {
                report::sign_colour(ui, &words)
            };
            let sign = if line.grave { "⚠ " } else { "" };
            ui.label(RichText::new(format!("{sign}{words}")).color(colour));
            follow(ui, queue, line.leads_to, &words);
        });
        ui.add_space(2.0);
    }
}

/// What leads somewhere.
type Way = Box<dyn FnOnce(&mut Queue)>;

/// Name of the page that a line leads to, and what leads there.
fn way(leads: Leads) -> (&'static str, Way) {
    let page = match leads {
        Leads::Gaps => Page::Gaps,
        Leads::AirChange => Page::AirChange,
        Leads::DryingHeat => Page::DryingHeat,
        Leads::Winter => Page::Winter,
        Leads::SealingPlan => Page::SealingPlan,
        Leads::Measurements => Page::Measurements,
        Leads::Place(place) => {
            return (
                Page::of(place.item).name(),
                Box::new(move |queue| queue.go_to(place)),
            );
        }
    };
    let show = Command::Show(page);
    (page.name(), Box::new(move |queue| queue.command(show)))
}
