//! The pressure under the floor: its range, by how the space below stands to the wind.

use super::*;
use crate::physics::pressure_coefficient::WindBody;
use crate::physics::{Face, PressureSet, Underside};
use crate::survey::Survey;

/// A hole under the floor and one into a cavity of a given coefficient, equally large and at one
/// height; no temperature difference.
fn floor_and_cavity(underside: Underside, coefficient: f64) -> Survey {
    let mut survey = bare();
    survey.vehicle.underside = underside;
    hole(&mut survey, Facing::Underfloor, 1.0, 100.0);
    let cavity = hole(&mut survey, FACE, 1.0, 100.0);
    gap_mut(&mut survey, cavity).cavity_pressure_coefficient = Some(coefficient);
    for gap in &mut survey.gaps {
        gap.certainty = Certainty::Estimated;
    }
    air(&mut survey, 5.0, 87.0, InsideAir::WarmerBy { kelvin: 0.0 });
    survey
}

/// The draws of the windy case by a closed form ([`two_in_line`]), the mean over the directions;
/// `drop` is ΔCp where the floor's coefficient is as given, for what is drawn.
fn follows(survey: &Survey, drop: impl Fn(f64, &dyn Fn(UncertainInput) -> f64) -> f64) {
    const DRAWS: u32 = 4000;
    let found = uncertainty(survey, 11, DRAWS).unwrap().cases[2]
        .ach_per_h
        .clone()
        .unwrap();
    let plain = assess(survey).cases[2].air.clone().unwrap();
    let plain = plain.mean_ach_per_h.unwrap();
    let underside = survey.vehicle.underside;
    let body = WindBody {
        set: survey.site.pressure_set,
        shelter: survey.site.shelter,
        underside,
        length: 6.0,
        width: 2.2,
    };
    let under_floor = |at: u32| body.coefficient(Face::Underfloor, 22.5 * f64::from(at));
    let mean = |areas: [f64; 2], of: &dyn Fn(UncertainInput) -> f64| {
        let (discharge, gusts) = (of(UncertainInput::Discharge), of(UncertainInput::Gusts));
        let flows = (0..16).map(|at| {
            let drop = drop(under_floor(at), of);
            two_in_line(areas, drop, discharge, gusts)
        });
        flows.sum::<f64>() / 16.0
    };
    // Every factor one, and nothing added.
    let as_surveyed = mean([1.0, 1.0], &|input| {
        let added =
            input == UncertainInput::UnderfloorPressure && underside == Underside::ClosedOneSide;
        if added { 0.0 } else { 1.0 }
    });
    let closed = (0..DRAWS).map(|n| {
        let draw = Draw::new(11, n);
        let of = |uncertainty| match uncertainty {
            UncertainInput::Gap(_) => {
                Spread::of_gap(Certainty::Estimated).at(draw.normal(uncertainty.key()))
            }
            _ => Spread::of_common(uncertainty, underside).at(draw.normal(uncertainty.key())),
        };
        let sizes = [1, 2].map(|id| of(UncertainInput::Gap(GapId(id))));
        let common = of(UncertainInput::Surveyor) * of(UncertainInput::Wind);
        plain * common * mean(sizes, &of) / as_surveyed
    });
    let closed = interval(closed.collect());
    for (found, closed) in [
        (found.low, closed.low),
        (found.high, closed.high),
        (found.mean, closed.mean),
    ] {
        assert!((found / closed - 1.0).abs() < 1e-5, "{found} {closed}");
    }
}

#[test]
fn under_an_open_floor_one_factor_holds_for_all_directions() {
    let survey = floor_and_cavity(Underside::Open, 0.0);
    follows(&survey, |floor, of| {
        -floor * of(UncertainInput::UnderfloorPressure)
    });
}

/// The factor is normal, 95 % within 0.5 to 1.5, and never below nothing; that added where one
/// side is closed, 95 % within ±0.2 [A].
#[test]
fn the_range_under_the_floor_is_as_stated() {
    let draws = |underside| {
        let input = UncertainInput::UnderfloorPressure;
        let spread = Spread::of_common(input, underside);
        let draws = (0..40_000).map(|n| spread.at(Draw::new(3, n).normal(input.key())));
        draws.collect::<Vec<f64>>()
    };
    let open = draws(Underside::Open);
    assert!(open.iter().all(|factor| *factor >= 0.0));
    let open = interval(open);
    assert!((open.low - 0.5).abs() < 0.01 && (open.high - 1.5).abs() < 0.01);
    assert!((open.mean - 1.0).abs() < 0.005, "{open:?}");
    let closed = interval(draws(Underside::ClosedOneSide));
    assert!((closed.low + 0.2).abs() < 0.005 && (closed.high - 0.2).abs() < 0.005);
    assert!(closed.mean.abs() < 0.002, "{closed:?}");
    assert!(
        draws(Underside::SkirtedLeaking)
            .iter()
            .all(|factor| (factor - 1.0).abs() < 1e-12)
    );
}

/// Closed on one side the coefficient is 0 and what is drawn is added to it; against a cavity at
/// 0.6 that is ΔCp = 0.6 − δ.
#[test]
fn closed_on_one_side_the_draw_is_added() {
    let survey = floor_and_cavity(Underside::ClosedOneSide, 0.6);
    follows(&survey, |floor, of| {
        0.6 - floor - of(UncertainInput::UnderfloorPressure)
    });
}

/// Behind skirts the coefficient is the walls' mean, and is as uncertain as theirs.
#[test]
fn behind_skirts_the_draw_is_the_walls() {
    let mut survey = floor_and_cavity(Underside::SkirtedLeaking, 0.0);
    // This set's mean of the walls is a suction from every direction.
    survey.site.pressure_set = PressureSet::LowRise;
    follows(&survey, |floor, of| {
        -floor * of(UncertainInput::WallPressure)
    });
    let found = uncertainty(&survey, 11, 400).unwrap();
    let mut shares = found.air_change_shares.iter();
    assert!(shares.all(|share| share.of != UncertainInput::UnderfloorPressure));
}
