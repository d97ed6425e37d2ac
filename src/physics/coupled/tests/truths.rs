//! Truths that hold whatever the numbers.

use super::*;
use crate::physics::moisture::required_removal;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    /// While outside is wetter than the target, more air brings in more water.
    #[test]
    fn more_air_change_never_lowers_the_removal_needed(
        source in 0.0..1e-4_f64,
        outside in 0.002..0.015_f64,
        drier in 0.0..1.0_f64,
        one in 0.0..0.1_f64,
        other in 0.0..0.1_f64,
    ) {
        let target = outside * drier;
        let need = |flow| required_removal(source, flow, outside, target);
        prop_assert!(need(one.max(other)) >= need(one.min(other)));
    }

    /// Without source, machine or tub, warmth alone never raises the relative humidity.
    #[test]
    fn more_heat_never_raises_rh_in_an_empty_vehicle(
        t_c in -15.0..25.0_f64,
        rh in 0.05..1.0_f64,
        fabric in 20.0..200.0_f64,
        still in 0.0..0.05_f64,
        stack in 0.0..0.01_f64,
        one in 0.0..900.0_f64,
        other in 0.0..900.0_f64,
    ) {
        let outside = air(t_c, rh);
        let state = |watts: f64| {
            let mut warm = inside(outside, fabric);
            warm.heater = Some(electric(watts, None));
            super::super::solve(&warm, |inside: f64| {
                Ok::<_, Infallible>(still + stack * (inside - t_c).abs().sqrt())
            })
        };
        let (less, more) = (state(one.min(other)), state(one.max(other)));
        if let (Ok(less), Ok(more)) = (less, more) {
            prop_assert!(more.relative_humidity() <= less.relative_humidity() * (1.0 + 1e-9));
            prop_assert!(more.inside.t_c >= less.inside.t_c - 1e-9);
        }
    }

    /// A hygrostat holds its setting wherever the machine running all the time would go below.
    /// The reverse is no truth: a machine that runs all the time may warm a closed inside so far
    /// that its coil finds less, and hold a higher RH than it does on its hygrostat.
    #[test]
    fn a_hygrostat_holds_its_setting_where_the_machine_is_large_enough(
        t_c in 6.0..20.0_f64,
        rh in 0.6..1.0_f64,
        flow in 1e-4..0.03_f64,
        litres in 1.0..100.0_f64,
        setting in 0.3..0.7_f64,
    ) {
        let dryer = machine(Kind::Compressor, 30.0, 0.8, litres, 300.0);
        let mut dry = inside(air(t_c, rh), 70.0);
        dry.machine = Some(&dryer);
        let full = steady(&dry, flow);
        dry.hygrostat = Some(setting);
        let held = steady(&dry, flow);
        if full.relative_humidity() < setting - 1e-9 && air(t_c, rh).relative_humidity() > setting {
            prop_assert!(held.duty < 1.0);
            prop_assert!((held.relative_humidity() - setting).abs() < 1e-9);
            prop_assert!(held.machine_power <= full.machine_power);
        }
        prop_assert!(held.duty >= 1.0 || held.relative_humidity() <= setting + 1e-9);
    }
}
