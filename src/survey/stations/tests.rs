//! The usual places hold together, and none that protects people may be sealed.

use super::*;
use crate::survey::VehicleKind;
use crate::survey::gap::WorkState;
use crate::survey::leave::{Refusal, leave, states};
use crate::survey::{
    Edit, Facing, Fitting, FittingId, FittingKind, GapId, LeadsTo, Outcome, Outline, Position,
    Severity, Survey, Visit, findings,
};
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
    // The drop-out of the gas locker lets air into the locker alone, that of a cooker into the room.
    for (id, leads_to) in [
        ("front_drop_out", LeadsTo::Compartment),
        ("appliance_drop_out", LeadsTo::LivingSpace),
    ] {
        assert_eq!(put(&mut survey, id).leads_to, leads_to, "{id}");
    }
    assert_eq!(put(&mut survey, "refrigerator_surround").behind, None);
    let grille = put(&mut survey, "lower_refrigerator_grille");
    let surround = put(&mut survey, "refrigerator_surround");
    assert_eq!(surround.behind, Some(crate::survey::Behind::Gap(grille.id)));
}

#[test]
fn the_drop_out_of_a_gas_locker_is_no_way_into_the_living_space_on_any_vehicle() {
    for kind in VehicleKind::ALL {
        let survey = all_found(kind);
        let locker = |gap: &&crate::survey::Gap| gap.name == "drop-out of the gas locker";
        let found: Vec<_> = survey.gaps.iter().filter(locker).collect();
        assert_eq!(found.len(), 1, "{kind:?}");
        for gap in found {
            assert_eq!(gap.leads_to, LeadsTo::Compartment, "{kind:?}");
            assert_eq!(gap.purpose, crate::survey::Purpose::GasDropOut);
        }
    }
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

/// What is put where: along, up, width and height, m.
type Placed = (FittingKind, Facing, [f64; 4]);

/// A survey whose windows, doors and vents lie where the surveyor put them.
fn with_fittings(kind: VehicleKind, fittings: &[Placed]) -> Survey {
    let mut survey = Survey::starting(kind);
    survey.vehicle.length_m = Some(6.0);
    survey.vehicle.width_m = Some(2.1);
    survey.vehicle.floor_height_m = Some(0.5);
    survey.vehicle.height_m = Some(2.6);
    let fitting =
        |(id, (kind, facing, [along_m, up_m, width_m, height_m])): (u32, Placed)| Fitting {
            id: FittingId(id),
            kind,
            outline: Outline {
                facing,
                along_m,
                up_m,
                width_m,
                height_m,
            },
        };
    let fittings = (1..).zip(fittings.iter().copied()).map(fitting).collect();
    survey.apply(Edit::Fittings(Some(fittings))).unwrap();
    survey
}

fn spot_of(survey: &Survey, id: &str) -> (Facing, Position) {
    let mut places = survey.usual_places();
    let (_, place) = places.find(|(_, place)| place.id == id).unwrap();
    place.spot(survey)
}

#[test]
fn the_place_of_a_rooflight_goes_where_the_rooflight_was_moved_to() {
    let lights = |large_at: f64| {
        [
            // The smaller one stands first in the list.
            (FittingKind::Rooflight, Facing::Roof, [5.0, 1.2, 0.4, 0.4]),
            (
                FittingKind::Rooflight,
                Facing::Roof,
                [large_at, 0.9, 0.8, 0.5],
            ),
        ]
    };
    for large_at in [2.0, 3.5] {
        let survey = with_fittings(VehicleKind::PanelVan, &lights(large_at));
        for (id, along, across) in [
            ("large_lid", large_at, 0.9),
            ("large_frame", large_at - 0.4, 0.9),
            ("small_lid", 5.0, 1.2),
            ("small_frame", 4.8, 1.2),
        ] {
            let (facing, position) = spot_of(&survey, id);
            assert_eq!(facing, Facing::Roof, "{id}");
            assert_eq!(position.along_m, Some(along), "{id}");
            assert_eq!(position.across_m, Some(across), "{id}");
        }
        // A gap found there lies there.
        let (station, place) = survey
            .usual_places()
            .find(|(_, place)| place.id == "large_lid")
            .unwrap();
        let (id, edit) = found(&survey, station, place).unwrap();
        let mut with = survey.clone();
        with.apply(edit).unwrap();
        assert_eq!(with.gap(id).unwrap().position.along_m, Some(large_at));
    }
}

#[test]
fn a_door_moved_to_the_other_side_takes_its_place_along_and_a_window_does_not() {
    let survey = with_fittings(
        VehicleKind::CoachBuilt,
        &[
            (
                FittingKind::HabitationDoor,
                Facing::Offside,
                [3.2, 1.4, 0.6, 1.7],
            ),
            (FittingKind::Window, Facing::Offside, [1.1, 1.8, 0.9, 0.5]),
            (
                FittingKind::RefrigeratorVent,
                Facing::Nearside,
                [4.0, 1.9, 0.4, 0.2],
            ),
            (
                FittingKind::RefrigeratorVent,
                Facing::Nearside,
                [4.0, 0.9, 0.4, 0.2],
            ),
        ],
    );
    let (facing, position) = spot_of(&survey, "entrance_door");
    assert_eq!(facing, Facing::Offside);
    assert_eq!(position.along_m, Some(3.2));
    assert_eq!(position.across_m, Some(2.1));
    assert_eq!(position.height_m, Some(1.4));
    let (facing, position) = spot_of(&survey, "offside_windows");
    assert_eq!((facing, position.along_m), (Facing::Offside, Some(1.1)));
    let usual = with_fittings(VehicleKind::CoachBuilt, &[]);
    assert_eq!(
        spot_of(&survey, "nearside_windows"),
        spot_of(&usual, "nearside_windows")
    );
    for (id, height) in [
        ("lower_refrigerator_grille", 0.9),
        ("upper_refrigerator_grille", 1.9),
    ] {
        let (facing, position) = spot_of(&survey, id);
        assert_eq!(
            (facing, position.height_m),
            (Facing::Nearside, Some(height)),
            "{id}"
        );
    }
}

/// A fitting that sticks out of a body made smaller since is no reason to place a gap beside it.
#[test]
fn a_place_at_a_fitting_beyond_the_body_lies_on_the_body() {
    let far = [(FittingKind::Rooflight, Facing::Roof, [9.0, 4.0, 0.4, 0.4])];
    let survey = with_fittings(VehicleKind::PanelVan, &far);
    let (_, position) = spot_of(&survey, "large_lid");
    assert_eq!(position.along_m, Some(6.0));
    assert_eq!(position.across_m, Some(2.1));
}
