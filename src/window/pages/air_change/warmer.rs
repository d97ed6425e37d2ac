//! Air changes against how much warmer it is inside.

use super::super::plots::{self, Axis, Curve};
use super::curves::{ach_plot, as_table, hover};
use super::lines::{case_look, not_known};
use super::view::AirChangeContext;
use crate::assess::{Assessment, Study, TemperatureCurve};
use crate::report::dependence;
use eframe::egui::Ui;

/// Draws a curve for each weather case.
pub(super) fn show(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    found: &Study,
    assessment: &Assessment,
) {
    let curves = match found.temperature_curves() {
        Ok(curves) if !curves.is_empty() => curves,
        Ok(_) => return not_known(ui, None),
        Err(why) => return not_known(ui, Some(why)),
    };
    let axis = Axis::of(ui, "K");
    let finite = |curve: &&TemperatureCurve| curve.points.iter().all(|(_, ach)| ach.is_finite());
    let drawn: Vec<Curve<'_>> = curves
        .iter()
        .filter(finite)
        .filter_map(|curve| {
            let points = curve.points.iter();
            let points = points.map(|(kelvin, ach)| [axis.at(*kelvin), *ach]);
            let look = case_look(ui, assessment, curve.id)?;
            Some((curve.name.as_str(), points.collect(), look))
        })
        .collect();
    let plot = ach_plot("against temperature")
        .x_axis_label(axis.label("inside warmer than outside by"))
        .label_formatter(move |at| hover(at, "warmer by", &format!(" {}", axis.unit())));
    let words = "air changes per hour against how much warmer it is inside";
    plots::show(ui, plot, words, &drawn, |_| {});
    as_table(
        ui,
        context,
        &dependence::by_warmth(found.temperature_curves()),
    );
}
