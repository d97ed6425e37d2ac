//! Physical truths that hold for any vehicle.

use super::bare;
use crate::assess::{Assessment, assess};
use crate::physics::{PressureSet, Underside};
use crate::survey::gap::{Cavity, Facing, Form, Gap};
use crate::survey::{GapId, InsideAir, Survey, ZoneId};
use proptest::prelude::*;

fn form() -> impl Strategy<Value = Form> {
    prop_oneof![
        (100.0..5000.0_f64, 0.2..4.0_f64, 2.0..70.0_f64, 0..3_u32).prop_map(
            |(length, width, depth, bends)| Form::NarrowGap {
                length_mm: Some(length),
                width_mm: Some(width),
                depth_mm: Some(depth),
                bends,
            }
        ),
        (2.0..120.0_f64).prop_map(|diameter| Form::RoundHole {
            diameter_mm: Some(diameter)
        }),
        (0.1..50.0_f64, 4.0..60.0_f64, 0.5..1.0_f64).prop_map(|(flow, at, exponent)| {
            Form::FlowTest {
                flow_m3_per_h: Some(flow),
                at_pa: Some(at),
                exponent: Some(exponent),
            }
        }),
    ]
}

fn facing() -> impl Strategy<Value = Facing> {
    prop_oneof![
        Just(Facing::Front),
        Just(Facing::Rear),
        Just(Facing::Nearside),
        Just(Facing::Offside),
        Just(Facing::Roof),
        Just(Facing::Underfloor),
        Just(Facing::Cavity(Cavity::EngineBay)),
    ]
}

fn gap() -> impl Strategy<Value = Gap> {
    (
        form(),
        facing(),
        0.6..2.4_f64,
        prop::option::of(0.1..1.0_f64),
        prop::option::of(0.0..6.0_f64),
        prop::option::of(0.0..2.2_f64),
    )
        .prop_map(|(form, facing, height, rise, along, across)| {
            let mut gap = Gap::new(GapId(1), ZoneId(1), facing, form);
            gap.position.height_m = Some(height);
            gap.position.rise_m = rise;
            gap.position.along_m = along;
            gap.position.across_m = across;
            gap
        })
}

fn survey() -> impl Strategy<Value = Survey> {
    (
        prop::collection::vec(gap(), 2..14),
        -10.0..20.0_f64,
        0.0..25.0_f64,
        prop::sample::select(&PressureSet::ALL[..]),
        // Skirts with gaps, and no tight ones: their gaps are shared out among those behind.
        prop::sample::select(&Underside::ALL[..3]),
        any::<bool>(),
    )
        .prop_map(|(gaps, outside_c, kelvin, set, underside, by_place)| {
            let mut survey = bare();
            survey.site.pressure_set = set;
            survey.vehicle.underside = underside;
            survey.vehicle.underfloor_by_place = by_place;
            survey.gaps = gaps;
            for (id, gap) in (1..).zip(&mut survey.gaps) {
                gap.id = GapId(id);
            }
            super::air(&mut survey, outside_c, 80.0, InsideAir::WarmerBy { kelvin });
            survey
        })
}

