//! Two hundred invented trials of each kind, whose truth is known (`trials.py`, which shares nothing
//! with the program): how often the limits hold what a method really did, by length of period, single
//! periods and on–off–on–off apart; and how often a thing that does next to nothing seems to do
//! something.

#![expect(
    clippy::indexing_slicing,
    reason = "pairs and columns of the table beside it, of a length that its reader has seen to"
)]

use std::collections::BTreeMap;
use std::path::PathBuf;

use gapledger::assess::Study;
use gapledger::assess::measured::trial::{CHANCES, Change, Day, Effect, effect};
use gapledger::physics::STANDARD_PRESSURE;
use gapledger::physics::counts::count;
use gapledger::survey::file;
use gapledger::tasks::{self, Shelf, to_the_end};

/// One trial as the script wrote it.
struct Invented {
    method: String,
    length: usize,
    periods: usize,
    /// Warmth, K; water, kg/kg; humidity, points of 0 to 1.
    truth: [f64; 3],
    days: Vec<Day>,
}

fn invented() -> Vec<Invented> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference/trials.csv");
    csv::Reader::from_path(path)
        .unwrap()
        .deserialize::<(String, usize, usize, f64, f64, f64, f64, f64, String)>()
        .map(|row| {
            let (method, length, periods, t_out, w_out, warmth, water, rh, days) = row.unwrap();
            let numbers: Vec<f64> = days
                .split_whitespace()
                .map(|number| number.parse().unwrap())
                .collect();
            let day = |pair: &[f64]| Day {
                t_in_c: t_out + pair[0] / 100.0,
                w_in: (w_out + pair[1] / 1000.0) / 1000.0,
                t_out_c: t_out,
                w_out: w_out / 1000.0,
            };
            Invented {
                method,
                length,
                periods,
                truth: [warmth, water / 1000.0, rh / 100.0],
                days: numbers.chunks_exact(2).map(day).collect(),
            }
        })
        .collect()
}

fn found(trial: &Invented) -> Effect {
    let periods: Vec<&[Day]> = trial.days.chunks_exact(trial.length).collect();
    assert_eq!(periods.len(), trial.periods);
    let pairs: Vec<(&[Day], &[Day])> = periods
        .chunks_exact(2)
        .map(|pair| (pair[0], pair[1]))
        .collect();
    effect(&pairs, STANDARD_PRESSURE).unwrap()
}

/// What was counted for one method, length and number of periods.
#[derive(Default)]
struct Count {
    trials: usize,
    covered: [usize; 3],
    shown: [usize; 3],
}

impl Count {
    fn share(&self, of: usize) -> f64 {
        count(of) / count(self.trials)
    }
}

fn counted() -> BTreeMap<(String, usize, usize), Count> {
    let mut counts: BTreeMap<_, Count> = BTreeMap::new();
    for trial in invented() {
        let found = found(&trial);
        let key = (trial.method.clone(), trial.length, trial.periods);
        let one = counts.entry(key).or_default();
        one.trials += 1;
        let changes: [&Change; 3] = [&found.warmth_k, &found.water, &found.rh];
        for (at, (change, truth)) in changes.into_iter().zip(trial.truth).enumerate() {
            let limits = change.limits.unwrap();
            one.covered[at] += usize::from(limits.holds(truth));
            one.shown[at] += usize::from(change.shows());
        }
    }
    counts
}

