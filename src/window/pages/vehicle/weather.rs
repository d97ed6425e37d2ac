//! Weather cases, the states wanted inside, and prices.

use super::super::fields::{Fields, whole_findings};
use super::view::{CARD_LEAST, VehicleContext};
use super::{fill, lists};
use crate::assess::quantity::Kind;
use crate::survey::{
    Edit, Field, InsideAir, Item, Record, RecordId, Survey, UsualPart, WeatherCase,
};
use crate::window::widgets::{self, Choice, NumberField};
use eframe::egui::Ui;

/// Draws the section.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let cases = context.survey.weather.len();
    widgets::columns(ui, CARD_LEAST, cases + 3, |ui, at| {
        if let Some(case) = context.survey.weather.get(at) {
            ui.push_id(case.id, |ui| {
                widgets::card(ui, "", |ui| weather_case(ui, context, case));
            });
        } else if at == cases {
            widgets::card(ui, "Another weather case", |ui| add(ui, context));
        } else if at == cases + 1 {
            widgets::card(ui, "Wanted inside", |ui| targets(ui, context));
        } else {
            widgets::card(ui, "Prices", |ui| tariffs(ui, context));
        }
    });
}

fn put(case: WeatherCase) -> Edit {
    Edit::Put(Record::Weather(case))
}

/// A further case like the last one, with nothing of the season's weight.
fn another(survey: &Survey) -> WeatherCase {
    let id = survey.free_weather_id();
    let last = survey.weather.last().cloned();
    let mut case = last.unwrap_or(WeatherCase {
        id,
        name: String::new(),
        wind_m_s: 0.0,
        outside_c: 5.0,
        outside_rh_percent: 87.0,
        inside: InsideAir::WarmerBy { kelvin: 2.0 },
        inside_rh_percent: None,
        weight: 1.0,
    });
    if !survey.weather.is_empty() {
        case.weight = 0.0;
    }
    case.id = id;
    case.name = format!("weather {id}");
    case
}

fn add(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    widgets::muted(
        ui,
        "It starts as a copy of the last one, with weight 0: it is shown, but does not count for \
         the season.",
    );
    let case = another(context.survey);
    lists::add(ui, context, "Add weather case", put(case));
}

fn weather_case(ui: &mut Ui, context: &mut VehicleContext<'_>, case: &WeatherCase) {
    let item = Item::Weather(case.id);
    let id = RecordId::Weather(case.id);
    lists::head(ui, context, &case.name, "weather case", id);
    let mut fields = Fields::new(ui, context, item, case, &put);
    fields.text(Field::Name, |case| &mut case.name);
    fields.number(Field::Wind, |case| &mut case.wind_m_s);
    fields.number(Field::Outside, |case| &mut case.outside_c);
    fields.number(Field::OutsideRh, |case| &mut case.outside_rh_percent);
    inside(&mut fields, case);
    fields.optional(Field::InsideRh, |case| &mut case.inside_rh_percent);
    fields.number(Field::Weight, |case| &mut case.weight);
    let answers = context.results.map(|results| &results.assessment().cases);
    if let Some(answer) = answers.and_then(|all| all.iter().find(|one| one.id == case.id)) {
        widgets::row(ui, "Share of the season", |ui| {
            ui.label(Kind::Share.text(answer.share));
        });
    }
}

fn inside(fields: &mut Fields<'_, '_, WeatherCase>, case: &WeatherCase) {
    let kelvin = case.inside_c() - case.outside_c;
    let warmer = InsideAir::WarmerBy { kelvin };
    let held = InsideAir::HeldAt {
        temperature_c: case.inside_c(),
    };
    let options = match case.inside {
        InsideAir::WarmerBy { .. } => [case.inside, held],
        InsideAir::HeldAt { .. } => [warmer, case.inside],
    };
    let (ui, queue, marks) = fields.parts();
    let chosen = Choice::of(Field::Inside, &case.inside, &options)
        .id(case.id)
        .show(ui, |inside| {
            match inside {
                InsideAir::WarmerBy { .. } => "warmer than outside by",
                InsideAir::HeldAt { .. } => "held at",
            }
            .to_owned()
        });
    let (field, value) = match case.inside {
        InsideAir::WarmerBy { kelvin } => (Field::WarmerBy, kelvin),
        InsideAir::HeldAt { temperature_c } => (Field::HeldAt, temperature_c),
    };
    let typed = NumberField::new(field, Some(value))
        .id(case.id)
        .marks(marks)
        .required()
        .show(ui, queue);
    if let Some(inside) = chosen {
        fields.change(|case| case.inside = inside);
    }
    if let Some(Some(value)) = typed {
        fields.change(|case| {
            case.inside = match case.inside {
                InsideAir::WarmerBy { .. } => InsideAir::WarmerBy { kelvin: value },
                InsideAir::HeldAt { .. } => InsideAir::HeldAt {
                    temperature_c: value,
                },
            };
        });
    }
}

fn targets(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let targets = &context.survey.targets;
    let mut fields = Fields::new(ui, context, Item::Targets, targets, &Edit::Targets);
    fields.number(Field::TargetRh, |targets| &mut targets.rh_percent);
    fields.number(Field::SetTemperature, |targets| {
        &mut targets.set_temperature_c
    });
    fields.number(Field::FrostGuard, |targets| &mut targets.frost_guard_c);
    fields.number(Field::Comfort, |targets| &mut targets.comfort_c);
    fields.number(Field::DesignOutside, |targets| {
        &mut targets.design_outside_c
    });
    whole_findings(ui, context.marks(Item::Targets));
    let field = Field::DesignOutside.label();
    fill::mark(ui, context, UsualPart::DesignOutside, field);
    widgets::muted(
        ui,
        "Frost guard and comfort are sized for the coldest outside temperature.",
    );
}

fn tariffs(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let tariffs = &context.survey.tariffs;
    let currency = tariffs.currency.trim().to_owned();
    let mut fields = Fields::new(ui, context, Item::Tariffs, tariffs, &Edit::Tariffs);
    fields.text(Field::Currency, |tariffs| &mut tariffs.currency);
    fields.price(&currency, Field::Electricity, |tariffs| {
        &mut tariffs.electricity_per_kwh
    });
    fields.price(&currency, Field::Gas, |tariffs| &mut tariffs.gas_per_kg);
    fields.price(&currency, Field::LiquidFuel, |tariffs| {
        &mut tariffs.liquid_fuel_per_l
    });
    fields.price(&currency, Field::Workshop, |tariffs| {
        &mut tariffs.workshop_per_hour
    });
    fields.optional(Field::Tax, |tariffs| &mut tariffs.tax_percent);
    fields.optional(Field::MaterialTax, |tariffs| {
        &mut tariffs.material_tax_percent
    });
    fields.noticed();
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::VehicleKind;

    #[test]
    fn a_further_case_is_like_the_last_and_leaves_the_season_as_it_was() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        let case = another(&survey);
        assert!((case.wind_m_s - 8.0).abs() < 1e-12);
        assert!(case.weight.abs() < 1e-12);
        assert!(survey.weather_case(case.id).is_none());
        survey.weather.clear();
        assert!((another(&survey).weight - 1.0).abs() < 1e-12);
    }
}
