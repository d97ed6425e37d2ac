//! Whole vehicles: the air's table, steady weather, the signs of sun and sky.

mod doubt;
mod laid;
mod steps;

use super::air::exact;
use super::*;
use crate::assess::Study;
use crate::assess::drying::OptionKind;
use crate::climate::{Day, Hour, Place, Weather};
use crate::physics::sky::black_body;
use crate::survey::{BodyColour, InsideAir, SetUp, Stay, Survey, TypicalWinter, file};
use std::ops::ControlFlow;

const CARAVAN: &str = include_str!("../../../../sample-surveys/farmyard-caravan.ron");
const SAMPLES: [&str; 5] = [
    CARAVAN,
    include_str!("../../../../sample-surveys/coastal-coachbuilt.ron"),
    include_str!("../../../../sample-surveys/forest-integrated.ron"),
    include_str!("../../../../sample-surveys/street-panel-van.ron"),
    include_str!("../../../../sample-surveys/vineyard-coachbuilt.ron"),
];

fn caravan() -> Survey {
    file::parse(CARAVAN).expect("a sample")
}

fn go_on() -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// Hours of the mild maritime winter from the first of November.
fn mild(hours: usize) -> (Weather, Vec<Hour>) {
    let weather = invented(TypicalWinter::MildMaritime);
    let season = crate::climate::season(&weather).expect("a winter");
    (weather, season[..hours].to_vec())
}

/// Hours all alike, without sun, under a sky that is as warm as the air.
fn steady(t_c: f64, rh: f64, wind: f64, hours: usize) -> (Weather, Vec<Hour>) {
    let first = Day::new(2023, 11, 1).expect("a day");
    let mut day = first;
    let mut all = Vec::new();
    for at in 0..hours {
        let hour = u8::try_from(at % 24 + 1).expect("an hour");
        all.push(Hour {
            t_c: Some(t_c),
            rh: Some(rh),
            wind: Some(wind),
            wind_from_deg: None,
            direct: Some(0.0),
            diffuse: Some(0.0),
            global: Some(0.0),
            infrared: Some(black_body(t_c)),
            ..Hour::blank(day, hour)
        });
        if hour == 24 {
            day = day.next();
        }
    }
    let place = Place {
        name: "nowhere".to_owned(),
        latitude_deg: 50.0,
        longitude_deg: 0.0,
        zone_h: 0.0,
        clock_assumed: false,
        altitude_m: 0.0,
    };
    let weather = Weather {
        place,
        hours: all.clone(),
        invented: false,
    };
    (weather, all)
}

fn season_of(winter: &Winter, kind: OptionKind) -> Season {
    let at = winter
        .options()
        .iter()
        .position(|own| own.kind == kind)
        .expect("the option");
    winter
        .season(at, &go_on)
        .expect("never given up")
        .expect("known")
}

#[test]
fn the_table_of_the_air_is_within_half_a_per_cent_of_every_balance() {
    for text in SAMPLES {
        let survey = file::parse(text).expect("a sample");
        let study = Study::of(&survey);
        let (weather, hours) = mild(400);
        let winter = Winter::over(&study, &weather, &hours, &Stay::default()).expect("made ready");
        let envelope = study.prepared().envelope.clone().expect("an envelope");
        let mut worst = (0.0, 0, 0.0);
        for at in (0..400).step_by(13) {
            let (air, wind) = winter.wind_of(at);
            for step in 0..40u32 {
                // From 9 K colder to 30 K warmer, closer near no difference, never at a piece's end.
                let share = f64::from(step) / 39.0 * 1.7 - 0.6;
                let warmer = 24.8 * share * share * share.signum() + 0.0137;
                let inside_c = air.t_c + warmer;
                let found = winter.air().flow(at, inside_c).expect("a flow");
                let balance = exact(&envelope, &air, wind, inside_c).expect("a flow");
                let off = (found / balance - 1.0).abs();
                if off > worst.0 {
                    worst = (off, at, warmer);
                }
            }
        }
        assert!(worst.0 < 0.005, "{}: {worst:?}", survey.header.title);
    }
}

