//! Spaces inside, and the openings that join them.

use super::super::fields::Fields;
use super::super::gaps::sizes;
use super::lists;
use super::view::{CARD_LEAST, VehicleContext};
use crate::survey::{
    Certainty, Edit, Field, Form, InnerOpening, Record, RecordId, Space, SpaceId, Survey,
};
use crate::window::widgets;
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
            "Divide the inside into two spaces",
            split(survey),
        );
        return;
    }
    let first = survey.spaces.first().map(|space| space.id);
    lists::show(
        ui,
        context,
        &survey.spaces,
        &put_space,
        |one| {
            (
                RecordId::Space(one.id),
                &one.name,
                format!("space {}", one.id),
            )
        },
        |fields, one| {
            fields.text(Field::Name, |space| &mut space.name);
            fields.optional(Field::SpaceVolume, |space| &mut space.volume_m3);
            if first != Some(one.id) {
                fields.number(Field::WarmerThanFirst, |space| &mut space.warmer_by_k);
            }
        },
    );
    let new = put_space(space(survey.free_space_id(), ""));
    lists::add(ui, context, "Add space", new);
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
    lists::show(
        ui,
        context,
        &survey.inner_openings,
        &put_opening,
        |one| {
            let kind = format!("inner opening {}", one.id);
            (RecordId::InnerOpening(one.id), &one.name, kind)
        },
        |fields, _| opening_fields(fields, survey),
    );
    let form = Form::RectangularHole {
        width_mm: None,
        height_mm: None,
    };
    let new = InnerOpening::new(survey.free_inner_opening_id(), first.id, second.id, form);
    lists::add(ui, context, "Add inner opening", put_opening(new));
}

fn opening_fields(fields: &mut Fields<'_, '_, InnerOpening>, survey: &Survey) {
    let ids: Vec<SpaceId> = survey.spaces.iter().map(|space| space.id).collect();
    fields
        .hint("doorway, curtain, bulkhead gap …")
        .text(Field::Name, |opening| &mut opening.name);
    fields.choice(
        Field::From,
        &ids,
        |id| survey.space_name(*id),
        |opening| &mut opening.from,
    );
    fields.choice(
        Field::To,
        &ids,
        |id| survey.space_name(*id),
        |opening| &mut opening.to,
    );
    sizes::form(fields, |opening| &mut opening.form);
    fields.count(Field::GapCount, |opening| &mut opening.count);
    fields
        .hint("mid-height")
        .optional(Field::MiddleHeight, |opening| &mut opening.height_m);
    fields
        .hint("flat")
        .optional(Field::Rise, |opening| &mut opening.rise_m);
    fields.one_of(
        Field::Certainty,
        &Certainty::ALL,
        Certainty::name,
        |opening| &mut opening.certainty,
    );
    fields.closing(|opening| &mut opening.closing);
}
