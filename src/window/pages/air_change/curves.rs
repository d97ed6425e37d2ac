//! Air changes against wind direction and against wind speed.

use super::super::plots::{self, draw, marks, name_plot, number, still_plot};
use super::lines::{Look, case_looks, key, not_known};
use super::rose::nearest;
use super::view::AirChangeContext;
use crate::assess::quantity::Kind;
use crate::assess::{WindCurve, WindPoint};
use crate::figure::styles::PLAIN;
use crate::report::direction::side;
use crate::report::{Material, Section};
use crate::window::answers::Results;
use crate::window::theme::palette;
use crate::window::widgets::report;
use eframe::egui;
use egui::Ui;
use egui_plot::{FilledArea, GridMark, HoverPosition, Plot, VLine};

const HEIGHT: f32 = 230.0;

/// A plot of air changes that stands still.
pub(super) fn ach_plot(name: &'static str) -> Plot<'static> {
    still_plot(name, HEIGHT).y_axis_label("air changes, /h")
}

/// The curve of a weather case against wind direction.
#[derive(Clone, Debug)]
pub(super) struct DirectionCurve {
    name: String,
    /// Place of the case among all.
    place: usize,
    points: Vec<[f64; 2]>,
}

/// The cases whose air change is known in every direction.
pub(super) fn direction_curves(results: &Results) -> Vec<DirectionCurve> {
    let point = |one: &crate::assess::DirectionAnswer| {
        let ach = *one.ach_per_h.as_ref().ok()?;
        ach.is_finite().then_some([one.from_front_deg, ach])
    };
    let cases = results.assessment().cases.iter().enumerate();
    cases
        .filter_map(|(place, case)| {
            let air = case.air.as_ref().ok()?;
            let points: Option<Vec<[f64; 2]>> = air.directions.iter().map(point).collect();
            let points = points.filter(|points| !points.is_empty())?;
            let name = case.name.clone();
            Some(DirectionCurve {
                name,
                place,
                points,
            })
        })
        .collect()
}

/// The lines of the air change against wind speed.
#[derive(Clone, Debug)]
pub(super) struct SpeedCurve {
    speeds: Vec<f64>,
    lowest: Vec<f64>,
    mean: Vec<f64>,
    highest: Vec<f64>,
}

/// `None` where a value is no number.
pub(super) fn speed_curve(curve: &WindCurve) -> Option<SpeedCurve> {
    let column = |of: fn(&WindPoint) -> f64| -> Vec<f64> { curve.points.iter().map(of).collect() };
    let found = SpeedCurve {
        speeds: column(|point| point.wind_m_s),
        lowest: column(|point| point.lowest_per_h),
        mean: column(|point| point.mean_per_h),
        highest: column(|point| point.highest_per_h),
    };
    let mut values = found.lowest.iter().chain(&found.mean).chain(&found.highest);
    let finite = values.all(|value| value.is_finite());
    finite.then_some(found)
}

/// Draws the air changes of each case against the direction the wind comes from.
pub(super) fn against_direction(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    results: &Results,
    told: &Material<'_>,
) {
    let kept = context.view.drawings.by_direction(results, told);
    let (curves, table) = &*kept;
    if curves.is_empty() {
        let cases = &results.assessment().cases;
        not_known(ui, cases.iter().find_map(|case| case.air.as_ref().err()));
        return;
    }
    let all = case_looks(ui, results.assessment());
    let looks: Vec<Look> = curves
        .iter()
        .filter_map(|curve| all.get(curve.place).copied())
        .collect();
    let chosen = context.view.direction;
    let chosen_deg = curves
        .first()
        .and_then(|curve| curve.points.get(chosen))
        .map(|[from_front, _]| *from_front);
    let rule = palette(ui).outline;
    let names = curves.iter().map(|curve| curve.name.as_str());
    key(ui, names.zip(looks.iter().copied()));
    let plot = ach_plot("against direction")
        .include_x(0.0)
        .include_x(360.0)
        .x_axis_label("wind from, degrees clockwise from the front")
        .x_grid_spacer(|_| quarters())
        .x_axis_formatter(|mark, _| quarter_words(mark.value))
        .label_formatter(|at| hover(at, "wind from", "°"));
    let response = plot.show(ui, |plot| {
        if let Some(at) = chosen_deg {
            plot.vline(VLine::new("flows below", at).color(rule).width(1.0));
        }
        for (curve, look) in curves.iter().zip(&looks) {
            draw(plot, &curve.name, closed(&curve.points), look);
        }
    });
    name_plot(
        ui,
        &response,
        "Plot of air changes per hour against wind direction; the figures stand in the table below",
    );
    if response.response.clicked()
        && let Some(at) = response.response.interact_pointer_pos()
    {
        let angle = response.transform.value_from_position(at).x;
        let points = curves.iter().take(1).flat_map(|curve| &curve.points);
        context.view.direction = nearest(points.map(|[from_front, _]| *from_front), angle);
    }
    as_table(ui, context, table);
}

/// The first point once more at the right end: the circle closes.
fn closed(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut all = points.to_vec();
    all.extend(
        points
            .first()
            .map(|[from_front, ach]| [from_front + 360.0, *ach]),
    );
    all
}

fn quarters() -> Vec<GridMark> {
    (0..=8)
        .map(|eighth| GridMark {
            value: 45.0 * f64::from(eighth),
            step_size: if eighth % 2 == 0 { 90.0 } else { 45.0 },
        })
        .collect()
}

fn quarter_words(angle_deg: f64) -> String {
    let whole = (angle_deg / 90.0 - (angle_deg / 90.0).round()).abs() < 1e-6;
    if whole {
        side(angle_deg)
    } else {
        String::new()
    }
}

/// What stands beside the pointer near a point.
pub(super) fn hover(at: &HoverPosition<'_>, axis: &str, unit: &str) -> Option<String> {
    plots::hover(at, |x, ach| {
        [
            format!("{axis} {}{unit}", number(x)),
            Kind::AirChanges.text(ach),
        ]
    })
}

/// Draws lowest, mean and highest air change over the directions against wind speed.
pub(super) fn against_speed(ui: &mut Ui, context: &mut AirChangeContext<'_>, results: &Results) {
    let kept = context.view.drawings.by_speed(results);
    let (curve, table) = &*kept;
    let curve = match curve {
        Ok(Some(curve)) => curve,
        Ok(None) => return not_known(ui, None),
        Err(why) => return not_known(ui, Some(why)),
    };
    let SpeedCurve {
        speeds,
        lowest,
        mean,
        highest,
    } = curve;
    let [mean_look, most_look, least_look] = PLAIN.map(|style| Look::of(ui, style));
    let lines = [
        ("most", highest, most_look),
        ("mean", mean, mean_look),
        ("least", lowest, least_look),
    ];
    let band = palette(ui).stripe;
    key(ui, lines.iter().map(|(name, _, look)| (*name, *look)));
    let plot = ach_plot("against speed")
        .x_axis_label("wind at a weather station, m/s")
        .x_grid_spacer(|input| marks(input.bounds))
        .x_axis_formatter(|mark, _| number(mark.value))
        .label_formatter(|at| hover(at, "wind", " m/s"));
    let response = plot.show(ui, |plot| {
        plot.add(FilledArea::new("least to most", speeds, lowest, highest).fill_color(band));
        for (name, values, look) in &lines {
            let points: Vec<[f64; 2]> = speeds
                .iter()
                .zip(values.iter())
                .map(|(speed, value)| [*speed, *value])
                .collect();
            draw(plot, name, points, look);
        }
    });
    name_plot(
        ui,
        &response,
        "Plot of air changes per hour against wind speed; the figures stand in the table below",
    );
    as_table(ui, context, table);
}

/// The figures of a plot, folded away under it.
pub(super) fn as_table(ui: &mut Ui, context: &mut AirChangeContext<'_>, section: &Section) {
    egui::CollapsingHeader::new(format!("{} as a table", section.title))
        .show(ui, |ui| report::section(ui, context.queue, section));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_circle_closes_at_the_right_end() {
        let all = closed(&[[0.0, 1.0], [180.0, 2.0]]);
        assert_eq!(all, [[0.0, 1.0], [180.0, 2.0], [360.0, 1.0]]);
    }

    #[test]
    fn quarters_are_named_and_eighths_are_not() {
        let names: Vec<String> = quarters()
            .iter()
            .map(|mark| quarter_words(mark.value))
            .collect();
        assert_eq!(
            names,
            [
                "front", "", "offside", "", "rear", "", "nearside", "", "front"
            ]
        );
    }
}
