//! Weather that changes by the hour: books, finer steps, and the signs of terms.

use super::super::{Body, Forcing, Heating, HourInside, STEPS_PER_HOUR, Strategy};
use super::{body, marched, plain};
use crate::physics::machine::{Kind, Machine, MakerPoint};

/// Sixty days of swinging weather with sun by day and a cold sky by night.
pub(super) fn season() -> Vec<Forcing> {
    let hour = |at: u32| {
        let time = f64::from(at);
        let day = (std::f64::consts::TAU * (time - 14.0) / 24.0).cos();
        let slow = (std::f64::consts::TAU * time / 150.0).sin();
        let t_c = 4.0 + 3.0 * day + 4.0 * slow;
        let rh = (0.86 - 0.08 * day + 0.05 * (time * 0.37).sin()).min(1.0);
        let sun = day.max(0.0);
        let mut hour = plain(t_c, rh);
        hour.envelope_gain = 260.0 * sun - 40.0;
        hour.seen_c = vec![t_c - 2.0, t_c + 5.0 * sun - 1.0];
        hour.vapour_source = if at % 24 < 7 { 40e-3 / 3600.0 } else { 0.0 };
        hour.liquid_source = 8e-3 / 3600.0;
        hour.gains = if at % 24 < 7 { 90.0 } else { 0.0 };
        hour.present = at % 24 < 7;
        hour
    };
    (0..60 * 24).map(hour).collect()
}

fn rated() -> MakerPoint {
    MakerPoint {
        t_c: 30.0,
        rh: 0.8,
        removal: 10.0 / 86_400.0,
        power: 280.0,
    }
}

fn compressor() -> Machine {
    Machine::new(Kind::Compressor, &[rated()], None).expect("a machine")
}

fn heating() -> Heating {
    Heating {
        rating: 700.0,
        set_c: Some(5.0),
        set_present_c: Some(16.0),
        only_present: false,
        water_per_joule: 0.0,
    }
}

#[test]
fn the_books_of_heat_and_water_close_to_a_millionth() {
    let machine = compressor();
    for strategy in [
        Strategy::default(),
        Strategy {
            machine: Some(&machine),
            hygrostat: Some(0.6),
            ..Strategy::default()
        },
        Strategy {
            heating: Some(heating()),
            ..Strategy::default()
        },
    ] {
        let found = marched(&body(), &season(), &strategy, 0.01, STEPS_PER_HOUR);
        let books = found.books;
        assert!(books.water_by_air > 1.0 && books.heat_moved > 1e6);
        assert!(books.water_open().abs() < 1e-6, "{}", books.water_open());
        assert!(books.heat_open().abs() < 1e-6, "{}", books.heat_open());
        // The sums of the hours are those of the books.
        let removed: f64 = found.hours.iter().map(|hour| hour.removed).sum();
        assert!((removed - books.water_removed).abs() < 1e-9 * removed.max(1.0));
        // Water on the surfaces at the end is what went onto them less what ran off.
        let run_off: f64 = found.hours.iter().map(|hour| hour.run_off).sum();
        let left: f64 = found.end.films.iter().sum();
        let went = books.water_to_films + books.water_not_held - run_off;
        assert!(went <= left + 1e-9 && left - went < 1.0);
    }
}

#[test]
fn half_the_step_moves_hardly_any_hour() {
    let machine = compressor();
    for strategy in [
        Strategy::default(),
        Strategy {
            machine: Some(&machine),
            hygrostat: Some(0.6),
            ..Strategy::default()
        },
        Strategy {
            heating: Some(heating()),
            ..Strategy::default()
        },
    ] {
        let one = marched(&body(), &season(), &strategy, 0.02, STEPS_PER_HOUR);
        let other = marched(&body(), &season(), &strategy, 0.02, 2 * STEPS_PER_HOUR);
        let pairs = one.hours.iter().zip(&other.hours);
        let moved = pairs
            .filter(|(one, other)| {
                (one.t_c - other.t_c).abs() > 0.05 || (one.rh - other.rh).abs() > 0.002
            })
            .count();
        assert!(
            moved * 100 <= one.hours.len(),
            "{moved} of {}",
            one.hours.len()
        );
    }
}

