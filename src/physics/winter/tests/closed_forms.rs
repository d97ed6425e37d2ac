//! What has a closed form.

use super::super::{Body, Heating, STEPS_PER_HOUR, Strategy, Tub, march};
use super::{body, marched, plain};
use crate::physics::air::saturation_pressure;
use std::convert::Infallible;
use std::ops::ControlFlow;

/// Neither furniture that stores water nor surfaces.
fn bare() -> Body {
    Body {
        buffer: 0.0,
        surfaces: Vec::new(),
        ..body()
    }
}

#[test]
fn a_step_of_the_outside_is_followed_as_one_node_does() {
    let body = bare();
    let mut hours = vec![plain(0.0, 0.5); 400];
    hours.extend(vec![plain(10.0, 0.25); 24]);
    let found = marched(&body, &hours, &Strategy::default(), 0.0, STEPS_PER_HOUR);
    let tau = body.heat_capacity / body.fabric;
    for (hour, inside) in (0u32..).zip(&found.hours[400..]) {
        // Mean over the hour of 10 (1 − e^{−t/τ}).
        let (from, to) = (f64::from(hour) * 3600.0, f64::from(hour + 1) * 3600.0);
        let mean = 10.0 * (1.0 - tau * ((-from / tau).exp() - (-to / tau).exp()) / 3600.0);
        assert!(
            (inside.t_c - mean).abs() < 5e-3,
            "{hour}: {} {mean}",
            inside.t_c
        );
    }
}

#[test]
fn water_decays_with_the_air_that_flows_through_and_the_furniture_slows_it() {
    for (buffer, within) in [(0.0, 4e-3), (0.5, 4e-3)] {
        let body = Body { buffer, ..bare() };
        let mut hours = vec![plain(10.0, 0.50); 400];
        hours.extend(vec![plain(10.0, 0.51); 12]);
        let flow = 25.0 * 1.2 * 0.5 / 3600.0;
        // What warmth the furniture gives off is a hundredth of a kelvin: the outside is 10 °C all along.
        let found = marched(
            &body,
            &hours,
            &Strategy::default(),
            flow,
            4 * STEPS_PER_HOUR,
        );
        let saturation = saturation_pressure(10.0);
        // m_da 0.622 P/(P − p)² by κ + B/p_ws: the humidity ratio's slope at 50.5 %.
        let pressure = 101_325.0;
        let vapour = 0.505 * saturation;
        let carried = flow * 0.621_945 * pressure / (pressure - vapour).powi(2);
        let held = 25.0 / (461.5 * 283.15) + buffer / saturation;
        let rate = carried / held;
        for (hour, inside) in (0u32..).zip(&found.hours[400..]) {
            let (from, to) = (f64::from(hour) * 3600.0, f64::from(hour + 1) * 3600.0);
            let left = ((-rate * from).exp() - (-rate * to).exp()) / (rate * 3600.0);
            let share = (inside.vapour / saturation - 0.50) / 0.01;
            let gap = share - (1.0 - left);
            // With furniture the heat of the water it takes warms it: the humidity lags a little more.
            let allowed = if buffer > 0.0 { 0.12 } else { within };
            assert!(
                gap.abs() < allowed,
                "{buffer} {hour}: {share} {}",
                1.0 - left
            );
        }
    }
}

#[test]
fn water_that_the_furniture_takes_up_warms_it() {
    // Outside turns damp at the same temperature: the inside is warmer while the furniture takes
    // water, by what it takes, 2.5 MJ/kg, less what leaves through the shell.
    let body = Body {
        surfaces: Vec::new(),
        ..body()
    };
    let mut hours = vec![plain(5.0, 0.5); 400];
    hours.extend(vec![plain(5.0, 0.9); 200]);
    let found = marched(&body, &hours, &Strategy::default(), 0.02, STEPS_PER_HOUR);
    let warmer = found.hours[400..430].iter().map(|hour| hour.t_c - 5.0);
    assert!(warmer.fold(f64::MAX, f64::min) > 0.05);
    assert!((found.hours[399].t_c - 5.0).abs() < 0.01);
    // The mean over all hours that the air takes: heat given off over heat conducted per kelvin.
    let degree_hours: f64 = found.hours[400..].iter().map(|hour| hour.t_c - 5.0).sum();
    let conductance =
        body.fabric + 0.02 * (1006.0 + 1860.0 * plain(5.0, 0.9).outside.humidity_ratio);
    let end = &found.end;
    let taken = body.buffer * (end.vapour / saturation_pressure(end.t_c) - 0.5);
    let expected = 2.5e6 * taken / conductance / 3600.0;
    assert!(
        (degree_hours / expected - 1.0).abs() < 0.02,
        "{degree_hours} {expected}"
    );
}

