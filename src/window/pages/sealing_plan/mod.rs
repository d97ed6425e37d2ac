//! The Sealing plan page: what sealing each gap really saves, what the money buys, the plan, and
//! what stays open.

mod budget;
mod curve;
mod left_open;
mod planned;
mod prices;
mod ranking;
mod state;
mod view;
mod work_in_hand;

pub use view::SealingPlanView;

use super::sections;
use crate::assess::sealing::Aim;
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets::{self, Choice, TextField};
use eframe::egui;
use egui::{RichText, Ui};
use view::{Part, SealingPlanContext};

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    head(ui, context);
    let draw = |ui: &mut Ui, context: &mut SealingPlanContext<'_>, part: Part| {
        widgets::card(ui, part.title(), |ui| match part {
            Part::Ranking => ranking::show(ui, context),
            Part::Planned => planned::show(ui, context),
            Part::Budget => budget::show(ui, context),
            Part::Curve => curve::show(ui, context),
            Part::LeftOpen => left_open::show(ui, context),
            Part::Prices => prices::show(ui, context),
        });
    };
    sections::parts(
        ui,
        context,
        "sealing plan",
        |view| &mut view.ways,
        &Part::ALL,
        draw,
    );
}

/// The aim, the date, and the ways to the parts; they stay in sight.
fn head(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Aim").color(palette(ui).muted));
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
        context.view.dates = units::shown(ui.ctx()).dates();
        if let Some(date) = typed {
            context.view.date = date;
        }
        ui.add_space(6.0);
        context.view.ways.links(ui, &Part::ALL);
    });
    ui.add_space(2.0);
}
