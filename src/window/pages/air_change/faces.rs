//! Air in and out by face, and between the spaces inside, in one wind direction.

use super::view::AirChangeContext;
use crate::assess::quantity::Kind;
use crate::assess::{DirectionAnswer, face_totals};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::Survey;
use crate::window::theme::palette;
use crate::window::widgets;
use eframe::egui;
use egui::{Grid, RichText, Ui};

/// Draws the totals.
pub(super) fn show(ui: &mut Ui, context: &AirChangeContext<'_>, direction: &DirectionAnswer) {
    Grid::new("faces")
        .striped(true)
        .min_row_height(19.0)
        .spacing([18.0, 2.0])
        .show(ui, |ui| {
            for words in ["Through all gaps of", "in, kg/h", "out, kg/h"] {
                ui.label(RichText::new(words).small().color(palette(ui).muted));
            }
            ui.end_row();
            for total in face_totals(context.survey, direction) {
                ui.label(total.facing.name());
                ui.label(flow(total.in_kg_s));
                ui.label(flow(total.out_kg_s));
                ui.end_row();
            }
        });
    inner(ui, context.survey, direction);
}

fn flow(kg_s: f64) -> String {
    let per_h = kg_s * SECONDS_PER_HOUR;
    if per_h <= 0.0 {
        "0".to_owned()
    } else if per_h < 0.01 {
        "< 0.01".to_owned()
    } else {
        Kind::KilogramsPerHour.number(per_h)
    }
}

/// Air between the spaces, and the pressure in each.
fn inner(ui: &mut Ui, survey: &Survey, direction: &DirectionAnswer) {
    if direction.inner_flows.is_empty() && direction.space_pressures.len() < 2 {
        return;
    }
    ui.add_space(4.0);
    for (opening, flows) in survey.inner_openings.iter().zip(&direction.inner_flows) {
        let (from, to) = (
            survey.space_name(opening.from),
            survey.space_name(opening.to),
        );
        let name = match opening.name.trim() {
            "" => format!("inner opening {}", opening.id),
            name => name.to_owned(),
        };
        ui.label(format!(
            "{name}: {from} → {to} {} kg/h, back {} kg/h",
            flow(flows.forward_kg_s),
            flow(flows.back_kg_s)
        ));
    }
    let pressures: Vec<String> = survey
        .spaces
        .iter()
        .zip(&direction.space_pressures)
        .map(|(space, pressure)| {
            format!(
                "{} {}",
                survey.space_name(space.id),
                Kind::Pascals.text(*pressure)
            )
        })
        .collect();
    if !pressures.is_empty() {
        widgets::muted(
            ui,
            format!("Pressure at mid-height: {}.", pressures.join(", ")),
        );
    }
}
