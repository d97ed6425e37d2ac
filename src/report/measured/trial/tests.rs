//! What is said of trials.

use super::{foresight, rows, verdict, verdicts};
use crate::assess::NotKnown;
use crate::assess::measured::trial::{
    Change, Day, Effect, Foresight, Method, Pair, PeriodOutcome, TrialOutcome,
};
use crate::physics::measurement::Limits;
use crate::report::blocks::{Block, Section};
use crate::survey::{OutsideFrom, Period, PeriodId, Trial, TrialId, Vents};

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
        pairs: vec![Pair {
            with: PeriodId(2),
            without: PeriodId(1),
        }],
        left_out: Vec::new(),
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
fn limits_that_round_to_nothing_are_told_in_plain_words() {
    let told = |low: f64, high: f64| {
        let mut one = method((low + high) / 2.0, None);
        let effect = one.effect.as_mut().unwrap();
        effect.rh.limits = Some(Limits {
            low,
            value: effect.rh.value,
            high,
        });
        verdict(&one)
    };
    for (limits, words) in [
        (
            (-0.0134, 0.0033),
            "lies between 1 point drier and less than half a point damper",
        ),
        ((-0.004, 0.003), "is less than half a point either way"),
        (
            (-0.02, -0.002),
            "2 points drier to less than half a point drier",
        ),
    ] {
        let found = told(limits.0, limits.1);
        assert!(found.contains(words), "{found}");
        assert!(!found.contains("nothing"), "{found}");
    }
}

#[test]
fn periods_that_do_not_count_are_named_with_their_reason() {
    let mut one = method(-0.2, Some(0.05));
    one.left_out = [4, 6, 8]
        .map(|id| {
            let reason = if id == 8 {
                "nobody was there"
            } else {
                "not read"
            };
            (PeriodId(id), NotKnown::because(reason))
        })
        .into();
    let words = verdict(&one);
    assert!(
        words.ends_with(
            "Periods 4 and 6 are left out: not read. Period 8 is left out: nobody was there."
        ),
        "{words}"
    );
}

/// The words of the cautions beside the verdicts of a trial whose first period is without the method.
fn cautions(change: impl Fn(&mut Period, &mut Period)) -> String {
    let mut trial = Trial::new(TrialId(1));
    let [mut without, mut with] = [1, 2].map(|id| Period::new(PeriodId(id), None, None));
    change(&mut without, &mut with);
    trial.periods = vec![without, with];
    let mut section = Section::new("trial");
    verdicts(
        &mut section,
        &trial,
        &outcome(vec![method(-0.2, Some(0.05))], Vec::new()),
    );
    let texts = section.blocks.iter().filter_map(|block| match block {
        Block::Caution { text, .. } => Some(text.clone()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" | ")
}

#[test]
fn vents_and_people_that_changed_along_with_a_method_are_named_beside_its_verdict() {
    let words = cautions(|without, with| {
        (without.vents, without.people) = (Vents::Open, Some(0.0));
        (with.vents, with.people) = (Vents::Closed, Some(2.0));
    });
    assert!(
        words.contains("the vents were closed in period 2, and open in period 1 without it"),
        "{words}"
    );
    assert!(
        words.contains("2 people were inside in period 2, and nobody was inside in period 1"),
        "{words}"
    );
    // What nobody wrote down of both is no difference, and neither is what is the same.
    let words = cautions(|without, with| {
        (without.vents, without.people) = (Vents::NotSaid, Some(1.0));
        (with.vents, with.people) = (Vents::Closed, Some(1.0));
    });
    assert!(!words.contains("period 1"), "{words}");
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
