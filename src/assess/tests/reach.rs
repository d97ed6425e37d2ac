//! Down to which outside temperature heaters hold their set points, against a solution of the test's
//! own.

use super::{air, bare, gap_mut, hole};
use crate::assess::assess;
use crate::physics::air::{MoistAir, STANDARD_PRESSURE};
use crate::survey::{
    BuildUp, Cavity, FabricElement, FabricId, FabricPart, Facing, Field, Finding, Heater,
    HeaterFuel, HeaterId, InsideAir, Item, Place, Severity, Survey,
};

const AREA_M2: f64 = 0.01;
const FABRIC_W_PER_K: f64 = 70.0;

/// Two openings of 100 cm² 2 m apart and out of the wind, 70 W/K, and one heater.
fn heated(rating_w: f64, set_point_c: Option<f64>) -> Survey {
    let mut survey = bare();
    for height in [0.5, 2.5] {
        let id = hole(&mut survey, Facing::Cavity(Cavity::Locker), height, 100.0);
        gap_mut(&mut survey, id).cavity_pressure_coefficient = Some(0.0);
    }
    survey.fabric = vec![FabricElement {
        id: FabricId(1),
        name: "all round".to_owned(),
        part: FabricPart::Wall,
        area_m2: Some(FABRIC_W_PER_K),
        build_up: BuildUp::Stated {
            u_w_per_m2_k: Some(1.0),
        },
        bridge_percent: 0.0,
        outline: None,
    }];
    air(&mut survey, 2.0, 90.0, InsideAir::WarmerBy { kelvin: 2.0 });
    survey.heaters = vec![Heater {
        name: "frost guard".to_owned(),
        rating_w: Some(rating_w),
        set_point_c,
        ..Heater::new(HeaterId(1), HeaterFuel::Electricity)
    }];
    survey
}

/// Heat needed: fabric, and the stack's air in closed form (API RP 500 form [S]),
/// `m = Cd √(2(ρₒ−ρᵢ) g H)/√(1/(A²ρₒ) + 1/(A²ρᵢ))`, times `1006 + 1860 W` J/(kg K).
fn needed(inside_c: f64, outside_c: f64) -> f64 {
    let outside = MoistAir::from_relative_humidity(outside_c, 0.9, STANDARD_PRESSURE).unwrap();
    let inside = MoistAir::new(inside_c, outside.humidity_ratio, STANDARD_PRESSURE).unwrap();
    let (heavy, light) = (outside.density(), inside.density());
    let drive = (2.0 * (heavy - light) * 9.81 * 2.0).sqrt();
    let flow = 0.61 * AREA_M2 * drive / (1.0 / heavy + 1.0 / light).sqrt();
    let dry = flow / (1.0 + outside.humidity_ratio);
    let air = dry * (1006.0 + 1860.0 * outside.humidity_ratio);
    (FABRIC_W_PER_K + air) * (inside_c - outside_c)
}

/// The outside temperature by halving, between −60 °C and the inside.
fn by_halving(inside_c: f64, rating_w: f64) -> f64 {
    let (mut cold, mut warm) = (-60.0, inside_c);
    for _ in 0..80 {
        let middle = 0.5 * (cold + warm);
        if needed(inside_c, middle) > rating_w {
            cold = middle;
        } else {
            warm = middle;
        }
    }
    0.5 * (cold + warm)
}

/// Every case is out of the wind here, so all of them hold down to the same.
#[test]
fn a_heater_holds_down_to_where_its_rating_is_just_enough() {
    for (rating, set) in [(500.0, 4.0), (1900.0, 4.0), (2000.0, 20.0), (700.0, 5.0)] {
        let expected = by_halving(set, rating);
        for case in assess(&heated(rating, Some(set))).cases {
            let found = case.heaters[0].lowest_outside_c.clone().unwrap();
            assert!(
                (found - expected).abs() < 2e-3,
                "{rating} W: {found} instead of {expected} °C"
            );
        }
    }
}

fn of_heater(survey: &Survey) -> Vec<Finding> {
    let place = Place::at(Item::Heater(HeaterId(1)), Field::Rating);
    let found = assess(survey).findings.into_iter();
    found.filter(|finding| finding.place == place).collect()
}

#[test]
fn a_frost_guard_too_weak_for_the_coldest_night_is_a_warning_with_its_numbers() {
    let mut survey = heated(500.0, Some(4.0));
    survey.targets.design_outside_c = -15.0;
    let found = of_heater(&survey);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].severity, Severity::Warning);
    let sentence = found[0].sentence.replace('\u{a0}', " ");
    for words in [
        "heater “frost guard”: 500 W hold 4 °C only down to",
        "“still”",
        "“windy”",
        "not down to the −15 °C",
    ] {
        assert!(sentence.contains(words), "{words}: {sentence}");
    }
    assert!(found[0].advice.starts_with("drain the water system"));
    // 1.9 kW are enough for some −15 °C in this body.
    survey.heaters[0].rating_w = Some(needed(4.0, -15.0) + 1.0);
    assert!(of_heater(&survey).is_empty());
    survey.heaters[0].rating_w = Some(needed(4.0, -15.0) - 30.0);
    assert_eq!(of_heater(&survey).len(), 1);
}

#[test]
fn a_heater_without_a_thermostat_is_held_against_what_the_set_up_asks_for() {
    use crate::survey::SetUp;
    let mut survey = heated(1000.0, None);
    survey.set_up = SetUp::LaidUp;
    let held = |survey: &Survey| assess(survey).cases[0].heaters[0].inside_c;
    assert!((held(&survey) - survey.targets.frost_guard_c).abs() < 1e-12);
    survey.set_up = SetUp::InUse;
    assert!((held(&survey) - survey.targets.comfort_c).abs() < 1e-12);
    survey.heaters[0].rating_w = None;
    assert!(
        assess(&survey).cases[0].heaters[0]
            .lowest_outside_c
            .is_err()
    );
}
