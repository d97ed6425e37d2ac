//! Spaces inside, and the openings that join them.

use super::super::fields::Fields;
use super::super::gaps::sizes;
use super::lists;
use super::view::{CARD_LEAST, VehicleContext};
use crate::survey::{
    Certainty, Closing, Edit, Form, InnerOpening, Item, Record, RecordId, Space, SpaceId, Survey,
};
use crate::window::ledger::blank_like;
use crate::window::widgets::{self, Choice, NumberField};
use eframe::egui::Ui;

/// Draws the section.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| match at {
        0 => widgets::card(ui, "Spaces inside", |ui| spaces(ui, context)),
        _ => widgets::card(ui, "What joins them", |ui| openings(ui, context)),
    });
}

fn space(id: SpaceId, name: &str) -> Space {
    Space {
        id,
        name: name.to_owned(),
        volume_m3: None,
        warmer_by_k: 0.0,
    }
}

fn put_space(space: Space) -> Edit {
    Edit::Put(Record::Space(space))
}

/// The inside as two spaces, all gaps still in the first.
fn split(survey: &Survey) -> Edit {
    let first = survey.free_space_id();
    let second = SpaceId(first.0.saturating_add(1));
    let name = if survey.vehicle.kind.has_cab() {
        "cab"
    } else {
        "washroom"
    };
    Edit::Several(vec![
        put_space(space(first, "living space")),
        put_space(space(second, name)),
    ])
}

fn spaces(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let survey = context.survey;
    widgets::muted(
        ui,
        "The inside is one space unless a bulkhead, a curtain or a closed door parts it. Then each gap and fan \
         names its space, on the Gaps page and under Equipment; those that name none belong to the first.",
    );
    if survey.spaces.is_empty() {
        lists::add(
            ui,
            context,
            "Part the inside into two spaces",
            split(survey),
        );
        return;
    }
    for one in &survey.spaces {
        ui.push_id(one.id, |ui| one_space(ui, context, one));
        lists::between(ui);
    }
    let new = put_space(space(survey.free_space_id(), ""));
    lists::add(ui, context, "Add space", new);
}

fn one_space(ui: &mut Ui, context: &mut VehicleContext<'_>, one: &Space) {
    let item = Item::Space(one.id);
    let kind = format!("space {}", one.id);
    lists::head(ui, context, &one.name, &kind, item, RecordId::Space(one.id));
    let first = context.survey.spaces.first().map(|space| space.id) == Some(one.id);
    let mut fields = Fields::new(ui, context, item, one, put_space);
    fields.text("Name", "name", |space| &mut space.name);
    fields
        .hint("not given")
        .optional("Volume", "space_volume_m3", |space| &mut space.volume_m3);
    if !first {
        fields.number("Warmer than the first", "warmer_by_k", |space| {
            &mut space.warmer_by_k
        });
    }
}

fn put_opening(opening: InnerOpening) -> Edit {
    Edit::Put(Record::InnerOpening(Box::new(opening)))
}

fn openings(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let survey = context.survey;
    let [first, second, ..] = survey.spaces.as_slice() else {
        ui.label("There is only one space: nothing joins it to another.");
        return;
    };
    for opening in &survey.inner_openings {
        ui.push_id(opening.id, |ui| one_opening(ui, context, opening));
        lists::between(ui);
    }
    let form = Form::RectangularHole {
        width_mm: None,
        height_mm: None,
    };
    let new = InnerOpening::new(survey.free_inner_opening_id(), first.id, second.id, form);
    lists::add(ui, context, "Add inner opening", put_opening(new));
}

fn one_opening(ui: &mut Ui, context: &mut VehicleContext<'_>, opening: &InnerOpening) {
    let item = Item::InnerOpening(opening.id);
    let survey = context.survey;
    let kind = format!("inner opening {}", opening.id);
    let id = RecordId::InnerOpening(opening.id);
    lists::head(ui, context, &opening.name, &kind, item, id);
    let ids: Vec<SpaceId> = survey.spaces.iter().map(|space| space.id).collect();
    let mut fields = Fields::new(ui, context, item, opening, put_opening);
    fields
        .hint("doorway, curtain, bulkhead gap …")
        .text("Name", "name", |opening| &mut opening.name);
    fields.choice(
        "Joins",
        &ids,
        |id| survey.space_name(*id),
        |opening| &mut opening.from,
    );
    fields.choice(
        "and",
        &ids,
        |id| survey.space_name(*id),
        |opening| &mut opening.to,
    );
    form(&mut fields, item, opening);
    fields.count("How many alike", "count", |opening| &mut opening.count);
    fields
        .hint("mid-height")
        .optional("Height of its middle", "height_m", |opening| {
            &mut opening.height_m
        });
    fields
        .hint("flat")
        .optional("Rises over", "rise_m", |opening| &mut opening.rise_m);
    fields.choice(
        "Size found by",
        &Certainty::ALL,
        |certainty| certainty.name().to_owned(),
        |opening| &mut opening.certainty,
    );
    closing(&mut fields, item, opening);
}

/// Form and sizes.
fn form(fields: &mut Fields<'_, '_, InnerOpening>, item: Item, opening: &InnerOpening) {
    let (ui, queue, marks) = fields.parts();
    let blanks = Form::blanks();
    let current = blank_like(&opening.form);
    let chosen = Choice::new("Form", &current, &blanks)
        .id(item)
        .show(ui, |form| form.name().to_owned());
    let sized = sizes::form(ui, queue, item, marks, &opening.form);
    if let Some(form) = chosen.or(sized) {
        fields.change(|opening| opening.form = form);
    }
}

/// Whether it closes, how it stands in each set-up, and what closed leaves.
fn closing(fields: &mut Fields<'_, '_, InnerOpening>, item: Item, opening: &InnerOpening) {
    let (ui, queue, marks) = fields.parts();
    let closes = widgets::tick(ui, "can be closed", opening.closing.is_some());
    let mut now = opening.closing;
    let mut changed = false;
    if let Some(closes) = closes {
        now = closes.then_some(Closing::CLOSED);
        changed = true;
    } else if let Some(closing) = &mut now {
        let laid_up = widgets::tick(ui, "open when laid up", closing.open_laid_up);
        let in_use = widgets::tick(ui, "open when in use", closing.open_in_use);
        if let Some(open) = laid_up {
            closing.open_laid_up = open;
            changed = true;
        }
        if let Some(open) = in_use {
            closing.open_in_use = open;
            changed = true;
        }
        let leaves = Some(closing.leaves_percent);
        let typed = NumberField::new("Closed, it leaves", "leaves_percent", leaves)
            .id(item)
            .marks(marks)
            .required()
            .show(ui, queue);
        if let Some(Some(left)) = typed {
            closing.leaves_percent = left;
            changed = true;
        }
    }
    if changed {
        fields.change(|opening| opening.closing = now);
    }
}
