//! What must hold whatever the vehicle.

use super::*;
use crate::physics::coupled::Running;
use crate::survey::{Closing, CostBasis, Purpose, Remedy, RemedyKind, WorkState};

#[test]
fn with_nothing_done_and_nothing_inside_the_water_is_that_of_outside() {
    let comparison = compared(&body());
    for case in &option(&comparison, OptionKind::Nothing).cases {
        let case = case.as_ref().expect("a state");
        assert!((case.inside.t_c - 6.0).abs() < 1e-9);
        assert!((case.rh - 0.85).abs() < 1e-9);
    }
}

#[test]
fn warmth_alone_reaches_the_target_at_the_temperature_given() {
    let mut survey = body();
    let before = compared(&survey);
    let warmth = before.cases[0].warmth_alone_c.clone().expect("known");
    survey.heaters = vec![own_heater(
        1,
        HeaterFuel::Electricity,
        Some(3000.0),
        Some(warmth),
    )];
    let comparison = compared(&survey);
    let heated = option(&comparison, OptionKind::BackgroundHeat);
    assert_eq!(heated.verdict, Ok(Verdict::Always));
    let case = still(&comparison, OptionKind::BackgroundHeat);
    assert!((case.rh - 0.55).abs() < 1e-9 && (case.inside.t_c - warmth).abs() < 1e-9);
}

#[test]
fn a_hygrostat_holds_the_target_and_a_larger_machine_runs_less() {
    let mut survey = body();
    let mut duty = f64::INFINITY;
    for litres in [10.0, 20.0, 40.0] {
        survey.machines = vec![own_machine(1, MachineKind::DesiccantRotor, litres, 900.0)];
        let comparison = compared(&survey);
        let case = still(&comparison, ROTOR);
        assert!((case.rh - 0.55).abs() < 1e-9 && case.holds);
        assert!(case.duty < duty && case.duty < 1.0);
        duty = case.duty;
        assert!((case.removal_kg_s - case.load_kg_s).abs() < 1e-12);
        assert!(still(&comparison, ROTOR).energy.kwh_per_day < 0.9 * 24.0);
    }
}

#[test]
fn where_a_machine_is_too_cold_to_start_its_heat_alone_still_warms() {
    let mut survey = body();
    for case in &mut survey.weather {
        case.outside_c = 2.0;
    }
    survey.machines = vec![own_machine(1, MachineKind::Compressor, 10.0, 280.0)];
    let comparison = compared(&survey);
    assert_eq!(windy(&comparison, COMPRESSOR).running, Running::TooCold);
    let same = windy(&comparison, OptionKind::SameHeat);
    assert!((same.heater_w - 280.0).abs() < 1e-9);
    let nothing = windy(&comparison, OptionKind::Nothing);
    assert!(same.inside.t_c > nothing.inside.t_c + 1.0 && same.rh < nothing.rh - 0.05);
}

#[test]
fn sealing_lowers_what_has_to_be_removed() {
    let mut survey = body();
    let before = compared(&survey);
    for gap in &mut survey.gaps[..2] {
        gap.state = WorkState::Sealed;
        gap.remedy = Some(Remedy {
            kind: RemedyKind::Sealant,
            words: String::new(),
            leak_left_percent: Some(10.0),
            material_cost: None,
            cost_basis: CostBasis::Piece,
            minutes: None,
        });
    }
    let after = compared(&survey);
    let load = |comparison: &Comparison| windy(comparison, OptionKind::Nothing).load_kg_s;
    assert!(load(&after) < 0.8 * load(&before));
    // The rotor holds the target before and after, and runs less.
    assert!(windy(&after, ROTOR).duty < windy(&before, ROTOR).duty);
}

