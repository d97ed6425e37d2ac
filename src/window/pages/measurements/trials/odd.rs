//! Readings that an instrument should not have made, left out or put back by the user's word.

use super::super::view::MeasurementsContext;
use crate::assess::measured::{MOST_TOLD, Odd};
use crate::assess::words::{capital, counted};
use crate::survey::{Edit, Field, LeftOut, LoggerSeries};
use crate::window::help;
use crate::window::theme::bold;
use crate::window::widgets;
use eframe::egui;
use egui::{RichText, Ui};

/// Draws what is left out, and what is odd and might be.
pub(super) fn show(
    ui: &mut Ui,
    context: &mut MeasurementsContext<'_>,
    series: &LoggerSeries,
    put: &dyn Fn(LoggerSeries) -> Edit,
) {
    let field = Field::LeftOut;
    let heading = ui.label(RichText::new(field.label()).family(bold()));
    help::explain(ui, heading, field.label(), field.help());
    if series.left_out.is_empty() {
        widgets::muted(ui, "Nothing: every reading counts.");
    }
    let mut back = None;
    for (at, one) in series.left_out.iter().enumerate() {
        ui.push_id(("left out", at), |ui| {
            ui.horizontal_wrapped(|ui| {
                let words = words(one);
                ui.label(&words);
                if widgets::named_button(ui, "Put back", &format!("Put back {words}")) {
                    back = Some(at);
                }
            });
        });
    }
    if let Some(at) = back {
        let mut changed = series.clone();
        changed.left_out.remove(at);
        context.queue.edit(put(changed), None);
    }
    odd_ones(ui, context, series, put);
}

/// Odd readings that still count, each stretch with the way to leave it out.
fn odd_ones(
    ui: &mut Ui,
    context: &mut MeasurementsContext<'_>,
    series: &LoggerSeries,
    put: &dyn Fn(LoggerSeries) -> Edit,
) {
    let still_counts = |odd: &&Odd| {
        let mut left_out = series.left_out.iter();
        !left_out.any(|one| {
            one.what.is_none_or(|what| what == odd.what) && one.from <= odd.from && odd.to <= one.to
        })
    };
    let odd = context.answers.odd(series.id).unwrap_or_default();
    let odd: Vec<Odd> = odd.iter().filter(still_counts).copied().collect();
    if odd.is_empty() {
        return;
    }
    ui.label(RichText::new("Odd readings, which count unless you leave them out").family(bold()));
    for (at, one) in odd.iter().enumerate() {
        ui.push_id(("odd", at), |ui| {
            ui.horizontal_wrapped(|ui| {
                let words = format!(
                    "{} from {} to {}: {} ({})",
                    capital(one.what.name()),
                    one.from,
                    one.to,
                    one.why.words(),
                    counted_in_words(one.readings),
                );
                ui.label(&words);
                if widgets::named_button(ui, "Leave out", &format!("Leave out {words}")) {
                    context.queue.edit(put(without(series, one)), None);
                }
            });
        });
    }
    if odd.len() >= MOST_TOLD {
        widgets::muted(
            ui,
            "There may be more of them: look at the logger before you trust the rest.",
        );
    }
}

fn counted_in_words(readings: usize) -> String {
    counted(readings, "reading", "readings")
}

/// The logger without an odd stretch.
fn without(series: &LoggerSeries, odd: &Odd) -> LoggerSeries {
    let mut changed = series.clone();
    changed.left_out.push(LeftOut {
        from: odd.from,
        to: odd.to,
        what: Some(odd.what),
        why: odd.why.words().to_owned(),
    });
    changed
}

/// A stretch in words: `relative humidity from 2026-03-01 00:00 to …: it dried out`.
pub(super) fn words(one: &LeftOut) -> String {
    let what = one.what.map_or("all of it", crate::series::What::name);
    let why = match one.why.trim() {
        "" => String::new(),
        why => format!(": {why}"),
    };
    format!("{} from {} to {}{why}", capital(what), one.from, one.to)
}
