use super::*;
use crate::assess::drying::{OptionAnswer, OptionKind, Standing, ToBuy, library};
use crate::assess::{Study, compare};
use crate::survey::file::parse;
use crate::survey::{MachineId, Survey, WorkState};

const SAMPLES: [&str; 7] = [
    include_str!("../../../sample-surveys/coastal-coachbuilt.ron"),
    include_str!("../../../sample-surveys/farmyard-caravan.ron"),
    include_str!("../../../sample-surveys/forest-integrated.ron"),
    include_str!("../../../sample-surveys/orchard-trial.ron"),
    include_str!("../../../sample-surveys/street-panel-van.ron"),
    include_str!("../../../sample-surveys/two-opening-check.ron"),
    include_str!("../../../sample-surveys/vineyard-coachbuilt.ron"),
];

fn samples() -> impl Iterator<Item = Survey> {
    SAMPLES.iter().map(|text| parse(text).expect("a sample"))
}

/// Thirty days of a winter make nothing cheap to run.
#[test]
fn what_is_taken_does_not_hang_on_how_few_days_of_winter_were_run() {
    let mut taken = 0;
    for survey in samples() {
        let Ok(mut comparison) = compare(&survey) else {
            continue;
        };
        let before = pick(&comparison);
        for option in &mut comparison.options {
            option.costs.per_winter = Ok(0.01);
        }
        assert_eq!(pick(&comparison), before);
        taken += usize::from(matches!(before, Pick::Take(_)));
    }
    assert!(taken > 1);
}

#[test]
fn what_is_cheaper_in_time_costs_as_much_when_it_is_said_to_and_less_behind() {
    let mut told = 0;
    for survey in samples() {
        for owned in [true, false] {
            let mut survey = survey.clone();
            survey
                .machines
                .iter_mut()
                .for_each(|machine| machine.owned = owned);
            survey.set_up = crate::survey::SetUp::LaidUp;
            let Ok(comparison) = compare(&survey) else {
                continue;
            };
            let Pick::Take(at) = pick(&comparison) else {
                continue;
            };
            let Some((other, months)) = cheaper_in_time(&comparison, at) else {
                continue;
            };
            let spent = |at: usize, months: f64| {
                let option = &comparison.options[at];
                let month = option.costs.per_month.clone().expect("priced");
                option.to_buy.money().expect("priced") + months * month
            };
            assert!((spent(at, months) - spent(other, months)).abs() < 1e-6);
            assert!(spent(other, months + 1.0) < spent(at, months + 1.0));
            assert_eq!(comparison.options[other].standing(), Standing::Well);
            told += 1;
        }
    }
    assert!(told > 0);
}

fn money(option: &OptionAnswer) -> Option<f64> {
    let winter = option.costs.per_winter.as_ref().ok()?;
    Some(option.to_buy.money().ok()? + WINTERS * winter)
}

/// The gaps are sealed in the survey itself, each with its own remedy, and everything is worked out
/// from nothing.
#[test]
fn what_sealing_first_is_said_to_gain_comes_about_when_it_is_done() {
    let mut followed = 0;
    for mut survey in samples() {
        let study = Study::of(&survey);
        let Ok(Some(first)) = study.first() else {
            continue;
        };
        assert!(first.gaps.len() <= 5 && !first.gaps.is_empty());
        for one in &first.gaps {
            let gap = survey.gaps.iter_mut().find(|gap| gap.id == one.gap());
            let gap = gap.expect("a gap of the survey");
            gap.remedy = Some(one.remedy().clone());
            gap.state = WorkState::Sealed;
            // After every test of the samples.
            gap.state_date = "2031-01-01".to_owned();
        }
        // One sample has no walls: nothing is compared there.
        let (Ok(then), Ok(told)) = (compare(&survey), &first.comparison) else {
            continue;
        };
        for (told, then) in told.options.iter().zip(&then.options) {
            assert_eq!(told.verdict, then.verdict, "{}", then.name);
            assert_eq!(told.costs, then.costs, "{}", then.name);
        }
        let after = Study::of(&survey);
        let figures = after.prospect().expect("known").before().clone();
        let ach = figures.ach_windy_per_h.expect("known");
        let promised = first.plan.after.ach_windy_per_h.clone().expect("known");
        assert!((ach / promised - 1.0).abs() < 1e-3, "{ach} for {promised}");
        followed += 1;
    }
    assert!(followed >= 4, "{followed}");
}

