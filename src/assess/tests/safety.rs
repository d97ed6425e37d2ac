//! Safety ventilation against EN 721's minimum free areas [R].

use super::{bare, gap_mut, hole};
use crate::assess::HeatInput;
use crate::assess::safety::asked::{by_heat_input, by_plan_area};
use crate::assess::{SafetyVerdict, assess};
use crate::survey::gap::{Closing, Purpose};
use crate::survey::{
    Appliance, ApplianceId, ApplianceKind, CodeOfPractice, Facing, Field, GapId, Heater,
    HeaterFuel, HeaterId, InnerOpening, InnerOpeningId, Item, Place, Severity, Space, SpaceId,
    Survey,
};

fn with_hob(mut survey: Survey) -> Survey {
    survey.appliances.push(Appliance {
        id: ApplianceId(1),
        kind: ApplianceKind::Hob,
        name: "two burners".into(),
        room_sealed: false,
        input_mj_per_h: None,
    });
    survey
}

fn ventilator(survey: &mut Survey, facing: Facing, height_m: f64, area_mm2: f64) -> GapId {
    let id = hole(survey, facing, height_m, area_mm2 / 100.0);
    gap_mut(survey, id).purpose = Purpose::SafetyVentilation;
    id
}

#[test]
fn the_table_is_read_by_plan_area() {
    for (plan_area, expected) in [
        (4.9, [7_500.0, 15_000.0, 1_000.0]),
        (5.0, [7_500.0, 15_000.0, 1_000.0]),
        (9.0, [10_000.0, 20_000.0, 1_500.0]),
        (13.2, [12_500.0, 25_000.0, 2_000.0]),
        (20.0, [15_000.0, 30_000.0, 3_000.0]),
        (20.1, [20_000.0, 40_000.0, 5_000.0]),
    ] {
        let row = by_plan_area(plan_area, true).unwrap();
        let mm2 = [row.high_in_roof, row.high_elsewhere, row.low].map(|area| (area * 1e6).round());
        let off = mm2
            .iter()
            .zip(expected)
            .map(|(found, read)| (found - read).abs());
        assert!(off.sum::<f64>() < 1e-6, "{plan_area} m²: {mm2:?}");
    }
    assert!((by_plan_area(10.0, false).unwrap().low * 1e6 - 500.0).abs() < 1e-9);
    assert!(by_plan_area(10.1, false).is_err());
}

#[test]
fn roof_and_wall_share_pro_rata() {
    // 13.2 m²: 12 500 mm² in the roof, or 25 000 elsewhere, and 2 000 low.
    let mut survey = with_hob(bare());
    ventilator(&mut survey, Facing::Roof, 2.6, 6_250.0);
    ventilator(&mut survey, Facing::Rear, 2.2, 12_500.0);
    ventilator(&mut survey, Facing::Underfloor, 0.5, 2_000.0);
    assert_eq!(assess(&survey).safety.verdict, SafetyVerdict::Meets);
    survey.gaps[1].count = 1;
    gap_mut(&mut survey, GapId(2)).form = crate::survey::Form::StatedArea {
        area_mm2: Some(12_499.0),
        convention: crate::survey::AreaConvention::Free,
        exponent: None,
    };
    let answers = assess(&survey);
    assert!(matches!(
        answers.safety.verdict,
        SafetyVerdict::Below { .. }
    ));
    assert!(answers.findings.iter().any(|finding| {
        finding.severity == Severity::Danger && finding.sentence.contains("below the minimum")
    }));
}

#[test]
fn a_ventilator_at_knee_height_counts_neither_low_nor_high() {
    let mut survey = with_hob(bare());
    ventilator(&mut survey, Facing::Rear, 0.9, 50_000.0);
    let answers = assess(&survey);
    assert_eq!(
        answers.safety.verdict,
        SafetyVerdict::Below {
            high_share: 0.0,
            low_share: 0.0
        }
    );
}

#[test]
fn a_ventilator_that_is_not_sized_makes_the_answer_not_known_never_a_pass() {
    let mut survey = with_hob(bare());
    ventilator(&mut survey, Facing::Roof, 2.6, 50_000.0);
    ventilator(&mut survey, Facing::Underfloor, 0.5, 50_000.0);
    assert_eq!(assess(&survey).safety.verdict, SafetyVerdict::Meets);
    let id = survey.free_gap_id();
    let form = crate::survey::Form::RoundHole { diameter_mm: None };
    super::add(&mut survey, Facing::Roof, 2.6, form);
    gap_mut(&mut survey, id).purpose = Purpose::SafetyVentilation;
    assert!(matches!(
        assess(&survey).safety.verdict,
        SafetyVerdict::NotKnown(_)
    ));
}

