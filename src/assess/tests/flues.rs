//! Fans that find no air, flues drawn back, and the air of sleepers.

use super::{add, bare, hole};
use crate::assess::assess;
use crate::survey::{
    Appliance, ApplianceId, ApplianceKind, Closing, Facing, Fan, FanDirection, FanId, Field,
    Finding, Form, Item, Place, SetUp, Severity, Survey,
};

fn with_fan(mut survey: Survey, flow: f64) -> Survey {
    survey.fans = vec![Fan {
        id: FanId(1),
        name: "roof fan".to_owned(),
        direction: FanDirection::Extract,
        flow_m3_per_h: Some(flow),
        most_pressure_pa: None,
        on_laid_up: true,
        on_in_use: true,
        space: None,
    }];
    survey
}

fn with_appliance(mut survey: Survey, kind: ApplianceKind, room_sealed: bool) -> Survey {
    survey.appliances = vec![Appliance {
        id: ApplianceId(1),
        kind,
        name: String::new(),
        room_sealed,
        input_mj_per_h: None,
    }];
    survey
}

fn of_appliance(survey: &Survey, words: &str) -> Vec<Finding> {
    let own = Place::whole(Item::Appliance(ApplianceId(1)));
    let found = assess(survey).findings.into_iter();
    found
        .filter(|one| one.place == own && one.sentence.contains(words))
        .collect()
}

/// Holes of so many cm² in all, half of them each side: `Δp = ρ/2 (Q/(Cd A))²`.
fn leaky(area_cm2: f64) -> Survey {
    let mut survey = bare();
    hole(&mut survey, Facing::Nearside, 1.5, 0.5 * area_cm2);
    hole(&mut survey, Facing::Offside, 1.5, 0.5 * area_cm2);
    survey
}

/// 1 500 m³/h through 4 cm²: 8.7 m³/h at 59.7 Pa, from the quadratic of a straight fan and a sharp
/// hole (ρ 1.204, Cd 0.61, 60 Pa [A]); a flow held fast would ask for 1.8 MPa and change the air 94
/// times an hour.
#[test]
fn a_strong_fan_through_four_square_centimetres_is_held_back() {
    let survey = with_fan(leaky(4.0), 1500.0);
    let answers = assess(&survey);
    for case in &answers.cases {
        let air = case.air.as_ref().unwrap();
        for direction in &air.directions {
            assert!(direction.inside_pressure > -75.0, "{direction:?}");
        }
        let per_hour = air.mean_ach_per_h.clone().unwrap() * 25.0;
        assert!((8.0..9.5).contains(&per_hour), "{per_hour} m³/h");
    }
    let fan = Place::at(Item::Fan(FanId(1)), Field::FanFlow);
    let found = answers.findings.iter().find(|one| one.place == fan);
    let found = found.expect("it is held back");
    assert_eq!(found.severity, Severity::Warning);
    assert!(
        found
            .sentence
            .replace('\u{a0}', " ")
            .contains("it moves 8."),
        "{found:?}"
    );
    // Where there is air enough, nothing is said.
    let answers = assess(&with_fan(leaky(2000.0), 300.0));
    assert!(answers.findings.iter().all(|one| one.place != fan));
}

