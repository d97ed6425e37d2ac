//! Impossible input: plain words, and no number that means nothing.

use super::*;
use crate::survey::{MachinePoint, Severity, findings::find};

fn reason<T: std::fmt::Debug>(answer: Answer<T>) -> String {
    answer.expect_err("not known").reason
}

#[test]
fn targets_that_cannot_be_give_no_comparison() {
    for rh in [0.0, 100.0, -5.0, f64::NAN] {
        let mut survey = body();
        survey.targets.rh_percent = rh;
        assert!(
            reason(compare(&survey)).contains("target relative humidity"),
            "{rh}"
        );
    }
}

#[test]
fn without_fabric_or_gaps_nothing_is_compared() {
    let mut bare = body();
    bare.fabric.clear();
    assert!(reason(compare(&bare)).contains("no walls, roof or floor"));
    let mut unseen = body();
    unseen.gaps.clear();
    assert!(reason(compare(&unseen)).contains("no gap"));
    let mut calm = body();
    calm.weather.clear();
    assert!(reason(compare(&calm)).contains("weather case"));
}

#[test]
fn a_target_below_what_outside_air_allows_is_told() {
    let mut survey = body();
    survey.targets.rh_percent = 40.0;
    let told = compared(&survey)
        .findings
        .into_iter()
        .find(|finding| finding.place.item == Item::Targets)
        .expect("a finding");
    assert_eq!(told.severity, Severity::Note);
    // 6 °C 85 % at the set 10 °C: 0.85 × 935.3/1228.2 = 64.7 %.
    assert!(
        told.sentence.contains("comes to 65\u{a0}% at 10"),
        "{}",
        told.sentence
    );
    survey.targets.rh_percent = 70.0;
    let findings = compared(&survey).findings;
    assert!(
        findings
            .iter()
            .all(|finding| finding.place.item != Item::Targets)
    );
}

#[test]
fn warmer_outside_than_inside_needs_no_heat_and_is_told() {
    let mut survey = body();
    for case in &mut survey.weather {
        case.outside_c = 24.0;
    }
    survey.targets.design_outside_c = 20.0;
    let comparison = compared(&survey);
    assert!(comparison.findings.iter().any(|finding| {
        matches!(finding.place.item, Item::Weather(_))
            && finding.sentence.contains("warmer outside")
    }));
    assert!(still(&comparison, OptionKind::BackgroundHeat).heater_w == 0.0);
    for size in &comparison.sizing.heaters {
        assert_eq!(size.kwh_per_month, Ok(0.0));
        assert_eq!(size.rating_w, Ok(0.0));
    }
    assert_eq!(comparison.warm_up[0].power_for_an_hour_w, Ok(0.0));
}

#[test]
fn a_heater_without_rating_is_not_guessed() {
    let mut survey = body();
    survey.heaters = vec![own_heater(1, HeaterFuel::Electricity, None, Some(10.0))];
    let comparison = compared(&survey);
    let heated = option(&comparison, OptionKind::BackgroundHeat);
    assert!(reason(heated.cases[0].clone()).contains("rating of heater"));
    assert!(heated.sentence.starts_with("not known: the rating"));
    assert!(heated.verdict.is_err() && heated.costs.per_month.is_err());
    assert!(matches!(&heated.supply, Some(Err(_))));
    // The others are known all the same.
    assert!(option(&comparison, COMPRESSOR).verdict.is_ok());
}

#[test]
fn a_heater_that_would_bake_the_vehicle_is_told_so() {
    let mut survey = body();
    survey.heaters = vec![own_heater(1, HeaterFuel::Electricity, Some(30_000.0), None)];
    let comparison = compared(&survey);
    let heated = option(&comparison, OptionKind::BackgroundHeat);
    assert!(reason(heated.cases[0].clone()).contains("thermostat"));
}

#[test]
fn contradicting_figures_are_an_error_at_the_machine() {
    let mut survey = body();
    let mut machine = own_machine(7, MachineKind::Compressor, 6.0, 250.0);
    machine.points = vec![MachinePoint {
        temperature_c: 25.0,
        rh_percent: 70.0,
        removal_l_per_day: 2.0,
        power_w: 250.0,
    }];
    survey.machines = vec![machine];
    let error = find(&survey)
        .into_iter()
        .find(|finding| finding.severity == Severity::Error)
        .expect("an error");
    assert_eq!(error.place.item, Item::Machine(MachineId(7)));
    assert!(
        error.sentence.contains("contradict each other"),
        "{}",
        error.sentence
    );
    let comparison = compared(&survey);
    let own = option(&comparison, COMPRESSOR);
    assert!(reason(own.cases[0].clone()).contains("contradict"));
    assert!(own.verdict.is_err());
    assert!(option(&comparison, ROTOR).verdict.is_ok());
}

