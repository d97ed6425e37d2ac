//! The weather that the winter is run with, and how the vehicle stands in it.

use super::super::fields::{Fields, whole_findings};
use super::months;
use super::view::WinterContext;
use crate::survey::{BodyColour, Edit, Field, Item, SetUp, Stay};
use crate::window::request::Request;
use crate::window::widgets;
use eframe::egui::Ui;

/// Width of a card at least.
const CARD_LEAST: f32 = 430.0;

fn put(stay: Stay) -> Edit {
    Edit::Stay(Box::new(stay))
}

/// Draws the cards.
pub(super) fn show(ui: &mut Ui, context: &mut WinterContext<'_>) {
    widgets::columns(ui, CARD_LEAST, 2, |ui, at| {
        if at == 0 {
            widgets::card(ui, "Weather of the winter", |ui| weather(ui, context));
        } else {
            widgets::card(ui, "How the vehicle stands", |ui| stands(ui, context));
        }
    });
    widgets::card(ui, "", |ui| months::show(ui, context));
}

fn weather(ui: &mut Ui, context: &mut WinterContext<'_>) {
    let stay = &context.survey.stay;
    if let Some(winter) = stay.winter.filter(|_| stay.weather_file.is_empty()) {
        widgets::muted(ui, winter.description());
    }
    let mut fields = Fields::new(ui, context, Item::Stay, stay, &put);
    if stay.weather_original.is_empty() {
        fields.text(Field::WeatherFile, |stay| &mut stay.weather_file);
    }
    fields.optional(Field::Latitude, |stay| &mut stay.latitude_deg);
    fields.text(Field::SeasonFirst, |stay| &mut stay.season_first);
    fields.text(Field::SeasonLast, |stay| &mut stay.season_last);
    if !stay.weather_original.is_empty() {
        kept(ui, context);
    }
    if ui.button("Choose a weather file…").clicked() {
        context.queue.push(Request::ChooseWeather);
    }
    widgets::muted(
        ui,
        format!("{} It may be dropped here.", Field::WeatherFile.help()),
    );
    whole_findings(ui, context.marks(Item::Stay));
}

/// The weather file that is kept with the survey, and the way to take it out.
fn kept(ui: &mut Ui, context: &mut WinterContext<'_>) {
    let stay = &context.survey.stay;
    ui.horizontal_wrapped(|ui| {
        ui.label(format!("Weather file: {}", stay.weather_original));
        if ui.button("Take the weather file out").clicked() {
            let without = Stay {
                weather_file: String::new(),
                weather_original: String::new(),
                ..stay.clone()
            };
            context.queue.edit(put(without), None);
        }
    });
}

fn stands(ui: &mut Ui, context: &mut WinterContext<'_>) {
    let stay = &context.survey.stay;
    let in_use = context.survey.set_up == SetUp::InUse;
    let mut fields = Fields::new(ui, context, Item::Stay, stay, &put);
    fields.one_of(
        Field::BodyColour,
        &BodyColour::ALL,
        BodyColour::name,
        |stay| &mut stay.colour,
    );
    fields.tick(Field::Blinds, |stay| &mut stay.blinds_drawn);
    fields.tick(Field::Covered, |stay| &mut stay.covered);
    if in_use {
        fields.optional(Field::PresentFrom, |stay| &mut stay.present_from_h);
        fields.optional(Field::PresentTo, |stay| &mut stay.present_to_h);
    }
    fields.optional(Field::Stores, |stay| &mut stay.stores_g_per_percent);
    if !in_use {
        widgets::muted(
            ui,
            "Hours of presence are asked for where the set-up is in use.",
        );
    }
    let place = context.survey.site.front_points_to();
    let words = match place {
        Some(_) => "Heading, shelter and altitude stand on the Vehicle page.",
        None => {
            "The direction that the front points to is not given: sun and wind are then means over \
             all directions. It stands on the Vehicle page, with shelter and altitude."
        }
    };
    widgets::muted(ui, words);
}
