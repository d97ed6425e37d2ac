//! Closed forms and limits.

use super::*;
use crate::physics::coupled::{CoupledError, Running, dry_out, solve};
use crate::physics::moisture::{HEAT_OF_VAPORISATION, ventilation_conductance};

fn close(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

#[test]
fn without_source_and_machine_the_water_inside_is_the_water_outside() {
    for flow in [0.0, 1e-6, 4.4e-3, 1.0] {
        let mut warm = inside(air(5.0, 0.87), 70.0);
        warm.heater = Some(electric(400.0, None));
        let state = steady(&warm, flow);
        close(
            state.inside.humidity_ratio,
            air(5.0, 0.87).humidity_ratio,
            0.0,
        );
        close(state.condensation, 0.0, 0.0);
        assert_eq!(state.running, Running::NoMachine);
    }
}

#[test]
fn a_heated_vehicle_has_the_temperature_of_its_conductance() {
    // Closed form: T_o + Q/(Σ U A + H_v).
    let outside = air(-3.0, 0.9);
    let mut warm = inside(outside, 55.0);
    warm.heater = Some(electric(600.0, None));
    warm.gains = 90.0;
    let flow = 6e-3;
    let conductance = 55.0 + ventilation_conductance(flow, outside.humidity_ratio);
    close(
        steady(&warm, flow).inside.t_c,
        -3.0 + 690.0 / conductance,
        1e-9,
    );
}

#[test]
fn five_degrees_87_percent_warmed_to_ten_is_61_point_8_percent() {
    // 25 m³, 0.5 /h, 15.86 kg/h of dry air; closed form 0.87 p_ws(5)/p_ws(10) at equal water.
    let mut warm = inside(air(5.0, 0.87), 70.0);
    warm.heater = Some(electric(2000.0, Some(10.0)));
    let state = steady(&warm, 15.86 / 3600.0);
    close(state.inside.t_c, 10.0, 1e-12);
    close(state.relative_humidity(), 0.618, 0.0005);
    close(
        state.heater_power,
        5.0 * (70.0 + ventilation_conductance(15.86 / 3600.0, air(5.0, 0.87).humidity_ratio)),
        1e-6,
    );
}

#[test]
fn a_thermostat_never_gives_more_than_its_rating_nor_less_than_nothing() {
    let mut small = inside(air(0.0, 0.8), 70.0);
    small.heater = Some(electric(300.0, Some(20.0)));
    let state = steady(&small, 0.0);
    close(state.heater_power, 300.0, 0.0);
    close(state.inside.t_c, 300.0 / 70.0, 1e-9);
    let mut summer = inside(air(28.0, 0.5), 70.0);
    summer.heater = Some(electric(300.0, Some(20.0)));
    let state = steady(&summer, 0.01);
    close(state.heater_power, 0.0, 0.0);
    close(state.inside.t_c, 28.0, 1e-9);
}

#[test]
fn a_source_raises_the_water_by_what_the_air_can_carry() {
    // Closed form W_o + S/m; two sleepers of 40 g/h (BS 5250 [M]).
    let mut asleep = inside(air(5.0, 0.6), 70.0);
    asleep.vapour_source = 80e-3 / 3600.0;
    asleep.heater = Some(electric(3000.0, Some(18.0)));
    let flow = 30.0 / 3600.0;
    let wanted = air(5.0, 0.6).humidity_ratio + 0.080 / 30.0;
    close(steady(&asleep, flow).inside.humidity_ratio, wanted, 1e-12);
}

#[test]
fn what_the_air_cannot_hold_condenses_and_gives_up_its_heat() {
    // No air flow: all of it condenses; as vapour it brings its heat, 1 g/s × 2.5 MJ/kg = 2.5 W
    // for each mg/s; as liquid it takes the same heat first.
    let mut closed = inside(air(5.0, 0.87), 70.0);
    closed.vapour_source = 5e-5;
    let state = steady(&closed, 0.0);
    close(state.relative_humidity(), 1.0, 1e-12);
    close(state.condensation, 5e-5, 1e-18);
    close(
        state.inside.t_c,
        5.0 + 5e-5 * HEAT_OF_VAPORISATION / 70.0,
        1e-9,
    );
    let mut wet = inside(air(5.0, 0.87), 70.0);
    wet.liquid_source = 5e-5;
    let state = steady(&wet, 0.0);
    close(state.condensation, 5e-5, 1e-18);
    close(state.inside.t_c, 5.0, 1e-9);
}

#[test]
fn wet_clothes_cool_a_vehicle_no_further_than_the_wet_bulb() {
    // Without fabric and with a source that outruns the air, evaporation stops at saturation:
    // H_v (T_o − T) = m (W_sat(T) − W_o) h_fg, the wet-bulb equation. For 20 °C 50 % that is
    // 13.8 °C (ASHRAE Fundamentals 2017 psychrometric chart [M]).
    let mut wet = inside(air(20.0, 0.5), 0.0);
    wet.liquid_source = 1e-3;
    let state = steady(&wet, 0.01);
    close(state.inside.t_c, 13.8, 0.15);
    close(state.relative_humidity(), 1.0, 1e-9);
}

#[test]
fn an_oversized_machine_dries_to_its_floor_and_never_below_zero() {
    // Compressor floor: saturation at 15 K below the inside [A]. No air flow, no source.
    let huge = machine(Kind::Compressor, 30.0, 0.8, 5000.0, 0.0);
    let mut dry = inside(air(20.0, 0.9), 70.0);
    dry.machine = Some(&huge);
    let state = steady(&dry, 0.0);
    close(
        state.inside.humidity_ratio,
        air(5.0, 1.0).humidity_ratio,
        1e-9,
    );
    close(state.removal, 0.0, 1e-12);
    // With air flowing it stays above the floor, ever closer as the machine grows.
    let mut above = f64::INFINITY;
    for litres in [50.0, 500.0, 5000.0, 50_000.0] {
        let grown = machine(Kind::Compressor, 30.0, 0.8, litres, 0.0);
        let mut windy = inside(air(20.0, 0.9), 1e9);
        windy.machine = Some(&grown);
        let left = steady(&windy, 0.02).inside.humidity_ratio - air(5.0, 1.0).humidity_ratio;
        assert!(left > 0.0 && left < above, "{litres}: {left}");
        above = left;
    }
    assert!(above < 1e-4);
    for kind in [Kind::DesiccantRotor, Kind::Thermoelectric] {
        let huge = machine(kind, 30.0, 0.8, 5000.0, 0.0);
        let mut dry = inside(air(15.0, 0.9), 70.0);
        dry.machine = Some(&huge);
        assert!(steady(&dry, 1e-3).inside.humidity_ratio >= 0.0, "{kind:?}");
    }
}

#[test]
fn a_fabric_without_resistance_holds_the_outside_temperature() {
    let strong = machine(Kind::Compressor, 30.0, 0.8, 20.0, 280.0);
    let mut cold = inside(air(8.0, 0.85), 1e12);
    cold.machine = Some(&strong);
    close(steady(&cold, 5e-3).inside.t_c, 8.0, 1e-8);
}

#[test]
fn no_air_flow_and_endless_air_flow() {
    let strong = machine(Kind::Compressor, 30.0, 0.8, 20.0, 280.0);
    let outside = air(8.0, 0.85);
    let mut dry = inside(outside, 70.0);
    dry.machine = Some(&strong);
    // ACH → ∞: outside air inside, the machine gathers what it can from that.
    let state = steady(&dry, 1e6);
    close(state.inside.t_c, 8.0, 1e-3);
    close(state.inside.humidity_ratio, outside.humidity_ratio, 1e-9);
    close(state.removal, strong.removal(&outside), 1e-9);
    // ACH → 0: continuous with none at all.
    let (little, none) = (steady(&dry, 1e-9), steady(&dry, 0.0));
    close(
        little.inside.humidity_ratio,
        none.inside.humidity_ratio,
        1e-6,
    );
    close(little.inside.t_c, none.inside.t_c, 1e-3);
}

#[test]
fn a_compressor_does_not_start_in_a_vehicle_that_is_too_cold() {
    // Its own 280 W would make 3 °C into 7 °C, yet it never starts below 5 °C [A].
    let strong = machine(Kind::Compressor, 30.0, 0.8, 20.0, 280.0);
    let mut cold = inside(air(3.0, 0.9), 70.0);
    cold.machine = Some(&strong);
    let state = steady(&cold, 1e-3);
    assert_eq!(state.running, Running::TooCold);
    close(state.inside.t_c, 3.0, 1e-9);
    close(state.machine_power + state.removal, 0.0, 0.0);
    cold.heater = Some(electric(400.0, Some(8.0)));
    let state = steady(&cold, 1e-3);
    assert_eq!(state.running, Running::Runs);
    assert!(state.removal > 0.0 && state.inside.t_c >= 8.0);
}

#[test]
fn an_unflued_flame_gives_off_its_water() {
    // Stoichiometry: 1.63 kg of water for each kg of propane; net heating value 46.35 MJ/kg [M].
    let mut flame = inside(air(5.0, 0.8), 70.0);
    flame.heater = Some(Heater {
        rating: 1000.0,
        set_point_c: Some(12.0),
        water_per_joule: 1.63 / 46.35e6,
    });
    let flow = 8e-3;
    let state = steady(&flame, flow);
    close(state.inside.t_c, 12.0, 1e-12);
    close(state.source, state.heater_power * 1.63 / 46.35e6, 1e-18);
    let wanted = air(5.0, 0.8).humidity_ratio + state.source / flow;
    close(state.inside.humidity_ratio, wanted, 1e-12);
}

#[test]
fn a_hygrostat_stops_a_machine_whose_warmth_alone_is_enough() {
    // A plate that finds nothing below 3.8 g/kg is a heater of 60 W. Outside 0 °C 70 %, hygrostat
    // 55 %: closed form T_i with p_ws(T_i) = 0.70 p_ws(0 °C)/0.55, held by part of the 60 W.
    let plate = machine(Kind::Thermoelectric, 30.0, 0.8, 0.5, 60.0);
    let mut warm = inside(air(0.0, 0.70), 15.0);
    warm.machine = Some(&plate);
    warm.hygrostat = Some(0.55);
    let state = steady(&warm, 0.0);
    let wanted = crate::physics::moisture::warmth_alone_c(0.0, 0.70, 0.55).expect("a temperature");
    close(state.inside.t_c, wanted, 1e-9);
    close(state.duty, 15.0 * wanted / 60.0, 1e-9);
    assert!(state.duty < 1.0 && state.removal == 0.0);
    close(state.relative_humidity(), 0.55, 1e-9);
}

#[test]
fn drying_out_takes_what_the_machine_has_to_spare() {
    // Held at 55 %: what evaporates is D + m (W − W_o) − S, from the definition.
    let strong = machine(Kind::DesiccantRotor, 20.0, 0.6, 7.0, 600.0);
    let mut damp = inside(air(5.0, 0.87), 70.0);
    damp.machine = Some(&strong);
    let flow = 5e-3;
    let out = dry_out(&damp, 0.55, |_| Ok::<_, Infallible>(flow)).expect("a state");
    close(out.steady.relative_humidity(), 0.55, 1e-12);
    let inside = out.steady.inside;
    let spare =
        strong.removal(&inside) + flow * (inside.humidity_ratio - damp.outside.humidity_ratio);
    close(out.from_contents, spare, 1e-15);
    assert!(out.from_contents > 0.0);
    // A tub in the wind has nothing to spare.
    let tub = Machine::salt_tub(0.02).expect("a tub");
    damp.machine = Some(&tub);
    let out = dry_out(&damp, 0.55, |_| Ok::<_, Infallible>(flow)).expect("a state");
    assert!(out.from_contents < 0.0);
}

#[test]
fn what_cannot_be_is_said_instead_of_answered() {
    let mut hot = inside(air(20.0, 0.5), 10.0);
    hot.heater = Some(electric(5000.0, None));
    let none = solve(&hot, |_| Ok::<_, Infallible>(0.0));
    assert_eq!(none, Err(CoupledError::TooWarm));
    let mut sealed = inside(air(20.0, 0.5), 0.0);
    sealed.gains = 1.0;
    assert_eq!(
        solve(&sealed, |_| Ok::<_, Infallible>(0.0)),
        Err(CoupledError::TooWarm)
    );
    let bad = inside(air(20.0, 0.5), f64::NAN);
    assert!(matches!(
        solve(&bad, |_| Ok::<_, Infallible>(0.0)),
        Err(CoupledError::Number(_))
    ));
    let fine = inside(air(20.0, 0.5), 10.0);
    assert!(matches!(
        solve(&fine, |_| Ok::<_, Infallible>(f64::NAN)),
        Err(CoupledError::Number(_))
    ));
    assert_eq!(
        solve(&fine, |_| Err::<f64, _>("unknown")),
        Err(CoupledError::Flow("unknown"))
    );
    assert!(dry_out(&fine, 0.0, |_| Ok::<_, Infallible>(0.0)).is_err());
}
