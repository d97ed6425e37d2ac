//! The uncertainty of a vehicle against a million draws in numpy.
//!
//! Both sides draw at random, so they agree as far as their numbers allow: the tolerances are
//! some four standard errors of [`DRAWS`] draws.

use gapledger::assess::uncertainty::{Interval, SEED, uncertainty};
use gapledger::physics::wind::{Shelter, Terrain};
use gapledger::survey::{
    AreaConvention, Certainty, Facing, Form, Gap, GapId, InsideAir, Survey, VehicleKind, ZoneId,
};

use crate::tables::{UncertainGap, uncertainty_gaps, uncertainty_rows};

const DRAWS: u32 = 60_000;

/// An invented vehicle, as `uncertainty.py` has it: a hole on each face.
fn vehicle() -> Survey {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    let vehicle = &mut survey.vehicle;
    vehicle.length_m = Some(6.0);
    vehicle.width_m = Some(2.2);
    vehicle.height_m = Some(2.6);
    vehicle.floor_height_m = Some(0.5);
    vehicle.volume_m3 = Some(25.0);
    survey.site.terrain = Terrain::ScatteredWindbreaks;
    survey.site.shelter = Shelter::Exposed;
    for case in &mut survey.weather {
        case.outside_c = 5.0;
        case.outside_rh_percent = 87.0;
        case.inside = InsideAir::WarmerBy { kelvin: 6.0 };
    }
    survey.gaps = (1..)
        .zip(uncertainty_gaps())
        .map(|(id, gap)| hole(id, &gap))
        .collect();
    survey
}

fn hole(id: u32, row: &UncertainGap) -> Gap {
    let facing = match row.face.as_str() {
        "front" => Facing::Front,
        "rear" => Facing::Rear,
        "nearside" => Facing::Nearside,
        "offside" => Facing::Offside,
        "roof" => Facing::Roof,
        "underfloor" => Facing::Underfloor,
        other => panic!("no such face: {other}"),
    };
    let form = Form::StatedArea {
        area_mm2: Some(row.area_mm2),
        convention: AreaConvention::Free,
        exponent: None,
    };
    let mut gap = Gap::new(GapId(id), ZoneId(1), facing, form);
    gap.position.height_m = Some(row.height_m);
    gap.certainty = match row.certainty.as_str() {
        "measured" => Certainty::Measured,
        "estimated" => Certainty::Estimated,
        "guessed" => Certainty::Guessed,
        other => panic!("no such certainty: {other}"),
    };
    gap
}

#[test]
fn intervals_agree_with_a_million_draws() {
    let found = uncertainty(&vehicle(), SEED, DRAWS).unwrap();
    let rows = uncertainty_rows();
    assert_eq!(rows.len(), 3);
    for row in rows {
        let interval: Interval = match row.what.as_str() {
            "eqla_m2" => found.eqla,
            "still_ach_per_h" => found.cases[0].ach_per_h.clone().unwrap(),
            "windy_ach_per_h" => found.cases[2].ach_per_h.clone().unwrap(),
            other => panic!("no such figure: {other}"),
        };
        let spread = row.standard_deviation;
        let close = |found: f64, reference: f64, share: f64| {
            assert!(
                (found - reference).abs() <= share * spread,
                "{}: {found} {reference}, spread {spread}",
                row.what
            );
        };
        // Standard errors, in spreads: 0.004 of the mean, 0.003 of the spread (more where the
        // tails are long), 0.011 of the quantiles of a normal distribution (twice that above).
        close(interval.mean, row.mean, 0.017);
        close(interval.standard_deviation, row.standard_deviation, 0.03);
        close(interval.low, row.low, 0.03);
        close(interval.high, row.high, 0.08);
    }
}
