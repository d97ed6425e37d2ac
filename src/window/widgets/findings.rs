//! Findings: sign, word, sentence, what to do, and the way there.

use crate::survey::{Finding, Item};
use crate::window::request::Queue;
use crate::window::theme::palette;
use eframe::egui;
use egui::{RichText, Ui};

/// One finding. `with_way` adds a link that leads to its place.
pub fn finding_row(ui: &mut Ui, queue: &mut Queue, finding: &Finding, with_way: bool) {
    let colour = super::severity::severity_colour(ui, finding.severity);
    ui.horizontal_top(|ui| {
        let word = format!(
            "{} {}",
            super::severity::sign(finding.severity),
            finding.severity.name()
        );
        ui.scope(|ui| {
            ui.set_min_width(84.0);
            ui.label(RichText::new(word).color(colour));
        });
        ui.vertical(|ui| {
            ui.add(egui::Label::new(&finding.sentence).wrap());
            super::words::muted(ui, format!("→ {}", finding.advice));
            if with_way {
                let words = RichText::new(format!("go to {}", place_words(finding.place.item)))
                    .small()
                    .color(palette(ui).accent);
                if super::words::link(ui, words).clicked() {
                    queue.go_to(finding.place);
                }
            }
        });
    });
}

/// A list of findings, one under the other.
pub fn finding_list<'a>(
    ui: &mut Ui,
    queue: &mut Queue,
    findings: impl Iterator<Item = &'a Finding>,
    with_way: bool,
) {
    for (at, finding) in findings.enumerate() {
        if at > 0 {
            ui.separator();
        }
        ui.push_id((at, finding.place), |ui| {
            finding_row(ui, queue, finding, with_way);
        });
    }
}

fn place_words(item: Item) -> String {
    match item {
        Item::Header => "the survey's title".to_owned(),
        Item::Vehicle => "the vehicle".to_owned(),
        Item::Site => "the site".to_owned(),
        Item::Targets => "the targets".to_owned(),
        Item::Tariffs => "the prices".to_owned(),
        Item::Drying => "contents, sun and supply".to_owned(),
        Item::Zone(_) => "the zones".to_owned(),
        Item::Gap(id) => format!("gap {id}"),
        Item::Weather(_) => "the weather case".to_owned(),
        Item::Fabric(_) => "the fabric element".to_owned(),
        Item::Appliance(_) => "the appliance".to_owned(),
        Item::Machine(_) => "the drying machine".to_owned(),
        Item::Heater(_) => "the heater".to_owned(),
        Item::Fan(_) => "the fan".to_owned(),
        Item::Source(_) => "the moisture source".to_owned(),
        Item::Space(id) => format!("space {id}"),
        Item::InnerOpening(id) => format!("inner opening {id}"),
        Item::Ledger => "the ledger".to_owned(),
        Item::SafetyVentilation => "safety ventilation".to_owned(),
    }
}