#[test]
fn furniture_steadies_the_humidity_and_does_not_shift_it() {
    let swing = |buffer: f64| {
        let body = Body { buffer, ..body() };
        let found = marched(&body, &season(), &Strategy::default(), 0.01, STEPS_PER_HOUR);
        let rh: Vec<f64> = found.hours.iter().map(|hour| hour.rh).collect();
        let mean = rh.iter().sum::<f64>() / 1440.0;
        let spread = rh.iter().map(|rh| (rh - mean).powi(2)).sum::<f64>() / 1440.0;
        (mean, spread.sqrt())
    };
    let (none, some, much) = (swing(0.0), swing(1.0), swing(6.0));
    assert!(some.1 < 0.8 * none.1, "{none:?} {some:?}");
    assert!(much.1 < some.1, "{some:?} {much:?}");
    assert!((much.0 - none.0).abs() < 0.03, "{none:?} {much:?}");
}

#[test]
fn a_hygrostat_stops_the_machine_at_its_setting_and_saves_most_of_the_watts() {
    let machine = compressor();
    let run = |hygrostat: Option<f64>, dry_until: usize| {
        let strategy = Strategy {
            machine: Some(&machine),
            hygrostat,
            ..Strategy::default()
        };
        let hours = season().into_iter().enumerate().map(|(at, hour)| {
            let rh = if at < dry_until { 0.5 } else { 0.85 };
            let mut warm = plain(hour.outside.t_c + 8.0, rh);
            warm.envelope_gain = hour.envelope_gain;
            warm
        });
        let hours: Vec<Forcing> = hours.collect();
        let found = marched(&body(), &hours, &strategy, 0.01, STEPS_PER_HOUR);
        let watts: f64 = found.hours.iter().map(|hour| hour.machine).sum::<f64>() / 1440.0;
        (watts, found.hours)
    };
    let (always, never_stopped) = run(None, 0);
    let (stopped, held) = run(Some(0.6), 0);
    let driest = |hours: &[HourInside]| hours.iter().map(|hour| hour.rh).fold(f64::MAX, f64::min);
    assert!(always > 279.0 && driest(&never_stopped) < 0.5);
    assert!(stopped < 0.8 * always, "{stopped} {always}");
    for hour in &held {
        assert!((hour.rh - 0.6).abs() < 1e-6, "{hour:?}");
        assert!(hour.duty > 0.0 && hour.duty < 1.0, "{hour:?}");
    }
    // Dry weather may dry the air below the setting, the machine may not; and it never rests above.
    let (_, hours) = run(Some(0.6), 720);
    let idle = hours.iter().filter(|hour| hour.rh < 0.59).count();
    assert!(idle > 100, "{idle}");
    for hour in &hours {
        assert!(hour.rh > 0.599 || hour.duty < 0.5, "{hour:?}");
        assert!(hour.rh > 0.59 || hour.duty < 1e-9, "{hour:?}");
        // In the hour of the change it runs full, then in part.
        assert!(hour.rh < 0.605 || hour.duty > 1.0 - 1e-9, "{hour:?}");
    }
}

#[test]
fn a_film_dries_into_the_room_again() {
    // A cold night wets the glass, a warm day takes the water back.
    let mut hours = Vec::new();
    for at in 0..40 * 24 {
        let night = at % 24 < 10;
        let mut hour = plain(6.0, 0.85);
        hour.seen_c = vec![if night { -6.0 } else { 8.0 }; 2];
        hour.vapour_source = 20e-3 / 3600.0;
        hours.push(hour);
    }
    let found = marched(&body(), &hours, &Strategy::default(), 0.01, STEPS_PER_HOUR);
    let condensed: f64 = found.hours.iter().map(|hour| hour.condensed).sum();
    let run_off: f64 = found.hours.iter().map(|hour| hour.run_off).sum();
    assert!(condensed > 1.0, "{condensed}");
    assert!(run_off < 0.2 * condensed, "{run_off} {condensed}");
    assert!(found.books.water_to_films < 0.5 * condensed);
}
