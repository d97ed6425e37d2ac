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
