//! Air changes against wind direction and against wind speed.

use super::super::plots::{self, Axis, Curve, number, still_plot};
use super::lines::{Look, case_looks, not_known};
use super::rose::nearest;
use super::view::AirChangeContext;
use crate::assess::quantity::Kind;
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

/// The cases whose air change is known in every direction.
fn curves<'r>(ui: &Ui, results: &'r Results) -> Vec<Curve<'r>> {
    let point = |one: &crate::assess::DirectionAnswer| {
        let ach = *one.ach_per_h.as_ref().ok()?;
        ach.is_finite().then_some([one.from_front_deg, ach])
    };
    let assessment = results.assessment();
    let looks = case_looks(ui, assessment);
    let cases = assessment.cases.iter().zip(looks);
    cases
        .filter_map(|(case, look)| {
            let air = case.air.as_ref().ok()?;
            let points: Option<Vec<[f64; 2]>> = air.directions.iter().map(point).collect();
            let points = points.filter(|points| !points.is_empty())?;
            Some((case.name.as_str(), closed(points), look))
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
    let curves = curves(ui, results);
    if curves.is_empty() {
        let cases = &results.assessment().cases;
        not_known(ui, cases.iter().find_map(|case| case.air.as_ref().err()));
        return;
    }
    let chosen = context.view.direction;
    // The last point is the first once more.
    let angles: Vec<f64> = curves.first().map_or(Vec::new(), |(_, points, _)| {
        let points = points.split_last().map_or(&[][..], |(_, points)| points);
        points.iter().map(|[from_front, _]| *from_front).collect()
    });
    let chosen_deg = angles.get(chosen).copied();
    let rule = palette(ui).outline;
    let plot = ach_plot("against direction")
        .include_x(0.0)
        .include_x(360.0)
        .x_axis_label("wind from, degrees clockwise from the front")
        .x_grid_spacer(|_| quarters())
        .x_axis_formatter(|mark, _| quarter_words(mark.value))
        .label_formatter(|at| hover(at, "wind from", "°"));
    let words = "air changes per hour against wind direction";
    let response = plots::show(ui, plot, words, &curves, |plot| {
        if let Some(at) = chosen_deg {
            plot.vline(VLine::new("flows below", at).color(rule).width(1.0));
        }
    });
    if response.response.clicked()
        && let Some(at) = response.response.interact_pointer_pos()
    {
        let angle = response.transform.value_from_position(at).x;
        context.view.direction = nearest(angles.into_iter(), angle);
    }
    let table = context.view.drawings.by_direction(results, told);
    as_table(ui, context, &table);
}

/// The first point once more at the right end: the circle closes.
fn closed(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    let first = points.first().copied();
    points.extend(first.map(|[from_front, ach]| [from_front + 360.0, ach]));
    points
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
    let axis = Axis::of(ui, "m/s");
    let line = |of: fn(&crate::assess::WindPoint) -> f64| -> Vec<[f64; 2]> {
        let points = curve.points.iter();
        points
            .map(|point| [axis.at(point.wind_m_s), of(point)])
            .collect()
    };
    let [mean, most, least] = PLAIN.map(|style| Look::of(ui, style));
    let curves = [
        ("most", line(|point| point.highest_per_h), most),
        ("mean", line(|point| point.mean_per_h), mean),
        ("least", line(|point| point.lowest_per_h), least),
    ];
    let mut all = curves.iter().flat_map(|(_, points, _)| points);
    if all.any(|[_, ach]| !ach.is_finite()) {
        return not_known(ui, None);
    }
    let band = palette(ui).stripe;
    let column = |of: fn(&crate::assess::WindPoint) -> f64| -> Vec<f64> {
        curve.points.iter().map(of).collect()
    };
    let speeds = column(|point| point.wind_m_s);
    let speeds: Vec<f64> = speeds.into_iter().map(|speed| axis.at(speed)).collect();
    let (lowest, highest) = (
        column(|point| point.lowest_per_h),
        column(|point| point.highest_per_h),
    );
    let plot = ach_plot("against speed")
        .x_axis_label(axis.label("wind at a weather station"))
        .label_formatter(move |at| hover(at, "wind", &format!(" {}", axis.unit())));
    let words = "air changes per hour against wind speed";
    plots::show(ui, plot, words, &curves, |plot| {
        plot.add(FilledArea::new("least to most", &speeds, &lowest, &highest).fill_color(band));
    });
    let table = context.view.drawings.by_speed(results);
    as_table(ui, context, &table);
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
        let all = closed(vec![[0.0, 1.0], [180.0, 2.0]]);
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
