//! The Sealing plan page: what sealing each gap really saves, what the money buys, the plan, and
//! what stays open.

mod budget;
mod curve;
mod date;
mod left_open;
mod prices;
mod ranking;
mod state;
mod ticked;

use crate::assess::sealing::Aim;
use crate::survey::Item;
use crate::window::decisions::{LongWork, Wanted};
use crate::window::page::PageContext;
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice, TextField, Ways};
use eframe::egui;
use egui::{RichText, ScrollArea, Ui};

/// What the page remembers between frames.
#[derive(Clone, Debug)]
pub struct SealingPlanView {
    ways: Ways<Part>,
    aim: Aim,
    budget: Option<f64>,
    curve: curve::Shown,
    all_rows: bool,
    /// Date written beside states that are changed here; today's where it is left empty.
    date: String,
}

impl Default for SealingPlanView {
    fn default() -> Self {
        Self {
            ways: Ways::default(),
            aim: Aim::AchWindy,
            budget: None,
            curve: curve::Shown::default(),
            all_rows: false,
            date: String::new(),
        }
    }
}

impl SealingPlanView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if item == Item::SafetyVentilation {
            self.ways.ask(Part::LeftOpen);
        }
    }

    /// The date of what is changed here.
    fn date_of_change(&self) -> String {
        if self.date.trim().is_empty() {
            date::today()
        } else {
            self.date.clone()
        }
    }

    /// What the page asks the workers for.
    #[must_use]
    pub fn wanted(&self) -> Wanted {
        Wanted {
            aim: self.aim,
            budget: self.budget,
        }
    }
}

/// The parts of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Ranking,
    Ticked,
    Budget,
    Curve,
    LeftOpen,
    Prices,
}

impl Part {
    const ALL: [(Self, &'static str); 6] = [
        (Self::Ranking, "what to seal"),
        (Self::Ticked, "the plan"),
        (Self::Budget, "within a budget"),
        (Self::Curve, "what money buys"),
        (Self::LeftOpen, "what stays open"),
        (Self::Prices, "remedies and prices"),
    ];
}

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
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
            part(ui, context, Part::Ticked, "The plan", ticked::show);
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
fn head(ui: &mut Ui, context: &mut PageContext<'_>) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Save most of").color(palette(ui).muted));
        let chosen = Choice::new("Aim of the plan", &context.view.sealing_plan.aim, &Aim::ALL)
            .compact()
            .width(150.0)
            .show(ui, |aim| aim.name().to_owned());
        if let Some(aim) = chosen {
            context.view.sealing_plan.aim = aim;
        }
        ui.add_space(6.0);
        ui.label(RichText::new("Date of changes").color(palette(ui).muted));
        let typed = TextField::new(
            "Date of changes",
            "plan date",
            &context.view.sealing_plan.date,
        )
        .compact()
        .width(112.0)
        .hint("today")
        .show(ui, context.queue);
        if let Some(date) = typed {
            context.view.sealing_plan.date = date;
        }
        ui.add_space(6.0);
        context.view.sealing_plan.ways.links(ui, &Part::ALL);
    });
    ui.add_space(2.0);
}

/// One part of the page; it is scrolled to where the user asked for it.
fn part<'a>(
    ui: &mut Ui,
    context: &mut PageContext<'a>,
    part: Part,
    title: &str,
    content: impl FnOnce(&mut Ui, &mut PageContext<'a>),
) {
    let drawn = ui
        .scope(|ui| widgets::card(ui, title, |ui| content(ui, context)))
        .response;
    context.view.sealing_plan.ways.below(ui, part, &drawn);
}

/// Says that what is shown is of an earlier state of the survey.
fn out_of_date(ui: &mut Ui, context: &mut PageContext<'_>, revision: u64) {
    if revision != context.revision {
        widgets::muted(
            ui,
            "These figures are of a moment ago; new ones are on their way.",
        );
    }
}

/// Says that the ranking is on its way.
fn on_its_way(ui: &mut Ui, context: &mut PageContext<'_>) {
    let status = context.decisions.status(LongWork::Sealing);
    widgets::long_work(ui, context.queue, LongWork::Sealing, status, "what to seal");
}
