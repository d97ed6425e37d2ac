//! What stands before heating or drying: people first.

use crate::survey::{HeaterFuel, Item, Severity, SourceKind};
use crate::window::page::PageContext;
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{RichText, Ui};

/// A caution: how grave it is, and what it says.
type Caution = (Severity, &'static str);

const FLAME: Caution = (
    Severity::Danger,
    "A flame without flue gives carbon monoxide and water to the room. Never heat or dry a \
     closed vehicle with one, and never cook to keep warm. Fit a CO alarm: EN 50291-2 is the \
     variant for caravans, motor caravans and boats [S].",
);
const ELECTRIC: Caution = (
    Severity::Danger,
    "An electric heater left alone can set fire to what hangs or falls near it. Unattended, only \
     a fixed one with thermostat and tip-over guard, on a socket of its own, nothing near it [C].",
);
const MAINS: Caution = (
    Severity::Danger,
    "230 V in a damp vehicle: residual-current protection, no cable reel left wound up, no plug \
     where water drips [C]. Fixed wiring is for a licensed electrician.",
);
const VENTILATION: Caution = (
    Severity::Danger,
    "Fixed ventilators, gas drop-out openings, flues and the air of appliances stay open, however \
     much heat or dry air they cost. No figure here is a reason to close one.",
);
const LOCAL: Caution = (
    Severity::Note,
    "Local codes and the makers' instructions go before everything told here; gas, flues and \
     mains wiring are for licensed trades.",
);

/// Draws the cautions that concern this survey, those in force first.
pub(super) fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
    let survey = context.survey;
    let fuel = |fuel| survey.heaters.iter().any(|heater| heater.fuel == fuel);
    let flame = fuel(HeaterFuel::UnfluedGas)
        || survey
            .sources
            .iter()
            .any(|source| source.kind == SourceKind::UnfluedFlame);
    let mut cautions = vec![VENTILATION, ELECTRIC, MAINS, FLAME, LOCAL];
    if flame {
        cautions.sort_by_key(|caution| *caution != FLAME);
    }
    for (severity, words) in cautions {
        let colour = widgets::severity_colour(ui, severity);
        let words = RichText::new(format!("{} {words}", widgets::sign(severity))).color(colour);
        ui.add(egui::Label::new(words).wrap());
        ui.add_space(2.0);
    }
    noticed(ui, context);
}

/// The findings about heaters, machines and moisture sources, with the way to them.
fn noticed(ui: &mut Ui, context: &mut PageContext<'_>) {
    let Some(results) = context.results else {
        return;
    };
    let concerned =
        |item: Item| matches!(item, Item::Heater(_) | Item::Machine(_) | Item::Source(_));
    let findings = &results.assessment.findings;
    let mut found = findings
        .iter()
        .filter(|finding| concerned(finding.place.item))
        .peekable();
    if found.peek().is_some() {
        ui.separator();
        finding_list(ui, context.queue, found, true);
    }
}
