//! The selected gap: what it is, its form and sizes.

use super::super::space_choice;
use super::change;
use super::sizes;
use super::view::GapsContext;
use crate::assess::quantity::Kind;
use crate::assess::words::capital;
use crate::assess::{GapLeakage, Topic};
use crate::report::ledger::purpose_before;
use crate::survey::{Certainty, Facing, Field, Gap, GapPart, Purpose, ZoneId};
use crate::window::units;
use crate::window::widgets;
use eframe::egui::Ui;

/// Draws the card.
pub(super) fn gap(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap) {
    let survey = context.survey;
    let edit_wanted = context.view.edit_wanted;
    let mut fields = change::fields(ui, context, gap);
    fields
        .focus(edit_wanted)
        .text(Field::GapName, |gap| &mut gap.name);
    let zones: Vec<ZoneId> = survey.zones.iter().map(|zone| zone.id).collect();
    let zone_name = |id: &ZoneId| survey.zone_name(*id).to_owned();
    fields.choice(Field::Zone, &zones, zone_name, |gap| &mut gap.zone);
    fields.one_of(Field::Facing, &Facing::ALL, Facing::name, |gap| {
        &mut gap.facing
    });
    if matches!(gap.facing, Facing::Cavity(_)) {
        fields.optional(Field::CavityPressure, |gap| {
            &mut gap.cavity_pressure_coefficient
        });
    }
    space_choice::choose(&mut fields, survey, |gap| &mut gap.space);
    sizes::form(&mut fields, |gap| &mut gap.form);
    fields.count(Field::GapCount, |gap| &mut gap.count);
    fields.one_of(Field::Certainty, &Certainty::ALL, Certainty::name, |gap| {
        &mut gap.certainty
    });
    fields.one_of(Field::GapPart, &GapPart::ALL, GapPart::name, |gap| {
        &mut gap.part
    });
    fields.one_of(Field::Purpose, &Purpose::ALL, Purpose::name, |gap| {
        &mut gap.purpose
    });
    if !gap.purpose.must_stay_open() {
        fields.tick(Field::PurposeConfirmed, |gap| &mut gap.purpose_confirmed);
    }
    let before = purpose_before(gap);
    if let Some(words) = before {
        widgets::muted(ui, format!("{}.", capital(&words)));
    }
    leakage(ui, context, gap);
}

fn leakage(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap) {
    let answer = context.results.and_then(|results| {
        let answers = &results.assessment().gaps;
        answers.iter().find(|answer| answer.id == gap.id)
    });
    widgets::row(ui, "EqLA at 10 Pa", |ui| {
        let words = match answer.map(|answer| &answer.leakage) {
            Some(GapLeakage::Known(figures)) => {
                let area = Kind::LeakageCm2.text(figures.eqla);
                ui.strong(units::text(ui.ctx(), &area));
                widgets::working_button(
                    ui,
                    context.queue,
                    Topic::Gap(gap.id),
                    &format!("gap {}", gap.id),
                );
                return;
            }
            Some(GapLeakage::NotSized { reason } | GapLeakage::Impossible { reason }) => reason,
            Some(GapLeakage::Compartment) => "counts only through the gaps behind it",
            None => "being worked out",
        };
        widgets::muted(ui, words);
    });
}
