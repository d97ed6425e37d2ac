//! What the air change depends on: parking, the choice of pressure coefficients, doors and curtains
//! inside.

use super::view::AirChangeContext;
use crate::assess::Study;
use crate::assess::spaces::ClosingEffect;
use crate::report::dependence;
use crate::survey::{Edit, Field, InnerOpeningId, Item, Record, SetUp};
use crate::window::pages::fields::Fields;
use crate::window::widgets::{self, report};
use eframe::egui;
use egui::{Label, Ui};

/// The best and the worst way to park for a wind that mostly comes from one side.
pub(super) fn parked(ui: &mut Ui, context: &mut AirChangeContext<'_>, found: Option<&Study>) {
    let site = &context.survey.site;
    let mut fields = Fields::new(ui, context, Item::Site, site, &Edit::Site);
    fields.optional(Field::PrevailingWind, |site| &mut site.prevailing_wind_deg);
    fields.optional(Field::Heading, |site| &mut site.heading_deg);
    widgets::muted(
        fields.ui,
        "A point of the compass such as NW, or degrees clockwise from north.",
    );
    if let Some(found) = found {
        let section = dependence::parked(found.parking());
        report::section(ui, context.queue, &section);
    }
}

/// Mean air change of each weather case by every choice of wind pressures.
pub(super) fn wind_choices(ui: &mut Ui, context: &mut AirChangeContext<'_>, found: &Study) {
    let section = dependence::wind_choices(context.survey, found.wind_choices());
    report::section(ui, context.queue, &section);
}

/// Every inner opening that closes: a switch for the set-up shown, and what closing it saves.
pub(super) fn doors_inside(ui: &mut Ui, context: &mut AirChangeContext<'_>, found: &Study) {
    if found.closing_effects().is_empty() {
        ui.label(
            "No door or curtain inside is written down. Spaces and what joins them are added on the \
             Vehicle page; until then the inside is one space.",
        );
        return;
    }
    for effect in found.closing_effects() {
        ui.push_id(effect.id, |ui| one_effect(ui, context, effect));
        ui.add_space(3.0);
    }
    widgets::muted(ui, dependence::MAY_RAISE);
}

fn one_effect(ui: &mut Ui, context: &mut AirChangeContext<'_>, effect: &ClosingEffect) {
    let name = dependence::opening_name(effect);
    let closed = widgets::plain_tick(
        ui,
        &format!("{name}: closed, {}", context.survey.set_up.name()),
        !effect.stands_open,
    );
    if let Some(closed) = closed {
        switch(context, effect.id, !closed);
    }
    for words in dependence::closing(context.survey, effect) {
        ui.add(Label::new(words).wrap());
    }
}

fn switch(context: &mut AirChangeContext<'_>, id: InnerOpeningId, open: bool) {
    let openings = &context.survey.inner_openings;
    let Some(opening) = openings.iter().find(|opening| opening.id == id) else {
        return;
    };
    let mut changed = opening.clone();
    if let Some(closing) = &mut changed.closing {
        match context.survey.set_up {
            SetUp::LaidUp => closing.open_laid_up = open,
            SetUp::InUse => closing.open_in_use = open,
        }
    }
    let edit = Edit::Put(Record::InnerOpening(Box::new(changed)));
    context.queue.edit(edit, None);
}