/// 60 m³/h through 60 cm² takes `0.602 (0.01667/(0.61·0.006))² = 12.5 Pa`, by a fan held to 79 % of
/// that flow some 8 Pa: above 4. Through 200 cm² it takes 1.1 Pa.
#[test]
fn fans_that_lower_the_inside_by_more_than_four_pascals_endanger_an_open_flue() {
    let spills = "flue gas may spill";
    let tight = with_fan(leaky(60.0), 60.0);
    for kind in [
        ApplianceKind::SpaceHeater,
        ApplianceKind::WaterHeater,
        ApplianceKind::Stove,
        ApplianceKind::Other,
    ] {
        let found = of_appliance(&with_appliance(tight.clone(), kind, false), "the fans");
        assert_eq!(found.len(), 1, "{kind:?}");
        assert_eq!(found[0].severity, Severity::Danger);
        assert!(found[0].sentence.contains(spills), "{found:?}");
        let sealed = with_appliance(tight.clone(), kind, true);
        assert!(of_appliance(&sealed, "the fans").is_empty());
        let loose = with_appliance(with_fan(leaky(200.0), 60.0), kind, false);
        assert!(of_appliance(&loose, "the fans").is_empty());
    }
    // The fan does not run in use, or blows in: nothing is lowered.
    let stove = with_appliance(tight, ApplianceKind::Stove, false);
    let mut off = stove.clone();
    off.fans[0].on_in_use = false;
    assert!(of_appliance(&off, "the fans").is_empty());
    let mut supply = stove.clone();
    supply.fans[0].direction = FanDirection::Supply;
    assert!(of_appliance(&supply, "the fans").is_empty());
}

/// What closes counts as shut, whatever the set-up shown.
#[test]
fn an_open_window_does_not_hide_that_a_flue_is_drawn_back() {
    let mut survey = with_appliance(
        with_fan(leaky(60.0), 60.0),
        ApplianceKind::SpaceHeater,
        false,
    );
    let window = hole(&mut survey, Facing::Rear, 1.8, 2000.0);
    for (set_up, open) in [(SetUp::InUse, true), (SetUp::LaidUp, false)] {
        survey.set_up = set_up;
        super::gap_mut(&mut survey, window).closing = Some(Closing {
            open_laid_up: open,
            open_in_use: true,
            leaves_percent: 0.0,
        });
        let found = of_appliance(&survey, "the fans");
        assert_eq!(found.len(), 1, "{set_up:?}");
        assert_eq!(found[0].severity, Severity::Danger);
    }
}

#[test]
fn a_hob_keeps_its_extraction_and_is_given_a_supply_opening() {
    let survey = with_appliance(with_fan(leaky(60.0), 60.0), ApplianceKind::Hob, false);
    let found = of_appliance(&survey, "the fans");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].severity, Severity::Warning);
    assert!(found[0].advice.starts_with("keep the fan on"));
    assert!(found[0].advice.contains("supply opening"));
}

#[test]
fn a_flue_with_fans_and_no_sized_gap_is_not_known() {
    let survey = with_appliance(with_fan(bare(), 60.0), ApplianceKind::Stove, false);
    let found = of_appliance(&survey, "is not known: no gap entered yet");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].severity, Severity::Warning);
}

#[test]
fn an_open_flue_in_a_vehicle_short_of_safety_ventilation_is_a_danger() {
    let short = "safety ventilation falls short";
    let stove = with_appliance(leaky(60.0), ApplianceKind::Stove, false);
    let found = of_appliance(&stove, short);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].severity, Severity::Danger);
    for (kind, room_sealed) in [(ApplianceKind::Stove, true), (ApplianceKind::Hob, false)] {
        let other = with_appliance(leaky(60.0), kind, room_sealed);
        assert!(of_appliance(&other, short).is_empty(), "{kind:?}");
    }
}

