//! How sure the air change is, and which size to measure better.

use super::view::AirChangeContext;
use crate::assess::uncertainty::{MeasureNext, NotFound, Share, Uncertainty};
use crate::assess::{Answer, Topic};
use crate::survey::{Edit, Item, Place};
use crate::window::decisions::LongWork;
use crate::window::format::{area_cm2, digits_of, per_hour};
use crate::window::intervals;
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, NumberField};
use eframe::egui;
use egui::{Label, RichText, Ui};

/// Parts of the doubt that are listed beside the sizes.
const PARTS: usize = 6;

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut AirChangeContext<'_>) {
    let decisions = context.decisions;
    let status = decisions.status(LongWork::Uncertainty);
    widgets::long_work(
        ui,
        context.queue,
        LongWork::Uncertainty,
        status,
        "how sure the results are",
    );
    match decisions.uncertainty(context.revision) {
        None => {}
        Some(Err(why)) => widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
        Some(Ok(found)) => {
            summary(ui, context, found);
            measure_next(ui, context, &found.measure_next);
            parts(ui, &found.air_change_shares);
        }
    }
    not_found(ui, context);
}

fn summary(ui: &mut Ui, context: &mut AirChangeContext<'_>, found: &Uncertainty) {
    ui.horizontal_wrapped(|ui| {
        let season = found.season_ach_per_h.as_ref().map(|interval| {
            format!(
                "Mean of the season {} {} /h",
                context
                    .results
                    .and_then(|results| results.assessment.season_ach_per_h.clone().ok())
                    .map_or_else(String::new, |season| digits_of(season, 2)),
                intervals::words(interval)
            )
        });
        match season {
            Ok(words) => {
                ui.label(RichText::new(words).family(bold()));
            }
            Err(why) => widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
        }
        widgets::working_button(
            ui,
            context.queue,
            Topic::Uncertainty,
            "how sure the results are",
        );
    });
    widgets::muted(
        ui,
        format!(
            "95 % of {} draws of everything in doubt lie in the brackets (JCGM 101 [M]); how far each input may \
             be off is assumed [A].",
            found.draws
        ),
    );
}

fn measure_next(ui: &mut Ui, context: &mut AirChangeContext<'_>, next: &[MeasureNext]) {
    ui.add_space(4.0);
    ui.label(RichText::new("Measure next").family(bold()));
    if next.is_empty() {
        ui.label("No single size carries a part of the doubt worth measuring.");
    }
    for (number, one) in (1..).zip(next) {
        ui.push_id(("measure", one.item), |ui| {
            ui.horizontal_wrapped(|ui| {
                ui.label(RichText::new(format!("{number}.")).color(palette(ui).muted));
                ui.add(Label::new(&one.sentence).wrap());
                let way = match one.item {
                    Item::Gap(id) => format!("go to gap {id}"),
                    Item::InnerOpening(id) => format!("go to inner opening {id}"),
                    _ => return,
                };
                let words = RichText::new(&way).color(palette(ui).accent);
                let link = widgets::link(ui, words);
                widgets::tell_name(ui, link.id, &format!("{way} and measure it"));
                if link.clicked() {
                    context.queue.go_to(Place::whole(one.item));
                }
            });
        });
    }
}

/// The parts of the doubt that measuring no size can take away.
fn parts(ui: &mut Ui, shares: &[Share]) {
    let common: Vec<String> = shares
        .iter()
        .filter(|share| share.of.sized().is_none())
        .take(PARTS)
        .map(|share| format!("{} {:.0} %", share.of.name(), share.share * 100.0))
        .collect();
    if !common.is_empty() {
        ui.add_space(2.0);
        widgets::muted(
            ui,
            format!("Of all doubt, not in single sizes: {}.", common.join(", ")),
        );
    }
}

/// The share that nobody found, to be typed, and what it would add.
fn not_found(ui: &mut Ui, context: &mut AirChangeContext<'_>) {
    ui.add_space(6.0);
    let percent = context.survey.leakage_not_found_percent;
    let typed = NumberField::new("Leakage not found", "leakage_not_found_percent", percent)
        .marks(context.marks(Item::Ledger))
        .hint("off")
        .show(ui, context.queue);
    if let Some(percent) = typed {
        context.queue.typed(Edit::LeakageNotFound(percent));
    }
    let decisions = context.decisions;
    let found = decisions.uncertainty(context.revision);
    match found.and_then(|found| found.as_ref().ok()?.not_found.as_ref()) {
        Some(line) => added(ui, context, line),
        None => {
            widgets::muted(
                ui,
                "What a survey misses: a share of the leakage found, spread over the faces by area; 20 % is a \
                 fair guess [A]. It widens the intervals and never moves a headline.",
            );
        }
    }
}

fn added(ui: &mut Ui, context: &AirChangeContext<'_>, line: &NotFound) {
    let cases = context.survey.weather.iter().zip(&line.ach_per_h);
    let more: Vec<String> = cases
        .map(|(case, more)| match more {
            Ok(more) => format!("{} +{}", case.name, per_hour(*more)),
            Err(_) => format!("{} not known", case.name),
        })
        .collect();
    let words = format!(
        "{} % would be {} more EqLA; air changes: {}. It is in the intervals, not in the headlines.",
        digits_of(line.percent, 2),
        area_cm2(line.eqla),
        more.join(", ")
    );
    ui.add(Label::new(words).wrap());
}
