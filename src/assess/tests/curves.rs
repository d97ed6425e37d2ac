//! Curves, parking, and what hangs on the choice of pressure coefficients.

use super::{air, bare, gap_mut, hole};
use crate::assess::{Study, WindChoice, WindChoices, assess, face_totals};
use crate::physics::{PressureSet, Underside};
use crate::survey::{Cavity, Facing, InsideAir, Survey};

/// Two openings of 100 cm², 2 m apart, that feel no wind: with the weight of air alone
/// `m = Cd A √(2 (ρ_o − ρ_i) g H)/√(1/ρ_o + 1/ρ_i)` (API RP 500 form [S]).
#[test]
fn the_curve_against_temperature_follows_the_closed_form() {
    let mut survey = bare();
    for height in [0.5, 2.5] {
        let id = hole(&mut survey, Facing::Cavity(Cavity::Locker), height, 100.0);
        gap_mut(&mut survey, id).cavity_pressure_coefficient = Some(0.0);
    }
    air(&mut survey, 0.0, 1.0, InsideAir::WarmerBy { kelvin: 2.0 });
    let curves = Study::of(&survey).temperature_curves().clone().unwrap();
    assert_eq!(curves.len(), 3);
    let last = curves[0].points.last().copied().unwrap();
    assert!((last.0 - 30.0).abs() < 1e-12);
    // The wind acts alike on both: every case has the same curve.
    assert!((curves[2].points[8].1 - last.1).abs() < 1e-9);
    // Ideal gas, as near as dry air is: ρ ∝ 1/T from 1.2922 at 0 °C.
    let (outside, inside) = (1.2922, 1.2922 * 273.15 / 303.15);
    let drive = (2.0 * (outside - inside) * 9.81 * 2.0_f64).sqrt();
    let flow = 0.61 * 0.01 * drive / (1.0 / outside + 1.0 / inside).sqrt();
    let ach = flow * 3600.0 / (inside * 25.0);
    assert!((last.1 / ach - 1.0).abs() < 2e-3, "{} {ach}", last.1);
    for curve in &curves {
        let rising = curve.points.windows(2).all(|pair| pair[1].1 >= pair[0].1);
        assert!(rising, "{curve:?}");
    }
}

/// Holes on the two sides alone: wind from a side blows through, wind from the front does not.
fn sideways() -> Survey {
    let mut survey = bare();
    hole(&mut survey, Facing::Nearside, 1.4, 60.0);
    hole(&mut survey, Facing::Offside, 1.4, 60.0);
    air(&mut survey, 5.0, 80.0, InsideAir::WarmerBy { kelvin: 0.0 });
    survey
}

#[test]
fn turning_the_front_into_the_wind_calms_a_vehicle_that_leaks_at_its_sides() {
    let mut survey = sideways();
    let of = |survey: &Survey| Study::of(survey).parking().clone();
    assert!(of(&survey).unwrap_err().reason.contains("prevailing wind"));
    survey.site.prevailing_wind_deg = Some(270.0);
    let found = of(&survey).unwrap();
    // Front or rear to the west.
    assert!((found.best.0 - 270.0).abs() < 1e-9 || (found.best.0 - 90.0).abs() < 1e-9);
    assert!(found.best.1 < 0.5 * found.worst.1 && found.now.is_none());
    let heading = |deg: f64| {
        let mut turned = survey.clone();
        turned.site.heading_deg = Some(deg);
        of(&turned).unwrap().now.unwrap().1
    };
    // What a heading comes to is what the assessment gives for that compass direction.
    assert!((heading(found.best.0) - found.best.1).abs() < 1e-9);
    assert!((heading(found.worst.0) - found.worst.1).abs() < 1e-9);
    assert!(found.sentence.contains("wind from W"), "{}", found.sentence);
    assert!(
        found.sentence.contains("air change falls from"),
        "{}",
        found.sentence
    );
    survey.site.heading_deg = Some(found.best.0);
    assert!(of(&survey).unwrap().sentence.contains("changes little"));
}

/// Every choice gives what the assessment gives once the survey makes it, to ten digits.
fn as_if_chosen(survey: &Survey, choice: &WindChoice) {
    let mut other = survey.clone();
    other.site.pressure_set = choice.set;
    other.vehicle.underside = choice.underside;
    other.vehicle.underfloor_by_place = choice.by_place;
    let cases = assess(&other).cases;
    assert_eq!(cases.len(), choice.mean_ach_per_h.len());
    for (case, ach) in cases.iter().zip(&choice.mean_ach_per_h) {
        let expected = case.air.clone().unwrap().mean_ach_per_h.unwrap();
        let found = ach.clone().unwrap();
        assert!((found / expected - 1.0).abs() < 1e-10, "{choice:?}");
    }
}

#[test]
fn every_choice_of_wind_pressures_stands_side_by_side() {
    let mut survey = sideways();
    let under = hole(&mut survey, Facing::Underfloor, 0.5, 80.0);
    let found = Study::of(&survey).wind_choices().clone();
    let sets: Vec<PressureSet> = found.sets.iter().map(|choice| choice.set).collect();
    assert_eq!(sets, PressureSet::ALL);
    let ways = |found: &WindChoices| {
        let ways = found.undersides.iter();
        ways.map(|choice| (choice.underside, choice.by_place))
            .collect::<Vec<_>>()
    };
    let untold = [
        (Underside::Open, false),
        (Underside::ClosedOneSide, false),
        (Underside::SkirtedLeaking, false),
    ];
    assert_eq!(ways(&found), untold);
    for choice in found.sets.iter().chain(&found.undersides) {
        as_if_chosen(&survey, choice);
    }
    // A skirt whose gaps were measured, and a gap whose place was.
    survey.vehicle.skirt_free_area_mm2 = Some(20_000.0);
    gap_mut(&mut survey, under).position.across_m = Some(0.3);
    let told = Study::of(&survey).wind_choices().clone();
    assert_eq!(told.undersides.len(), 5);
    assert!(ways(&told).contains(&(Underside::Open, true)));
    assert!(ways(&told).contains(&(Underside::SkirtedTight, false)));
    for choice in &told.undersides {
        as_if_chosen(&survey, choice);
    }
    // The survey makes one choice in each list.
    for list in [&found.sets, &found.undersides, &told.sets, &told.undersides] {
        assert_eq!(list.iter().filter(|choice| choice.chosen).count(), 1);
    }
}

#[test]
fn totals_by_face_add_up_to_the_whole() {
    let mut survey = sideways();
    hole(&mut survey, Facing::Nearside, 0.8, 10.0);
    hole(&mut survey, Facing::Roof, 2.6, 20.0);
    let windy = assess(&survey).cases[2].air.clone().unwrap();
    let direction = &windy.directions[12];
    let totals = face_totals(&survey, direction);
    let faces: Vec<Facing> = totals.iter().map(|total| total.facing).collect();
    assert_eq!(faces, [Facing::Nearside, Facing::Offside, Facing::Roof]);
    let sum: f64 = totals.iter().map(|total| total.in_kg_s).sum();
    assert!((sum - direction.inflow_kg_s).abs() < 1e-9 * sum);
    // Wind from the nearside comes in there and goes out at the other side and the roof.
    assert!(totals[0].in_kg_s > 0.0 && totals[0].out_kg_s == 0.0);
    assert!(totals[1].out_kg_s > 0.0 && totals[2].out_kg_s > 0.0);
}
