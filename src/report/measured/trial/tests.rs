//! What is said of trials.

use super::verdict;
use crate::assess::NotKnown;
use crate::assess::measured::trial::{Change, Effect, Method};
use crate::physics::measurement::Limits;
use crate::survey::PeriodId;

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
