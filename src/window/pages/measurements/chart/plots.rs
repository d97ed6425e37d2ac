//! The three plots of a chart.

use super::super::super::air_change::lines::{self, Look};
use super::super::super::plots::{self, Axis};
use super::span::Span;
use super::view::{ChartView, Dragged, Drawn};
use crate::figure::scene::Dash;
use crate::figure::trial::{Band, Lines, ODD, ODD_NAME, Quantity, Track, round_range, time};
use crate::physics::counts::{seconds_as_f64, whole};
use crate::window::theme::{Palette, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Color32, Id, Rect, Sense, Stroke, Ui};
use egui_plot::{
    GridMark, Line, Plot, PlotTransform, PlotUi, Points as Marks, Span as Shade, VLine,
};

/// Heights of a plot, and of one in a low window.
const HEIGHT: f32 = 150.0;
const LOW: f32 = 110.0;
/// Room for the numbers at the left, so that the plots stand in line.
const NUMBERS: f32 = 44.0;
/// Points of the screen for each pair of points of a line.
const POINTS_PER_PAIR: f32 = 1.5;
/// Rows for each pair of points from which a line is no more than a band.
const BAND_ROWS: usize = 64;
/// Part of the pairs that a broken line has as a band: each of its dashes is a shape of its own, and a
/// million rows would be as many of them.
const BAND_PART: usize = 3;
/// Share of the width at its left end that has no mark of time.
const CORNER: f64 = 0.02;
/// Points of the screen that a mark of time needs.
const MARK: f32 = 64.0;

/// Half of what such a mark measures, points of the screen.
const ODD_RADIUS: f32 = 4.0;

/// Height that a number beside a plot needs, points.
const NUMBER_TALL: f32 = 24.0;

/// Where the plots are on the screen.
pub(super) struct OnScreen {
    /// All of them.
    pub(super) rect: Rect,
    /// How time stands in them.
    pub(super) transform: Option<PlotTransform>,
}

impl OnScreen {
    /// The moment at a place of the screen, s.
    pub(super) fn moment(&self, x: f32) -> Option<i64> {
        let transform = self.transform.as_ref()?;
        let at = transform.value_from_position(egui::pos2(x, 0.0)).x;
        #[expect(clippy::cast_possible_truncation, reason = "seconds of a calendar")]
        let seconds = at.round() as i64;
        Some(seconds)
    }

    /// The place of a moment on the screen.
    pub(super) fn x(&self, moment: i64) -> Option<f32> {
        let transform = self.transform.as_ref()?;
        let at = egui_plot::PlotPoint::new(seconds_as_f64(moment), 0.0);
        Some(transform.position_from_point(&at).x)
    }

    /// Seconds for each point of the screen.
    pub(super) fn seconds_per_point(&self) -> Option<f64> {
        let transform = self.transform.as_ref()?;
        let width = f64::from(transform.frame().width().max(1.0));
        Some(transform.bounds().width() / width)
    }
}

/// Draws them.
pub(super) fn show(
    ui: &mut Ui,
    view: &mut ChartView,
    (id, revision): (Id, u64),
    (lines, bands): (&Lines, &[Band]),
    all: Span,
) -> OnScreen {
    let shown = view.shown(all);
    let pairs = whole(f64::from(
        (ui.available_width() / POINTS_PER_PAIR).max(60.0),
    ));
    let top = ui.cursor().top();
    let mut transform = None;
    let mut rect: Option<Rect> = None;
    for (at, quantity) in Quantity::ALL.into_iter().enumerate() {
        let key = (revision, at, shown, pairs);
        let drawn = view.lines(key, || drawn(lines, quantity, shown, pairs));
        let axis = Axis::of(ui, quantity.unit());
        ui.horizontal_wrapped(|ui| {
            let words = format!("{}, {}", quantity.name(), axis.unit());
            ui.label(egui::RichText::new(words).strong());
            let looks = drawn
                .iter()
                .map(|(name, style, _)| (&**name, Look::of(ui, *style)));
            let looks: Vec<_> = looks.collect();
            lines::key(ui, looks.into_iter());
        });
        let one = one(
            ui,
            (id.with(at), quantity, axis),
            view,
            (bands, &drawn),
            shown,
        );
        transform = transform.or(Some(one.0));
        rect = Some(rect.map_or(one.1, |rect| rect.union(one.1)));
    }
    let empty = Rect::from_min_size(egui::pos2(ui.cursor().left(), top), egui::Vec2::ZERO);
    OnScreen {
        rect: rect.unwrap_or(empty),
        transform,
    }
}

