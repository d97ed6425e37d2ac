//! Two options hour by hour: humidity and temperature inside and outside, machine and condensation.

use super::super::air_change::lines::{self, Look};
use super::super::plots::{self, Axis};
use super::span::{DAY, Lines, Points, Span};
use super::view::{WinterContext, compared};
use crate::assess::winter::Throughout;
use crate::assess::words::capital;
use crate::climate::{Hour, MonthDay};
use crate::figure::scene::{Dash, Role};
use crate::figure::styles::{Marker, Style};
use crate::physics::MoistAir;
use crate::physics::counts::{count, whole};
use crate::physics::winter::HourInside;
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice};
use eframe::egui;
use egui::{RichText, Ui};
use egui_plot::{GridMark, Line};

/// Height of a plot.
const HEIGHT: f32 = 190.0;
/// Points of the screen for each pair of points of a line: more are thinned to their lowest and
/// highest.
const POINTS_PER_PAIR: f32 = 3.0;
/// Points of humidity in the whole, and grams in a kilogram.
const HUNDRED: f64 = 100.0;
const GRAMS: f64 = 1000.0;

/// A plot: its name, the words over it, and its lines.
type Drawn = (&'static str, String, Vec<(String, Points, Look)>);

/// Draws the choice of time and the plots.
pub(super) fn show(ui: &mut Ui, context: &mut WinterContext<'_>, run: &Throughout, revision: u64) {
    let all = run.hours().len();
    span(ui, context, all);
    let hours = context.view.span.hours(all).min(all);
    let from = context.view.from_h.min(all - hours);
    context.view.from_h = from;
    let pair = compared(context, run);
    let pairs = whole(f64::from(
        (ui.available_width() / POINTS_PER_PAIR).max(50.0),
    ));
    let key = (revision, pair, from, hours, pairs);
    let make = || lines(run, pair, (from, hours), pairs);
    let lines = context.view.lines.get(key, make);
    for (name, words, curves) in drawn(ui, run, pair, &lines) {
        let flat = |points: &Points| points.iter().all(|[_, y]| y.abs() < f64::EPSILON);
        if curves.iter().all(|(_, points, _)| flat(points)) {
            widgets::muted(ui, format!("{words}: none in this time."));
            continue;
        }
        ui.add_space(4.0);
        ui.label(RichText::new(&words).strong());
        plot(ui, (name, &words), curves, run);
    }
}

/// The plots with their lines.
fn drawn(ui: &Ui, run: &Throughout, pair: [usize; 2], lines: &Lines) -> [Drawn; 4] {
    let looks = looks(ui);
    let [outside, first, second] = looks;
    let celsius = Axis::of(ui, "°C");
    let name = |at: usize| {
        let option = run.options().get(at);
        option.map_or_else(String::new, |option| capital(&option.name))
    };
    let names = pair.map(name);
    let three = |of: &[Points; 3], shown: &dyn Fn(f64) -> f64| {
        let [one, other] = names.clone();
        let names = ["outside".to_owned(), one, other];
        let all = names.into_iter().zip(of).zip([outside, first, second]);
        all.map(|((name, points), look)| {
            let points = points.iter().map(|[x, y]| [*x, shown(*y)]).collect();
            (name, points, look)
        })
        .collect()
    };
    let two = |of: &[Points; 2]| {
        let all = names.clone().into_iter().zip(of).zip([first, second]);
        all.map(|((name, points), look)| (name, points.clone(), look))
            .collect()
    };
    [
        (
            "humidity by hour",
            "Relative humidity, %".to_owned(),
            three(&lines.humidity, &|percent| percent),
        ),
        (
            "temperature by hour",
            celsius.label("Temperature"),
            three(&lines.temperature, &|t_c| celsius.at(t_c)),
        ),
        (
            "machine by hour",
            "Machine on, share of the hour, %".to_owned(),
            two(&lines.machine),
        ),
        (
            "condensation by hour",
            "Water that condenses, g/h".to_owned(),
            two(&lines.condensed),
        ),
    ]
}

/// How much is shown, and from where.
fn span(ui: &mut Ui, context: &mut WinterContext<'_>, all: usize) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Time shown").color(palette(ui).muted));
        let chosen = Choice::new("Time shown", &context.view.span, &Span::ALL)
            .compact()
            .width(150.0)
            .show(ui, |span| span.name().to_owned());
        if let Some(span) = chosen {
            context.view.span = span;
        }
        let step = context.view.span.hours(all);
        let last = all.saturating_sub(step);
        if step < all {
            if ui.button("Earlier").clicked() {
                context.view.from_h = context.view.from_h.saturating_sub(step);
            }
            if ui.button("Later").clicked() {
                context.view.from_h = (context.view.from_h + step).min(last);
            }
        }
    });
}

