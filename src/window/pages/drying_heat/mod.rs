//! The Drying & heat page: what would do it first, then the water, the heat and the sizes behind
//! it, cold surfaces, cautions, and safety ventilation.

mod beyond;
mod cases;
mod cautions;
mod chart;
mod curves;
mod option_rows;
mod options;
pub(super) mod safety;
mod shown;
mod sizing;
mod surfaces;

use crate::assess::{Answer, Comparison};
use crate::survey::Item;
use crate::window::jobs::Results;
use crate::window::page::PageContext;
use crate::window::theme::palette;
use crate::window::widgets::{self, Ways};
use eframe::egui;
use egui::{Label, RichText, ScrollArea, Ui};
use shown::Shown;

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct DryingHeatView {
    ways: Ways<Part>,
    shown: Shown,
}

impl DryingHeatView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if item == Item::SafetyVentilation {
            self.ways.ask(Part::Safety);
        }
    }
}

/// The parts of the page, from what the owner asks to what the engineer checks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Options,
    Chart,
    WaterAndHeat,
    Sizes,
    Surfaces,
    Beyond,
    Safety,
}

impl Part {
    const ALL: [(Self, &'static str); 7] = [
        (Self::Options, "verdicts"),
        (Self::Chart, "chart"),
        (Self::WaterAndHeat, "water and heat"),
        (Self::Sizes, "sizes to look for"),
        (Self::Surfaces, "cold surfaces"),
        (Self::Beyond, "drying out, warming up, nights"),
        (Self::Safety, "safety"),
    ];
}

/// Width of a card at least.
const CARD_LEAST: f32 = 420.0;
/// Points of the screen for each millimetre of a drawing on this page.
const POINTS_PER_MM: f32 = 4.0;

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
    let Some(results) = context.results else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    context.view.drying_heat.ways.row(ui, &Part::ALL);
    ScrollArea::vertical()
        .id_salt("drying and heat")
        .auto_shrink(false)
        .show(ui, |ui| {
            if context.survey.gaps.is_empty() {
                widgets::no_gap_yet(ui, context.queue);
                ui.add_space(4.0);
            }
            part(ui, context, Part::Options, |ui, context| {
                options_card(ui, context, results);
            });
            part(ui, context, Part::Chart, |ui, context| {
                widgets::card(ui, "Warmth and water in one picture", |ui| {
                    compared(ui, results, |ui, all| chart::show(ui, context, all));
                });
            });
            part(ui, context, Part::WaterAndHeat, |ui, context| {
                water_and_heat(ui, context, results);
            });
            part(ui, context, Part::Sizes, |ui, context| {
                widgets::card(ui, "Sizes to look for", |ui| {
                    compared(ui, results, |ui, all| sizing::show(ui, context, all));
                });
            });
            part(ui, context, Part::Surfaces, |ui, context| {
                widgets::card(ui, "Cold surfaces", |ui| {
                    compared(ui, results, |ui, all| surfaces::show(ui, context, all));
                });
            });
            part(ui, context, Part::Beyond, |ui, context| {
                widgets::card(ui, "Drying out, warming up, nights", |ui| {
                    compared(ui, results, |ui, all| beyond::show(ui, context, all));
                });
            });
            part(ui, context, Part::Safety, |ui, context| {
                safety_and_cautions(ui, context, results);
            });
            widgets::follow_focus(ui);
        });
}

/// One part of the page; it is scrolled to where the user asked for it.
fn part<'a>(
    ui: &mut Ui,
    context: &mut PageContext<'a>,
    part: Part,
    content: impl FnOnce(&mut Ui, &mut PageContext<'a>),
) {
    let drawn = ui.scope(|ui| content(ui, context)).response;
    context.view.drying_heat.ways.below(ui, part, &drawn);
}

/// What needs the comparison, or why there is none.
fn compared(ui: &mut Ui, results: &Results, content: impl FnOnce(&mut Ui, &Comparison)) {
    match &results.comparison {
        Ok(comparison) => content(ui, comparison),
        Err(why) => {
            let not_known: Answer<String> = Err(why.clone());
            widgets::answer_line(ui, &not_known);
        }
    }
}

fn options_card(ui: &mut Ui, context: &mut PageContext<'_>, results: &Results) {
    let targets = &context.survey.targets;
    let set_up = results.assessment.set_up.name();
    let title = format!("What would hold {} % RH, {set_up}?", targets.rh_percent);
    widgets::card(ui, &title, |ui| {
        compared(ui, results, |ui, all| options::show(ui, context, all));
    });
}

fn water_and_heat(ui: &mut Ui, context: &mut PageContext<'_>, results: &Results) {
    let targets = &context.survey.targets;
    let set_up = results.assessment.set_up.name();
    let title = format!(
        "Water to remove to hold {} % RH, {set_up}",
        targets.rh_percent
    );
    widgets::card(ui, &title, |ui| cases::water(ui, context, results));
    ui.add_space(4.0);
    let title = format!("Heat, {set_up}");
    widgets::card(ui, &title, |ui| cases::heat(ui, context, results));
}

fn safety_and_cautions(ui: &mut Ui, context: &mut PageContext<'_>, results: &Results) {
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            widgets::card(ui, "Safety ventilation", |ui| {
                safety::show(ui, context, results);
            });
        } else {
            widgets::card(ui, "Before you heat or dry", |ui| {
                cautions::show(ui, context);
            });
        }
    });
}

/// Small muted words on one line, for cells of tables.
fn small(ui: &mut Ui, words: impl Into<String>) {
    let words = RichText::new(words).small().color(palette(ui).muted);
    ui.add(Label::new(words).extend());
}

/// Words on one line, for cells of tables.
fn cell(ui: &mut Ui, words: impl Into<String>) {
    ui.add(Label::new(words.into()).extend());
}

/// *Not known* in a cell; the reason stands on hover.
fn unknown(ui: &mut Ui, reason: &str) {
    let words = RichText::new("not known")
        .italics()
        .color(palette(ui).muted);
    ui.add(Label::new(words).extend()).on_hover_text(reason);
}