#[test]
fn a_figure_without_its_state_gives_no_result() {
    let mut survey = body();
    let mut machine = own_machine(1, MachineKind::Compressor, 6.0, 250.0);
    machine.rated_rh_percent = None;
    survey.machines = vec![machine.clone()];
    let own = compared(&survey);
    assert!(reason(option(&own, COMPRESSOR).cases[0].clone()).contains("temperature and humidity"));
    machine.rated_rh_percent = Some(60.0);
    machine.power_w = None;
    survey.machines = vec![machine];
    let own = compared(&survey);
    assert!(reason(option(&own, COMPRESSOR).cases[0].clone()).contains("the power of"));
}

/// Its heat is not known, which is another thing than no heat.
#[test]
fn the_heat_of_a_machine_without_watts_is_not_known() {
    let mut survey = body();
    let mut machine = own_machine(1, MachineKind::Compressor, 10.0, 280.0);
    machine.power_w = None;
    survey.machines = vec![machine.clone()];
    let comparison = compared(&survey);
    for kind in [COMPRESSOR, OptionKind::SameHeat, OptionKind::HeatAndMachine] {
        let option = option(&comparison, kind);
        assert!(option.verdict.is_err(), "{kind:?}");
        let why = reason(option.cases[0].clone());
        assert!(why.contains("the power of"), "{kind:?}: {why}");
        assert!(option.sentence.starts_with("not known"), "{kind:?}");
    }
    // Beside one whose watts are given that one is the large machine, whatever its order.
    let known = own_machine(2, MachineKind::Compressor, 8.0, 200.0);
    for machines in [
        vec![machine.clone(), known.clone()],
        vec![known.clone(), machine],
    ] {
        survey.machines = machines;
        let comparison = compared(&survey);
        let same = option(&comparison, OptionKind::SameHeat);
        assert!(same.name.ends_with(&known.name), "{}", same.name);
        assert!(same.verdict.is_ok());
        let both = option(&comparison, OptionKind::HeatAndMachine);
        assert_eq!(both.machine, Some(known.id));
    }
}

#[test]
fn an_impossible_weather_case_leaves_the_others() {
    let mut survey = body();
    survey.weather[1].outside_rh_percent = 140.0;
    let comparison = compared(&survey);
    let cases = &option(&comparison, OptionKind::Nothing).cases;
    assert!(cases[0].is_ok() && cases[1].is_err() && cases[2].is_ok());
    // Half of the season is not known, so neither is the season.
    let nothing = option(&comparison, OptionKind::Nothing);
    assert!(reason(nothing.verdict.clone()).contains("140"));
    assert!(nothing.kwh_per_month.is_err());
    // It does not matter where it is no part of the season.
    survey.weather[1].weight = 0.0;
    let comparison = compared(&survey);
    let nothing = option(&comparison, OptionKind::Nothing);
    assert_eq!(nothing.verdict, Ok(Verdict::Never));
}

#[test]
fn a_source_without_rate_gives_no_comparison() {
    let mut survey = body();
    survey.sources = vec![crate::survey::MoistureSource {
        id: crate::survey::SourceId(1),
        name: "plants".to_owned(),
        kind: crate::survey::SourceKind::Other,
        count: 1,
        rate_g_per_h: None,
        hours_per_day: 24.0,
        laid_up: true,
        in_use: true,
    }];
    assert!(reason(compare(&survey)).contains("plants"));
}

#[test]
fn no_survey_makes_it_panic_or_give_a_number_that_is_none() {
    let values = [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300];
    let setters: [fn(&mut Survey, f64); 10] = [
        |s, v| s.drying.sun_w = v,
        |s, v| s.drying.contents_kg = Some(v),
        |s, v| s.drying.battery_wh = Some(v),
        |s, v| s.weather[0].outside_c = v,
        |s, v| s.weather[0].wind_m_s = v,
        |s, v| s.targets.set_temperature_c = v,
        |s, v| s.fabric[0].area_m2 = Some(v),
        |s, v| s.vehicle.volume_m3 = Some(v),
        |s, v| s.machines[0].rated_removal_l_per_day = Some(v),
        |s, v| s.heaters[0].rating_w = Some(v),
    ];
    for set in setters {
        for value in values {
            let mut survey = body();
            survey.machines = vec![own_machine(1, MachineKind::Compressor, 6.0, 250.0)];
            survey.heaters = vec![own_heater(
                1,
                HeaterFuel::Electricity,
                Some(500.0),
                Some(9.0),
            )];
            set(&mut survey, value);
            let Ok(comparison) = compare(&survey) else {
                continue;
            };
            for case in comparison
                .options
                .iter()
                .flat_map(|option| option.cases.iter().flatten())
            {
                let numbers = [
                    case.rh,
                    case.inside.t_c,
                    case.removal_kg_s,
                    case.load_kg_s,
                    case.duty,
                ];
                assert!(
                    numbers.iter().all(|number| number.is_finite()),
                    "{value} {case:?}"
                );
                assert!((0.0..=1.0).contains(&case.rh));
            }
        }
    }
}