/// One plot, its lines told apart by dash and width.
fn plot(
    ui: &mut Ui,
    (name, words): (&'static str, &str),
    curves: Vec<(String, Points, Look)>,
    run: &Throughout,
) {
    lines::key(
        ui,
        curves.iter().map(|(name, _, look)| (name.as_str(), *look)),
    );
    let days: Vec<String> = run.hours().iter().step_by(DAY).map(day_words).collect();
    let response = plots::still_plot(name, HEIGHT)
        .x_axis_formatter(move |mark, _| {
            let at = whole((mark.value / count(DAY)).round().max(0.0));
            days.get(at).cloned().unwrap_or_default()
        })
        .x_grid_spacer(|input| day_marks(input.bounds))
        .show(ui, |plot| {
            for (name, points, look) in curves {
                let line = Line::new(name, points).color(look.colour);
                plot.line(line.style(look.dash).width(look.width));
            }
        });
    let words = format!(
        "Plot by hour: {words}; every hour stands in the table that the command winter writes"
    );
    plots::name_plot(ui, &response, &words);
}

/// Day and month of an hour.
fn day_words(hour: &Hour) -> String {
    let month: String = MonthDay::month_name(hour.day.month)
        .chars()
        .take(3)
        .collect();
    format!("{} {month}", hour.day.day)
}

/// Marks at the beginning of days, some seven of them.
fn day_marks((low, high): (f64, f64)) -> Vec<GridMark> {
    let day = count(DAY);
    let days = (high - low) / day;
    let apart = [1.0, 2.0, 5.0, 7.0, 14.0, 28.0].into_iter();
    let step = apart
        .clone()
        .find(|apart| days / apart <= 8.0)
        .unwrap_or(28.0)
        * day;
    let first = (low / step).ceil().max(0.0);
    (0..=16u32)
        .map(|at| GridMark {
            value: (first + f64::from(at)) * step,
            step_size: step,
        })
        .take_while(|mark| mark.value <= high)
        .collect()
}

/// Outside in ink and fine, the two options in colours, the second dashed.
fn looks(ui: &Ui) -> [Look; 3] {
    let style = |role, dash, width| Style {
        role,
        dash,
        marker: Marker::Circle,
        width,
    };
    [
        style(Role::Ink, Dash::Dotted, 0.4),
        style(Role::First, Dash::Solid, 0.6),
        style(Role::Second, Dash::Dashed, 0.6),
    ]
    .map(|style| Look::of(ui, style))
}

/// The lines of a span, thinned.
fn lines(run: &Throughout, pair: [usize; 2], (from, hours): (usize, usize), pairs: usize) -> Lines {
    let span = |value: &dyn Fn(usize) -> Option<f64>| -> Points {
        let points = (from..from + hours).filter_map(|at| Some([count(at), value(at)?]));
        thinned(points.collect(), pairs)
    };
    let inside = |at: usize, of: fn(&HourInside) -> f64| -> Points {
        let season = run.option(at).and_then(|(_, season)| season.as_ref().ok());
        let hours = season.map_or(&[][..], |season| season.hours.as_slice());
        span(&|at| hours.get(at).map(of))
    };
    let air = run.air();
    let outside = |of: fn(&MoistAir) -> f64| span(&|at| air.get(at).map(of));
    let [first, second] = pair;
    let rh: fn(&HourInside) -> f64 = |hour| hour.rh * HUNDRED;
    let t_c: fn(&HourInside) -> f64 = |hour| hour.t_c;
    Lines {
        humidity: [
            outside(|air| air.relative_humidity() * HUNDRED),
            inside(first, rh),
            inside(second, rh),
        ],
        temperature: [
            outside(|air| air.t_c),
            inside(first, t_c),
            inside(second, t_c),
        ],
        machine: pair.map(|at| inside(at, |hour| hour.duty * HUNDRED)),
        condensed: pair.map(|at| inside(at, |hour| hour.condensed * GRAMS)),
    }
}

/// No more than so many pairs of points: of each stretch the lowest and the highest, in their order.
fn thinned(points: Points, pairs: usize) -> Points {
    if points.len() <= 2 * pairs || pairs == 0 {
        return points;
    }
    let stretch = points.len().div_ceil(pairs);
    let by_height = |one: &&[f64; 2], other: &&[f64; 2]| one[1].total_cmp(&other[1]);
    points
        .chunks(stretch)
        .flat_map(|stretch| {
            let low = stretch.iter().min_by(by_height).copied();
            let high = stretch.iter().max_by(by_height).copied();
            let mut both = [low, high];
            both.sort_by(|one, other| {
                let place = |point: &Option<[f64; 2]>| point.map_or(0.0, |[x, _]| x);
                place(one).total_cmp(&place(other))
            });
            both.into_iter().flatten()
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thinning_keeps_the_lowest_and_the_highest_and_the_order_of_time() {
        let wave = |at: usize| [count(at), (count(at) * 0.7).sin() * count(at % 97)];
        let points: Points = (0..5000).map(wave).collect();
        let thin = thinned(points.clone(), 200);
        assert!(thin.len() <= 400 && thin.len() > 300, "{}", thin.len());
        assert!(thin.windows(2).all(|pair| pair[0][0] <= pair[1][0]));
        let ends = |points: &Points| {
            let heights = points.iter().map(|[_, y]| *y);
            let low = heights.clone().fold(f64::INFINITY, f64::min);
            (low, heights.fold(f64::NEG_INFINITY, f64::max))
        };
        assert_eq!(ends(&thin), ends(&points));
        assert_eq!(thinned(points[..300].to_vec(), 200).len(), 300);
    }

    #[test]
    fn marks_of_days_stand_within_the_span_and_are_few() {
        for (low, high) in [(0.0, 3624.0), (700.0, 1420.0), (168.0, 336.0)] {
            let marks = day_marks((low, high));
            assert!(
                (3..=9).contains(&marks.len()),
                "{low} {high}: {}",
                marks.len()
            );
            assert!(marks.iter().all(|mark| (low..=high).contains(&mark.value)));
        }
    }
}
