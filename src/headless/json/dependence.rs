//! What the air change depends on: warmth, choice of coefficients, parking, doors inside.

use super::object::{Object, Value, list};
use crate::assess::spaces::ClosingEffect;
use crate::assess::{Parking, Study, TemperatureCurve, WindChoice};
use crate::survey::Survey;
use crate::survey::word::Word;

pub(super) fn dependence(study: &Study) -> Object {
    let (survey, curves) = (study.survey(), study.temperature_curves().as_ref());
    Object::new()
        .answer(
            "against_temperature",
            curves.map(|all| list(all, curve)).map_err(Clone::clone),
        )
        .with(
            "pressure_sets",
            list(&study.wind_choices().sets, |set| choice(survey, set)),
        )
        .with(
            "undersides",
            list(&study.wind_choices().undersides, |way| choice(survey, way)),
        )
        .answer(
            "parking",
            study.parking().as_ref().map(parking).map_err(Clone::clone),
        )
        .with("inner_openings", list(study.closing_effects(), closing))
}

fn curve(curve: &TemperatureCurve) -> Object {
    Object::new()
        .with("case", curve.id.0)
        .with("outside_c", curve.outside_c)
        .with(
            "points",
            list(&curve.points, |(kelvin, ach)| {
                Object::new()
                    .with("warmer_inside_k", *kelvin)
                    .with("ach_mean_per_h", *ach)
            }),
        )
}

fn choice(survey: &Survey, choice: &WindChoice) -> Object {
    let cases = survey.weather.iter().zip(&choice.mean_ach_per_h);
    let cases: Vec<Object> = cases
        .map(|(case, ach)| {
            Object::new()
                .with("case", case.id.0)
                .answer("ach_mean_per_h", ach.clone())
        })
        .collect();
    Object::new()
        .with("pressure_set", choice.set.word())
        .with("underside", choice.underside.word())
        .with("underfloor_by_place", choice.by_place)
        .with("chosen", choice.chosen)
        .with("cases", cases)
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
        .with("sentence", parking.sentence.as_str())
}

fn closing(effect: &ClosingEffect) -> Object {
    Object::new()
        .with("id", effect.id.0)
        .with("name", effect.name.as_str())
        .with("stands_open", effect.stands_open)
        .with(
            "cases",
            list(&effect.cases, |case| {
                let flows = case.inflow_kg_s.clone();
                let ach = case.ach_per_h.clone();
                Object::new()
                    .with("case", Value::from(case.id.0))
                    .answer("mass_flow_in_open_kg_s", flows.clone().map(|pair| pair.0))
                    .answer("mass_flow_in_closed_kg_s", flows.map(|pair| pair.1))
                    .answer("ach_open_per_h", ach.clone().map(|pair| pair.0))
                    .answer("ach_closed_per_h", ach.map(|pair| pair.1))
            }),
        )
}
