//! The walk round, on the page and in JSON.

use super::*;
use crate::assess::sealing::Aim;
use crate::assess::shown::Shown;
use crate::survey::{Edit, Survey, VehicleKind, Visit};

const ASKED: Asked = Asked {
    draws: 0,
    aim: Aim::AchWindy,
    budget: None,
};

fn page(survey: &Survey) -> String {
    let text = page::render(&Study::of(survey), ASKED, Shown::default());
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_page_and_the_json_tell_what_was_not_reached() {
    let mut survey = Survey::starting(VehicleKind::PanelVan);
    assert!(!page(&survey).contains("Walk round"));
    let (station, place) = survey.usual_places().next().unwrap();
    let visit = Visit::of(station, place, crate::survey::Outcome::NotReached);
    survey.apply(Edit::Visited(visit)).unwrap();
    let told = page(&survey);
    assert!(
        told.contains("1 not reached") && told.contains(place.name),
        "{told}"
    );
    let json = json::print(&Study::of(&survey), ASKED).unwrap();
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let walk = &json["walk"];
    assert_eq!(walk["not_reached"], 1);
    assert_eq!(walk["not_found_percent"], serde_json::Value::Null);
    assert!(walk["not_found_percent_not_known"].is_string());
    assert_eq!(walk["stations"][0]["places"][0]["outcome"], "not_reached");
    assert_eq!(walk["visits"][0]["place"], place.id);
}

#[test]
fn before_anything_is_advised_the_owner_hears_what_was_not_looked_at() {
    const VAN: &str = include_str!("../../../sample-surveys/street-panel-van.ron");
    let mut survey = crate::survey::file::parse(VAN).unwrap();
    let headline = |survey: &Survey| {
        let study = Study::of(survey);
        let told = crate::report::in_short::in_short(&crate::report::Material::of(&study));
        let lines = told.headline.into_iter().map(|line| line.text);
        lines.collect::<Vec<_>>()
    };
    assert!(!headline(&survey).join(" ").contains("not looked at"));
    let places: Vec<_> = survey.usual_places().collect();
    let (last, rest) = places.split_last().unwrap();
    for (at, (station, place)) in rest.iter().enumerate() {
        let visit = Visit::of(station, place, crate::survey::Outcome::Nothing);
        survey.apply(Edit::Visited(visit)).unwrap();
        if at == 0 {
            let words = format!(
                "▲ {} usual places of {} were not looked at: what leaks there is not in these answers. \
                 Look there before you buy anything.",
                places.len() - 1,
                places.len()
            );
            assert_eq!(headline(&survey)[1], words);
        }
    }
    // What cannot be got at cannot be looked at either.
    let visit = Visit::of(last.0, last.1, crate::survey::Outcome::NotReached);
    survey.apply(Edit::Visited(visit)).unwrap();
    let words = format!(
        "▲ 1 usual place of {} was not looked at: what leaks there is not in these answers.",
        places.len()
    );
    assert_eq!(headline(&survey)[1], words);
}