#[test]
fn limits_hold_what_was_true_as_often_as_they_say_and_a_tub_is_not_seen() {
    let counts = counted();
    assert_eq!(counts.len(), 10);
    println!("method, days, periods: covered and shown of warmth, water, humidity");
    for ((method, length, periods), one) in &counts {
        let shares = |of: [usize; 3]| of.map(|of| format!("{:.3}", one.share(of))).join(" ");
        println!(
            "{method} {length} {periods}: {} | {}",
            shares(one.covered),
            shares(one.shown)
        );
        assert_eq!(one.trials, 200);
        // Of 200, a true 95 % gives fewer than 178 about once in ten thousand times.
        for covered in one.covered {
            assert!(covered >= 178, "{method} {length} {periods}: {covered}");
        }
        let humidity = one.share(one.shown[2]);
        match (method.as_str(), periods) {
            // What METHOD asks: no effect at least nine times in ten when paired.
            ("tub", 4) => assert!(humidity <= 0.10, "{length}: {humidity}"),
            ("tub", _) => assert!(humidity <= 0.17, "{length}: {humidity}"),
            // A machine that does bring the humidity down by a third is seen.
            (_, 4) => assert!(humidity >= 0.90, "{length}: {humidity}"),
            _ => assert!(humidity >= 0.80, "{length}: {humidity}"),
        }
    }
}

#[test]
fn what_the_program_says_of_chance_is_what_was_counted() {
    let counts = counted();
    for chances in CHANCES {
        let of = |method: &str| &counts[&(method.to_owned(), chances.days, 2 * chances.pairs)];
        let (tub, compressor) = (of("tub"), of("compressor"));
        let covered = count(tub.covered[2] + compressor.covered[2]) / 400.0;
        for (said, counted) in [
            (chances.covered, covered),
            (chances.false_effects, tub.share(tub.shown[2])),
            (chances.false_warmth, tub.share(tub.shown[0])),
        ] {
            assert!((said - counted).abs() < 0.006, "{chances:?}: {counted}");
        }
    }
}

#[test]
fn a_compressor_does_about_what_the_trade_says() {
    // Trade [C]: 280 W bring a leaky body from near 80 to about 60 %, about half of it by warmth.
    let of_machine: Vec<Invented> = invented()
        .into_iter()
        .filter(|trial| trial.method == "compressor" && trial.periods == 4 && trial.length == 7)
        .collect();
    let shares: Vec<f64> = of_machine
        .iter()
        .filter_map(|trial| found(trial).warmth_share)
        .collect();
    let mean = shares.iter().sum::<f64>() / count(shares.len());
    assert!(shares.len() > 150 && (0.25..0.75).contains(&mean), "{mean}");
    // The true fall is known beside the one found: warmth and water both went the right way.
    for trial in &of_machine {
        assert!(trial.truth[0] > 0.0 && trial.truth[1] < 0.0 && trial.truth[2] < 0.0);
    }
}

/// The loggers of the sample are made up by `trials.py` (`write_sample`, seed 31), whose body has an air
/// change of 0.45 /h and 0.2 /h more for each metre a second: over the four days of its compressor 0.860
/// /h on average, while fittings gave back 0.564 of the 2.71 kg collected. The room stood at 87 % when the
/// machine was switched on and at 60 % two hours later, so a mean of the first day knows nothing of it.
#[test]
fn the_air_change_by_the_water_collected_holds_what_was_true_of_the_sample() {
    const TRUE_PER_H: f64 = 0.860;
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("sample-surveys/orchard-trial.ron");
    let study = Study::of(&file::load(&path).unwrap().survey);
    let folders = tasks::data_folders(Some(&path), None);
    let shelf = Shelf::default();
    let tried = tasks::tried(&study, &folders, path.parent(), &shelf, &to_the_end).unwrap();
    let outcome = tried.trials[0].1.as_ref().unwrap();
    let by_compressor = &outcome.periods[3];
    let limits = by_compressor.air_change_per_h.clone().unwrap().unwrap();
    println!("{limits:?}");
    assert!(limits.holds(TRUE_PER_H), "{limits:?}");
    // The likeliest is near it too: a tenth off, since what fittings hold is not known.
    assert!((limits.value / TRUE_PER_H - 1.0).abs() < 0.1, "{limits:?}");
    // The tub collected hardly more than what fittings gave back of themselves.
    let by_tub = &outcome.periods[1];
    assert!(by_tub.air_change_per_h.as_ref().unwrap().is_err());
}