/// The lines of a quantity, thinned.
fn drawn(lines: &Lines, quantity: Quantity, shown: Span, pairs: usize) -> Drawn {
    let tracks = lines.tracks(quantity).into_iter();
    let mut drawn: Drawn = tracks
        .map(|(name, track, style)| {
            let is_band = style.dash != Dash::Solid && track.number(shown) > BAND_ROWS * pairs;
            let pairs = if is_band { pairs / BAND_PART } else { pairs };
            (name.to_owned(), style, track.lines(shown, pairs))
        })
        .collect();
    let odd = lines.doubtful(quantity, shown, pairs);
    if !odd.is_empty() {
        drawn.push((ODD_NAME.to_owned(), ODD, vec![odd]));
    }
    drawn
}

fn one(
    ui: &mut Ui,
    (id, quantity, axis): (Id, Quantity, Axis),
    view: &ChartView,
    (bands, drawn): (&[Band], &Drawn),
    shown: Span,
) -> (PlotTransform, Rect) {
    let all_lines = drawn.iter().flat_map(|(_, _, lines)| lines);
    let (low, high) = round_range(quantity, Track::range(all_lines));
    let most = whole(f64::from(ui.available_width() / MARK)).max(2);
    let height = if widgets::is_low(ui) { LOW } else { HEIGHT };
    let (from, to) = (seconds_as_f64(shown.0), seconds_as_f64(shown.1));
    let palette = *palette(ui);
    let plot = Plot::new(id)
        .height(height)
        .sense(Sense::hover())
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_axis_zoom_drag(false)
        .allow_double_click_reset(false)
        .show_crosshair(false)
        .show_x(false)
        .show_grid([false, true])
        .show_y(false)
        .y_axis_min_width(NUMBERS)
        .y_axis_formatter(|mark, _| plots::number(mark.value))
        .y_grid_spacer(move |input| sparse(plots::marks(input.bounds), height))
        .x_axis_formatter(|mark, _| time::words(moment(mark.value)))
        .x_grid_spacer(move |input| {
            let (from, to) = input.bounds;
            let mut marks = time::marks((moment(from), moment(to)), most);
            // In the corner stands the lowest number of the upright axis.
            marks.retain(|(at, _)| seconds_as_f64(*at) - from > CORNER * (to - from));
            let value = |at: i64| GridMark {
                value: seconds_as_f64(at),
                step_size: (to - from) / 4.0,
            };
            marks.into_iter().map(|(at, _)| value(at)).collect()
        });
    let response = plot.show(ui, |plot| {
        plot.set_plot_bounds_x(from..=to);
        plot.set_plot_bounds_y(axis.at(low)..=axis.at(high));
        for (at, _) in time::marks(shown, most) {
            let line = VLine::new("", seconds_as_f64(at)).color(palette.rule);
            plot.vline(line.width(0.5).allow_hover(false));
        }
        behind(plot, bands, &palette, quantity == Quantity::Temperature);
        for (name, style, pieces) in drawn {
            let look = Look::of_palette(*style, &palette);
            for piece in pieces {
                let points: Vec<[f64; 2]> = piece.iter().map(|[x, y]| [*x, axis.at(*y)]).collect();
                if *style == ODD {
                    let marks = Marks::new(name.clone(), points).allow_hover(false);
                    let marks = marks.color(look.colour).radius(ODD_RADIUS);
                    plot.points(marks.shape(look.marker).filled(true));
                    continue;
                }
                let line = Line::new(name.clone(), points).allow_hover(false);
                plot.line(line.color(look.colour).style(look.dash).width(look.width));
            }
        }
        before(plot, view, &palette);
    });
    (response.transform, response.response.rect)
}

/// Marks that stand far enough apart for their numbers in a plot of this height: every other one where
/// all would be too near each other, since numbers without room are not drawn at all.
fn sparse(marks: Vec<GridMark>, height: f32) -> Vec<GridMark> {
    let fit = whole(f64::from(height / NUMBER_TALL));
    if marks.len() <= fit {
        return marks;
    }
    let twice = |mark: GridMark| GridMark {
        step_size: 2.0 * mark.step_size,
        ..mark
    };
    let is_round = |mark: &GridMark| {
        let steps = mark.value / mark.step_size;
        (steps - steps.round()).abs() < 1e-6
    };
    marks.into_iter().map(twice).filter(is_round).collect()
}