/// Inflow in every case and direction.
fn inflows(answers: &Assessment) -> Vec<f64> {
    let airs = answers.cases.iter().map(|case| case.air.as_ref().unwrap());
    airs.flat_map(|air| air.directions.iter().map(|direction| direction.inflow_kg_s))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// At fixed temperatures an outer gap more never lowers the gross inflow of outside air.
    #[test]
    fn another_gap_never_lowers_the_inflow(survey in survey(), extra in gap()) {
        let before = inflows(&assess(&survey));
        let mut more = survey;
        let id = more.free_gap_id();
        more.gaps.push(Gap { id, ..extra });
        for (before, after) in before.iter().zip(inflows(&assess(&more))) {
            prop_assert!(after >= before * (1.0 - 1e-9), "{before} fell to {after}");
        }
    }

    /// Nor does another of the same.
    #[test]
    fn a_larger_count_never_lowers_the_inflow(survey in survey(), which in 0..100_usize) {
        let before = inflows(&assess(&survey));
        let mut more = survey;
        let which = which % more.gaps.len();
        more.gaps[which].count += 1;
        for (before, after) in before.iter().zip(inflows(&assess(&more))) {
            prop_assert!(after >= before * (1.0 - 1e-9), "{before} fell to {after}");
        }
    }

    /// A count of two is two gaps.
    #[test]
    fn a_count_of_two_is_two_gaps(survey in survey(), which in 0..100_usize) {
        let which = which % survey.gaps.len();
        let mut counted = survey.clone();
        counted.gaps[which].count = 2;
        let mut twice = survey;
        let id = twice.free_gap_id();
        let second = Gap { id, ..twice.gaps[which].clone() };
        twice.gaps.push(second);
        let (counted, twice) = (assess(&counted), assess(&twice));
        let pairs = inflows(&counted).into_iter().zip(inflows(&twice));
        for (one, two) in pairs {
            prop_assert!((one - two).abs() <= 1e-8 * one.abs(), "{one} {two}");
        }
        let total = |answers: &Assessment| answers.leakage.all.clone().unwrap().figures.eqla;
        prop_assert!((total(&counted) - total(&twice)).abs() <= 1e-12 * total(&twice));
    }

    /// Turning the vehicle and the wind together changes nothing: the heading only names the
    /// compass directions.
    #[test]
    fn the_heading_changes_names_only(survey in survey(), heading in 0.0..360.0_f64) {
        let without = assess(&survey);
        let mut turned = survey;
        turned.site.heading_deg = Some(heading);
        let with = assess(&turned);
        prop_assert_eq!(inflows(&without), inflows(&with));
        let first = &with.cases[0].air.as_ref().unwrap().directions[4];
        prop_assert!((first.compass_deg.unwrap() - (heading + 90.0).rem_euclid(360.0)).abs() < 1e-9);
    }

    /// The mirrored vehicle takes as much air from the mirrored wind.
    #[test]
    fn the_mirrored_vehicle_mirrors_its_flows(survey in survey()) {
        let mut mirrored = survey.clone();
        for gap in &mut mirrored.gaps {
            gap.facing = gap.facing.mirrored();
            let across = &mut gap.position.across_m;
            *across = across.map(|across| 2.2 - across);
        }
        let (left, right) = (assess(&survey), assess(&mirrored));
        for (left, right) in left.cases.iter().zip(&right.cases) {
            let (left, right) = (left.air.as_ref().unwrap(), right.air.as_ref().unwrap());
            for at in 0..16 {
                let (a, b) = (&left.directions[at], &right.directions[(16 - at) % 16]);
                prop_assert!((a.inflow_kg_s - b.inflow_kg_s).abs() <= 1e-8 * a.inflow_kg_s);
            }
        }
    }

    /// Without temperature difference and fans more wind never lowers the mean inflow.
    #[test]
    fn more_wind_never_lowers_the_mean(mut survey in survey()) {
        super::air(&mut survey, 8.0, 70.0, InsideAir::WarmerBy { kelvin: 0.0 });
        let means: Vec<f64> = assess(&survey)
            .cases
            .iter()
            .map(|case| case.air.as_ref().unwrap().mean_inflow_kg_s)
            .collect();
        prop_assert!(means.windows(2).all(|pair| pair[1] >= pair[0] * (1.0 - 1e-9)), "{means:?}");
    }

    /// The same survey gives the same answers to the last bit.
    #[test]
    fn answers_are_a_pure_function(survey in survey()) {
        prop_assert_eq!(assess(&survey), assess(&survey));
    }

    /// Relative humidity without removal stays within 0 and 1, removal above 0.
    #[test]
    fn humidity_and_removal_stay_in_bounds(survey in survey()) {
        for case in assess(&survey).cases {
            let drying = case.drying.unwrap();
            for removal in [drying.at_outside_temperature, drying.at_set_temperature] {
                prop_assert!((0.0..=1.0).contains(&removal.rh_without_removal));
                prop_assert!(removal.removal_kg_s >= 0.0 && removal.removal_kg_s.is_finite());
            }
        }
    }
}
