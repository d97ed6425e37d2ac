//! The air of each space inside, weather cases side by side.

use crate::assess::{Answer, CaseAnswer, SpaceAir};
use crate::survey::Survey;
use crate::window::format::{digits, per_hour};
use crate::window::pages::side_by_side::SideBySide;
use crate::window::theme::bold;
use crate::window::widgets;
use eframe::egui;
use egui::{RichText, Ui};

/// Draws the table, where there is more than one space.
pub(super) fn show(ui: &mut Ui, survey: &Survey, cases: &[CaseAnswer]) {
    if survey.spaces.len() < 2 {
        return;
    }
    ui.add_space(6.0);
    ui.label(RichText::new("Air into each space, mean").family(bold()));
    SideBySide::show(ui, "spaces", cases.len(), |ui, table| {
        table.head(ui, cases.iter().map(|case| case.name.as_str()));
        for (at, space) in survey.spaces.iter().enumerate() {
            let name = survey.space_name(space.id);
            let mut row = |small: &str, of: fn(&SpaceAir) -> (&Answer<f64>, f64)| {
                table.row(ui, &name, small, |ui, column| {
                    let air = cases.get(column).and_then(|case| case.air.as_ref().ok());
                    if let Some(found) = air.and_then(|air| air.spaces.get(at)) {
                        told(ui, of(found));
                    }
                });
            };
            row("outside air", |air| (&air.ach_per_h, air.mean_inflow_kg_s));
            row("from other spaces", |air| {
                (&air.from_spaces_per_h, air.mean_from_spaces_kg_s)
            });
        }
    });
    widgets::muted(
        ui,
        "By the volume of the space itself. Air from other spaces comes through the openings inside: it is \
         no outside air.",
    );
}

/// Air changes with the flow under them; the flow alone, and why, where the space has no volume.
fn told(ui: &mut Ui, (ach, flow_kg_s): (&Answer<f64>, f64)) {
    let flow = format!("{} kg/h", digits(flow_kg_s * 3600.0));
    match ach {
        Ok(ach) => {
            ui.label(per_hour(*ach));
            widgets::muted(ui, flow);
        }
        Err(why) => {
            ui.label(flow);
            widgets::muted(ui, format!("air changes not known: {}", why.reason));
        }
    }
}
