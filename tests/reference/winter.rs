//! Five vehicles through a month of two weathers, against an integration by scipy (winter.py).

use super::tables::{self, WinterRow};
use gapledger::assess::Study;
use gapledger::assess::drying::OptionKind;
use gapledger::assess::winter::{Season, Winter};
use gapledger::climate::epw;
use gapledger::survey::{BodyColour, MachineKind, Stay, file};
use std::ops::ControlFlow;

/// How far an hour may be off: K, and share of saturation.
const KELVIN: f64 = 0.1;
const HUMIDITY: f64 = 0.005;
/// Share of the hours that may be further off.
const REST: f64 = 0.01;
/// How far sums over the month may be off, of themselves.
const OF_SUM: f64 = 0.01;

/// What the surveys do not hold: how each vehicle stands, and which option is compared.
fn stays() -> [(Stay, OptionKind); 5] {
    let plain = Stay::default;
    let with = |colour, blinds_drawn| Stay {
        colour,
        blinds_drawn,
        ..plain()
    };
    [
        (plain(), OptionKind::Nothing),
        (
            with(BodyColour::Grey, false),
            OptionKind::Machine(MachineKind::Compressor),
        ),
        (with(BodyColour::White, true), OptionKind::BackgroundHeat),
        (
            Stay {
                present_from_h: Some(18.0),
                present_to_h: Some(8.0),
                ..with(BodyColour::Dark, true)
            },
            OptionKind::BackgroundHeat,
        ),
        (
            with(BodyColour::Dark, false),
            OptionKind::Machine(MachineKind::SaltTub),
        ),
    ]
}

fn season(vehicle: u32, weather: u32, (stay, kind): &(Stay, OptionKind)) -> Season {
    let survey = file::parse(&tables::winter_survey(vehicle)).unwrap();
    let weather = epw::read(&tables::winter_weather(weather))
        .unwrap()
        .weather();
    let study = Study::of(&survey);
    let winter = Winter::over(&study, &weather, &weather.hours, stay).unwrap();
    let at = winter
        .options()
        .iter()
        .position(|own| own.kind == *kind)
        .unwrap();
    winter
        .season(at, &|| ControlFlow::Continue(()))
        .unwrap()
        .unwrap()
}

#[test]
fn a_month_by_the_hour_is_that_of_an_independent_integration() {
    let rows = tables::winter_hours();
    assert_eq!(rows.len(), 5 * 2 * 720);
    let mut told = Vec::new();
    for (vehicle, stay) in (1u32..).zip(&stays()) {
        for weather in [1, 2] {
            let own = |row: &&WinterRow| row.vehicle == vehicle && row.weather == weather;
            let expected: Vec<&WinterRow> = rows.iter().filter(own).collect();
            let season = season(vehicle, weather, stay);
            assert_eq!(expected.len(), season.hours.len());
            let pairs = || expected.iter().zip(&season.hours);
            let off = pairs()
                .filter(|(row, hour)| {
                    (row.t_c - hour.t_c).abs() > KELVIN || (row.rh - hour.rh).abs() > HUMIDITY
                })
                .count();
            let furthest = |of: &dyn Fn(&WinterRow) -> f64, by: &dyn Fn(usize) -> f64| {
                let all = expected
                    .iter()
                    .enumerate()
                    .map(|(at, row)| (of(row) - by(at)).abs());
                all.fold(0.0, f64::max)
            };
            let kelvin = furthest(&|row| row.t_c, &|at| season.hours[at].t_c);
            let humidity = furthest(&|row| row.rh, &|at| season.hours[at].rh);
            let sums = [
                (
                    expected.iter().map(|row| row.removed_kg).sum::<f64>(),
                    season.hours.iter().map(|hour| hour.removed).sum::<f64>(),
                    0.02,
                ),
                (
                    expected.iter().map(|row| row.heater_wh).sum(),
                    season.hours.iter().map(|hour| hour.heater).sum(),
                    100.0,
                ),
                (
                    expected.iter().map(|row| row.machine_wh).sum(),
                    season.hours.iter().map(|hour| hour.machine).sum(),
                    100.0,
                ),
            ];
            let far = sums
                .iter()
                .filter(|(one, other, floor)| (one - other).abs() > (OF_SUM * one).max(*floor))
                .count();
            let within = f64::from(u32::try_from(off).unwrap()) <= REST * 720.0;
            if !within || far > 0 {
                told.push(format!(
                    "vehicle {vehicle}, weather {weather}: {off} hours off, at most {kelvin:.3} K and \
                     {humidity:.4}; sums {sums:?}"
                ));
            }
        }
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
}

#[test]
fn frost_outside_is_counted_as_pandas_counts_it() {
    let rows = tables::frosts();
    assert_eq!(rows.len(), 2);
    for row in rows {
        let survey = file::parse(&tables::winter_survey(1)).unwrap();
        let weather = epw::read(&tables::winter_weather(row.weather))
            .unwrap()
            .weather();
        let study = Study::of(&survey);
        let winter = Winter::over(&study, &weather, &weather.hours, &Stay::default()).unwrap();
        let frost = winter.weathered().frost;
        assert_eq!(
            (frost.hours, frost.longest_h, frost.nights),
            (row.hours, row.longest_h, row.nights)
        );
        assert!((frost.degree_hours - row.degree_hours).abs() < 1e-6);
    }
}
