//! The psychrometric chart: the states of the options in one weather case, for reading and
//! pointing at.

use super::cells::POINTS_PER_MM;
use super::view::{DryingHeatContext, dates};
use crate::assess::quantity::Kind;
use crate::assess::words::capital;
use crate::assess::{Answer, Comparison};
use crate::physics::MoistAir;
use crate::window::body;
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Layout, RichText, Ui, vec2};

const HOW_TO_READ: [&str; 5] = [
    "Further right is warmer; further up the air holds more water.",
    "Along a curve the relative humidity is the same.",
    "Warming goes straight to the right: the same water, a lower RH.",
    "Taking water out goes straight down.",
    "Above the 100\u{a0}% curve water condenses.",
];
/// Width of the words beside the chart.
const BESIDE: f32 = 350.0;
/// Height of the chart.
const HEIGHT: f32 = 400.0;

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let available = ui.available_width();
    let side = available >= 780.0;
    let width = if side {
        available - BESIDE - 30.0
    } else {
        available
    };
    if side {
        ui.horizontal_top(|ui| {
            boxed(ui, width, |ui| drawing(ui, context, comparison));
            ui.add_space(12.0);
            boxed(ui, BESIDE, |ui| beside(ui, context, comparison));
        });
    } else {
        drawing(ui, context, comparison);
        beside(ui, context, comparison);
    }
    let dates = dates(context);
    let view = &mut *context.view;
    let told = view.texts.of_shown(dates, comparison, view.shown);
    egui::CollapsingHeader::new("States as a table").show(ui, |ui| {
        widgets::report::table(ui, context.queue, &told.states);
    });
}

fn boxed(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(width);
        content(ui);
    });
}

fn drawing(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let (dates, shown) = (dates(context), context.view.shown);
    let size = (
        f64::from((ui.available_width() / POINTS_PER_MM).max(80.0)),
        f64::from(HEIGHT / POINTS_PER_MM),
    );
    let chart = context.view.texts.chart(dates, comparison, shown, size);
    match chart.as_ref() {
        Ok(chart) => {
            let touched = body::show(ui, &chart.scene, HEIGHT);
            let pointed = touched
                .response
                .hover_pos()
                .and_then(|at| chart.state_at(touched.frame.to_scene(at)));
            let words = match pointed {
                Some(air) => state_words(&air),
                None => "Point at the chart to read a state.".to_owned(),
            };
            let words = units::text(ui.ctx(), &words);
            ui.label(RichText::new(words).color(palette(ui).text));
        }
        Err(why) => widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
    }
}

/// A state in words: `12.0 °C, 61 % RH, 5.30 g/kg, dew point 4.8 °C`.
fn state_words(air: &MoistAir) -> String {
    let dew_point = air.dew_point_c().map_or_else(String::new, |dew_point| {
        format!(", dew point {}", Kind::Celsius.text(dew_point))
    });
    format!(
        "{}, {} RH, {}{dew_point}",
        Kind::Celsius.text(air.t_c),
        Kind::RelativeHumidity.text(air.relative_humidity().min(1.0)),
        Kind::GramsPerKilogram.text(air.humidity_ratio)
    )
}

fn beside(ui: &mut Ui, context: &mut DryingHeatContext<'_>, comparison: &Comparison) {
    let dates = dates(context);
    let view = &mut *context.view;
    view.shown.choose_case(ui, "Weather shown", comparison);
    view.shown.choose_option(ui, "Arrows for", comparison);
    ui.add_space(6.0);
    for words in HOW_TO_READ {
        ui.add(egui::Label::new(words).wrap());
    }
    ui.add_space(6.0);
    let told = view.texts.of_shown(dates, comparison, view.shown);
    if let Some(words) = &told.warmth_alone {
        let words = capital(words);
        let words = units::text(ui.ctx(), &words);
        ui.add(egui::Label::new(words).wrap());
    }
    ui.add_space(4.0);
    widgets::muted(
        ui,
        "Numbers are those of the options above; the filled diamond is the outside air.",
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 25 °C dew point at p_v 3169.7 Pa and 95 461 Pa: W 0.0213604 (psychrolib's published tests
    /// \[S\]).
    #[test]
    fn a_state_is_told_with_its_dew_point() {
        let air = MoistAir::new(30.0, 0.021_360_4, 95_461.0).unwrap();
        let words = state_words(&air);
        assert!(words.starts_with("30.0\u{a0}°C, "), "{words}");
        assert!(
            words.ends_with("21.36\u{a0}g/kg, dew point 25.0\u{a0}°C"),
            "{words}"
        );
    }
}
