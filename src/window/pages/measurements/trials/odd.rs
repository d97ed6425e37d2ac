//! Readings that an instrument should not have made, left out or put back by the user's word.

use super::super::view::MeasurementsContext;
use crate::assess::words::capital;
use crate::survey::{Edit, Field, LeftOut, LoggerSeries, Moment};
use crate::window::help;
use crate::window::theme::bold;
use crate::window::widgets;
use eframe::egui;
use egui::{RichText, Ui};

/// Draws what is left out.
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

/// Readings between two moments left out.
pub(super) fn left_out(
    series: &LoggerSeries,
    (from, to): (Moment, Moment),
    what: Option<crate::series::What>,
    why: &str,
) -> LoggerSeries {
    let mut changed = series.clone();
    changed.left_out.push(LeftOut {
        from,
        to,
        what,
        why: why.to_owned(),
    });
    changed
}
