//! Equipment: appliances, heaters, fans, moisture sources, and the drying machines.

use super::super::fields::Fields;
use super::super::space_choice;
use super::view::{CARD_LEAST, VehicleContext};
use super::{drying, lists, machines};
use crate::survey::equipment::FanDirection;
use crate::survey::{
    Appliance, ApplianceKind, Edit, Fan, Field, Heater, HeaterFuel, MoistureSource, Record,
    RecordId, SourceKind,
};
use crate::window::widgets;
use eframe::egui::Ui;

/// Draws the section.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    widgets::columns(ui, CARD_LEAST, 6, |ui, at| match at {
        0 => widgets::card(ui, "Appliances that burn something", |ui| {
            appliances(ui, context);
        }),
        1 => widgets::card(ui, "Heaters", |ui| heaters(ui, context)),
        2 => widgets::card(ui, "Drying machines", |ui| machines::show(ui, context)),
        3 => widgets::card(ui, "Contents, sun and supply", |ui| {
            drying::show(ui, context)
        }),
        4 => widgets::card(ui, "Sources of moisture", |ui| sources(ui, context)),
        _ => widgets::card(ui, "Fans to and from outside", |ui| fans(ui, context)),
    });
}

fn appliances(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let survey = context.survey;
    lists::show(
        ui,
        context,
        &survey.appliances,
        &|appliance| Edit::Put(Record::Appliance(appliance)),
        |one| {
            (
                RecordId::Appliance(one.id),
                &one.name,
                one.kind.name().to_owned(),
            )
        },
        |fields, _| {
            fields.one_of(
                Field::ApplianceKind,
                &ApplianceKind::ALL,
                ApplianceKind::name,
                |appliance| &mut appliance.kind,
            );
            fields.text(Field::Name, |appliance| &mut appliance.name);
            fields.tick(Field::RoomSealed, |appliance| &mut appliance.room_sealed);
            fields.optional(Field::RatedInput, |appliance| &mut appliance.input_mj_per_h);
        },
    );
    widgets::muted(
        ui,
        "They decide which ventilation table holds. Gas, flues and ventilation are for a licensed \
         fitter; the local code takes precedence over everything said here.",
    );
    let confirmed = widgets::tick(ui, Field::AppliancesConfirmed, survey.appliances_confirmed);
    if let Some(confirmed) = confirmed {
        context
            .queue
            .edit(Edit::AppliancesConfirmed(confirmed), None);
    }
    let appliance = Appliance {
        id: survey.free_appliance_id(),
        kind: ApplianceKind::Hob,
        name: String::new(),
        room_sealed: false,
        input_mj_per_h: None,
    };
    let edit = Edit::Put(Record::Appliance(appliance));
    lists::add(ui, context, "Add appliance", edit);
}

fn heaters(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let survey = context.survey;
    let currency = survey.tariffs.currency.as_str();
    lists::show(
        ui,
        context,
        &survey.heaters,
        &|heater| Edit::Put(Record::Heater(heater)),
        |one| {
            let kind = format!("{} heater", one.fuel.name());
            (RecordId::Heater(one.id), &one.name, kind)
        },
        |fields, _| {
            fields.text(Field::Name, |heater| &mut heater.name);
            fields.one_of(Field::Fuel, &HeaterFuel::ALL, HeaterFuel::name, |heater| {
                &mut heater.fuel
            });
            fields.optional(Field::Rating, |heater| &mut heater.rating_w);
            fields.optional(Field::SetPoint, |heater| &mut heater.set_point_c);
            fields.tick(Field::Owned, |heater| &mut heater.owned);
            fields.price(currency, Field::Price, |heater| &mut heater.price);
            fields.price(currency, Field::Upkeep, |heater| {
                &mut heater.upkeep_per_month
            });
        },
    );
    let heater = Heater::new(survey.free_heater_id(), HeaterFuel::Electricity);
    let edit = Edit::Put(Record::Heater(heater));
    lists::add(ui, context, "Add heater", edit);
}

fn sources(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let survey = context.survey;
    lists::show(
        ui,
        context,
        &survey.sources,
        &|source| Edit::Put(Record::Source(source)),
        |one| {
            (
                RecordId::Source(one.id),
                &one.name,
                one.kind.name().to_owned(),
            )
        },
        |fields, source| {
            source_kind(fields, source);
            fields.text(Field::Name, |source| &mut source.name);
            fields.count(Field::SourceCount, |source| &mut source.count);
            fields.optional(Field::SourceRate, |source| &mut source.rate_g_per_h);
            fields.number(Field::SourceHours, |source| &mut source.hours_per_day);
            fields.tick(Field::SourceLaidUp, |source| &mut source.laid_up);
            fields.tick(Field::SourceInUse, |source| &mut source.in_use);
        },
    );
    widgets::muted(
        ui,
        "An empty vehicle that is laid up and dry gives off nothing: then leave this list empty.",
    );
    let kind = SourceKind::PersonAsleep;
    let source = MoistureSource {
        id: survey.free_source_id(),
        name: String::new(),
        kind,
        count: 1,
        rate_g_per_h: kind.usual_rate_g_per_h(),
        hours_per_day: 8.0,
        laid_up: false,
        in_use: true,
    };
    let edit = Edit::Put(Record::Source(source));
    lists::add(ui, context, "Add moisture source", edit);
}

/// The kind; a new kind brings its usual rate along, unless the surveyor has typed one.
fn source_kind(fields: &mut Fields<'_, '_, MoistureSource>, source: &MoistureSource) {
    let (ui, _, _) = fields.parts();
    let chosen = widgets::Choice::of(Field::SourceKind, &source.kind, &SourceKind::ALL)
        .id(source.id)
        .show(ui, |kind| kind.name().to_owned());
    if let Some(kind) = chosen {
        fields.change(|source| {
            if source.rate_g_per_h == source.kind.usual_rate_g_per_h() {
                source.rate_g_per_h = kind.usual_rate_g_per_h();
            }
            source.kind = kind;
        });
    }
}

fn fans(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let survey = context.survey;
    let ways = [FanDirection::Extract, FanDirection::Supply];
    let words = |way| match way {
        FanDirection::Extract => "inside to outside",
        FanDirection::Supply => "outside to inside",
    };
    lists::show(
        ui,
        context,
        &survey.fans,
        &|fan| Edit::Put(Record::Fan(fan)),
        |one| (RecordId::Fan(one.id), &one.name, "fan".to_owned()),
        |fields, _| {
            fields.text(Field::Name, |fan| &mut fan.name);
            fields.one_of(Field::FanDirection, &ways, words, |fan| &mut fan.direction);
            fields.optional(Field::FanFlow, |fan| &mut fan.flow_m3_per_h);
            fields.optional(Field::FanMostPressure, |fan| &mut fan.most_pressure_pa);
            fields.tick(Field::FanLaidUp, |fan| &mut fan.on_laid_up);
            fields.tick(Field::FanInUse, |fan| &mut fan.on_in_use);
            space_choice::choose(fields, survey, |fan| &mut fan.space);
        },
    );
    let fan = Fan {
        id: survey.free_fan_id(),
        name: String::new(),
        direction: FanDirection::Extract,
        flow_m3_per_h: None,
        most_pressure_pa: None,
        on_laid_up: false,
        on_in_use: true,
        space: None,
    };
    lists::add(ui, context, "Add fan", Edit::Put(Record::Fan(fan)));
}