fn moment(seconds: f64) -> i64 {
    #[expect(clippy::cast_possible_truncation, reason = "seconds of a calendar")]
    let whole = seconds.round() as i64;
    whole
}

/// The periods, every other one shaded.
fn behind(plot: &mut PlotUi<'_>, bands: &[Band], palette: &Palette, with_names: bool) {
    for (at, band) in bands.iter().enumerate() {
        let name = if with_names { band.label.as_str() } else { "" };
        let fill = match at % 2 {
            0 => palette.selection.gamma_multiply(0.5),
            _ => Color32::TRANSPARENT,
        };
        let width = if band.is_reference { 2.0 } else { 1.0 };
        let range = seconds_as_f64(band.from_s)..=seconds_as_f64(band.to_s);
        plot.span(
            Shade::new(name, range)
                .fill(fill)
                .border(Stroke::new(width, palette.muted))
                .border_style(match band.is_reference {
                    true => egui_plot::LineStyle::Solid,
                    false => egui_plot::LineStyle::dashed_loose(),
                }),
        );
    }
}

/// The cursor and what is being marked.
fn before(plot: &mut PlotUi<'_>, view: &ChartView, palette: &Palette) {
    let marking = match (view.dragged, view.begun, view.cursor) {
        (Some(Dragged::From(one, other) | Dragged::End(_, one, other)), ..) => Some((one, other)),
        (None, Some(begun), Some(cursor)) => Some((begun, cursor)),
        _ => None,
    };
    if let Some((one, other)) = marking {
        let range = seconds_as_f64(one.min(other))..=seconds_as_f64(one.max(other));
        plot.span(
            Shade::new("", range)
                .fill(palette.accent.gamma_multiply(0.25))
                .border(Stroke::new(1.5, palette.accent)),
        );
    }
    if let Some(cursor) = view.cursor {
        plot.vline(
            VLine::new("", seconds_as_f64(cursor))
                .color(palette.text)
                .width(1.0)
                .allow_hover(false),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::trial::{Air, Rows};
    use std::sync::Arc;

    #[test]
    fn numbers_beside_a_low_plot_stand_far_enough_apart_to_be_drawn() {
        for (low, high) in [(50.0, 100.0), (2.0, 10.0), (-5.0, 15.0), (20.0, 100.0)] {
            for height in [LOW, HEIGHT] {
                let marks = sparse(plots::marks((low, high)), height);
                assert!(marks.len() >= 2, "{low} to {high}: {marks:?}");
                // Twenty points is what the plot asks for at least, its own words below it left out.
                let apart = f64::from(height - 16.0) * marks[0].step_size / (high - low);
                assert!(apart > 20.0, "{low} to {high} in {height}: {apart}");
            }
        }
    }

    #[test]
    fn a_broken_line_over_very_many_rows_has_fewer_points_than_a_whole_one_and_reaches_as_far() {
        let points = |rows: i64| {
            let times: Arc<Vec<i64>> = Arc::new((0..rows).map(|row| row * 10).collect());
            let t_c: Vec<f64> = (0..rows).map(|row| seconds_as_f64(row % 97)).collect();
            let air = Air::of(Rows {
                times_s: &times,
                t_c: &t_c,
                rh: &t_c,
                ratio: &t_c,
            });
            let lines = Lines {
                inside: air.clone(),
                outside: Some(air),
                ..Lines::default()
            };
            let drawn = drawn(&lines, Quantity::Temperature, (0, rows * 10), 400);
            let of = |name: &str| {
                let line = drawn.iter().find(|(of, ..)| of == name).unwrap();
                let ends = Track::range(&line.2).unwrap();
                (line.2.iter().map(Vec::len).sum::<usize>(), ends)
            };
            let ((broken, far), (whole, as_far)) = (of("outside"), of("inside"));
            assert_eq!(far, as_far);
            (broken, whole)
        };
        let (broken, whole) = points(100_000);
        assert!(2 * broken < whole, "{broken} {whole}");
        let (broken, whole) = points(10_000);
        assert_eq!(broken, whole);
    }
}
