//! The Sealing plan page: what sealing each gap really saves, what the money buys, the plan, and
//! what stays open.

mod budget;
mod curve;
mod date;
mod left_open;
mod planned;
mod prices;
mod ranking;
mod state;
mod view;
mod work_in_hand;

pub use view::SealingPlanView;

use crate::assess::sealing::Aim;
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice, TextField};
use eframe::egui;
use egui::{RichText, ScrollArea, Ui};
use view::{Part, SealingPlanContext};

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    head(ui, context);
    ScrollArea::vertical()
        .id_salt("sealing plan")
        .auto_shrink(false)
        .show(ui, |ui| {
            if context.survey.gaps.is_empty() {
                widgets::no_gap_yet(ui, context.queue);
                ui.add_space(4.0);
            }
            part(
                ui,
                context,
                Part::Ranking,
                "What sealing each gap saves",
                ranking::show,
            );
            part(ui, context, Part::Planned, "The plan", planned::show);
            part(
                ui,
                context,
                Part::Budget,
                "The best set within a budget",
                budget::show,
            );
            part(ui, context, Part::Curve, "What the money buys", curve::show);
            part(
                ui,
                context,
                Part::LeftOpen,
                "What stays open, and why",
                left_open::show,
            );
            part(
                ui,
                context,
                Part::Prices,
                "Remedies and prices",
                prices::show,
            );
            widgets::follow_focus(ui);
        });
}

/// The aim, the date, and the ways to the parts; they stay in sight.
fn head(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Save most of").color(palette(ui).muted));
        let chosen = Choice::new("Aim of the plan", &context.view.aim, &Aim::ALL)
            .compact()
            .width(150.0)
            .show(ui, |aim| aim.name().to_owned());
        if let Some(aim) = chosen {
            context.view.aim = aim;
        }
        ui.add_space(6.0);
        ui.label(RichText::new("Date of changes").color(palette(ui).muted));
        let typed = TextField::of_page("Date of changes", &context.view.date)
            .compact()
            .width(112.0)
            .hint("today")
            .show(ui, context.queue);
        if let Some(date) = typed {
            context.view.date = date;
        }
        ui.add_space(6.0);
        context.view.ways.links(ui, &Part::ALL);
    });
    ui.add_space(2.0);
}

/// One part of the page; it is scrolled to where the user asked for it.
fn part<'a>(
    ui: &mut Ui,
    context: &mut SealingPlanContext<'a>,
    part: Part,
    title: &str,
    content: impl FnOnce(&mut Ui, &mut SealingPlanContext<'a>),
) {
    let drawn = ui
        .scope(|ui| widgets::card(ui, title, |ui| content(ui, context)))
        .response;
    context.view.ways.below(ui, part, &drawn);
}
