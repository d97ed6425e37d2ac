//! The calculation laid over measured air.

use super::{caravan, go_on, mild, season_of};
use crate::assess::drying::OptionKind;
use crate::assess::measured::trial::{HourMean, TrialOutcome, Tried};
use crate::assess::winter::{LEAST_HOURS, Laid, Winter, laid_over};
use crate::assess::{NotKnown, Study};
use crate::climate::{Hour, Weather};
use crate::physics::MoistAir;
use crate::physics::air::humidity_ratio;
use crate::series::moment_from;
use crate::survey::{Moment, OutsideFrom, Period, PeriodId, Ran, Stay, Survey, Trial, TrialId};
use std::collections::BTreeMap;

/// The first of November of the invented year, and where the hours measured begin: six days later.
const FIRST: &str = "2023-11-01";
const BEFORE: usize = 6 * 24;
const MEASURED: usize = 5 * 24;

fn start_s(at: usize) -> i64 {
    let first = moment_from(FIRST).expect("a day");
    first + 3600 * i64::try_from(at).expect("hours")
}

fn air(hour: &Hour) -> MoistAir {
    let (t_c, rh) = (hour.t_c.expect("there"), hour.rh.expect("there"));
    MoistAir::from_relative_humidity(t_c, rh, hour.pressure.expect("there")).expect("air")
}

/// Outside as the weather has it; inside 1 K warmer than that with the same water.
fn measured(hours: &[Hour]) -> (Vec<HourMean>, Vec<HourMean>) {
    let of = |(at, hour): (usize, &Hour), warmer: f64| HourMean {
        start_s: start_s(BEFORE + at),
        t_c: air(hour).t_c + warmer,
        humidity_ratio: air(hour).humidity_ratio,
    };
    let all = |warmer: f64| {
        hours
            .iter()
            .enumerate()
            .map(move |one| of(one, warmer))
            .collect()
    };
    (all(0.0), all(1.0))
}

fn period(number: u32, ran: Ran, (from, to): (usize, usize)) -> Period {
    let at = |at| Moment::from_seconds(start_s(at));
    Period {
        ran,
        ..Period::new(PeriodId(number), at(from), at(to))
    }
}

fn over(survey: &Survey, weather: Result<&Weather, &NotKnown>, hours: &[Hour]) -> Vec<Laid> {
    let (outside_hours, inside_hours) = measured(hours);
    let outcome = TrialOutcome {
        outside_from: OutsideFrom::Logger,
        inside_hours,
        outside_hours: Ok(outside_hours),
        periods: Vec::new(),
        methods: Vec::new(),
        foresight: Vec::new(),
    };
    let tried = Tried {
        trials: vec![(TrialId(1), Ok(outcome))],
        checks: Vec::new(),
    };
    let study = Study::of(survey);
    laid_over((&study, &Stay::default()), &tried, weather, &go_on).expect("never given up")
}

#[test]
fn the_difference_is_that_of_the_same_hours_by_themselves_and_what_cannot_be_laid_over_says_why() {
    let mut survey = caravan();
    let (weather, hours) = mild(BEFORE + MEASURED);
    let hours = &hours[BEFORE..];
    let end = BEFORE + MEASURED;
    let mut trial = Trial::new(TrialId(1));
    trial.periods = vec![
        period(1, Ran::Nothing, (BEFORE, end)),
        period(2, Ran::NotSaid, (BEFORE, end)),
        period(3, Ran::Nothing, (BEFORE, BEFORE + LEAST_HOURS - 1)),
        period(4, Ran::Nothing, (BEFORE + 24 * 400, end + 24 * 400)),
    ];
    survey.trials = vec![trial];
    let laid = over(&survey, Ok(&weather), hours);
    let one = laid[0].over.as_ref().expect("known");
    assert_eq!((one.option.as_str(), one.hours), ("nothing", MEASURED));
    // The same hours run by themselves, subtracted here.
    let study = Study::of(&survey);
    let mut winter = Winter::over(&study, &weather, hours, &Stay::default()).expect("made ready");
    // It begins with what was measured inside, whatever ran before.
    winter.from = Some((air(&hours[0]).t_c + 1.0, air(&hours[0]).vapour_pressure()));
    let season = season_of(&winter, OptionKind::Nothing);
    let apart = |of: &dyn Fn(usize) -> f64| {
        let all: Vec<f64> = (0..MEASURED).map(of).collect();
        let number = 120.0;
        let mean = all.iter().sum::<f64>() / number;
        let squares: f64 = all.iter().map(|own| (own - mean) * (own - mean)).sum();
        (mean, (squares / (number - 1.0)).sqrt())
    };
    assert!((season.hours[0].t_c - air(&hours[0]).t_c - 1.0).abs() < 0.5);
    let t_c = apart(&|at| season.hours[at].t_c - air(&hours[at]).t_c - 1.0);
    assert!((one.t_c.mean - t_c.0).abs() < 1e-6, "{one:?} {t_c:?}");
    assert!((one.t_c.spread - t_c.1).abs() < 1e-6, "{one:?} {t_c:?}");
    let water = apart(&|at| {
        let pressure = hours[at].pressure.expect("there");
        humidity_ratio(season.hours[at].vapour, pressure) - air(&hours[at]).humidity_ratio
    });
    assert!((one.water.mean - water.0).abs() < 1e-8, "{one:?} {water:?}");
    assert!(
        (one.water.spread - water.1).abs() < 1e-8,
        "{one:?} {water:?}"
    );
    let reasons: BTreeMap<u32, String> = laid[1..]
        .iter()
        .map(|one| {
            (
                one.period.0,
                one.over.as_ref().expect_err("not known").reason.clone(),
            )
        })
        .collect();
    assert!(reasons[&2].contains("none of the options"), "{reasons:?}");
    assert!(
        reasons[&3].contains("fewer than 48 of its hours"),
        "{reasons:?}"
    );
    assert!(
        reasons[&4].contains("does not hold all of its hours"),
        "{reasons:?}"
    );
    let none = NotKnown::because("there is no weather file");
    for one in over(&survey, Err(&none), hours) {
        assert_eq!(one.over.expect_err("no file"), none);
    }
}
