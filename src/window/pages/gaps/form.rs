//! The selected gap: what it is, its form and sizes.

use super::super::space_choice;
use super::change::change;
use super::sizes;
use super::view::GapsContext;
use crate::assess::quantity::Kind;
use crate::assess::{GapLeakage, Topic};
use crate::survey::{Certainty, Facing, Form, Gap, Item, Purpose, ZoneId};
use crate::window::ledger::blank_like;
use crate::window::marks::Marks;
use crate::window::request::Queue;
use crate::window::widgets::{self, Choice, NumberField, TextField};
use eframe::egui::Ui;

/// Draws the card.
pub(super) fn gap(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, marks: Marks<'_>) {
    let focus = context.view.edit_wanted;
    let name = TextField::new("What it is", "name", &gap.name)
        .id(gap.id)
        .marks(marks)
        .hint("door seal, cable hole …")
        .focus(focus)
        .show(ui, context.queue);
    if let Some(name) = name {
        change(context.queue, gap, |gap| gap.name = name);
    }
    zone(ui, context, gap);
    let facing = Choice::new("Facing", &gap.facing, &Facing::ALL)
        .id(gap.id)
        .show(ui, |facing| facing.name().to_owned());
    if let Some(facing) = facing {
        change(context.queue, gap, |gap| gap.facing = facing);
    }
    if matches!(gap.facing, Facing::Cavity(_)) {
        cavity(ui, context.queue, gap, marks);
    }
    let inside = space_choice::choose(ui, context.survey, gap.space, Item::Gap(gap.id));
    if let Some(space) = inside {
        change(context.queue, gap, |gap| gap.space = space);
    }
    form(ui, context.queue, gap);
    sizes::show(ui, context.queue, gap, marks);
    count(ui, context.queue, gap, marks);
    let certainty = Choice::new("Size found by", &gap.certainty, &Certainty::ALL)
        .id(gap.id)
        .show(ui, |certainty| certainty.name().to_owned());
    if let Some(certainty) = certainty {
        change(context.queue, gap, |gap| gap.certainty = certainty);
    }
    let purpose = Choice::new("Purpose", &gap.purpose, &Purpose::ALL)
        .id(gap.id)
        .show(ui, |purpose| purpose.name().to_owned());
    if let Some(purpose) = purpose {
        change(context.queue, gap, |gap| gap.purpose = purpose);
    }
    leakage(ui, context, gap);
}

fn zone(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap) {
    let zones = &context.survey.zones;
    let ids: Vec<ZoneId> = zones.iter().map(|zone| zone.id).collect();
    let chosen = Choice::new("Zone", &gap.zone, &ids)
        .id(gap.id)
        .show(ui, |id| {
            let zone = zones.iter().find(|zone| zone.id == *id);
            zone.map_or_else(String::new, |zone| zone.name.clone())
        });
    if let Some(zone) = chosen {
        change(context.queue, gap, |gap| gap.zone = zone);
    }
}

fn cavity(ui: &mut Ui, queue: &mut Queue, gap: &Gap, marks: Marks<'_>) {
    let value = gap.cavity_pressure_coefficient;
    let typed = NumberField::new("Cavity's Cp", "cavity_pressure_coefficient", value)
        .id(gap.id)
        .marks(marks)
        .hint("underfloor")
        .show(ui, queue);
    if let Some(value) = typed {
        change(queue, gap, |gap| gap.cavity_pressure_coefficient = value);
    }
}

fn form(ui: &mut Ui, queue: &mut Queue, gap: &Gap) {
    let blanks = Form::blanks();
    let current = blank_like(&gap.form);
    let chosen = Choice::new("Form", &current, &blanks)
        .id(gap.id)
        .show(ui, |form| form.name().to_owned());
    if let Some(form) = chosen {
        change(queue, gap, |gap| gap.form = form);
    }
}

fn count(ui: &mut Ui, queue: &mut Queue, gap: &Gap, marks: Marks<'_>) {
    let typed = NumberField::new("How many alike", "count", Some(f64::from(gap.count)))
        .id(gap.id)
        .marks(marks)
        .whole()
        .required()
        .show(ui, queue);
    if let Some(Some(count)) = typed {
        change(queue, gap, |gap| gap.count = sizes::whole(count));
    }
}

fn leakage(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap) {
    let answer = context.results.and_then(|results| {
        let answers = &results.assessment.gaps;
        answers.iter().find(|answer| answer.id == gap.id)
    });
    widgets::row(ui, "Leakage, EqLA", |ui| {
        let words = match answer.map(|answer| &answer.leakage) {
            Some(GapLeakage::Known(figures)) => {
                ui.strong(Kind::LeakageCm2.text(figures.eqla));
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