#[test]
fn a_thermostat_holds_its_set_point_and_gives_what_that_takes() {
    let heating = Heating {
        rating: 1000.0,
        set_c: Some(5.0),
        set_present_c: Some(20.0),
        only_present: false,
        water_per_joule: 0.0,
    };
    let strategy = Strategy {
        heating: Some(heating),
        ..Strategy::default()
    };
    let body = bare();
    let found = marched(
        &body,
        &vec![plain(-5.0, 0.8); 48],
        &strategy,
        0.0,
        STEPS_PER_HOUR,
    );
    for hour in &found.hours {
        assert!((hour.t_c - 5.0).abs() < 1e-6 && (hour.heater - 600.0).abs() < 1e-3);
    }
    let cold = marched(
        &body,
        &vec![plain(-20.0, 0.8); 48],
        &strategy,
        0.0,
        STEPS_PER_HOUR,
    );
    // Its rating into 60 W/K: 16.67 K above the outside.
    assert!((cold.end.t_c - (-20.0 + 1000.0 / 60.0)).abs() < 1e-3);
}

#[test]
fn a_tub_gathers_until_it_is_full_and_then_nothing() {
    let tub = Tub {
        surface: 0.5,
        salt: Some(0.2),
        holds: Some(0.4e-3),
    };
    let strategy = Strategy {
        tub: Some(tub),
        ..Strategy::default()
    };
    let found = marched(
        &body(),
        &vec![plain(5.0, 0.85); 900],
        &strategy,
        0.02,
        STEPS_PER_HOUR,
    );
    let full_at = found.tub_full_at.expect("it fills");
    assert!(full_at > 10 && full_at < 890, "{full_at}");
    assert!(found.hours[full_at + 1].removed.abs() < 1e-12);
    assert!(found.hours[0].removed > 0.0);
    // 0.4 L of brine with 0.2 kg of salt: Conde's density puts the water between 0.2 and 0.35 kg.
    assert!(
        (0.2..0.35).contains(&found.end.in_tub),
        "{}",
        found.end.in_tub
    );
    let endless = Strategy {
        tub: Some(Tub {
            salt: None,
            holds: None,
            ..tub
        }),
        ..Strategy::default()
    };
    let more = marched(
        &body(),
        &vec![plain(5.0, 0.85); 900],
        &endless,
        0.02,
        STEPS_PER_HOUR,
    );
    assert!(more.tub_full_at.is_none() && more.end.in_tub > 2.0 * found.end.in_tub);
    // Without the weight of its salt it still runs over at its brim.
    let brim = Strategy {
        tub: Some(Tub { salt: None, ..tub }),
        ..Strategy::default()
    };
    let hours = vec![plain(5.0, 0.85); 900];
    let over = marched(&body(), &hours, &brim, 0.02, STEPS_PER_HOUR);
    assert!(
        over.tub_full_at.is_some_and(|at| at > 10),
        "{:?}",
        over.tub_full_at
    );
    assert!(
        (0.4..0.45).contains(&over.end.in_tub),
        "{}",
        over.end.in_tub
    );
}

#[test]
fn whoever_gives_up_gets_nothing_and_a_flow_that_is_not_known_is_told() {
    let hours = vec![plain(5.0, 0.8); 30];
    let give_up = || ControlFlow::Break(());
    let air = |_: usize, _: f64| Ok::<f64, Infallible>(0.01);
    let none = march(&body(), &hours, &Strategy::default(), &air, (6, &give_up));
    assert_eq!(none, Ok(None));
    let unknown = |hour: usize, _: f64| if hour < 12 { Ok(0.01) } else { Err("no flow") };
    let go_on = || ControlFlow::Continue(());
    let error = march(&body(), &hours, &Strategy::default(), &unknown, (6, &go_on));
    assert_eq!(error, Err("no flow"));
}
