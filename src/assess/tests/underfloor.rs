//! The space under the floor, from the survey to the air change.

use super::{air, bare, gap_mut, hole};
use crate::assess::{Study, assess};
use crate::physics::Underside;
use crate::survey::{Behind, Cavity, Facing, Field, GapId, InsideAir, Severity, Survey};

const CAVITY: Facing = Facing::Cavity(Cavity::Locker);

/// A hole under the floor and one into a cavity of a given coefficient, in cm², no temperature
/// difference, nothing that shelters.
fn floor_and_cavity(floor_cm2: f64, cavity_cm2: f64, coefficient: f64) -> (Survey, GapId) {
    let mut survey = bare();
    survey.site.shelter = crate::physics::Shelter::Exposed;
    let floor = hole(&mut survey, Facing::Underfloor, 1.0, floor_cm2);
    let cavity = hole(&mut survey, CAVITY, 1.0, cavity_cm2);
    gap_mut(&mut survey, cavity).cavity_pressure_coefficient = Some(coefficient);
    air(&mut survey, 5.0, 80.0, InsideAir::WarmerBy { kelvin: 0.0 });
    (survey, floor)
}

/// Flow of the windy case by direction, m³/s, and the wind used.
fn flows(survey: &Survey) -> (Vec<f64>, f64) {
    let air = assess(survey).cases[2].air.clone().unwrap();
    let density = air.outside.density();
    let flows = air.directions.iter();
    (
        flows.map(|one| one.inflow_kg_s / density).collect(),
        air.wind_used,
    )
}

/// Openings in line, m³/s: `Q = Cd √ΔCp U/√(Σ 1/A²)`, areas in cm² (BS 5925 [R]).
fn in_line(areas_cm2: &[f64], drop: f64, wind: f64) -> f64 {
    let resistance: f64 = areas_cm2.iter().map(|area| (area * 1e-4).powi(-2)).sum();
    0.61 * drop.sqrt() * wind / resistance.sqrt()
}

fn close(found: f64, expected: f64) {
    assert!((found / expected - 1.0).abs() < 1e-6, "{found} {expected}");
}

/// The suction under an open floor by the wind's angle off the front [N]: head on 0.22, from a side
/// 0.59. A floor that leaks lets in two thirds more when the wind comes from the side.
#[test]
fn the_wind_under_the_floor_goes_by_its_angle() {
    let (survey, _) = floor_and_cavity(100.0, 100.0, 0.0);
    let (flows, wind) = flows(&survey);
    for (direction, suction) in [(0, 0.22), (1, 0.26), (2, 0.35), (3, 0.44), (4, 0.59)] {
        for at in [
            direction,
            8 - direction,
            8 + direction,
            (16 - direction) % 16,
        ] {
            close(flows[at], in_line(&[100.0, 100.0], suction, wind));
        }
    }
}

#[test]
fn a_floor_that_leaks_is_calmest_with_an_end_to_the_wind() {
    let (mut survey, _) = floor_and_cavity(100.0, 100.0, 0.0);
    survey.site.prevailing_wind_deg = Some(270.0);
    let parked = Study::of(&survey).parking().clone().unwrap();
    let ends_to_wind = |heading: f64| (heading - 90.0).rem_euclid(180.0) < 1e-9;
    assert!(ends_to_wind(parked.best.0), "{parked:?}");
    assert!(ends_to_wind(parked.worst.0 + 90.0), "{parked:?}");
    close(parked.best.1 / parked.worst.1, (0.22_f64 / 0.59).sqrt());
}

#[test]
fn closed_on_one_side_no_wind_reaches_the_floor() {
    let (mut survey, _) = floor_and_cavity(100.0, 100.0, 0.5);
    survey.vehicle.underside = Underside::ClosedOneSide;
    let (flows, wind) = flows(&survey);
    for flow in flows {
        close(flow, in_line(&[100.0, 100.0], 0.5, wind));
    }
}

#[test]
fn by_place_a_gap_feels_its_own_part_of_the_floor() {
    let (mut survey, floor) = floor_and_cavity(100.0, 100.0, 0.0);
    survey.vehicle.underfloor_by_place = true;
    // On the offside of the middle: wind from there sucks with 0.671, from the other side 0.412.
    let position = &mut gap_mut(&mut survey, floor).position;
    (position.along_m, position.across_m) = (Some(3.0), Some(1.9));
    let (found, wind) = flows(&survey);
    close(found[4], in_line(&[100.0, 100.0], 0.671, wind));
    close(found[12], in_line(&[100.0, 100.0], 0.412, wind));
    // Without a place it takes the mean of the floor, and a note says so.
    gap_mut(&mut survey, floor).position.across_m = None;
    gap_mut(&mut survey, floor).position.along_m = None;
    close(flows(&survey).0[4], in_line(&[100.0, 100.0], 0.59, wind));
    let noted = |survey: &Survey| {
        let findings = crate::survey::findings::find(survey).into_iter();
        findings
            .filter(|finding| finding.place.field == Some(Field::UnderfloorByPlace))
            .map(|finding| finding.severity)
            .collect::<Vec<_>>()
    };
    assert_eq!(noted(&survey), [Severity::Note]);
    // Where the floor is not to go by place, a place makes no difference.
    survey.vehicle.underfloor_by_place = false;
    gap_mut(&mut survey, floor).position.across_m = Some(1.9);
    close(flows(&survey).0[4], in_line(&[100.0, 100.0], 0.59, wind));
    assert!(noted(&survey).is_empty());
}

/// A tight skirt stands in line with the gaps behind it; two of them share its gaps by their areas,
/// so that together they are one opening of their sum behind it.
#[test]
fn a_tight_skirt_stands_in_line_with_the_floor() {
    let (mut survey, floor) = floor_and_cavity(60.0, 100.0, 0.0);
    hole(&mut survey, Facing::Underfloor, 1.0, 40.0);
    survey.vehicle.underside = Underside::SkirtedTight;
    survey.vehicle.skirt_free_area_mm2 = Some(8000.0);
    let (found, wind) = flows(&survey);
    // Low-rise, exposed, head on, 6.0 × 2.2 m: ends 0.6 and −0.35, sides −0.5 (Liddament [S]).
    let mean = (2.2 * 0.25 - 6.0) / (2.0 * 8.2);
    close(found[0], in_line(&[100.0, 80.0, 100.0], -mean, wind));
    // A gap that lies behind a grille of its own has both in front of it.
    survey.gaps.pop();
    gap_mut(&mut survey, floor).behind = Some(Behind::Opening {
        free_area_mm2: Some(5000.0),
    });
    let (found, _) = flows(&survey);
    close(found[0], in_line(&[60.0, 50.0, 80.0, 100.0], -mean, wind));
    // Skirts with gaps leave the floor as it is.
    survey.vehicle.underside = Underside::SkirtedLeaking;
    let (found, _) = flows(&survey);
    close(found[0], in_line(&[60.0, 50.0, 100.0], -mean, wind));
}

#[test]
fn a_tight_skirt_of_unknown_gaps_leaves_the_air_change_unknown() {
    let (mut survey, _) = floor_and_cavity(60.0, 100.0, 0.0);
    survey.vehicle.underside = Underside::SkirtedTight;
    let unknown = assess(&survey).cases[2].air.clone().unwrap_err();
    assert!(unknown.reason.contains("skirt"), "{}", unknown.reason);
}
