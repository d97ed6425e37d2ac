//! The sun, planes, and a weather file, against pvlib.

use super::tables;
use gapledger::climate::epw;
use gapledger::physics::sun::{Light, Moment, Plane, on_plane, sun};

/// Lowest sun that is compared, degrees: below it the air's refraction hangs on the weather.
const LOWEST_SUN_DEG: f64 = 5.0;
/// Relative agreement of light on planes.
const OF_LIGHT: f64 = 1e-3;

#[test]
fn the_sun_and_its_light_on_planes_are_those_of_pvlib() {
    let rows = tables::suns();
    assert_eq!(rows.len(), 240);
    let mut compared = 0;
    for row in rows {
        let moment = Moment {
            year: row.year,
            month: row.month,
            day: row.day,
            hour: row.hour_ut,
        };
        let found = sun(moment, row.latitude_deg, row.longitude_deg, row.pressure_pa).unwrap();
        let light = Light {
            direct: row.direct_w_m2,
            diffuse: row.diffuse_w_m2,
            global: row.global_w_m2,
        };
        let level = on_plane(&found, &light, Plane::Level);
        let upright = on_plane(
            &found,
            &light,
            Plane::Upright {
                facing_deg: row.facing_deg,
            },
        );
        if row.elevation_deg < -1.0 {
            // No direct light at night, on either side.
            assert!((level - row.level_w_m2).abs() < 1e-6, "{row:?}: {level}");
            continue;
        }
        if row.elevation_deg < LOWEST_SUN_DEG {
            continue;
        }
        compared += 1;
        assert!(
            (found.elevation_deg - row.elevation_deg).abs() < 5e-3,
            "{row:?}: {found:?}"
        );
        let around = (found.azimuth_deg - row.azimuth_deg + 180.0).rem_euclid(360.0) - 180.0;
        assert!(around.abs() < 1e-2, "{row:?}: {found:?}");
        for (one, other) in [(level, row.level_w_m2), (upright, row.upright_w_m2)] {
            assert!((one - other).abs() <= OF_LIGHT * other, "{row:?}: {one}");
        }
    }
    assert!(compared > 80, "{compared}");
}

#[test]
fn a_weather_file_is_read_as_pvlib_reads_it() {
    let file = epw::read(&tables::weather_file()).unwrap();
    assert_eq!(
        (file.place.latitude_deg, file.place.longitude_deg),
        (27.7, 85.3)
    );
    assert_eq!((file.place.zone_h, file.place.altitude_m), (5.5, 1337.0));
    let rows = tables::weather_hours();
    assert_eq!(rows.len(), file.rows.len());
    assert_eq!(rows.len(), 15 * 24);
    let mut missing = 0;
    for (row, own) in rows.iter().zip(&file.rows) {
        let pairs = [
            (7, row.temp_air),
            (8, row.temp_dew),
            (9, row.relative_humidity),
            (10, row.atmospheric_pressure),
            (13, row.ghi_infrared),
            (14, row.ghi),
            (15, row.dni),
            (16, row.dhi),
            (21, row.wind_direction),
            (22, row.wind_speed),
            (23, row.total_sky_cover),
            (24, row.opaque_sky_cover),
            (25, row.visibility),
            (29, row.precipitable_water),
            (31, row.snow_depth),
            (33, row.albedo),
        ];
        for (column, value) in pairs {
            assert_eq!(
                own.value(column),
                value,
                "hour {}, column {column}",
                row.hour
            );
            missing += usize::from(value.is_none());
        }
    }
    assert!(missing > 50, "{missing}");
}