#[test]
fn open_ventilators_and_lockers_let_more_air_through() {
    let mut survey = body();
    // Nothing to open: as with nothing done.
    let comparison = compared(&survey);
    let none = option(&comparison, OptionKind::LockersOpen);
    assert_eq!(none.verdict, Ok(Verdict::NothingToOpen));
    assert!(
        none.sentence.starts_with("nothing to open"),
        "{}",
        none.sentence
    );
    assert_eq!(none.signed_verdict(&comparison), "ℹ nothing to open");
    assert_eq!(none.cases, option(&comparison, OptionKind::Nothing).cases);
    let mut vent = hole(5, Facing::Roof, 2.6, 150.0);
    vent.purpose = Purpose::UserVentilation;
    vent.closing = Some(Closing::CLOSED);
    survey.gaps.push(vent);
    let comparison = compared(&survey);
    let (shut, open) = (
        windy(&comparison, OptionKind::Nothing),
        windy(&comparison, OptionKind::LockersOpen),
    );
    assert!(open.dry_air_kg_s > 1.05 * shut.dry_air_kg_s);
    // More outside air dries nothing in this weather: the same 85 %.
    assert!((open.rh - 0.85).abs() < 1e-9);
    assert!(open.load_kg_s > shut.load_kg_s);
}

#[test]
fn sleepers_warm_and_wet_the_air() {
    // Two sleepers all day: 80 g/h (BS 5250 [M]) and 0.7 met less the heat of that water [M].
    let mut survey = body();
    survey.set_up = SetUp::InUse;
    survey.sources = vec![sleepers()];
    let comparison = compared(&survey);
    let case = windy(&comparison, OptionKind::Nothing);
    let outside = comparison.cases[comparison.windiest]
        .outside
        .clone()
        .expect("known");
    let carried = case.dry_air_kg_s * (case.inside.humidity_ratio - outside.humidity_ratio);
    assert!((carried * 3.6e6 - 80.0).abs() < 1e-6);
    // They are kept at comfort, and give off part of the heat that takes.
    assert!((case.inside.t_c - survey.targets.comfort_c).abs() < 1e-9);
    let heat = 2.0 * (0.7 * 58.2 * 1.8 - 0.040 / 3600.0 * 2.5e6);
    let conductance = 62.0 + case.dry_air_kg_s * (1006.0 + 1860.0 * outside.humidity_ratio);
    assert!((case.heater_w + heat - conductance * (case.inside.t_c - 6.0)).abs() < 1e-6);
    // Laid up nobody is there.
    survey.set_up = SetUp::LaidUp;
    assert!((windy(&compared(&survey), OptionKind::Nothing).rh - 0.85).abs() < 1e-9);
}

#[test]
fn an_unflued_heater_dries_less_than_a_flued_one() {
    let mut survey = body();
    survey.heaters = vec![
        own_heater(1, HeaterFuel::FluedGas, Some(400.0), None),
        own_heater(2, HeaterFuel::UnfluedGas, Some(400.0), None),
    ];
    let comparison = compared(&survey);
    let heated: Vec<&OptionAnswer> = comparison
        .options
        .iter()
        .filter(|option| option.kind == OptionKind::BackgroundHeat)
        .collect();
    let rh = |at: usize| heated[at].cases[0].as_ref().expect("a state").rh;
    assert!(rh(1) > rh(0) + 0.02, "{} {}", rh(0), rh(1));
    let fall = heated[1].cases[0]
        .as_ref()
        .expect("a state")
        .fall
        .expect("a fall");
    assert!(
        fall.warmth_share > 1.0 && fall.water_share < 0.0,
        "{fall:?}"
    );
}

#[test]
fn contents_dry_out_by_what_is_spare() {
    let mut survey = body();
    survey.drying = Drying {
        contents_kg: Some(400.0),
        contents_moisture_percent: Some(18.0),
        ..Drying::default()
    };
    survey.machines = vec![own_machine(1, MachineKind::DesiccantRotor, 10.0, 700.0)];
    let comparison = compared(&survey);
    let out = still(&comparison, ROTOR).dry_out.expect("recorded");
    // Wood Handbook [M]: about 10.3 % at 10 °C and 55 %.
    assert!((out.balance_moisture - 0.103).abs() < 0.002, "{out:?}");
    assert!((out.water_kg - 400.0 * (0.18 - out.balance_moisture)).abs() < 1e-9);
    let days = out.days.expect("something to spare");
    assert!((days * out.spare_kg_s * DAY - out.water_kg).abs() < 1e-9);
    assert!((2.0..20.0).contains(&days), "{days}");
    assert!(
        windy(&comparison, TUB)
            .dry_out
            .expect("recorded")
            .days
            .is_none()
    );
}

#[test]
fn the_same_survey_gives_the_same_comparison() {
    assert_eq!(compared(&body()), compared(&body()));
}