#[test]
fn steady_weather_ends_in_the_state_of_drying_and_heating() {
    let mut survey = caravan();
    // A single case without anything that condenses, so that the clear night of the steady
    // comparison makes no difference; wind from all directions; no mean sun.
    survey.site.heading_deg = None;
    survey.drying.sun_w = 0.0;
    survey.site.altitude_m = 0.0;
    survey.weather.truncate(1);
    let case = &mut survey.weather[0];
    (case.outside_c, case.outside_rh_percent, case.wind_m_s) = (7.0, 62.0, 3.0);
    case.inside = InsideAir::WarmerBy { kelvin: 2.0 };
    let (weather, hours) = steady(7.0, 0.62, 3.0, 21 * 24);
    let study = Study::of(&survey);
    let comparison = study.comparison().clone().expect("compared");
    let winter = Winter::over(&study, &weather, &hours, &Stay::default()).expect("made ready");
    let mut compared = 0;
    for (at, option) in comparison.options.iter().enumerate() {
        let Ok(case) = &option.cases[0] else { continue };
        if option.kind == OptionKind::LockersOpen || case.condensation_kg_s > 0.0 {
            continue;
        }
        let season = winter
            .season(at, &go_on)
            .expect("never given up")
            .expect("known");
        let last = season.hours[season.hours.len() - 1];
        let name = &option.name;
        assert!(
            (last.t_c - case.inside.t_c).abs() < 0.02,
            "{name}: {last:?} {}",
            case.inside.t_c
        );
        assert!(
            (last.rh - case.rh).abs() < 1e-3,
            "{name}: {} {}",
            last.rh,
            case.rh
        );
        assert!((last.machine - case.machine_w).abs() < 1.0, "{name}");
        assert!((last.heater - case.heater_w).abs() < 2.0, "{name}");
        compared += 1;
    }
    assert!(compared >= 5, "{compared}");
}

#[test]
fn a_clear_sky_cools_and_the_sun_warms() {
    let study = Study::of(&caravan());
    let run = |sky: f64, sun: f64, stay: &Stay| {
        let (mut weather, mut hours) = steady(2.0, 0.7, 1.0, 15 * 24);
        for hour in hours.iter_mut().chain(&mut weather.hours) {
            hour.infrared = Some(black_body(2.0) - sky);
            let day = (10..=14).contains(&hour.hour);
            hour.direct = Some(if day { sun } else { 0.0 });
            hour.diffuse = Some(if day { 0.2 * sun } else { 0.0 });
            hour.global = None;
        }
        let winter = Winter::over(&study, &weather, &hours, stay).expect("made ready");
        season_of(&winter, OptionKind::Nothing).mean_c
    };
    let white = Stay::default();
    let dull = run(0.0, 0.0, &white);
    assert!((dull - 2.0).abs() < 0.05, "{dull}");
    let clear = run(80.0, 0.0, &white);
    assert!(clear < dull - 1.0, "{clear} {dull}");
    let sunny = run(0.0, 500.0, &white);
    assert!(sunny > dull + 0.5, "{sunny} {dull}");
    let dark = Stay {
        colour: BodyColour::Dark,
        ..Stay::default()
    };
    assert!(run(0.0, 500.0, &dark) > sunny + 0.2);
    let blinds = Stay {
        blinds_drawn: true,
        ..Stay::default()
    };
    assert!(run(0.0, 500.0, &blinds) < sunny - 0.05);
    let covered = Stay {
        covered: true,
        ..Stay::default()
    };
    assert!((run(80.0, 500.0, &covered) - dull).abs() < 0.01);
}

#[test]
fn the_books_close_and_half_the_step_changes_hardly_anything() {
    let study = Study::of(&caravan());
    let (weather, hours) = mild(20 * 24);
    let winter = Winter::over(&study, &weather, &hours, &Stay::default()).expect("made ready");
    for at in 0..winter.options().len() {
        let one = winter
            .season(at, &go_on)
            .expect("never given up")
            .expect("known");
        assert!(one.books.water_open().abs() < 1e-6 && one.books.heat_open().abs() < 1e-6);
        let other = winter
            .season_in_steps(at, 12, &go_on)
            .expect("never given up")
            .expect("known");
        let mut moved = 0;
        for (one, other) in one.hours.iter().zip(&other.hours) {
            let apart = (one.t_c - other.t_c).abs() > 0.05 || (one.rh - other.rh).abs() > 0.002;
            moved += usize::from(apart);
        }
        let name = &winter.options()[at].name;
        assert!(moved * 100 <= hours.len(), "{name}: {moved}");
    }
}