#[test]
fn a_ventilator_that_can_be_closed_counts_as_closed() {
    let mut survey = with_hob(bare());
    let roof = ventilator(&mut survey, Facing::Roof, 2.6, 12_500.0);
    ventilator(&mut survey, Facing::Underfloor, 0.5, 2_000.0);
    assert_eq!(assess(&survey).safety.verdict, SafetyVerdict::Meets);
    gap_mut(&mut survey, roof).closing = Some(Closing {
        open_laid_up: true,
        open_in_use: true,
        leaves_percent: 10.0,
    });
    assert!(matches!(
        assess(&survey).safety.verdict,
        SafetyVerdict::Below { .. }
    ));
}

#[test]
fn only_room_sealed_appliances_above_ten_square_metres_are_not_known() {
    let survey = bare();
    assert!(matches!(
        assess(&survey).safety.verdict,
        SafetyVerdict::NotKnown(_)
    ));
}

/// AS/NZS 5601.2 as relayed [R]: 29 MJ/h and 2 berths ask for 18 990 mm² high and low.
#[test]
fn the_other_code_goes_by_heat_input_and_berths() {
    let of = |mj_per_h, berths| {
        let row = by_heat_input(HeatInput { mj_per_h, berths });
        assert!((row.high_in_roof - row.low).abs() < 1e-15);
        assert!((row.high_elsewhere - row.low).abs() < 1e-15);
        (row.low * 1e6).round()
    };
    assert!((of(29.0, 2) - 18_990.0).abs() < 1e-9);
    // 610 × 3 + 650 × 2 = 3130: the least of 4000 holds.
    assert!((of(3.0, 2) - 4_000.0).abs() < 1e-9);
    assert!((of(0.0, 0) - 4_000.0).abs() < 1e-9);
    assert!((of(0.0, 7) - 4_550.0).abs() < 1e-9);
}

#[test]
fn heat_input_that_is_missing_leaves_safety_not_known_never_a_pass() {
    let mut survey = with_hob(bare());
    survey.vehicle.code_of_practice = CodeOfPractice::AsNzs5601;
    ventilator(&mut survey, Facing::Roof, 2.6, 18_990.0);
    ventilator(&mut survey, Facing::Underfloor, 0.5, 18_990.0);
    let answers = assess(&survey);
    let SafetyVerdict::NotKnown(reason) = &answers.safety.verdict else {
        panic!("{:?}", answers.safety.verdict);
    };
    assert!(reason.reason.contains("heat input"), "{}", reason.reason);
    let asks = |finding: &crate::survey::Finding| finding.place.is_at(Field::RatedInput);
    assert!(answers.findings.iter().any(asks));

    survey.appliances[0].input_mj_per_h = Some(29.0);
    survey.vehicle.berths = 2;
    let answers = assess(&survey);
    assert_eq!(answers.safety.verdict, SafetyVerdict::Meets);
    assert!(!answers.findings.iter().any(asks));
    // One berth more asks for 650 mm² more than there is.
    survey.vehicle.berths = 3;
    let answers = assess(&survey);
    assert!(matches!(
        answers.safety.verdict,
        SafetyVerdict::Below { .. }
    ));
    let danger = answers.findings.iter().find(|finding| {
        finding.severity == Severity::Danger && finding.sentence.contains("AS/NZS 5601.2")
    });
    assert!(danger.is_some());
    // Neither the plan area nor a room-sealed appliance counts.
    survey.vehicle.berths = 2;
    survey.vehicle.length_m = None;
    let mut sealed = survey.appliances[0].clone();
    sealed.id = ApplianceId(2);
    sealed.room_sealed = true;
    sealed.input_mj_per_h = None;
    survey.appliances.push(sealed);
    assert_eq!(assess(&survey).safety.verdict, SafetyVerdict::Meets);
}

fn with_heater(mut survey: Survey, rating_w: Option<f64>) -> Survey {
    let mut heater = Heater::new(HeaterId(1), HeaterFuel::UnfluedGas);
    (heater.rating_w, heater.owned) = (rating_w, true);
    survey.heaters = vec![heater];
    survey
}

