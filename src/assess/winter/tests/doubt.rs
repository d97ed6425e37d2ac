//! Bands of the draws, and the season after the plan.

use super::{caravan, go_on, mild};
use crate::assess::Study;
use crate::assess::drying::OptionKind;
use crate::assess::winter::{Bands, Drawn, Figure, Winter};
use crate::survey::{MachineKind, SetUp, Stay, WorkState};

fn drawn(winter: &Winter, study: &Study, option: usize, draws: u32) -> Vec<Drawn> {
    let doubt = winter.doubt(study, draws).expect("made ready");
    let all = 0..doubt.draws();
    all.map(|draw| {
        let one = doubt.one(option, draw, &go_on).expect("never given up");
        one.expect("known")
    })
    .collect()
}

#[test]
fn bands_lie_around_the_season_as_surveyed_and_two_steps_an_hour_are_enough_for_them() {
    let study = Study::of(&caravan());
    let (weather, hours) = mild(12 * 24);
    let winter = Winter::over(&study, &weather, &hours, &Stay::default()).expect("made ready");
    let options = winter.options();
    let of = |kind| {
        options
            .iter()
            .position(|own| own.kind == kind)
            .expect("the option")
    };
    let rotor = of(OptionKind::Machine(MachineKind::DesiccantRotor));
    for (option, figure, least) in [
        (of(OptionKind::Nothing), Figure::MeanRh, 0.002),
        (of(OptionKind::BackgroundHeat), Figure::Energy, 0.3),
        (rotor, Figure::Water, 1.0),
    ] {
        let surveyed = winter
            .season(option, &go_on)
            .expect("not given up")
            .expect("known");
        let coarse = winter
            .season_in_steps(option, 2, &go_on)
            .expect("not given up")
            .expect("known");
        let all = drawn(&winter, &study, option, 16);
        let band = Bands::through(&all)
            .expect("draws")
            .of(figure)
            .expect("known");
        let (fine, coarse) = (figure.of(&surveyed), figure.of(&coarse));
        let (fine, coarse) = (fine.expect("known"), coarse.expect("known"));
        let wide = band.high - band.low;
        assert!(wide > least, "{figure:?}: {band:?}");
        assert!(
            band.low < fine && fine < band.high,
            "{figure:?}: {band:?} {fine}"
        );
        assert!(
            (coarse - fine).abs() < 0.1 * wide,
            "{figure:?}: {band:?} {fine} {coarse}"
        );
    }
    // The same draws again are the same.
    let [one, other] = [(); 2].map(|()| drawn(&winter, &study, rotor, 2));
    assert_eq!(one, other);
    assert!(Bands::through(&[]).is_err());
}

#[test]
fn a_band_leaves_a_twentieth_of_the_draws_on_either_side_and_is_not_known_where_one_is_not() {
    // numpy: quantile(0 … 10, [.05, .5, .95]) = 0.5, 5, 9.5.
    let draws: Vec<Drawn> = (0..=10u32)
        .map(|at| {
            let mut draw: Drawn = [Some(f64::from(at)); Figure::ALL.len()];
            let cost = Figure::ALL.len() - 1;
            draw[cost] = (at != 4).then_some(1.0);
            draw
        })
        .collect();
    let bands = Bands::through(&draws).expect("draws");
    let mean = bands.of(Figure::MeanRh).expect("known");
    assert!((mean.low - 0.5).abs() < 1e-12 && (mean.high - 9.5).abs() < 1e-12);
    assert!((mean.median - 5.0).abs() < 1e-12);
    assert_eq!(bands.of(Figure::Cost), None);
    // A mould index by its tenths, shares by two digits.
    let band = |low: f64, high: f64| crate::assess::winter::Band {
        low,
        median: low,
        high,
    };
    assert_eq!(Figure::Mould.span(&band(0.011, 0.022)), "0.0");
    assert_eq!(Figure::Mould.span(&band(0.01, 1.27)), "0.0 to 1.3");
    assert_eq!(Figure::FrostNights.span(&band(4.0, 4.3)), "4");
    assert_eq!(Figure::WetHours.span(&band(98.6, 260.2)), "99 to 260");
    assert_eq!(Figure::FrostNights.number(31.6), "32");
    assert_eq!(Figure::Above80.span(&band(0.876, 0.92)), "88 to 92");
}

#[test]
fn with_the_plan_done_somebody_is_there_in_the_same_hours_and_heating_to_comfort_takes_less() {
    let mut survey = caravan();
    survey.set_up = SetUp::InUse;
    for gap in &mut survey.gaps {
        if gap.state == WorkState::Open {
            gap.state = WorkState::Planned;
        }
    }
    let study = Study::of(&survey);
    let planned = study.planned().expect("planned").expect("a study");
    let (weather, hours) = mild(5 * 24);
    let stay = Stay {
        present_from_h: Some(18.0),
        present_to_h: Some(8.0),
        ..Stay::default()
    };
    let run = |study: &Study| {
        let winter = Winter::over(study, &weather, &hours, &stay).expect("made ready");
        super::season_of(&winter, OptionKind::Nothing)
    };
    let (before, after) = (run(&study), run(planned));
    let comfort = survey.targets.comfort_c;
    for (hour, inside) in hours.iter().zip(&after.hours) {
        let there = !(9..=18).contains(&hour.hour);
        if there {
            // At least comfort, but for the hour in which it is reached; people alone may give more.
            assert!(
                hour.hour == 19 || inside.t_c > comfort - 1e-3,
                "{hour:?} {inside:?}"
            );
        } else {
            assert!(inside.heater.abs() < 1e-12, "{hour:?} {inside:?}");
        }
    }
    assert!(
        after.heater_kwh < 0.98 * before.heater_kwh,
        "{} {}",
        before.heater_kwh,
        after.heater_kwh
    );
}

#[test]
fn the_plan_seals_what_the_winter_then_has_less_air_through() {
    let mut survey = caravan();
    for gap in &mut survey.gaps {
        if gap.state == WorkState::Open {
            gap.state = WorkState::Planned;
        }
    }
    let study = Study::of(&survey);
    let planned = study.planned().expect("planned").expect("a study");
    let (weather, hours) = mild(3 * 24);
    let air = |study: &Study| {
        let winter = Winter::over(study, &weather, &hours, &Stay::default()).expect("made ready");
        let season = winter
            .season(0, &go_on)
            .expect("not given up")
            .expect("known");
        season.hours.iter().map(|hour| hour.dry_air).sum::<f64>()
    };
    let (before, after) = (air(&study), air(planned));
    assert!(after < 0.95 * before, "{before} {after}");
}