#[test]
fn in_use_comfort_is_held_while_somebody_is_there_and_people_give_off_water_then() {
    let mut survey = caravan();
    survey.set_up = SetUp::InUse;
    let study = Study::of(&survey);
    let (weather, hours) = mild(15 * 24);
    let stay = Stay {
        present_from_h: Some(18.0),
        present_to_h: Some(8.0),
        ..Stay::default()
    };
    let winter = Winter::over(&study, &weather, &hours, &stay).expect("made ready");
    let season = season_of(&winter, OptionKind::Nothing);
    let comfort = survey.targets.comfort_c;
    for (hour, inside) in hours.iter().zip(&season.hours) {
        if hour.hour == 24 {
            assert!((inside.t_c - comfort).abs() < 1e-3, "{inside:?}");
        }
        if hour.hour == 12 {
            assert!(inside.heater.abs() < 1e-12);
        }
    }
}

#[test]
fn a_winter_that_is_not_whole_or_lacks_its_wind_says_so() {
    let study = Study::of(&caravan());
    let (weather, _) = mild(24);
    let mut short = weather.clone();
    short.hours.truncate(1000);
    let error = Winter::new(&study, &short, &Stay::default())
        .err()
        .expect("not whole");
    assert!(error.reason.contains("no whole winter"), "{error}");
    let mut still = weather;
    for hour in &mut still.hours {
        hour.wind = None;
    }
    let error = Winter::new(&study, &still, &Stay::default())
        .err()
        .expect("no wind");
    let whole = "no hour of the winter is known: the weather has no wind";
    assert_eq!(error.reason, whole);
}

#[test]
fn without_the_sun_only_a_vehicle_under_a_cover_has_a_winter() {
    let study = Study::of(&caravan());
    let (weather, hours) = mild(24);
    let run = |covered: bool| {
        let mut hours = hours.clone();
        for hour in &mut hours {
            (hour.direct, hour.diffuse, hour.global) = (None, None, None);
            hour.infrared = (!covered).then_some(250.0);
            hour.cloud = None;
        }
        let stay = Stay {
            covered,
            ..Stay::default()
        };
        Winter::over(&study, &weather, &hours, &stay)
    };
    assert_eq!(run(true).expect("made ready").weathered().not_known, 0);
    let error = run(false).err().expect("no sun");
    assert!(error.reason.contains("no sun"), "{error}");
}

#[test]
fn mould_grows_no_less_in_a_closed_locker_and_there_is_none_once_lockers_are_open() {
    let study = Study::of(&caravan());
    let (weather, hours) = mild(15 * 24);
    let winter = Winter::over(&study, &weather, &hours, &Stay::default()).expect("made ready");
    let closed = season_of(&winter, OptionKind::Nothing).mould;
    let locker = closed.iter().find(|at| at.spot.in_locker).expect("one");
    let wall = closed
        .iter()
        .find(|at| at.spot.element == locker.spot.element && !at.spot.in_locker)
        .expect("its wall");
    assert!(locker.spot.temperature_factor < wall.spot.temperature_factor);
    assert!(locker.highest_on_boards() >= wall.highest_on_boards());
    let open = season_of(&winter, OptionKind::LockersOpen).mould;
    assert_eq!(open.len() + 1, closed.len());
    assert!(open.iter().all(|at| !at.spot.in_locker));
}

#[test]
fn hours_that_are_not_known_do_not_count() {
    let study = Study::of(&caravan());
    let (weather, mut hours) = mild(15 * 24);
    for hour in &mut hours[100..110] {
        hour.t_c = None;
    }
    let winter = Winter::over(&study, &weather, &hours, &Stay::default()).expect("made ready");
    assert_eq!(winter.weathered().not_known, 10);
    let season = season_of(&winter, OptionKind::Nothing);
    assert_eq!(season.hours.len(), 360);
    let above: f64 = season.humidity.share_above[0] * 350.0;
    assert!((above - above.round()).abs() < 1e-9);
}

/// A noon whose temperature is missing does not shine for two days: the day before stands in hour by hour.
#[test]
fn days_and_nights_go_on_while_hours_are_not_known() {
    let study = Study::of(&caravan());
    let (weather, mut hours) = mild(15 * 24);
    let run = |hours: &[Hour]| {
        let winter = Winter::over(&study, &weather, hours, &Stay::default()).expect("made ready");
        season_of(&winter, OptionKind::Nothing).hours.clone()
    };
    let whole = run(&hours);
    for hour in &mut hours[157..181] {
        hour.t_c = None;
    }
    let lacking = run(&hours);
    for (at, (one, other)) in whole.iter().zip(&lacking).enumerate().skip(157).take(48) {
        let off = (one.t_c - other.t_c).abs();
        assert!(off < 4.0, "hour {at}: {} and {}", one.t_c, other.t_c);
    }
}
