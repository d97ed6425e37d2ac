//! Air changes against how much warmer it is inside.

use super::super::plots::{draw, name_plot, number};
use super::curves::{ach_plot, hover, not_known};
use super::lines::{Look, case_look, key};
use crate::assess::{Assessment, TemperatureCurve};
use crate::window::decisions::Understood;
use crate::window::format::digits_of;
use crate::window::widgets;
use eframe::egui::{CollapsingHeader, Grid, RichText, Ui};

/// Draws a curve for each weather case.
pub(super) fn show(ui: &mut Ui, understood: &Understood, assessment: &Assessment) {
    let curves = match &understood.against_temperature {
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
    widgets::muted(
        ui,
        "In the wind and the outside air of each weather case, mean over all wind directions. Warmth alone \
         moves more air the taller the body and the further apart its gaps.",
    );
    CollapsingHeader::new("Air changes by warmth as a table").show(ui, |ui| table(ui, curves));
}

fn table(ui: &mut Ui, curves: &[TemperatureCurve]) {
    Grid::new("warmth")
        .striped(true)
        .spacing([14.0, 2.0])
        .show(ui, |ui| {
            ui.label(RichText::new("Warmer by, K").small());
            for curve in curves {
                ui.label(RichText::new(format!("{}, /h", curve.name)).small());
            }
            ui.end_row();
            let rows = curves.first().map_or(0, |curve| curve.points.len());
            for row in 0..rows {
                if let Some((kelvin, _)) = curves.first().and_then(|curve| curve.points.get(row)) {
                    ui.label(number(*kelvin));
                }
                for curve in curves {
                    let ach = curve.points.get(row).map(|(_, ach)| digits_of(*ach, 3));
                    ui.label(ach.unwrap_or_default());
                }
                ui.end_row();
            }
        });
}
