//! Safety ventilation against its table.

use super::view::DryingHeatContext;
use crate::assess::safety::words::{Line, TABLE_IN_SHORT};
use crate::assess::{Answer, Safety, SafetyVerdict, Topic};
use crate::survey::{Item, Severity};
use crate::window::format::digits;
use crate::window::jobs::Results;
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{Grid, RichText, Ui};

/// Draws the verdict, the areas found and asked for, and what to do.
pub(super) fn show(ui: &mut Ui, context: &mut DryingHeatContext<'_>, results: &Results) {
    let safety = &results.assessment.safety;
    verdict(ui, &safety.verdict);
    ui.add_space(4.0);
    areas(ui, safety);
    if let Ok(required) = &safety.required {
        let with = if required.open_flued {
            "with an appliance that is not room-sealed"
        } else {
            "with room-sealed appliances only, or none"
        };
        let area = match &safety.plan_area_m2 {
            Ok(area) => format!("{} m² of plan area", digits(*area)),
            Err(not_known) => not_known.reason.clone(),
        };
        widgets::muted(ui, format!("The table's row for {area}, {with}."));
    }
    widgets::working_button(
        ui,
        context.queue,
        Topic::SafetyVentilation,
        "safety ventilation",
    );
    let findings = &results.assessment.findings;
    let mut found = findings
        .iter()
        .filter(|finding| finding.place.item == Item::SafetyVentilation)
        .peekable();
    if found.peek().is_some() {
        ui.separator();
        finding_list(ui, context.queue, found, false);
    }
    widgets::muted(ui, TABLE_IN_SHORT);
}

pub(in crate::window::pages) fn verdict(ui: &mut Ui, verdict: &SafetyVerdict) {
    let colours = palette(ui);
    let (colour, sign) = match verdict {
        SafetyVerdict::Meets => (colours.ok, "✔"),
        SafetyVerdict::Below { .. } => (colours.danger, widgets::sign(Severity::Danger)),
        SafetyVerdict::NotKnown(_) => (colours.warning, widgets::sign(Severity::Warning)),
    };
    let words = format!("{sign} {}", verdict.sentence());
    let words = RichText::new(words).family(bold()).color(colour);
    ui.add(egui::Label::new(words).wrap());
}

fn areas(ui: &mut Ui, safety: &Safety) {
    Grid::new("ventilation")
        .min_row_height(19.0)
        .spacing([16.0, 3.0])
        .show(ui, |ui| {
            for words in ["Free area", "surveyed", "asked for, if all is there"] {
                ui.label(RichText::new(words).small().color(palette(ui).muted));
            }
            ui.end_row();
            for line in Line::ALL {
                ui.label(line.words());
                area(ui, line.surveyed(safety));
                area(ui, &line.asked_for(safety));
                ui.end_row();
            }
        });
}

pub(in crate::window::pages) fn area(ui: &mut Ui, area: &Answer<f64>) {
    match area {
        Ok(area) => {
            ui.label(format!("{} mm²", digits(area * 1e6)));
        }
        Err(not_known) => {
            ui.label(
                RichText::new("not known")
                    .italics()
                    .color(palette(ui).muted),
            )
            .on_hover_text(&not_known.reason);
        }
    }
}
