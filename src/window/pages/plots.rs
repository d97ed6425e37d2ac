//! What the plots of several pages share: they stand still, and their axes carry round numbers.

use super::air_change::lines::{Look, key};
use crate::assess::shown::Units;
use crate::assess::words::figure;
use crate::window::units;
use eframe::egui;
use egui::accesskit::Role;
use egui::{Ui, Vec2, WidgetInfo};
use egui_plot::{GridMark, HoverPosition, Line, Plot, PlotResponse, PlotUi, Points};

/// A plot that stands still: it neither zooms nor scrolls, so the page scrolls over it. The
/// upright axis begins at zero; both carry round numbers.
pub(super) fn still_plot(name: &'static str, height: f32) -> Plot<'static> {
    Plot::new(name)
        .height(height)
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_axis_zoom_drag(false)
        .allow_double_click_reset(false)
        .show_crosshair(false)
        .include_y(0.0)
        .x_axis_formatter(|mark, _| number(mark.value))
        .x_grid_spacer(|input| marks(input.bounds))
        .y_axis_formatter(|mark, _| number(mark.value))
        .y_grid_spacer(|input| marks(input.bounds))
}

/// An axis with a unit: its numbers are those of the units shown.
#[derive(Clone, Copy)]
pub(super) struct Axis {
    metric: &'static str,
    units: Units,
}

impl Axis {
    /// An axis of this metric unit.
    pub(super) fn of(ui: &Ui, metric: &'static str) -> Self {
        let units = units::shown(ui.ctx()).units();
        Self { metric, units }
    }

    /// A metric number as it stands on the axis.
    pub(super) fn at(self, metric: f64) -> f64 {
        self.units.shown(metric, self.metric)
    }

    /// The unit.
    pub(super) fn unit(self) -> &'static str {
        self.units.symbol(self.metric)
    }

    /// What stands along it: the words and the unit.
    pub(super) fn label(self, words: &str) -> String {
        format!("{words}, {}", self.unit())
    }

    /// Two digits of a number on the axis, with the unit.
    pub(super) fn text(self, on_axis: f64) -> String {
        format!("{}\u{a0}{}", figure(on_axis, 2), self.unit())
    }
}

/// A number on an axis, without needless zeros and with a real minus sign.
pub(super) fn number(value: f64) -> String {
    if value.abs() < 1e-9 {
        "0".to_owned()
    } else {
        let text = format!("{value:.3}");
        let text = text.trim_end_matches('0').trim_end_matches('.');
        text.replace('-', "\u{2212}")
    }
}

/// One line of a plot: its name, its points, and how it looks.
pub(super) type Curve<'n> = (&'n str, Vec<[f64; 2]>, Look);

/// Draws the key, and under it the plot with its curves over what `behind` draws. `words` say what
/// it is a plot of.
pub(super) fn show(
    ui: &mut Ui,
    plot: Plot<'static>,
    words: &str,
    curves: &[Curve<'_>],
    behind: impl FnOnce(&mut PlotUi<'_>),
) -> PlotResponse<()> {
    key(ui, curves.iter().map(|(name, _, look)| (*name, *look)));
    let response = plot.show(ui, |plot| {
        behind(plot);
        for curve in curves {
            draw(plot, curve);
        }
    });
    let words = format!("Plot of {words}; its figures stand in a table too");
    name_plot(ui, &response, &words);
    response
}

/// Gives a plot its name. A plot knows only once it was drawn how much room its axes take: it is
/// drawn once more whenever that has changed, lest words lie over each other.
pub(super) fn name_plot<R>(ui: &Ui, plot: &PlotResponse<R>, words: &str) {
    let response = &plot.response;
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, words));
    let now = plot.transform.frame().size();
    let id = response.id.with("room inside the axes");
    let before = ui.data_mut(|data| {
        let before = data.get_temp::<Vec2>(id);
        data.insert_temp(id, now);
        before
    });
    if before.is_none_or(|before| (before - now).length() > 0.5) {
        ui.ctx().request_repaint();
    }
}

/// Marks at round values, 1, 2 or 5 times a power of ten apart: some five of them.
pub(super) fn marks((low, high): (f64, f64)) -> Vec<GridMark> {
    let span = high - low;
    if !span.is_finite() || span <= 0.0 {
        return Vec::new();
    }
    let raw = span / 6.0;
    let power = 10f64.powf(raw.log10().floor());
    let step_size = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|factor| factor * power)
        .find(|step| *step >= raw)
        .unwrap_or(raw);
    let first = (low / step_size).ceil();
    let mark = |at: i32| GridMark {
        value: (first + f64::from(at)) * step_size,
        step_size,
    };
    (0..=12)
        .map(mark)
        .take_while(|mark| mark.value <= high)
        .collect()
}

/// What stands beside the pointer near a point: the curve, then both figures as `words` has them.
pub(super) fn hover(
    at: &HoverPosition<'_>,
    words: impl FnOnce(f64, f64) -> [String; 2],
) -> Option<String> {
    match at {
        HoverPosition::NearDataPoint {
            plot_name,
            position,
            ..
        } => {
            let [x, y] = words(position.x, position.y);
            Some(format!("{plot_name}\n{x}\n{y}"))
        }
        HoverPosition::Elsewhere { .. } => None,
    }
}

/// A curve with a mark at each point.
fn draw(plot: &mut PlotUi<'_>, (name, points, look): &Curve<'_>) {
    plot.line(
        Line::new(*name, points.clone())
            .color(look.colour)
            .style(look.dash)
            .width(look.width),
    );
    plot.points(
        Points::new(*name, points.clone())
            .color(look.colour)
            .shape(look.marker)
            .radius(3.2),
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axis_numbers_carry_no_needless_zeros() {
        assert_eq!(number(0.0), "0");
        assert_eq!(number(2.0), "2");
        assert_eq!(number(0.25), "0.25");
    }

    #[test]
    fn marks_stand_at_round_values_within_the_bounds() {
        for (low, high) in [(-0.3, 6.4), (0.0, 12.0), (0.0, 0.07), (-0.02, 41.0)] {
            let marks = marks((low, high));
            assert!((4..=8).contains(&marks.len()), "{low} to {high}: {marks:?}");
            for mark in &marks {
                assert!((low..=high).contains(&mark.value));
                let steps = mark.value / mark.step_size;
                assert!((steps - steps.round()).abs() < 1e-9);
            }
        }
        assert!(marks((1.0, 1.0)).is_empty());
    }
}
