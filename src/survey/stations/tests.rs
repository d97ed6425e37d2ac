//! The usual places hold together, and none that protects people may be sealed.

use super::*;
use crate::survey::VehicleKind;
use crate::survey::gap::WorkState;
use crate::survey::leave::{Refusal, leave, states};
use crate::survey::{Edit, GapId, LeadsTo, Outcome, Severity, Survey, Visit, findings};
use std::collections::BTreeSet;

/// What must never be closed, written down from the rules for leisure vehicles once more \[R\]:
/// drop-outs, fixed ventilation, the refrigerator's own air, flues and burner air, vents of battery
/// boxes and toilet tanks.
const PROTECTS: [&str; 11] = [
    "lower_refrigerator_grille",
    "upper_refrigerator_grille",
    "heater_flue",
    "roof_ventilator",
    "toilet_vent",
    "front_drop_out",
    "side_drop_out",
    "appliance_drop_out",
    "floor_ventilator",
    "battery_vent",
    "heater_intake",
];
/// Opened and closed by whoever lives there: a setting.
const SETTINGS: [&str; 2] = ["dashboard_vents", "cooker_hood"];
/// Work for a licensed fitter alone.
const FITTERS: [&str; 1] = ["gas_pipe"];

/// A survey of such a vehicle in which a gap was found at every usual place.
fn all_found(kind: VehicleKind) -> Survey {
    let mut survey = Survey::starting(kind);
    survey.appliances_confirmed = true;
    let places: Vec<_> = survey.usual_places().collect();
    for (station, place) in places {
        let (_, edit) = found(&survey, station, place).unwrap();
        survey.apply(edit).unwrap();
    }
    survey
}

fn gap_at(survey: &Survey, station: &Station, place: &UsualPlace) -> GapId {
    survey.visit(station.id, place.id).unwrap().gaps[0]
}

#[test]
fn every_kind_has_stations_outside_then_inside_and_no_place_twice() {
    for kind in VehicleKind::ALL {
        let sides: Vec<bool> = stations(kind).map(|station| station.inside).collect();
        assert!(sides.is_sorted() && sides.contains(&true) && sides.contains(&false));
        let (mut ids, mut names) = (BTreeSet::new(), BTreeSet::new());
        for (station, place) in Survey::new(kind).usual_places() {
            assert!(ids.insert(place.id), "{kind:?} {}", place.id);
            assert!(names.insert(place.name), "{kind:?} {}", place.name);
            let words = place.how_to_look();
            assert!(!words.is_empty(), "{} {}", station.id, place.id);
            assert!(place.shape().is_some(), "{} has no shape", place.id);
        }
        assert!(ids.len() >= 35, "{kind:?} {}", ids.len());
    }
    let words: Vec<&str> = Look::ALL.map(Look::words).into();
    assert!(words.iter().all(|words| !words.contains("candle")));
    assert!(words.iter().any(|words| words.contains("never a flame")));
}

#[test]
fn only_what_is_driven_has_places_in_a_cab() {
    for kind in VehicleKind::ALL {
        let cab = stations(kind).any(|station| station.id == "cab");
        assert_eq!(cab, kind.has_cab(), "{kind:?}");
    }
}

#[test]
fn what_protects_people_is_never_sealable_and_a_leak_may_be_once_it_was_looked_at() {
    for kind in VehicleKind::ALL {
        let survey = all_found(kind);
        for (station, place) in survey.usual_places() {
            let gap = survey.gap(gap_at(&survey, station, place)).unwrap();
            let before = leave(&survey, gap);
            let mut looked_at = gap.clone();
            looked_at.purpose_confirmed = true;
            let after = leave(&survey, &looked_at);
            let at = format!("{kind:?} {}: {before:?}, {after:?}", place.id);
            if PROTECTS.contains(&place.id) {
                assert!(before.is_err_and(Refusal::protects), "{at}");
                assert!(after.is_err_and(Refusal::protects), "{at}");
                let offered = states(&survey, &looked_at);
                assert!(!offered.contains(&WorkState::Sealed), "{at}");
            } else if SETTINGS.contains(&place.id) {
                assert_eq!(after, Err(Refusal::Setting), "{at}");
            } else if FITTERS.contains(&place.id) {
                assert_eq!(after, Err(Refusal::GasFitter), "{at}");
            } else {
                let asks = |why: &Refusal| why.may_protect();
                assert!(before.as_ref().err().is_none_or(asks), "{at}");
                assert!(after.is_ok(), "{at}");
            }
            let counts = !PROTECTS.contains(&place.id) && !SETTINGS.contains(&place.id);
            assert_eq!(place.leaks(), counts, "{at}");
        }
    }
}

