//! What the air change depends on: warmth, choice of coefficients, parking, doors inside.

use super::object::{Object, list};
use crate::assess::spaces::ClosingEffect;
use crate::assess::{Parking, Study, TemperatureCurve, WindChoice};
use crate::survey::Survey;
use crate::survey::word::Word;

pub(super) fn dependence(study: &Study) -> Object {
    let survey = study.survey();
    Object::new()
        .found("against_temperature", study.temperature_curves(), |all| {
            list(all, curve)
        })
        .list("pressure_sets", &study.wind_choices().sets, |set| {
            choice(survey, set)
        })
        .list("undersides", &study.wind_choices().undersides, |way| {
            choice(survey, way)
        })
        .found("parking", study.parking(), parking)
        .list("inner_openings", study.closing_effects(), closing)
}

fn curve(curve: &TemperatureCurve) -> Object {
    Object::new()
        .with("case", curve.id.0)
        .with("outside_c", curve.outside_c)
        .list("points", &curve.points, |(kelvin, ach)| {
            Object::new()
                .with("warmer_inside_k", *kelvin)
                .with("ach_mean_per_h", *ach)
        })
}

fn choice(survey: &Survey, choice: &WindChoice) -> Object {
    let cases = survey.weather.iter().zip(&choice.mean_ach_per_h);
    Object::new()
        .with("pressure_set", choice.set.word())
        .with("underside", choice.underside.word())
        .with("underfloor_by_place", choice.by_place)
        .with("chosen", choice.chosen)
        .list("cases", cases, |(case, ach)| {
            Object::new()
                .with("case", case.id.0)
                .with("ach_mean_per_h", ach)
        })
}

fn parking(parking: &Parking) -> Object {
    let now = parking.now;
    Object::new()
        .with("wind_from_deg", parking.wind_from_deg)
        .with("best_heading_deg", parking.best.0)
        .with("best_ach_per_h", parking.best.1)
        .with("worst_heading_deg", parking.worst.0)
        .with("worst_ach_per_h", parking.worst.1)
        .recorded("heading_deg", now.map(|now| now.0))
        .recorded("ach_per_h", now.map(|now| now.1))
        .with("sentence", &parking.sentence)
}

fn closing(effect: &ClosingEffect) -> Object {
    Object::new()
        .with("id", effect.id.0)
        .with("name", &effect.name)
        .with("stands_open", effect.stands_open)
        .list("cases", &effect.cases, |case| {
            let (flows, ach) = (&case.inflow_kg_s, &case.ach_per_h);
            Object::new()
                .with("case", case.id.0)
                .found("mass_flow_in_open_kg_s", flows, |pair| pair.0)
                .found("mass_flow_in_closed_kg_s", flows, |pair| pair.1)
                .found("ach_open_per_h", ach, |pair| pair.0)
                .found("ach_closed_per_h", ach, |pair| pair.1)
        })
}
