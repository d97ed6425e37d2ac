//! The survey itself, the vehicle's sizes, and where it stands.

use super::super::fields::{Fields, note, whole_findings};
use super::fill;
use super::view::VehicleContext;
use crate::assess::Topic;
use crate::assess::quantity::Kind;
use crate::assess::words::{shelter, terrain, underside};
use crate::physics::pressure_coefficient::{PressureSet, Underside};
use crate::physics::wind::{Shelter, Terrain};
use crate::survey::{CodeOfPractice, Edit, Field, Item, UsualPart, Vehicle, VehicleKind};
use crate::window::widgets;
use eframe::egui::Ui;

/// Title, scene, surveyor, date.
pub(super) fn header(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let header = &context.survey.header;
    let mut fields = Fields::new(ui, context, Item::Header, header, &Edit::Header);
    fields.text(Field::Title, |header| &mut header.title);
    fields.text(Field::Scene, |header| &mut header.scene);
    fields.text(Field::Surveyor, |header| &mut header.surveyor);
    fields.text(Field::Date, |header| &mut header.date);
    fields.text(Field::Reference, |header| &mut header.reference);
    fields.text(Field::Notes, |header| &mut header.note);
}

/// Kind and sizes.
pub(super) fn vehicle(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let vehicle = &context.survey.vehicle;
    let mut fields = Fields::new(ui, context, Item::Vehicle, vehicle, &Edit::Vehicle);
    fields.one_of(
        Field::VehicleKind,
        &VehicleKind::ALL,
        VehicleKind::name,
        |vehicle| &mut vehicle.kind,
    );
    widgets::muted(fields.ui, "Outside, without drawbar and mirrors");
    fields
        .note_apart()
        .optional(Field::Length, |vehicle| &mut vehicle.length_m);
    fields.optional(Field::Width, |vehicle| &mut vehicle.width_m);
    fields.optional(Field::RoofHeight, |vehicle| &mut vehicle.height_m);
    fields.optional(Field::FloorHeight, |vehicle| &mut vehicle.floor_height_m);
    // That the sizes are usual ones goes with the first that is typed: nothing below it may be a size.
    let (card, _, marks) = fields.parts();
    note(card, marks, Field::Length);
    under_floor(&mut fields);
    widgets::muted(fields.ui, "Inside, fitted furniture not deducted");
    fields.optional(Field::InsideLength, |vehicle| &mut vehicle.inside_length_m);
    fields.optional(Field::InsideWidth, |vehicle| &mut vehicle.inside_width_m);
    fields.optional(Field::InsideHeight, |vehicle| &mut vehicle.inside_height_m);
    fields.optional(Field::Volume, |vehicle| &mut vehicle.volume_m3);
    fields.count(Field::Berths, |vehicle| &mut vehicle.berths);
    fields.one_of(
        Field::CodeOfPractice,
        &CodeOfPractice::ALL,
        CodeOfPractice::name,
        |vehicle| &mut vehicle.code_of_practice,
    );
    fields.noticed();
    volume(ui, context);
}

/// How the space under the floor stands to the wind.
fn under_floor(fields: &mut Fields<'_, '_, Vehicle>) {
    fields.one_of(Field::Underside, &Underside::ALL, underside, |vehicle| {
        &mut vehicle.underside
    });
    match *fields.get(|vehicle| &mut vehicle.underside) {
        Underside::SkirtedTight => {
            fields.optional(Field::SkirtFreeArea, |vehicle| {
                &mut vehicle.skirt_free_area_mm2
            });
        }
        Underside::Open => {
            fields.tick(Field::UnderfloorByPlace, |vehicle| {
                &mut vehicle.underfloor_by_place
            });
        }
        Underside::ClosedOneSide | Underside::SkirtedLeaking => {}
    }
}

fn volume(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let Some(results) = context.results else {
        return;
    };
    let volume = results.assessment().volume_m3.clone();
    widgets::row(ui, "Volume used", |ui| {
        ui.horizontal_wrapped(|ui| {
            widgets::answer_line(ui, &volume.map(|volume| Kind::CubicMetres.text(volume)));
            widgets::working_button(ui, context.queue, Topic::Volume, "volume");
        });
    });
}

fn set_words(set: PressureSet) -> &'static str {
    match set {
        PressureSet::LowRise => "low-rise 2:1, by shelter",
        PressureSet::WallAverage => "wall averages, exposed",
        PressureSet::VehicleBody => "vehicle body, by shelter",
    }
}

/// Terrain, shelter, heading.
pub(super) fn site(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let site = &context.survey.site;
    let mut fields = Fields::new(ui, context, Item::Site, site, &Edit::Site);
    fields.one_of(Field::Terrain, &Terrain::ALL, terrain, |site| {
        &mut site.terrain
    });
    widgets::muted(
        fields.ui,
        "The terrain slows the wind on its way; shelter is what stands close by. They are \
         different things.",
    );
    fields.one_of(Field::Shelter, &Shelter::ALL, shelter, |site| {
        &mut site.shelter
    });
    let hands = [
        (Field::Heading, site.heading_deg),
        (Field::PrevailingWind, site.prevailing_wind_deg),
    ];
    let (card, queue, _) = fields.parts();
    let turned = card.vertical_centered(|ui| widgets::compass(ui, queue, hands));
    if let Some((field, degrees)) = turned.inner {
        fields.change(|site| match field {
            Field::Heading => site.heading_deg = Some(degrees),
            _ => site.prevailing_wind_deg = Some(degrees),
        });
    }
    fields.optional(Field::Heading, |site| &mut site.heading_deg);
    fields.optional(Field::PrevailingWind, |site| &mut site.prevailing_wind_deg);
    widgets::muted(
        fields.ui,
        "Drag a knob, the inner one for the front, the outer one for the wind, or turn it by the arrow \
         keys; or type a point of the compass such as NW, or degrees clockwise from north. With the \
         heading, results name compass directions too.",
    );
    fields.number(Field::Altitude, |site| &mut site.altitude_m);
    whole_findings(ui, context.marks(Item::Site));
    fill::mark(ui, context, UsualPart::Altitude, Field::Altitude.label());
    let mut open = context.view.more;
    widgets::fold(
        ui,
        "More: wind pressures and their sources",
        &mut open,
        |ui| {
            wind_pressures(ui, context);
        },
    );
    context.view.more = open;
}

/// Which set of wind pressures, and where each comes from.
fn wind_pressures(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let site = &context.survey.site;
    let mut fields = Fields::new(ui, context, Item::Site, site, &Edit::Site);
    fields.one_of(Field::PressureSet, &PressureSet::ALL, set_words, |site| {
        &mut site.pressure_set
    });
    widgets::muted(
        fields.ui,
        "Low-rise: AIVC, Liddament 1986 [S]. Wall averages: Swami and Chandra 1988 [S]; they know no \
         shelter. Vehicle body: computed by this project [N]. None was measured on a parked vehicle.",
    );
}
