//! What the trade sees in a leaky body of 20 m³, Σ U A near 70 W/K, in winter: a check of the
//! whole chain. **Common practice, no source.**

use super::*;
use crate::physics::moisture::ventilation_conductance;

/// Dry air at so many air changes of 20 m³ an hour, kg/s.
fn flow(ach: f64) -> f64 {
    20.0 * ach * 1.25 / 3600.0
}

fn outside() -> MoistAir {
    air(6.0, 0.85)
}

/// 280 W and 14 L a day at 30 °C and 80 % **[A]**.
fn large() -> Machine {
    machine(Kind::Compressor, 30.0, 0.8, 14.0, 280.0)
}

fn with(machine: &Machine, ach: f64) -> Steady {
    let mut body = inside(outside(), 70.0 - ventilation_conductance(flow(1.0), 0.005));
    body.machine = Some(machine);
    steady(&body, flow(ach))
}

#[test]
fn a_tub_of_salt_changes_nothing_to_be_seen() {
    let state = with(&Machine::salt_tub(0.02).expect("a tub"), 1.0);
    let millilitres = state.removal * DAY * 1000.0;
    assert!((5.0..60.0).contains(&millilitres), "{millilitres} mL a day");
    assert!((0.84..=0.85).contains(&state.relative_humidity()));
}

#[test]
fn a_small_thermoelectric_unit_is_mostly_a_heater() {
    let small = machine(Kind::Thermoelectric, 30.0, 0.8, 0.5, 60.0);
    let state = with(&small, 1.0);
    let litres = state.removal * DAY;
    assert!(litres < 0.12, "{litres} L a day");
    // Warmth alone, at the same temperature and the water of outside.
    let warm = MoistAir::new(
        state.inside.t_c,
        outside().humidity_ratio,
        STANDARD_PRESSURE,
    )
    .expect("a state")
    .relative_humidity();
    let fall = 0.85 - state.relative_humidity();
    assert!((0.02..0.10).contains(&fall), "falls by {fall}");
    assert!(
        (0.85 - warm) / fall > 0.7,
        "{} by warmth",
        (0.85 - warm) / fall
    );
}

#[test]
fn a_large_compressor_gathers_up_to_a_litre_and_half_of_it_is_warmth() {
    let state = with(&large(), 1.0);
    let litres = state.removal * DAY;
    assert!((0.5..=1.0).contains(&litres), "{litres} L a day");
    let rh = state.relative_humidity();
    assert!((0.45..=0.60).contains(&rh), "{rh}");
    let warm = MoistAir::new(
        state.inside.t_c,
        outside().humidity_ratio,
        STANDARD_PRESSURE,
    )
    .expect("a state")
    .relative_humidity();
    let warmth = (0.85 - warm) / (0.85 - rh);
    assert!((0.4..0.7).contains(&warmth), "{warmth} by warmth");
}

#[test]
fn in_the_wind_the_same_machine_holds_less() {
    for ach in [3.0, 3.5, 4.0] {
        let rh = with(&large(), ach).relative_humidity();
        assert!((0.55..=0.60).contains(&rh), "{ach} /h: {rh}");
    }
}
