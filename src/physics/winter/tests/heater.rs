//! Steps in which a heater meets its set point or a machine its lowest temperature.

use super::super::{Body, Forcing, Heating, HourInside, STEPS_PER_HOUR, Strategy};
use super::seasons::season;
use super::{body, marched, plain};
use crate::physics::machine::{Kind, Machine, MakerPoint};

fn heater(rating: f64, set_c: f64, set_present_c: f64) -> Strategy<'static> {
    Strategy {
        heating: Some(Heating {
            rating,
            set_c: Some(set_c),
            set_present_c: Some(set_present_c),
            only_present: false,
            water_per_joule: 0.0,
        }),
        ..Strategy::default()
    }
}

#[test]
fn no_heater_heats_beyond_its_set_point() {
    for rating in [500.0, 3e3, 15e3, 1e6] {
        for heat_capacity in [75e3, 750e3] {
            let body = Body {
                heat_capacity,
                ..body()
            };
            let found = marched(
                &body,
                &season(),
                &heater(rating, 8.0, 20.0),
                0.01,
                STEPS_PER_HOUR,
            );
            let free = marched(&body, &season(), &Strategy::default(), 0.01, STEPS_PER_HOUR);
            let warmest = free
                .hours
                .iter()
                .map(|hour| hour.t_c)
                .fold(f64::MIN, f64::max);
            for hour in &found.hours {
                assert!(
                    hour.t_c <= 20.0_f64.max(warmest) + 1e-5,
                    "{rating} {hour:?}"
                );
                assert!(hour.heater <= rating * (1.0 + 1e-9), "{rating} {hour:?}");
            }
            let present = season()
                .iter()
                .zip(&found.hours)
                .filter(|(hour, _)| hour.present)
                .count();
            let warm = found
                .hours
                .iter()
                .filter(|hour| (hour.t_c - 20.0).abs() < 0.1)
                .count();
            // The first hour of each day is that of warming up.
            let first = if rating < 1e6 { 60 } else { 0 };
            assert!(
                rating < 15e3 || warm + first >= present,
                "{rating}: {warm} of {present}"
            );
            assert!(
                found.books.heat_open().abs() < 1e-6,
                "{}",
                found.books.heat_open()
            );
        }
    }
}

#[test]
fn half_the_step_moves_hardly_any_hour_of_a_strong_heater() {
    let damp = Body {
        buffer: 6.0,
        ..body()
    };
    let mut hours = season();
    for hour in &mut hours {
        hour.liquid_source = 60e-3 / 3600.0;
    }
    for rating in [3e3, 1e6] {
        let run = |steps| marched(&damp, &hours, &heater(rating, 8.0, 20.0), 0.01, steps);
        let (one, other) = (run(STEPS_PER_HOUR), run(2 * STEPS_PER_HOUR));
        let pairs = one.hours.iter().zip(&other.hours);
        let far = pairs.filter(|(one, other)| {
            (one.t_c - other.t_c).abs() > 0.05 || (one.rh - other.rh).abs() > 0.002
        });
        let far = far.count();
        assert!(far * 100 <= one.hours.len(), "{rating}: {far}");
    }
}

/// A vehicle cools to the temperature at which its machine stands still, at whatever moment of a step.
#[test]
fn a_machine_that_turns_at_any_moment_leaves_the_inside_to_the_weather() {
    let rated = MakerPoint {
        t_c: 25.0,
        rh: 0.8,
        removal: 0.3 / 86_400.0,
        power: 60.0,
    };
    for tenths in 0..40 {
        let lowest = 1.0 + 0.2 * f64::from(tenths);
        let machine = Machine::new(Kind::Compressor, &[rated], Some(lowest)).expect("a machine");
        let strategy = Strategy {
            machine: Some(&machine),
            ..Strategy::default()
        };
        let hours: Vec<Forcing> = (0..400)
            .map(|at| {
                let time = f64::from(at);
                let mut hour = plain(6.0 + 5.0 * (time * 0.2618).sin() + (time * 1.7).sin(), 0.8);
                hour.envelope_gain = 100.0 * (time * 0.2618).sin();
                hour
            })
            .collect();
        let found = marched(&body(), &hours, &strategy, 0.01, STEPS_PER_HOUR);
        let fine = marched(&body(), &hours, &strategy, 0.01, 4 * STEPS_PER_HOUR);
        for (one, other) in found.hours.iter().zip(&fine.hours) {
            assert!(
                (one.t_c - other.t_c).abs() < 0.1,
                "{lowest}: {one:?} {other:?}"
            );
        }
    }
}

/// Where the air is as dry as the hygrostat asks and the machine can take nothing, its watts come and go at
/// one temperature: it runs for a part of the time there, and the inside follows the weather.
#[test]
fn a_machine_that_can_take_nothing_does_not_stop_the_clock() {
    let rated = MakerPoint {
        t_c: 30.0,
        rh: 0.8,
        removal: 0.3 / 86_400.0,
        power: 60.0,
    };
    let machine = Machine::new(Kind::Thermoelectric, &[rated], None).expect("a machine");
    let mut turned = 0;
    for percent in [50.0, 55.0, 60.0, 65.0, 70.0, 75.0, 80.0] {
        let strategy = Strategy {
            machine: Some(&machine),
            hygrostat: Some(percent / 100.0),
            ..Strategy::default()
        };
        let found = marched(&body(), &season(), &strategy, 0.01, STEPS_PER_HOUR);
        assert!(
            found.books.heat_open().abs() < 1e-6,
            "{percent}: {}",
            found.books.heat_open()
        );
        assert!(found.books.water_open().abs() < 1e-6, "{percent}");
        for hours in found.hours.windows(3) {
            let stands = hours
                .windows(2)
                .all(|pair| (pair[0].t_c - pair[1].t_c).abs() < 1e-12);
            assert!(!stands, "{percent}: {hours:?}");
        }
        let part = |hour: &&HourInside| hour.duty > 0.01 && hour.duty < 0.99;
        turned += found.hours.iter().filter(part).count();
    }
    assert!(turned > 30, "{turned}");
}
