//! Moist air against psychrolib, state by state.

use gapledger::physics::MoistAir;
use gapledger::physics::air::saturation_pressure;

use crate::assert_close;
use crate::tables::states;

/// Kelvin: the dew point's own tolerance, as it passes through 0 °C.
const DEW_POINT_FLOOR: f64 = 1e-9;
/// J/kg: enthalpy is zero for dry air at 0 °C and passes through zero near −9 °C when damp.
const ENTHALPY_FLOOR: f64 = 1e-6;

#[test]
fn every_state_agrees_with_psychrolib() {
    for state in states() {
        let air = MoistAir::from_relative_humidity(state.t_c, state.rh, state.pressure_pa).unwrap();
        let close = |found: f64, reference: f64, floor: f64, name: &str| {
            let at = format!(
                "{name} at {} °C, {}, {}",
                state.t_c, state.rh, state.pressure_pa
            );
            assert_close(found, reference, floor, &at);
        };
        let saturated = saturation_pressure(state.t_c);
        close(
            saturated,
            state.saturation_pressure_pa,
            0.0,
            "saturation pressure",
        );
        close(
            air.vapour_pressure(),
            state.vapour_pressure_pa,
            0.0,
            "vapour pressure",
        );
        close(
            air.humidity_ratio,
            state.humidity_ratio,
            0.0,
            "humidity ratio",
        );
        close(air.relative_humidity(), state.rh, 0.0, "relative humidity");
        close(
            air.specific_volume(),
            state.specific_volume_m3_per_kg,
            0.0,
            "specific volume",
        );
        close(air.density(), state.density_kg_m3, 0.0, "density");
        close(
            air.enthalpy(),
            state.enthalpy_j_per_kg,
            ENTHALPY_FLOOR,
            "enthalpy",
        );
        match (air.dew_point_c(), state.dew_point_c) {
            (Some(found), Some(reference)) => {
                close(found, reference, DEW_POINT_FLOOR, "dew point");
            }
            (None, None) => assert!(state.rh == 0.0, "only dry air has no dew point: {state:?}"),
            (found, _) => panic!("dew point {found:?} where the table has {state:?}"),
        }
    }
}

#[test]
fn the_table_spans_what_it_should() {
    let states = states();
    assert!(states.len() >= 1000, "{} states", states.len());
    let low = states
        .iter()
        .map(|state| state.t_c)
        .fold(f64::INFINITY, f64::min);
    let high = states
        .iter()
        .map(|state| state.t_c)
        .fold(f64::NEG_INFINITY, f64::max);
    assert!(low <= -20.0 && high >= 40.0, "{low} to {high} °C");
    for pressure in [101_325.0, 84_556.0] {
        for rh in [0.0, 1.0] {
            let count = states
                .iter()
                .filter(|s| s.pressure_pa == pressure && s.rh == rh)
                .count();
            assert!(count >= 60, "{count} states at {pressure} Pa, RH {rh}");
        }
    }
}
