//! Energy, money and supply.

use super::*;
use crate::survey::Field;

#[test]
fn a_machine_that_runs_all_the_time_costs_its_power() {
    // 280 W is 6.72 kWh a day, 204.5 kWh in a mean month of 30.4375 days; at 0.30 a day 2.016.
    let mut survey = body();
    survey.targets.rh_percent = 20.0;
    survey.tariffs.electricity_per_kwh = Some(0.30);
    let comparison = compared(&survey);
    let energy = &still(&comparison, COMPRESSOR).energy;
    assert!((energy.kwh_per_day - 6.72).abs() < 1e-9);
    assert!((energy.cost_per_day.clone().expect("a price") - 2.016).abs() < 1e-9);
    let month = option(&comparison, COMPRESSOR);
    assert!((month.kwh_per_month.clone().expect("known") - 6.72 * 30.4375).abs() < 1e-9);
    let cost = month.costs.per_month.clone().expect("known");
    assert!((cost - 2.016 * 30.4375).abs() < 1e-9);
    // A tub costs nothing to run, whatever the price.
    survey.tariffs.electricity_per_kwh = None;
    let comparison = compared(&survey);
    assert_eq!(still(&comparison, TUB).energy.cost_per_day, Ok(0.0));
    assert!(still(&comparison, COMPRESSOR).energy.cost_per_day.is_err());
}

#[test]
fn gas_counts_by_its_net_heating_value() {
    // 46.35 MJ/kg [M]: 1 kW for a day is 86.4 MJ, 1.864 kg without flue, a quarter more with one
    // at 80 % [A].
    let mut survey = body();
    survey.heaters = vec![own_heater(1, HeaterFuel::UnfluedGas, Some(1000.0), None)];
    survey.tariffs.gas_per_kg = Some(2.0);
    let comparison = compared(&survey);
    let energy = &still(&comparison, OptionKind::BackgroundHeat).energy;
    assert!((energy.gas_kg_per_day - 1.8641).abs() < 1e-4);
    assert!((energy.cost_per_day.clone().expect("a price") - 3.7282).abs() < 2e-4);
    assert!(energy.kwh_per_day.abs() < 1e-12);
    survey.heaters[0].fuel = HeaterFuel::FluedGas;
    let comparison = compared(&survey);
    let flued = still(&comparison, OptionKind::BackgroundHeat)
        .energy
        .gas_kg_per_day;
    assert!((flued / energy.gas_kg_per_day - 1.25).abs() < 1e-9);
}

/// 1000 W for a day are 86.4 MJ; at 36 MJ a litre (Directive (EU) 2018/2001, annex III [M]) and
/// a flue that takes a fifth [A] that is 3.0 L.
#[test]
fn liquid_fuel_counts_by_the_litre() {
    let mut survey = body();
    survey.heaters = vec![own_heater(1, HeaterFuel::LiquidFuel, Some(1000.0), None)];
    let energy = |survey: &Survey| {
        let comparison = compared(survey);
        still(&comparison, OptionKind::BackgroundHeat)
            .energy
            .clone()
    };
    let unpriced = energy(&survey);
    assert!((unpriced.liquid_fuel_l_per_day - 3.0).abs() < 1e-9);
    assert!(unpriced.kwh_per_day.abs() < 1e-12 && unpriced.gas_kg_per_day.abs() < 1e-12);
    let unknown = unpriced.cost_per_day.unwrap_err();
    assert_eq!(unknown.reason, "the price of liquid fuel is not given");
    survey.tariffs.liquid_fuel_per_l = Some(1.7);
    let cost = energy(&survey).cost_per_day.expect("a price");
    assert!((cost - 5.1).abs() < 1e-9);
    survey.tariffs.liquid_fuel_per_l = Some(-1.7);
    let refused = energy(&survey).cost_per_day.unwrap_err();
    assert!(refused.reason.contains("not possible"), "{refused:?}");
    let told = crate::survey::findings::find(&survey);
    assert!(
        told.iter()
            .any(|finding| finding.place.is_at(Field::LiquidFuel))
    );
}

#[test]
fn a_negative_price_is_no_price() {
    let mut survey = body();
    survey.tariffs.electricity_per_kwh = Some(-0.3);
    let comparison = compared(&survey);
    let cost = still(&comparison, COMPRESSOR).energy.cost_per_day.clone();
    assert!(cost.unwrap_err().reason.contains("not possible"));
}

#[test]
fn the_supply_limits_what_may_run() {
    // 230 V × 10 A = 2300 W, × 16 A = 3680 W.
    let supply = |watts: f64, hookup: Option<f64>| {
        let mut survey = body();
        survey.heaters = vec![own_heater(
            1,
            HeaterFuel::Electricity,
            Some(watts),
            Some(12.0),
        )];
        survey.drying.hookup_a = hookup;
        let comparison = compared(&survey);
        let supply = option(&comparison, OptionKind::BackgroundHeat)
            .supply
            .clone();
        let told = comparison.findings.iter().any(|finding| {
            finding.place.is_at(Field::HookUp) && finding.sentence.contains("heater 1\u{201d}")
        });
        (supply.expect("it draws").expect("known"), told)
    };
    let (fits, told) = supply(2300.0, None);
    assert!(fits.within_10_a && fits.within_16_a && fits.within_own.is_none() && !told);
    let (more, told) = supply(2310.0, None);
    assert!(!more.within_10_a && more.within_16_a && told);
    let (most, told) = supply(3690.0, None);
    assert!(!most.within_16_a && told);
    let (own, told) = supply(1500.0, Some(6.0));
    assert!(own.within_10_a && own.within_own == Some(false) && told);
}

#[test]
fn batteries_last_as_long_as_they_hold() {
    let mut survey = body();
    survey.targets.rh_percent = 20.0;
    survey.drying.battery_wh = Some(1344.0);
    let comparison = compared(&survey);
    let supply = option(&comparison, COMPRESSOR)
        .supply
        .clone()
        .expect("it draws");
    // 1344 Wh at 280 W: a fifth of a day.
    let days = supply.expect("known").battery_days.expect("a battery");
    assert!((days - 0.2).abs() < 1e-9);
    assert!(
        comparison
            .findings
            .iter()
            .any(|f| f.place.is_at(Field::Battery))
    );
    assert!(option(&comparison, TUB).supply.is_none());
}
