use proptest::prelude::*;

use super::super::air::*;
use super::super::flow_law::Gas;
use super::{near, near_share};

#[test]
fn saturation_pressure_agrees_with_the_handbook_tables() {
    // ASHRAE Fundamentals 2017, chapter 1 tables [S]; within 3e-4 or 0.01 Pa.
    let table = [
        (-60.0, 1.08),
        (-20.0, 103.24),
        (-5.0, 401.74),
        (5.0, 872.6),
        (25.0, 3169.7),
        (50.0, 12_351.3),
        (100.0, 101_418.0),
    ];
    for (t_c, expected) in table {
        near(
            saturation_pressure(t_c),
            expected,
            (3e-4_f64 * expected).max(0.01),
        );
    }
}

#[test]
fn saturation_pressure_agrees_with_the_steam_tables() {
    // IAPWS saturation pressure [S]: liquid at 1, 10, 20, 30 °C; over ice at −5, −10, −20 °C.
    let table = [
        (1.0, 657.09),
        (10.0, 1228.18),
        (20.0, 2339.21),
        (30.0, 4246.69),
        (-5.0, 401.74),
        (-10.0, 259.87),
        (-20.0, 103.24),
    ];
    for (t_c, expected) in table {
        near_share(saturation_pressure(t_c), expected, 3e-4);
    }
}

#[test]
fn humidity_below_freezing_depends_on_water_or_ice() {
    // Over supercooled water the pressure is higher than over ice, by some 10 % at −10 °C:
    // 286.5 against 259.9 Pa (Smithsonian tables [M]).
    near_share(saturation_pressure_over_water(-10.0), 286.5, 2e-3);
    near_share(saturation_pressure(-10.0), 259.87, 2e-3);
    // Above freezing there is no difference.
    near_share(
        saturation_pressure_over_water(20.0),
        saturation_pressure(20.0),
        1e-15,
    );
}

#[test]
fn humidity_ratio_and_density_agree_with_published_tests() {
    // psychrolib's published tests [S].
    near_share(humidity_ratio(3169.7, 95461.0), 0.021_360_399_8, 1e-6);
    let air = MoistAir::new(30.0, 0.02, 95461.0).unwrap();
    near_share(air.density(), 1.084_119_9, 1e-6);
    near_share(air.specific_volume(), 1.02 / 1.084_119_9, 1e-6);
    // Handbook enthalpy equation by hand [S]: 1.006·30 + 0.02 (2501 + 1.86·30) = 81.316 kJ/kg.
    near(air.enthalpy(), 81_316.0, 0.5);
}

#[test]
fn reference_air_is_dry_air_at_twenty_degrees() {
    let gas = Gas::from(&MoistAir::new(20.0, 0.0, STANDARD_PRESSURE).unwrap());
    near(Gas::REFERENCE.density, gas.density, 1e-4);
    near_share(Gas::REFERENCE.viscosity, gas.viscosity, 1e-12);
    // Viscosity of air at 20 °C, about 1.81e-5 Pa s (common tables [M]).
    near(gas.viscosity, 1.81e-5, 0.01e-5);
}

#[test]
fn altitude_thins_the_air() {
    // Standard atmosphere as tabulated in the handbook [M]: 0, 500, 1000, 2000 m.
    for (altitude_m, expected) in [
        (0.0, 101_325.0),
        (500.0, 95_461.0),
        (1000.0, 89_875.0),
        (2000.0, 79_495.0),
    ] {
        near(pressure_at_altitude(altitude_m), expected, 1.0);
    }
}

#[test]
fn dew_point_is_sound_around_freezing() {
    for step in -2000..=2000 {
        let t_c = 0.01 + f64::from(step) * 1e-4;
        near(dew_point(saturation_pressure(t_c)).unwrap(), t_c, 1e-9);
    }
    // The sliver between the branches is the triple point.
    near(dew_point(611.657_026).unwrap(), 0.01, 1e-6);
}

#[test]
fn dew_point_has_an_answer_only_where_there_is_one() {
    for vapour_pressure in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e-9, 1e9] {
        assert!(dew_point(vapour_pressure).is_none(), "{vapour_pressure}");
    }
    let dry = MoistAir::new(20.0, 0.0, STANDARD_PRESSURE).unwrap();
    assert!(dry.dew_point_c().is_none());
}

#[test]
fn impossible_air_is_refused_with_its_reason() {
    let standard = STANDARD_PRESSURE;
    assert!(matches!(
        MoistAir::new(61.0, 0.0, standard),
        Err(AirError::Temperature(_))
    ));
    assert!(matches!(
        MoistAir::new(f64::NAN, 0.0, standard),
        Err(AirError::Temperature(_))
    ));
    assert!(matches!(
        MoistAir::new(20.0, -1e-9, standard),
        Err(AirError::HumidityRatio(_))
    ));
    assert!(matches!(
        MoistAir::new(20.0, 0.0, 0.0),
        Err(AirError::Pressure(_))
    ));
    for rh in [-0.01, 1.01, f64::NAN] {
        let refused = MoistAir::from_relative_humidity(20.0, rh, standard);
        assert!(matches!(refused, Err(AirError::RelativeHumidity(_))));
    }
    let thin = MoistAir::from_relative_humidity(50.0, 1.0, 10_000.0);
    assert!(matches!(thin, Err(AirError::VapourAboveTotal { .. })));
    let sentence = AirError::RelativeHumidity(1.3).to_string();
    assert!(sentence.contains("between 0 and 1") && sentence.ends_with("not 1.3."));
}

proptest! {
    #[test]
    fn dew_point_inverts_saturation(t_c in -99.0..199.0_f64) {
        let back = dew_point(saturation_pressure(t_c)).unwrap();
        prop_assert!((back - t_c).abs() < 1e-9, "{back}");
    }

    #[test]
    fn relative_humidity_comes_back(t_c in -60.0..60.0_f64, rh in 0.0..1.0_f64, altitude_m in 0.0..3000.0_f64) {
        let pressure = pressure_at_altitude(altitude_m);
        let air = MoistAir::from_relative_humidity(t_c, rh, pressure).unwrap();
        prop_assert!((air.relative_humidity() - rh).abs() < 1e-12);
        // Vapour is lighter than air: moist air is never denser than dry.
        let dry = MoistAir::new(t_c, 0.0, pressure).unwrap();
        prop_assert!(air.density() <= dry.density());
        prop_assert!(air.vapour_pressure() <= saturation_pressure(t_c) * (1.0 + 1e-12));
        if let Some(dew_point_c) = air.dew_point_c() {
            prop_assert!(dew_point_c <= t_c + 1e-9);
        }
    }
}