/// `C = 420 + 10⁶ N G/Q`, G 13.6 L/h (EN 16798-1 [M]): the fan sets the flow, so that its steps are
/// known: two sleepers with 30 m³/h have 1 327 ppm, 20 m³/h 1 780, 5 m³/h 5 860, 1.5 m³/h 18 553.
#[test]
fn carbon_dioxide_has_its_steps_and_no_figure_beyond_forty_thousand() {
    let found = |fan_m3_per_h: f64, area_cm2: f64| {
        let mut survey = with_fan(bare(), fan_m3_per_h);
        survey.set_up = SetUp::InUse;
        survey.vehicle.berths = 2;
        let form = Form::RoundHole {
            diameter_mm: Some((area_cm2 * 400.0 / std::f64::consts::PI).sqrt()),
        };
        add(&mut survey, Facing::Rear, 1.5, form);
        let berths = Place::at(Item::Vehicle, Field::Berths);
        let mut all = assess(&survey).findings.into_iter();
        all.find(|one| one.place == berths && one.sentence.contains("carbon dioxide"))
            .map(|one| (one.severity, one.sentence))
    };
    assert_eq!(found(40.0, 100.0), None);
    let severity = |flow, area| found(flow, area).map(|(severity, _)| severity);
    assert_eq!(severity(20.0, 100.0), Some(Severity::Note));
    assert_eq!(severity(5.0, 10.0), Some(Severity::Warning));
    assert_eq!(severity(1.5, 5.0), Some(Severity::Danger));
    let (severity, sentence) = found(0.2, 0.3).unwrap();
    assert_eq!(severity, Severity::Danger);
    assert!(sentence.contains("beyond 40 000 ppm"), "{sentence}");
    // Nobody sleeps in it while it is laid up.
    let mut survey = with_fan(leaky(1.0), 0.2);
    survey.set_up = SetUp::LaidUp;
    let answers = assess(&survey);
    let told = answers.findings.iter();
    assert_eq!(
        told.filter(|one| one.sentence.contains("carbon dioxide"))
            .count(),
        0
    );
}

/// The same steps where the sleepers' own space is shut off: what a garage gets is none of theirs. A
/// supply fan of 5 m³/h in it and one of 1.5 m³/h where they sleep: `420 + 10⁶·2·13.6/1500 = 18 553`
/// ppm, not that of 6.5 m³/h, 4 605. Through a doorway some of it goes on to them.
#[test]
fn what_comes_into_the_garage_is_no_air_of_the_sleepers() {
    use crate::survey::{InnerOpening, InnerOpeningId, InsideAir, Space, SpaceId};
    let space = |id, name: &str| Space {
        id: SpaceId(id),
        name: name.to_owned(),
        volume_m3: None,
        warmer_by_k: 0.0,
    };
    let mut survey = with_fan(bare(), 1.5);
    survey.set_up = SetUp::InUse;
    survey.vehicle.berths = 2;
    survey.spaces = vec![space(1, "living space"), space(2, "garage")];
    let mut other = survey.fans[0].clone();
    (other.id, other.flow_m3_per_h, other.space) = (FanId(2), Some(5.0), Some(SpaceId(2)));
    survey.fans.push(other);
    for case in &mut survey.weather {
        (case.wind_m_s, case.inside) = (0.0, InsideAir::WarmerBy { kelvin: 0.0 });
    }
    for fan in &mut survey.fans {
        fan.direction = FanDirection::Supply;
    }
    // Small enough that hardly anything else comes in, wide enough that the fans are not held back.
    for space in [1, 2] {
        let own = hole(&mut survey, Facing::Rear, 1.5, 5.0);
        super::gap_mut(&mut survey, own).space = Some(SpaceId(space));
    }
    let told = |survey: &Survey| {
        let mut all = assess(survey).findings.into_iter();
        all.find(|one| one.sentence.contains("carbon dioxide"))
            .map(|one| (one.severity, one.sentence))
            .unwrap()
    };
    let (severity, sentence) = told(&survey);
    assert_eq!(severity, Severity::Danger, "{sentence}");
    assert!(
        sentence.contains("at 18000 ppm") || sentence.contains("at 19000 ppm"),
        "{sentence}"
    );
    let form = Form::RectangularHole {
        width_mm: Some(600.0),
        height_mm: Some(1700.0),
    };
    let mut door = InnerOpening::new(InnerOpeningId(1), SpaceId(1), SpaceId(2), form);
    (door.height_m, door.rise_m) = (Some(1.5), Some(1.7));
    survey.inner_openings.push(door);
    let (severity, sentence) = told(&survey);
    assert!(severity > Severity::Danger, "{sentence}");
}
