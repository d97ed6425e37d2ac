//! What stands at the cursor of a chart.

use super::span::Span;
use super::view::ChartView;
use crate::figure::trial::{Lines, Quantity};
use crate::series::moment;
use crate::window::theme::bold;
use crate::window::units;
use eframe::egui;
use egui::{RichText, Ui};

/// A reading stands for the time behind it, at most so long, s.
const STANDS_FOR: i64 = 3600;

/// Draws it.
pub(super) fn show(ui: &mut Ui, view: &ChartView, lines: &Lines, all: Span) {
    let words = match view.cursor {
        Some(cursor) => at(lines, cursor),
        None => {
            let (from, to) = view.shown(all);
            format!("In view: {} to {}", moment(from), moment(to))
        }
    };
    let words = units::text(ui.ctx(), &words);
    let words = RichText::new(words).family(bold());
    ui.scope(|ui| {
        // Room for two lines whatever they say, so that the plots under them stay where they are.
        let line = ui.text_style_height(&egui::TextStyle::Body);
        ui.set_min_height(2.0 * line);
        ui.add(egui::Label::new(words).wrap());
    });
}

/// Says that a period was begun by key, and how it ends.
pub(super) fn begun(ui: &mut Ui, begun: i64) {
    let words = format!(
        "A period begins at {}. Move the cursor to its end and press E; Esc takes it back.",
        moment(begun)
    );
    ui.add(egui::Label::new(RichText::new(words).small()).wrap());
}

/// All values at a moment: `2026-01-05 10:00: inside 8.2 °C, 71 %, 4.9 g/kg; outside …`.
fn at(lines: &Lines, cursor: i64) -> String {
    let air = |name: &str, of: &dyn Fn(Quantity) -> Option<f64>| {
        let values: Vec<String> = Quantity::ALL
            .into_iter()
            .filter_map(|quantity| {
                let digits = match quantity {
                    Quantity::Humidity => 0,
                    _ => 1,
                };
                let value = format!("{:.digits$}", of(quantity)?).replace('-', "\u{2212}");
                Some(format!("{value}\u{a0}{}", quantity.unit()))
            })
            .collect();
        match values.is_empty() {
            true => format!("{name} nothing was read"),
            false => format!("{name} {}", values.join(", ")),
        }
    };
    let inside = |quantity| lines.inside.track(quantity).at(cursor, STANDS_FOR);
    let mut parts = vec![air("inside", &inside)];
    if let Some(outside) = &lines.outside {
        let outside = |quantity| outside.track(quantity).at(cursor, STANDS_FOR);
        parts.push(air("outside", &outside));
    }
    for limit in &lines.limits {
        if let Some(allowed) = limit.humidity.at(cursor, STANDS_FOR) {
            parts.push(format!("{} from {allowed:.0}\u{a0}%", limit.name));
        }
    }
    format!("{}: {}", moment(cursor), parts.join("; "))
}