#[test]
fn a_gap_from_a_usual_place_lies_on_the_body_is_guessed_and_has_no_error() {
    for kind in VehicleKind::ALL {
        let survey = all_found(kind);
        let (length, width) = (survey.vehicle.length_m, survey.vehicle.width_m);
        for gap in &survey.gaps {
            assert_eq!(gap.certainty.name(), "guessed", "{}", gap.name);
            assert_eq!(gap.form.missing(), None, "{}", gap.name);
            let along = gap.position.along_m.zip(length);
            let across = gap.position.across_m.zip(width);
            assert_eq!(along.is_some(), kind != VehicleKind::Other);
            for (at, most) in along.into_iter().chain(across) {
                assert!((0.0..=most + 0.005).contains(&at), "{}", gap.name);
            }
        }
        let about_gaps = |finding: &&findings::Finding| {
            let of_gap = matches!(finding.place.item, findings::Item::Gap(_));
            of_gap && finding.severity == Severity::Error
        };
        let found = findings::find(&survey);
        assert!(!found.iter().any(|one| about_gaps(&one)), "{found:?}");
    }
}

#[test]
fn a_compartment_of_its_own_is_no_outer_opening_of_the_refrigerator() {
    let mut survey = Survey::starting(VehicleKind::TouringCaravan);
    let put = |survey: &mut Survey, id: &str| {
        let place = survey.usual_places().find(|(_, place)| place.id == id);
        let (station, place) = place.unwrap();
        let (gap, edit) = found(survey, station, place).unwrap();
        survey.apply(edit).unwrap();
        survey.gap(gap).unwrap().clone()
    };
    assert_eq!(
        put(&mut survey, "battery_vent").leads_to,
        LeadsTo::Compartment
    );
    assert_eq!(put(&mut survey, "refrigerator_surround").behind, None);
    let grille = put(&mut survey, "lower_refrigerator_grille");
    let surround = put(&mut survey, "refrigerator_surround");
    assert_eq!(surround.behind, Some(crate::survey::Behind::Gap(grille.id)));
}

#[test]
fn a_place_is_found_until_its_last_gap_is_deleted_and_no_other_gap_takes_its_number() {
    let mut survey = Survey::starting(VehicleKind::PanelVan);
    let (station, place) = survey.usual_places().next().unwrap();
    let outcome = |survey: &Survey| survey.outcome(station.id, place.id);
    assert_eq!(outcome(&survey), None);
    for _ in 0..2 {
        let (_, edit) = found(&survey, station, place).unwrap();
        survey.apply(edit).unwrap();
    }
    assert_eq!(survey.visit(station.id, place.id).unwrap().gaps.len(), 2);
    let refused = survey.apply(Edit::Visited(Visit::of(station, place, Outcome::Nothing)));
    assert!(
        refused
            .unwrap_err()
            .to_string()
            .contains("gap 1 was found there")
    );
    for id in [2, 1] {
        assert_eq!(outcome(&survey), Some(Outcome::Found));
        let gap = crate::survey::RecordId::Gap(GapId(id));
        survey.apply(Edit::Remove(gap)).unwrap();
    }
    assert_eq!((outcome(&survey), survey.walk.len()), (None, 0));
    // A file may name a gap that is not there, whose number a new one then takes.
    let mut visit = Visit::of(station, place, Outcome::Found);
    visit.gaps.push(GapId(1));
    survey.apply(Edit::Visited(visit)).unwrap();
    assert_eq!(outcome(&survey), None);
    let (other_station, other) = survey.usual_places().nth(1).unwrap();
    let (id, edit) = found(&survey, other_station, other).unwrap();
    survey.apply(edit).unwrap();
    assert_eq!((id, outcome(&survey)), (GapId(1), None));
}

#[test]
fn a_zone_that_is_gone_comes_back_with_the_gap_that_needs_it() {
    let mut survey = Survey::starting(VehicleKind::PanelVan);
    survey.zones.clear();
    let (station, place) = survey.usual_places().next().unwrap();
    let (id, edit) = found(&survey, station, place).unwrap();
    survey.apply(edit).unwrap();
    let zone = survey.gap(id).unwrap().zone;
    assert_eq!(survey.zone_name(zone), "cab");
    assert_eq!(survey.zones.len(), 1);
}

#[test]
fn a_visit_of_a_place_that_nobody_knows_is_kept_and_counts_nowhere() {
    let mut survey = Survey::starting(VehicleKind::PanelVan);
    let visit = Visit {
        station: "moon".to_owned(),
        place: "crater".to_owned(),
        outcome: Outcome::NotReached,
        gaps: Vec::new(),
    };
    survey.apply(Edit::Visited(visit)).unwrap();
    assert_eq!(survey.walk.len(), 1);
    assert!(!survey.has_walked());
    assert_eq!(survey.progress().open(), survey.progress().places);
}
