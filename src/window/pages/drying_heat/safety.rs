//! Safety ventilation against its table.

use crate::assess::{Answer, Safety, SafetyVerdict, Topic};
use crate::survey::{Item, Severity};
use crate::window::format::digits;
use crate::window::jobs::Results;
use crate::window::page::PageContext;
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{Grid, RichText, Ui};

/// Draws the verdict, the areas found and asked for, and what to do.
pub(super) fn show(ui: &mut Ui, context: &mut PageContext<'_>, results: &Results) {
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
    widgets::muted(
        ui,
        "Minimum free areas of EN 721 as relayed [R], edition unstated; the current one is EN \
         721:2019. The local code decides, and a licensed fitter checks it.",
    );
}

pub(in crate::window::pages) fn verdict(ui: &mut Ui, verdict: &SafetyVerdict) {
    let colours = palette(ui);
    let (colour, words) = match verdict {
        SafetyVerdict::Meets => (
            colours.ok,
            "✔ meets the table, as far as surveyed free areas say".to_owned(),
        ),
        SafetyVerdict::Below {
            high_share,
            low_share,
        } => (
            colours.danger,
            format!(
                "{} below the table: {} of the high and {} of the low area asked for",
                widgets::sign(Severity::Danger),
                share(*high_share),
                share(*low_share)
            ),
        ),
        SafetyVerdict::NotKnown(why) => (
            colours.warning,
            format!(
                "{} not known: {}",
                widgets::sign(Severity::Warning),
                why.reason
            ),
        ),
    };
    let words = RichText::new(words).family(bold()).color(colour);
    ui.add(egui::Label::new(words).wrap());
}

/// A share rounded down: 99.6 % of what is asked for is not all of it.
fn share(share: f64) -> String {
    format!("{:.0} %", (share * 100.0).floor())
}

fn areas(ui: &mut Ui, safety: &Safety) {
    let required = safety.required.as_ref().map_err(Clone::clone);
    let rows: [(&str, &Answer<f64>, Answer<f64>); 3] = [
        (
            "high, in the roof",
            &safety.high_in_roof,
            required.clone().map(|required| required.high_in_roof),
        ),
        (
            "or high, elsewhere",
            &safety.high_elsewhere,
            required.clone().map(|required| required.high_elsewhere),
        ),
        (
            "and low, within 100 mm of the floor",
            &safety.low,
            required.map(|required| required.low),
        ),
    ];
    Grid::new("ventilation")
        .min_row_height(19.0)
        .spacing([16.0, 3.0])
        .show(ui, |ui| {
            for words in ["Free area", "surveyed", "asked for, if all is there"] {
                ui.label(RichText::new(words).small().color(palette(ui).muted));
            }
            ui.end_row();
            for (words, there, asked) in rows {
                ui.label(words);
                area(ui, there);
                area(ui, &asked);
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_below_the_whole_never_reads_as_the_whole() {
        assert_eq!(share(0.9999), "99 %");
        assert_eq!(share(1.25), "125 %");
    }
}
