//! What stands against an option: flames without a flue, and current that the supply does not give.

use super::*;
use crate::assess::in_short::{ComfortHeat, Pick, comfort_heat, pick};

/// In use with two sleepers, heated by what is given.
fn used(heaters: Vec<Heater>) -> Survey {
    let mut survey = body();
    survey.set_up = SetUp::InUse;
    survey.sources = vec![sleepers()];
    survey.targets.rh_percent = 70.0;
    survey.heaters = heaters;
    survey
}

/// METHOD: carbon monoxide; nobody heats or dries a closed vehicle by it, whoever watches.
#[test]
fn a_flame_without_a_flue_is_never_advised_whoever_is_there() {
    for set_up in SetUp::ALL {
        let mut survey = used(vec![own_heater(
            1,
            HeaterFuel::UnfluedGas,
            Some(6000.0),
            None,
        )]);
        survey.set_up = set_up;
        let comparison = compared(&survey);
        let mut told = 0;
        for option in &comparison.options {
            if option.heater.is_none() {
                continue;
            }
            told += 1;
            assert_eq!(option.provisos.first(), Some(&Proviso::Unflued));
            assert_ne!(option.standing(), Standing::Well, "{}", option.name);
        }
        assert_eq!(told, 2);
        if let Pick::Take(at) = pick(&comparison) {
            assert_eq!(comparison.options[at].heater, None);
        }
    }
}

/// 2000 W + 330 W at 230 V are 10.1 A; 330 W alone are 1.4 A.
#[test]
fn in_use_the_electric_heater_runs_on_the_same_supply_as_the_machine() {
    let electric = own_heater(1, HeaterFuel::Electricity, Some(2000.0), None);
    let mut survey = used(vec![electric]);
    let amperes = |comparison: &Comparison, kind| {
        let supply = option(comparison, kind).supply.clone();
        supply.expect("it draws").expect("known").current_a
    };
    survey.drying.hookup_a = Some(10.0);
    let comparison = compared(&survey);
    let both = (2000.0 + 330.0) / 230.0;
    assert!((amperes(&comparison, ROTOR) - both).abs() < 1e-9);
    let rotor = option(&comparison, ROTOR);
    assert!(rotor.provisos.contains(&Proviso::OverSupply));
    assert_ne!(rotor.standing(), Standing::Well);
    assert!(
        !option(&comparison, OptionKind::Nothing)
            .provisos
            .contains(&Proviso::OverSupply)
    );
    // 2000 W alone are 8.7 A.
    survey.drying.hookup_a = Some(4.0);
    let comparison = compared(&survey);
    let idle = option(&comparison, OptionKind::Nothing);
    assert!(idle.provisos.contains(&Proviso::OverSupply));
    assert_ne!(pick(&comparison), Pick::NothingNeeded);
    assert_eq!(comparison.over_the_supply().count(), 2);
    // While laid up nothing heats beside a machine.
    survey.set_up = SetUp::LaidUp;
    let alone = 330.0 / 230.0;
    assert!((amperes(&compared(&survey), ROTOR) - alone).abs() < 1e-9);
}

#[test]
fn heat_to_comfort_is_there_only_where_a_sound_heater_gives_it() {
    let heat = |heaters| comfort_heat(&compared(&used(heaters)));
    let of = |fuel, watts| vec![own_heater(1, fuel, Some(watts), None)];
    let owned = |mut heaters: Vec<Heater>| {
        heaters.iter_mut().for_each(|heater| heater.owned = true);
        heaters
    };
    let lacking = |heat| match heat {
        Some(ComfortHeat::Lacking {
            look_for_w: Some(watts),
            too_weak,
        }) if watts > 500.0 => Some(too_weak),
        _ => None,
    };
    assert_eq!(lacking(heat(Vec::new())), Some(false));
    let flued = HeaterFuel::FluedGas;
    assert_eq!(heat(owned(of(flued, 6000.0))), Some(ComfortHeat::There));
    assert_eq!(lacking(heat(owned(of(flued, 300.0)))), Some(true));
    let unflued = owned(of(HeaterFuel::UnfluedGas, 6000.0));
    assert_eq!(lacking(heat(unflued)), Some(false));
    let mut to_buy = of(flued, 6000.0);
    to_buy[0].owned = false;
    to_buy[0].price = Some(500.0);
    assert_eq!(lacking(heat(to_buy)), Some(false));
    let unrated = owned(vec![own_heater(1, flued, None, None)]);
    assert_eq!(heat(unrated), Some(ComfortHeat::NotKnown));
    let mut laid_up = used(owned(of(flued, 6000.0)));
    laid_up.set_up = SetUp::LaidUp;
    assert_eq!(comfort_heat(&compared(&laid_up)), None);
}
