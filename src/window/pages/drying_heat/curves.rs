//! Removal needed against the humidity to hold and against the air changes.

use super::super::air_change::lines::{Look, not_known};
use super::super::plots::{self, Axis, Curve, number, still_plot};
use crate::assess::Comparison;
use crate::assess::quantity::Kind;
use crate::assess::words::figure;
use crate::figure::styles::{self, PLAIN};
use crate::physics::units::LITRES_PER_DAY;
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets;
use eframe::egui::{CollapsingHeader, Grid, RichText, Ui};
use egui_plot::{HoverPosition, LineStyle, VLine};

const HEIGHT: f32 = 210.0;

fn hover(at: &HoverPosition<'_>, water: Axis, axis: &str, unit: &str) -> Option<String> {
    plots::hover(at, |x, litres| {
        [format!("{axis} {} {unit}", number(x)), water.text(litres)]
    })
}

/// Draws the removal needed against the humidity to hold, a curve for each weather case.
pub(super) fn against_rh(ui: &mut Ui, comparison: &Comparison, set_c: f64) {
    let set = Kind::Celsius.typed(set_c);
    let words = format!("Against the RH to hold, inside at {set}");
    ui.label(units::text(ui.ctx(), &words));
    let water = Axis::of(ui, "L/day");
    let all = &comparison.sizing.against_rh;
    let extremes = (comparison.calmest, comparison.windiest);
    let styles = styles::of_cases(comparison.cases.len(), extremes);
    let curves: Vec<Curve<'_>> = all
        .iter()
        .filter_map(|curve| {
            let mut cases = comparison.cases.iter().zip(&styles);
            let (case, style) = cases.find(|(case, _)| case.id == curve.id)?;
            let points = curve.points.as_ref().ok()?.iter();
            let points = points.map(|(rh, kg_s)| [rh * 100.0, water.at(kg_s * LITRES_PER_DAY)]);
            Some((case.name.as_str(), points.collect(), Look::of(ui, *style)))
        })
        .collect();
    if curves.is_empty() {
        not_known(ui, all.iter().find_map(|curve| curve.points.as_ref().err()));
        return;
    }
    let target = comparison.target_rh * 100.0;
    plot(
        ui,
        ("removal against RH", "RH to hold, %", "target"),
        Some(target),
        &curves,
        move |at| hover(at, water, "to hold", "%"),
    );
    table(ui, "Removal by RH as a table", "RH, %", &curves);
}

/// Draws the removal needed against the air changes, in the air of the windiest case.
pub(super) fn against_ach(ui: &mut Ui, comparison: &Comparison, set_c: f64) {
    ui.label(format!(
        "Against the air changes, outside air of “{}”",
        comparison.case_name(comparison.windiest)
    ));
    let points = match &comparison.sizing.against_ach {
        Ok(points) => points,
        Err(why) => return not_known(ui, Some(why)),
    };
    let water = Axis::of(ui, "L/day");
    let line = |of: fn(&crate::assess::drying::AchPoint) -> f64| -> Vec<[f64; 2]> {
        let each = points.iter();
        each.map(|point| [point.ach_per_h, water.at(of(point) * LITRES_PER_DAY)])
            .collect()
    };
    let at_set = format!("inside at {}", Kind::Celsius.typed(set_c));
    let at_set = units::text(ui.ctx(), &at_set);
    let as_cold = line(|point| point.at_outside_temperature_kg_s);
    let [cold, warm, _] = PLAIN.map(|style| Look::of(ui, style));
    let curves = [
        ("inside as cold as outside", as_cold, cold),
        (
            at_set.as_str(),
            line(|point| point.at_set_temperature_kg_s),
            warm,
        ),
    ];
    let nothing_done = comparison.state(0, comparison.windiest).ok();
    let own = nothing_done.and_then(|state| state.ach_per_h.clone().ok());
    plot(
        ui,
        (
            "removal against air changes",
            "air changes, /h",
            "this vehicle",
        ),
        own,
        &curves,
        move |at| hover(at, water, "at", "/h"),
    );
    table(
        ui,
        "Removal by air changes as a table",
        "air changes, /h",
        &curves,
    );
}

/// Draws the curves with an upright line where this vehicle stands.
fn plot(
    ui: &mut Ui,
    (name, axis, upright_name): (&'static str, &'static str, &'static str),
    upright: Option<f64>,
    curves: &[Curve<'_>],
    hover: impl Fn(&HoverPosition<'_>) -> Option<String> + 'static,
) {
    let colour = palette(ui).accent;
    let all = curves.iter().flat_map(|(_, points, _)| points);
    let furthest = all.map(|[x, _]| *x).fold(0.0, f64::max);
    let plot = still_plot(name, HEIGHT)
        .y_axis_label(Axis::of(ui, "L/day").label("water to remove"))
        .x_axis_label(axis)
        .label_formatter(hover);
    plots::show(ui, plot, name, curves, |plot| {
        if let Some(at) = upright.filter(|at| *at <= furthest) {
            let upright = VLine::new(upright_name, at).color(colour).width(2.0);
            plot.vline(upright.style(LineStyle::dashed_dense()));
        }
    });
    if let Some(at) = upright {
        let at_words = figure(at, 2);
        let words = if at <= furthest {
            format!("The dashed upright line: {upright_name}, {at_words}.")
        } else {
            format!("Past the right edge: {upright_name}, {at_words}.")
        };
        widgets::muted(ui, words);
    }
}

fn table(ui: &mut Ui, title: &str, axis: &str, curves: &[Curve<'_>]) {
    CollapsingHeader::new(title).show(ui, |ui| {
        Grid::new(title)
            .striped(true)
            .spacing([14.0, 2.0])
            .show(ui, |ui| {
                ui.label(RichText::new(axis).small());
                for (name, ..) in curves {
                    ui.label(RichText::new(Axis::of(ui, "L/day").label(name)).small());
                }
                ui.end_row();
                let rows = curves.iter().map(|(_, points, _)| points.len()).max();
                for row in 0..rows.unwrap_or(0) {
                    let first = curves.first().and_then(|(_, points, _)| points.get(row));
                    ui.label(first.map(|[x, _]| number(*x)).unwrap_or_default());
                    for (_, points, _) in curves {
                        let litres = points.get(row).map(|[_, water]| figure(*water, 2));
                        ui.label(litres.unwrap_or_default());
                    }
                    ui.end_row();
                }
            });
    });
}
