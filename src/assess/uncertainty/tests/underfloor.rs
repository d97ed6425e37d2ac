//! The pressure under the floor: its range, by how the space below stands to the wind.

use super::*;
use crate::physics::{PressureSet, Underside};
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

/// The draws of the windy case by a closed form: `m ∝ U Cd √ΔCp/√(1/A₁² + 1/A₂²)` (BS 5925 [R]),
/// where `drop` is √ΔCp against that of the plain result.
fn follows(survey: &Survey, drop: impl Fn(&dyn Fn(UncertainInput) -> f64) -> f64) {
    const DRAWS: u32 = 4000;
    let found = uncertainty(survey, 11, DRAWS).unwrap().cases[2]
        .ach_per_h
        .clone()
        .unwrap();
    let plain = assess(survey).cases[2].air.clone().unwrap();
    let plain = plain.mean_ach_per_h.unwrap();
    let underside = survey.vehicle.underside;
    let closed = (0..DRAWS).map(|n| {
        let draw = Draw::new(11, n);
        let of = |uncertainty| match uncertainty {
            UncertainInput::Gap(_) => Spread::of_gap(Certainty::Estimated).draw(draw, uncertainty),
            _ => Spread::of_common(uncertainty, underside).draw(draw, uncertainty),
        };
        let sizes = [1, 2].map(|id| of(UncertainInput::Gap(GapId(id))).powi(-2));
        let common = [
            UncertainInput::Surveyor,
            UncertainInput::Discharge,
            UncertainInput::Wind,
        ];
        let common: f64 = common.map(&of).iter().product();
        plain * common * drop(&of) * (2.0 / (sizes[0] + sizes[1])).sqrt()
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
    follows(&survey, |of| of(UncertainInput::UnderfloorPressure).sqrt());
}

/// The factor is normal, 95 % within 0.5 to 1.5, and never below nothing; that added where one
/// side is closed, 95 % within ±0.2 [A].
#[test]
fn the_range_under_the_floor_is_as_stated() {
    let draws = |underside| {
        let input = UncertainInput::UnderfloorPressure;
        let spread = Spread::of_common(input, underside);
        let draws = (0..40_000).map(|n| spread.draw(Draw::new(3, n), input));
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
    follows(&survey, |of| {
        ((0.6 - of(UncertainInput::UnderfloorPressure)) / 0.6).sqrt()
    });
}

/// Behind skirts the coefficient is the walls' mean, and is as uncertain as theirs.
#[test]
fn behind_skirts_the_draw_is_the_walls() {
    let mut survey = floor_and_cavity(Underside::SkirtedLeaking, 0.0);
    // This set's mean of the walls is a suction from every direction.
    survey.site.pressure_set = PressureSet::LowRise;
    follows(&survey, |of| of(UncertainInput::WallPressure).sqrt());
    let found = uncertainty(&survey, 11, 400).unwrap();
    let mut shares = found.air_change_shares.iter();
    assert!(shares.all(|share| share.of != UncertainInput::UnderfloorPressure));
}
