//! The selected gap's place, and the way that air takes through it.

use super::change::change;
use super::view::GapsContext;
use super::words;
use crate::survey::{Behind, Closing, Gap, GapId, LeadsTo, Position};
use crate::window::marks::Marks;
use crate::window::request::Queue;
use crate::window::widgets::{self, Choice, NumberField, tick};
use eframe::egui::Ui;

/// Draws the place.
pub(super) fn place(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, marks: Marks<'_>) {
    type Part = fn(&mut Position) -> &mut Option<f64>;
    let fields: [(&str, &'static str, Part); 4] = [
        ("From the front", "along_m", |place| &mut place.along_m),
        ("From the nearside", "across_m", |place| &mut place.across_m),
        ("Height of its middle", "height_m", |place| {
            &mut place.height_m
        }),
        ("Height it spans", "rise_m", |place| &mut place.rise_m),
    ];
    let mut position = gap.position;
    for (label, field, part) in fields {
        let value = part(&mut position);
        let typed = NumberField::new(label, field, *value)
            .id(gap.id)
            .marks(marks)
            .show(ui, context.queue);
        if let Some(typed) = typed {
            *value = typed;
            change(context.queue, gap, |gap| gap.position = position);
        }
    }
    widgets::muted(
        ui,
        "Heights above ground. A door seal spans the height of its door; a flat gap spans none.",
    );
}

/// Draws where the air goes, what lies in front, and how the gap closes.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, marks: Marks<'_>) {
    let options = [LeadsTo::LivingSpace, LeadsTo::Compartment];
    let leads_to = Choice::new("Leads into", &gap.leads_to, &options)
        .id(gap.id)
        .show(ui, |leads_to| {
            match leads_to {
                LeadsTo::LivingSpace => "the living space",
                LeadsTo::Compartment => "a sealed compartment",
            }
            .to_owned()
        });
    if let Some(leads_to) = leads_to {
        change(context.queue, gap, |gap| gap.leads_to = leads_to);
    }
    behind(ui, context, gap, marks);
    closing(ui, context.queue, gap, marks);
}

fn behind(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, marks: Marks<'_>) {
    let survey = context.survey;
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
    let chosen = Choice::new("Lies behind", &gap.behind, &options)
        .id(gap.id)
        .show(ui, |behind| match behind {
            None => "nothing".to_owned(),
            Some(Behind::Opening { .. }) => "an opening not in the ledger".to_owned(),
            Some(Behind::Gap(id)) => outer_words(survey.gap(*id).map(words::name), *id),
        });
    if let Some(behind) = chosen {
        change(context.queue, gap, |gap| gap.behind = behind);
    }
    if let Some(Behind::Opening { free_area_mm2 }) = gap.behind {
        let typed = NumberField::new("Its free area", "free_area_mm2", free_area_mm2)
            .id(gap.id)
            .marks(marks)
            .show(ui, context.queue);
        if let Some(free_area_mm2) = typed {
            let behind = Some(Behind::Opening { free_area_mm2 });
            change(context.queue, gap, |gap| gap.behind = behind);
        }
    }
}

fn outer_words(name: Option<&str>, id: GapId) -> String {
    match name {
        Some(name) => format!("gap {id}: {name}"),
        None => format!("gap {id}, which is gone"),
    }
}

fn closing(ui: &mut Ui, queue: &mut Queue, gap: &Gap, marks: Marks<'_>) {
    if let Some(closes) = tick(ui, "can be closed", gap.closing.is_some()) {
        let closing = closes.then_some(Closing::CLOSED);
        change(queue, gap, |gap| gap.closing = closing);
    }
    let Some(closing) = gap.closing else { return };
    let put = |queue: &mut Queue, closing: Closing| {
        change(queue, gap, |gap| gap.closing = Some(closing));
    };
    if let Some(open_laid_up) = tick(ui, "open when laid up", closing.open_laid_up) {
        put(
            queue,
            Closing {
                open_laid_up,
                ..closing
            },
        );
    }
    if let Some(open_in_use) = tick(ui, "open when in use", closing.open_in_use) {
        put(
            queue,
            Closing {
                open_in_use,
                ..closing
            },
        );
    }
    let leaves = Some(closing.leaves_percent);
    let typed = NumberField::new("Closed it leaves", "leaves_percent", leaves)
        .id(gap.id)
        .marks(marks)
        .required()
        .show(ui, queue);
    if let Some(Some(leaves_percent)) = typed {
        put(
            queue,
            Closing {
                leaves_percent,
                ..closing
            },
        );
    }
}