/// What is named to be bought is written down as there, and the comparison made anew.
#[test]
fn what_is_to_be_bought_holds_the_target_as_long_as_was_said_once_it_is_there() {
    let mut bought = 0;
    for mut survey in samples() {
        let Ok(before) = compare(&survey) else {
            continue;
        };
        let Pick::Take(at) = pick(&before) else {
            continue;
        };
        let said = &before.options[at];
        if let (OptionKind::Machine(kind), true) = (said.kind, said.generic) {
            let mut machine = library::machine(kind);
            (machine.id, machine.owned) = (MachineId(900), true);
            survey.machines.push(machine);
        }
        for machine in &mut survey.machines {
            machine.owned |= Some(machine.id) == said.machine;
        }
        for heater in &mut survey.heaters {
            heater.owned |= Some(heater.id) == said.heater;
        }
        let then = compare(&survey).expect("a comparison");
        let same = then.options.iter().find(|one| one.name == said.name);
        let same = same.expect("the option");
        assert_eq!(same.verdict, said.verdict);
        assert_eq!(same.standing(), Standing::Well);
        assert_eq!(same.costs, said.costs);
        assert!(matches!(same.to_buy, ToBuy::Owned | ToBuy::Nothing));
        bought += 1;
    }
    assert!(bought > 0);
}

#[test]
fn no_option_that_suffices_costs_less_than_the_one_named_and_none_with_a_proviso_is() {
    for survey in samples() {
        for set_up in crate::survey::SetUp::ALL {
            let mut survey = survey.clone();
            survey.set_up = set_up;
            let Ok(comparison) = compare(&survey) else {
                continue;
            };
            let Pick::Take(at) = pick(&comparison) else {
                continue;
            };
            let taken = &comparison.options[at];
            assert!(taken.provisos.is_empty(), "{}", taken.name);
            let cost = money(taken);
            for other in &comparison.options {
                let real = !matches!(other.kind, OptionKind::Nothing | OptionKind::SameHeat);
                if let (true, Some(cost), Some(other_cost)) = (
                    real && other.standing() == Standing::Well,
                    cost,
                    money(other),
                ) {
                    assert!(cost <= other_cost, "{}", other.name);
                }
            }
        }
    }
}

#[test]
fn with_an_unconfirmed_list_of_appliances_nothing_is_to_be_sealed_first() {
    for mut survey in samples() {
        survey.appliances_confirmed = false;
        for gap in &mut survey.gaps {
            gap.state = WorkState::Open;
        }
        let study = Study::of(&survey);
        assert!(matches!(study.first(), Ok(None) | Err(_)));
    }
}

fn farmyard() -> Survey {
    parse(SAMPLES[1]).expect("a sample")
}

/// Of machines that do the same the one that is there, where no price of power is written down.
#[test]
fn what_is_there_is_taken_before_what_has_to_be_bought_where_no_costs_are_known() {
    let mut comparison = compare(&farmyard()).expect("a comparison");
    for option in &mut comparison.options {
        option.provisos.clear();
        option.verdict = Ok(match option.kind {
            OptionKind::Machine(_) => crate::assess::drying::Verdict::Always,
            _ => crate::assess::drying::Verdict::Never,
        });
        option.costs.per_month = Err(crate::assess::NotKnown::because("no price of power"));
        option.to_buy = ToBuy::Costs(Ok(190.0));
    }
    let last = comparison
        .options
        .iter()
        .rposition(|option| matches!(option.kind, OptionKind::Machine(_)))
        .expect("a machine");
    comparison.options[last].to_buy = ToBuy::Owned;
    assert_eq!(pick(&comparison), Pick::Take(last));
    assert!(!is_priced(&comparison.options[last]));
    // Another with a known price does not drive it out either.
    let other = last - 1;
    comparison.options[other].costs.per_month = Ok(1.0);
    assert_eq!(pick(&comparison), Pick::Take(last));
    comparison.options[other].to_buy = ToBuy::Owned;
    assert_eq!(pick(&comparison), Pick::Take(other));
}

