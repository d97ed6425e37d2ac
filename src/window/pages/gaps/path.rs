//! The selected gap's place, and the way that air takes through it.

use super::super::fields::{Fields, Part};
use super::change;
use super::view::GapsContext;
use crate::survey::findings::body_reaches;
use crate::survey::{Behind, Field, Gap, GapId, LeadsTo, Survey};
use crate::window::widgets::{self, NumberField};
use eframe::egui::Ui;

/// Draws the place.
pub(super) fn place(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap) {
    let survey = context.survey;
    let mut fields = change::fields(ui, context, gap);
    let parts: [(Field, Part<Gap, Option<f64>>); 3] = [
        (Field::Along, |gap| &mut gap.position.along_m),
        (Field::Across, |gap| &mut gap.position.across_m),
        (Field::MiddleHeight, |gap| &mut gap.position.height_m),
    ];
    for (field, part) in parts {
        let reaches = body_reaches(survey, field);
        fields.on_body(reaches).optional(field, part);
    }
    fields.optional(Field::Rise, |gap| &mut gap.position.rise_m);
    widgets::muted(
        ui,
        "Heights above ground. A door seal spans the height of its door; a flat gap spans none.",
    );
}

/// Draws where the air goes, what lies in front, and how the gap closes.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap) {
    let survey = context.survey;
    let mut fields = change::fields(ui, context, gap);
    let leads_to = |leads_to| match leads_to {
        LeadsTo::LivingSpace => "the living space",
        LeadsTo::Compartment => "a sealed compartment",
    };
    let options = [LeadsTo::LivingSpace, LeadsTo::Compartment];
    fields.one_of(Field::LeadsTo, &options, leads_to, |gap| &mut gap.leads_to);
    behind(&mut fields, survey, gap);
    fields.closing(|gap| &mut gap.closing);
}

fn behind(fields: &mut Fields<'_, '_, Gap>, survey: &Survey, gap: &Gap) {
    let opening = match gap.behind {
        Some(opening @ Behind::Opening { .. }) => opening,
        _ => Behind::Opening {
            free_area_mm2: None,
        },
    };
    let mut options: Vec<Option<Behind>> = vec![None, Some(opening)];
    options.extend(
        survey
            .gaps
            .iter()
            .filter(|outer| outer.id != gap.id)
            .filter(|outer| {
                outer.leads_to == LeadsTo::Compartment || gap.behind == Some(Behind::Gap(outer.id))
            })
            .map(|outer| Some(Behind::Gap(outer.id))),
    );
    let words = |behind: &Option<Behind>| match behind {
        None => "nothing".to_owned(),
        Some(Behind::Opening { .. }) => "an opening not in the ledger".to_owned(),
        Some(Behind::Gap(id)) => outer_words(survey.gap(*id).map(Gap::shown_name), *id),
    };
    fields.choice(Field::Behind, &options, words, |gap| &mut gap.behind);
    if let Some(Behind::Opening { free_area_mm2 }) = gap.behind {
        let (ui, queue, marks) = fields.parts();
        let typed = NumberField::new(Field::AreaInFront, free_area_mm2)
            .id(gap.id)
            .marks(marks)
            .show(ui, queue);
        let behind = typed.map(|free_area_mm2| Some(Behind::Opening { free_area_mm2 }));
        fields.take(behind, |gap| &mut gap.behind);
    }
}

fn outer_words(name: Option<&str>, id: GapId) -> String {
    match name {
        Some(name) => format!("gap {id}: {name}"),
        None => format!("gap {id}, which no longer exists"),
    }
}
