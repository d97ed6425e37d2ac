//! Air changes against how much warmer it is inside.

use super::super::plots::{draw, name_plot, number};
use super::curves::{ach_plot, as_table, hover};
use super::lines::{Look, case_look, key, not_known};
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
    let finite = |curve: &&TemperatureCurve| curve.points.iter().all(|(_, ach)| ach.is_finite());
    let drawn: Vec<(&TemperatureCurve, Look)> = curves
        .iter()
        .filter(finite)
        .filter_map(|curve| Some((curve, case_look(ui, assessment, curve.id)?)))
        .collect();
    key(
        ui,
        drawn
            .iter()
            .map(|(curve, look)| (curve.name.as_str(), *look)),
    );
    let plot = ach_plot("against temperature")
        .x_axis_label("inside warmer than outside by, K")
        .x_axis_formatter(|mark, _| number(mark.value))
        .label_formatter(|at| hover(at, "warmer by", " K"));
    let response = plot.show(ui, |plot| {
        for (curve, look) in &drawn {
            let points = curve.points.iter().map(|(kelvin, ach)| [*kelvin, *ach]);
            draw(plot, &curve.name, points.collect(), look);
        }
    });
    name_plot(
        ui,
        &response,
        "Plot of air changes per hour against how much warmer it is inside; the figures stand in the table below",
    );
    as_table(
        ui,
        context,
        &dependence::by_warmth(found.temperature_curves()),
    );
}
