//! Air changes against wind direction and against wind speed.

use super::super::plots::{self, draw, marks, name_plot, number, still_plot};
use super::lines::{Look, case_looks, key, not_known};
use super::rose::nearest;
use super::view::AirChangeContext;
use crate::assess::CaseAnswer;
use crate::assess::quantity::Kind;
use crate::figure::styles::PLAIN;
use crate::report::direction::side;
use crate::report::{Material, Section, dependence};
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

/// A case, its place among all, and its points.
type Curve<'a> = (&'a CaseAnswer, usize, Vec<[f64; 2]>);

/// The cases whose air change is known in every direction.
fn curves(results: &Results) -> Vec<Curve<'_>> {
    let point = |one: &crate::assess::DirectionAnswer| {
        let ach = *one.ach_per_h.as_ref().ok()?;
        ach.is_finite().then_some([one.from_front_deg, ach])
    };
    results
        .assessment()
        .cases
        .iter()
        .enumerate()
        .filter_map(|(place, case)| {
            let air = case.air.as_ref().ok()?;
            let points: Option<Vec<[f64; 2]>> = air.directions.iter().map(point).collect();
            points
                .filter(|points| !points.is_empty())
                .map(|points| (case, place, points))
        })
        .collect()
}

/// Draws the air changes of each case against the direction the wind comes from.
pub(super) fn against_direction(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    results: &Results,
    told: &Material<'_>,
) {
    let curves = curves(results);
    if curves.is_empty() {
        let cases = &results.assessment().cases;
        not_known(ui, cases.iter().find_map(|case| case.air.as_ref().err()));
        return;
    }
    let all = case_looks(ui, results.assessment());
    let looks: Vec<Look> = curves
        .iter()
        .filter_map(|(_, place, _)| all.get(*place).copied())
        .collect();
    let chosen = context.view.direction;
    let chosen_deg = curves
        .first()
        .and_then(|(.., points)| points.get(chosen))
        .map(|[from_front, _]| *from_front);
    let rule = palette(ui).outline;
    let names = curves.iter().map(|(case, ..)| case.name.as_str());
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
        for ((case, _, points), look) in curves.iter().zip(&looks) {
            draw(plot, &case.name, closed(points), look);
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
        let points = curves.first().map_or(&[] as &[_], |(.., points)| points);
        context.view.direction = nearest(points.iter().map(|[from_front, _]| *from_front), angle);
    }
    as_table(ui, context, &dependence::by_direction(told));
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
    let curve = match results.wind_curve() {
        Ok(curve) => curve,
        Err(why) => return not_known(ui, Some(why)),
    };
    let speeds: Vec<f64> = curve.points.iter().map(|point| point.wind_m_s).collect();
    let column = |of: fn(&crate::assess::WindPoint) -> f64| -> Vec<f64> {
        curve.points.iter().map(of).collect()
    };
    let lowest = column(|point| point.lowest_per_h);
    let mean = column(|point| point.mean_per_h);
    let highest = column(|point| point.highest_per_h);
    if [&lowest, &mean, &highest]
        .iter()
        .any(|values| values.iter().any(|value| !value.is_finite()))
    {
        return not_known(ui, None);
    }
    let [mean_look, most_look, least_look] = PLAIN.map(|style| Look::of(ui, style));
    let lines = [
        ("most", &highest, most_look),
        ("mean", &mean, mean_look),
        ("least", &lowest, least_look),
    ];
    let band = palette(ui).stripe;
    key(ui, lines.iter().map(|(name, _, look)| (*name, *look)));
    let plot = ach_plot("against speed")
        .x_axis_label("wind at a weather station, m/s")
        .x_grid_spacer(|input| marks(input.bounds))
        .x_axis_formatter(|mark, _| number(mark.value))
        .label_formatter(|at| hover(at, "wind", " m/s"));
    let response = plot.show(ui, |plot| {
        plot.add(FilledArea::new("least to most", &speeds, &lowest, &highest).fill_color(band));
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
    as_table(ui, context, &dependence::by_speed(results.wind_curve()));
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