#[test]
fn what_holds_no_longer_than_nothing_is_not_the_longest() {
    use crate::assess::drying::Verdict::Partly;
    let mut comparison = compare(&farmyard()).expect("a comparison");
    for option in &mut comparison.options {
        option.provisos.clear();
        option.verdict = Ok(Partly(0.7));
    }
    assert_eq!(pick(&comparison), Pick::NoneSuffices(None));
    comparison.options[2].verdict = Ok(Partly(0.72));
    assert_eq!(pick(&comparison), Pick::NoneSuffices(Some(2)));
}

/// A wheel without a hygrostat runs all the time, though it removes four times the load.
#[test]
fn a_machine_that_cannot_switch_off_has_a_reserve_where_it_removes_more_than_the_load() {
    let mut comparison = compare(&farmyard()).expect("a comparison");
    let option = |load: f64, removal: f64, duty: f64| {
        let machine = |one: &&OptionAnswer| {
            matches!(
                one.kind,
                OptionKind::Machine(crate::survey::MachineKind::DesiccantRotor)
            )
        };
        let mut option = comparison
            .options
            .iter()
            .find(machine)
            .cloned()
            .expect("a rotor");
        for case in option.cases.iter_mut().flatten() {
            (case.holds, case.duty) = (true, duty);
            (case.load_kg_s, case.removal_kg_s) = (load, removal);
        }
        option
    };
    let spare = option(1.2, 4.2, 1.0);
    let none = option(4.1, 4.2, 1.0);
    let (hygrostat, idle) = (option(4.2, 4.2, 0.95), option(1.2, 0.0, 0.0));
    comparison
        .cases
        .iter_mut()
        .for_each(|case| case.share = 0.25);
    assert_eq!(no_reserve(&comparison, &spare), None);
    assert_eq!(no_reserve(&comparison, &idle), None);
    assert_eq!(
        no_reserve(&comparison, &none).map(|(_, duty)| duty),
        Some(1.0)
    );
    assert_eq!(
        no_reserve(&comparison, &hygrostat).map(|(_, duty)| duty),
        Some(0.95)
    );
}

#[test]
fn gaps_that_keep_out_next_to_nothing_are_not_sealed_first() {
    let survey = farmyard();
    let study = Study::of(&survey);
    let Ok(Some(first)) = study.first() else {
        panic!("gaps to seal");
    };
    assert!(first.is_worth_it());
    let mut same = first.clone();
    same.plan.after = same.plan.before.clone();
    assert!(!same.is_worth_it());
}

#[test]
fn what_sealing_undoes_is_the_option_that_is_advised_and_no_longer_suffices() {
    let survey = farmyard();
    let study = Study::of(&survey);
    let (Ok(now), Ok(Some(first))) = (study.comparison(), study.first()) else {
        panic!("gaps to seal");
    };
    let Pick::Take(at) = pick(now) else {
        panic!("an option");
    };
    assert_eq!(undone(now, first), None);
    let mut worse = first.clone();
    let then = worse.comparison.as_mut().expect("a comparison");
    then.options[at].verdict = Ok(crate::assess::drying::Verdict::Never);
    assert_eq!(
        undone(now, &worse).map(|option| &option.name),
        Some(&now.options[at].name)
    );
}
