//! Long work in pieces, shared out to threads.
//!
//! What is worked out stands in [`assess`](crate::assess), which starts no thread. Here its
//! pieces are handed to as many threads as the machine has, with progress and cancel; the answer
//! is the same to the last bit for any number of them. Window and headless commands both come
//! here.

mod loggers;
mod photos;
#[cfg(test)]
mod picture_room;
mod sealing;
mod shared;
mod weather;
mod winter;

pub use loggers::{Shelf, data_folders, loggers, tried};
pub use photos::photo_states;
pub use sealing::{order, sealed_singly};
pub use shared::{Watch, processors, to_the_end};
pub use weather::{WeatherFailure, weather, weather_places};
pub use winter::{
    doubt, no_weather_file, seasons, winter, winter_after_plan, winter_bands, winter_laid,
};

use crate::assess::uncertainty::{Chunk, Round, SEED, Trials, Uncertainty, one_by_one};
use crate::assess::{Answer, NotKnown, Study};
use shared::shared_out;
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;
use std::time::Duration;

/// Draws made in one piece: so long a thread may still be busy after it was stopped.
const PIECE: u32 = 100;

/// How often somebody who waits for another's draws looks at them.
const LOOK_EVERY: Duration = Duration::from_millis(5);

/// How sure the results of a study are, with so many draws on so many threads. Draws that were
/// made already, or that somebody else is making, are not made again. `None` where `watch` gave
/// it up.
pub fn uncertainty<'a>(
    study: &'a Study,
    draws: u32,
    threads: usize,
    watch: &impl Watch,
) -> Option<&'a Answer<Uncertainty>> {
    loop {
        let leave = study.begin_draws();
        if let Some(found) = study.uncertainty() {
            return Some(found);
        }
        let Some(leave) = leave else {
            if watch(study.drawn_share()).is_break() {
                return None;
            }
            thread::sleep(LOOK_EVERY);
            continue;
        };
        let answer = if draws == 0 {
            Err(NotKnown::because("no draws were asked for"))
        } else {
            match study.trials() {
                Err(unknown) => Err(unknown),
                Ok(trials) => {
                    let watch = |share| {
                        leave.reached(share);
                        watch(share)
                    };
                    let make = |round: &Round| chunks(trials, (draws, round), threads, &watch);
                    trials.in_rounds(SEED, make, &|pieces, work| {
                        let named = (threads, "shares");
                        let found = shared_out(pieces, named, &to_the_end, |at, _| Some(work(at)));
                        found.unwrap_or_else(|| one_by_one(pieces, work))
                    })?
                }
            }
        };
        leave.finish(answer);
    }
}

