//! What is said of trials.

use super::{foresight, rows, verdict};
use crate::assess::NotKnown;
use crate::assess::measured::trial::{
    Change, Day, Effect, Foresight, Method, PeriodOutcome, TrialOutcome,
};
use crate::physics::measurement::Limits;
use crate::report::blocks::Section;
use crate::survey::{OutsideFrom, Period, PeriodId, Trial, TrialId};

fn method(rh: f64, half: Option<f64>) -> Method {
    let change = |value: f64, half: Option<f64>| Change {
        value,
        limits: half.map(|half| Limits::around(value, half)),
    };
    Method {
        periods: vec![PeriodId(2)],
        words: "tub of salt".to_owned(),
        effect: Ok(Effect {
            pairs: 1,
            fewest_days: 7,
            warmth_k: change(0.0, half),
            water: change(0.0, half),
            rh_without: 0.8,
            rh_with: 0.8 + rh,
            rh: change(rh, half),
            warmth_share: None,
        }),
    }
}

#[test]
fn limits_that_hold_zero_are_no_effect_that_the_data_can_show() {
    let words = verdict(&method(-0.01, Some(0.03)));
    assert!(words.starts_with("Tub of salt: no effect"), "{words}");
    assert!(
        words.contains("4 points drier and 2 points damper"),
        "{words}"
    );
    let words = verdict(&method(-0.2, Some(0.05)));
    assert!(
        words.contains("20 points drier") && !words.contains("no effect"),
        "{words}"
    );
}

#[test]
fn nothing_is_said_to_be_caused_and_few_days_are_told() {
    for half in [None, Some(0.03), Some(0.3)] {
        let words = verdict(&method(-0.2, half));
        assert!(!words.contains("cause"), "{words}");
    }
    let words = verdict(&method(-0.2, None));
    assert!(words.contains("fewer than four days"), "{words}");
    let mut unknown = method(0.0, None);
    unknown.effect = Err(NotKnown::because("there is nothing to hold it against"));
    assert!(verdict(&unknown).contains("not known: there is nothing"));
}

#[test]
fn what_the_data_cannot_show_is_not_said_of_warmth_and_water() {
    let mut one = method(-0.2, Some(0.05));
    let effect = one.effect.as_mut().unwrap();
    effect.warmth_share = Some(1.1);
    effect.water = Change {
        value: 0.00003,
        limits: Some(Limits::around(0.00003, 0.00016)),
    };
    let words = verdict(&one);
    assert!(!words.contains("more water than without"), "{words}");
    assert!(words.contains("nothing that the data can show"), "{words}");
    let effect = one.effect.as_mut().unwrap();
    effect.water.limits = Some(Limits::around(0.00003, 0.00001));
    assert!(verdict(&one).contains("more water than without"));
}

fn outcome(methods: Vec<Method>, periods: Vec<PeriodOutcome>) -> TrialOutcome {
    TrialOutcome {
        outside_from: OutsideFrom::Logger,
        inside_hours: Vec::new(),
        outside_hours: Ok(Vec::new()),
        periods,
        methods,
        foresight: vec![Foresight {
            points: 0.03,
            days: Some(6),
        }],
    }
}

#[test]
fn rows_of_the_picture_have_the_number_of_the_period_and_its_own_days() {
    let mut trial = Trial::new(TrialId(1));
    trial.periods = [1, 2]
        .map(|id| Period::new(PeriodId(id), None, None))
        .into();
    let day = Day {
        t_in_c: 8.0,
        w_in: 0.005,
        t_out_c: 6.0,
        w_out: 0.005,
    };
    let period = |id: u32, days: usize, against: Option<u32>| PeriodOutcome {
        id: PeriodId(id),
        days_long: 0.0,
        days: vec![day; days],
        means: Err(NotKnown::because("it is not asked for")),
        against: against.map(PeriodId),
        effect: None,
        expected: None,
        air_change_per_h: None,
    };
    let periods = vec![period(1, 6, None), period(2, 11, Some(1))];
    let found = rows(&trial, &outcome(vec![method(-0.01, Some(0.03))], periods));
    assert_eq!(found[0].name, "2: Tub of salt, 11 days against 6 without");
}

#[test]
fn a_change_of_humidity_is_told_in_points() {
    let mut section = Section::new("trial");
    foresight(&mut section, &outcome(Vec::new(), Vec::new()));
    let words = format!("{:?}", section.blocks);
    assert!(words.contains("6 days for a change of 3 points"), "{words}");
    assert!(!words.contains('%'), "{words}");
}