/// A flame without flue takes its air from the room, whichever list it stands in: the table with any
/// appliance that is not room-sealed holds, 12 500 mm² and 2 000 for 13.2 m² [R].
#[test]
fn a_heater_without_flue_asks_for_the_ventilation_of_an_appliance() {
    let mut survey = with_heater(bare(), Some(3000.0));
    ventilator(&mut survey, Facing::Roof, 2.6, 1_600.0);
    ventilator(&mut survey, Facing::Underfloor, 0.5, 600.0);
    let answers = assess(&survey);
    let required = answers.safety.required.unwrap();
    assert!(required.open_flued && (required.low - 2e-3).abs() < 1e-12);
    assert!(matches!(
        answers.safety.verdict,
        SafetyVerdict::Below { .. }
    ));
    // Electric, or not there: it asks for nothing.
    let mut other = survey.clone();
    other.heaters[0].owned = false;
    assert!(assess(&other).safety.required.is_err());
    survey.heaters[0].fuel = HeaterFuel::Electricity;
    assert!(assess(&survey).safety.required.is_err());
}

/// 3 kW is 10.8 MJ/h: `610 × 10.8 + 650 × 2 = 7 888` mm².
#[test]
fn by_heat_input_a_heater_without_flue_counts_once() {
    let asked = |survey: &Survey| {
        let required = assess(survey).safety.required;
        required.map(|row| (row.low * 1e6).round())
    };
    let mut survey = with_heater(bare(), Some(3000.0));
    survey.vehicle.code_of_practice = CodeOfPractice::AsNzs5601;
    survey.vehicle.berths = 2;
    assert!((asked(&survey).unwrap() - 7_888.0).abs() < 1e-9);
    survey.appliances.push(Appliance {
        id: ApplianceId(1),
        kind: ApplianceKind::SpaceHeater,
        name: "the same".into(),
        room_sealed: false,
        input_mj_per_h: Some(10.8),
    });
    assert!((asked(&survey).unwrap() - 7_888.0).abs() < 1e-9);
    survey.heaters[0].rating_w = None;
    let why = asked(&survey).unwrap_err();
    assert!(why.reason.contains("rating of heater"), "{}", why.reason);
}

/// Nobody sleeps in the garage: its ventilators count for the first space only with what an opening
/// that never closes lets through.
#[test]
fn a_ventilator_of_a_space_where_nobody_sleeps_does_not_count_for_the_sleepers() {
    let space = |id, name: &str| Space {
        id: SpaceId(id),
        name: name.to_owned(),
        volume_m3: None,
        warmer_by_k: 0.0,
    };
    let mut survey = with_hob(bare());
    let roof = ventilator(&mut survey, Facing::Roof, 2.6, 12_500.0);
    ventilator(&mut survey, Facing::Underfloor, 0.5, 2_000.0);
    survey.spaces = vec![space(1, "living space"), space(2, "garage")];
    assert_eq!(assess(&survey).safety.verdict, SafetyVerdict::Meets);
    gap_mut(&mut survey, roof).space = Some(SpaceId(2));
    let own = Place::at(Item::Gap(roof), Field::Space);
    let told = |survey: &Survey| {
        let mut all = assess(survey).findings.into_iter();
        all.find(|one| one.place == own).map(|one| one.sentence)
    };
    let high = |survey: &Survey| match assess(survey).safety.verdict {
        SafetyVerdict::Below { high_share, .. } => high_share,
        verdict => panic!("{verdict:?}"),
    };
    assert!(high(&survey).abs() < 1e-12);
    assert!(
        told(&survey)
            .unwrap()
            .contains("counts nothing for space “living space”")
    );
    let form = crate::survey::Form::RectangularHole {
        width_mm: Some(100.0),
        height_mm: Some(62.5),
    };
    let slot = InnerOpening::new(InnerOpeningId(1), SpaceId(2), SpaceId(1), form);
    survey.inner_openings.push(slot);
    assert!((high(&survey) - 0.5).abs() < 1e-12);
    assert!(told(&survey).unwrap().contains("counts with 6250 mm²"));
    survey.inner_openings[0].count = 2;
    assert_eq!(assess(&survey).safety.verdict, SafetyVerdict::Meets);
    assert_eq!(told(&survey), None);
    // What closes is no way for it.
    survey.inner_openings[0].closing = Some(super::closable());
    assert!(high(&survey).abs() < 1e-12);
}