/// All draws in pieces; `None` where they were given up. Between pieces `watch` is told the share
/// that is done.
fn chunks(
    trials: &Trials,
    (draws, round): (u32, &Round),
    threads: usize,
    watch: &impl Watch,
) -> Option<Vec<Chunk>> {
    let (next, done) = (AtomicU32::new(0), AtomicU32::new(0));
    let chunks: Mutex<Vec<Chunk>> = Mutex::default();
    let work = || {
        while watch(f64::from(done.load(Ordering::Relaxed)) / f64::from(draws)).is_continue() {
            let from = next.fetch_add(PIECE, Ordering::Relaxed);
            if from >= draws {
                return;
            }
            let to = draws.min(from.saturating_add(PIECE));
            let chunk = trials.draw_in_round(SEED, from..to, round);
            let mut chunks = chunks.lock().unwrap_or_else(PoisonError::into_inner);
            chunks.push(chunk);
            done.fetch_add(to - from, Ordering::Relaxed);
        }
    };
    thread::scope(|scope| {
        for _ in 1..threads {
            // Without a helper the work takes longer and comes to the same.
            let _ = thread::Builder::new()
                .name("draws".to_owned())
                .spawn_scoped(scope, work);
        }
        work();
    });
    let all = done.into_inner() >= draws;
    all.then(|| chunks.into_inner().unwrap_or_else(PoisonError::into_inner))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::Part;
    use crate::assess::winter::Winter;
    use crate::survey::file;
    use std::ops::ControlFlow;

    fn sample() -> Study {
        let text = include_str!("../../sample-surveys/two-opening-check.ron");
        Study::of(&file::parse(text).expect("a sample"))
    }

    #[test]
    fn draws_that_are_given_up_leave_nothing_and_can_be_made_again() {
        let study = sample();
        let given_up = |_| ControlFlow::Break(());
        assert!(uncertainty(&study, 250, 2, &given_up).is_none());
        assert_eq!(study.count(Part::Uncertainty), 0);
        assert!(uncertainty(&study, 250, 2, &to_the_end).is_some());
    }

    #[test]
    fn the_answer_does_not_depend_on_the_threads_and_the_last_word_is_that_all_is_done() {
        let told = Mutex::new(Vec::new());
        let watch = |share| {
            told.lock().expect("nobody fell").push(share);
            ControlFlow::Continue(())
        };
        let (one, other) = (sample(), sample());
        let alone = uncertainty(&one, 250, 1, &watch).expect("an answer");
        let shares = std::mem::take(&mut *told.lock().expect("nobody fell"));
        assert_eq!(shares, [0.0, 0.4, 0.8, 1.0]);
        let three = uncertainty(&other, 250, 3, &to_the_end).expect("an answer");
        assert!(alone.is_ok());
        assert_eq!(alone, three);
        let nothing = sample();
        let none = uncertainty(&nothing, 0, 1, &watch).expect("an answer");
        let none = none.as_ref().expect_err("nothing to go by");
        assert_eq!(none.reason, "no draws were asked for");
    }

    #[test]
    fn draws_that_measurements_weigh_are_the_same_on_any_number_of_threads() {
        let text = include_str!("../../sample-surveys/two-opening-check.ron");
        let mut survey = file::parse(text).expect("a sample");
        let mut test = crate::survey::FanTest::new(crate::survey::FanTestId(1), survey.set_up);
        (test.inside_c, test.outside_c) = (Some(20.0), Some(20.0));
        test.blowing_out.zero_before_pa = Some(0.0);
        // A third more than two holes of 100 cm² let through: draws are made again.
        let points = [10.0_f64, 20.0, 30.0, 45.0, 60.0];
        test.blowing_out.readings = points
            .map(|pressure| crate::survey::FanReading {
                pressure_pa: Some(pressure),
                flow_m3_per_h: Some(75.0 * pressure.sqrt()),
            })
            .into();
        survey.fan_tests = vec![test];
        let on = |threads| {
            let study = Study::of(&survey);
            let found = uncertainty(&study, 1_000, threads, &to_the_end);
            found.cloned().expect("an answer")
        };
        let alone = on(1);
        let calibrated = alone.as_ref().ok().and_then(|all| all.calibrated.as_ref());
        assert!(calibrated.is_some_and(|one| one.rounds > 1), "{alone:?}");
        assert_eq!(alone, on(3));
    }

    #[test]
    fn a_winter_is_the_same_on_any_number_of_threads_and_can_be_given_up() {
        let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
        let study = Study::of(&file::parse(text).expect("a sample"));
        let weather = crate::assess::winter::invented(crate::survey::TypicalWinter::Alpine);
        let hours = crate::climate::season(&weather).expect("a winter");
        let stay = crate::survey::Stay::default();
        // Made ready anew each time: the table of the air is filled by other threads in another order.
        let run = |threads: usize, watch: fn(f64) -> ControlFlow<()>| {
            let winter = Winter::over(&study, &weather, &hours[..72], &stay).expect("made ready");
            let found = seasons(&winter, threads, &watch);
            found.map(|found| format!("{found:?}"))
        };
        let alone = run(1, to_the_end).expect("seasons");
        assert!(alone.contains("removed_l") && !alone.contains("NaN"));
        for threads in [2, 3, 8] {
            assert!(
                run(threads, to_the_end).as_ref() == Some(&alone),
                "{threads}"
            );
        }
        assert!(run(2, |_| ControlFlow::Break(())).is_none());
    }

    #[test]
    fn what_sealing_each_gap_saves_is_the_same_on_any_number_of_threads() {
        use crate::assess::sealing::Aim;
        let text = include_str!("../../sample-surveys/coastal-coachbuilt.ron");
        let survey = file::parse(text).expect("a sample");
        let by_itself = Study::of(&survey);
        let expected = by_itself.ranking(Aim::Heat).as_ref().expect("a ranking");
        assert!(expected.ranked.len() > 2);
        for threads in [1, 2, 5] {
            let study = Study::of(&survey);
            assert!(sealed_singly(&study, threads, &|_| ControlFlow::Break(())).is_none());
            assert!(!study.prospect().expect("ready").knows_singly());
            sealed_singly(&study, threads, &to_the_end).expect("not given up");
            assert!(study.prospect().expect("ready").knows_singly());
            let found = study.ranking(Aim::Heat).as_ref().expect("a ranking");
            assert_eq!(found, expected, "{threads}");
        }
    }

    #[test]
    fn two_who_ask_at_once_share_the_draws() {
        let study = sample();
        thread::scope(|scope| {
            for _ in 0..2 {
                scope.spawn(|| uncertainty(&study, 2_000, 1, &to_the_end));
            }
        });
        assert_eq!(study.count(Part::Uncertainty), 1);
    }
}
