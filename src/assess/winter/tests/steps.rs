//! Steps within an hour: half of one changes hardly any hour, and those that it changes are told.

use super::{SAMPLES, go_on};
use crate::assess::Study;
use crate::assess::winter::{Winter, WinterOption, invented};
use crate::climate::season;
use crate::physics::winter::{HourInside, STEPS_PER_HOUR};
use crate::survey::{Stay, TypicalWinter, file};

/// How far half the step may move an hour: K, and share of saturation (METHOD, section 9).
const KELVIN: f64 = 0.05;
const HUMIDITY: f64 = 0.002;
/// Hours of a part of the winter: from the first of January.
const HOURS: usize = 10 * 24;
const JANUARY: usize = 61 * 24;

/// Most that any hour moves, and how many move further than they may.
fn moved(one: &[HourInside], other: &[HourInside]) -> (f64, f64, usize) {
    let apart = |one: &HourInside, other: &HourInside| {
        ((one.t_c - other.t_c).abs(), (one.rh - other.rh).abs())
    };
    let pairs = one.iter().zip(other).map(|(one, other)| apart(one, other));
    pairs.fold((0.0, 0.0, 0), |(kelvin, humidity, count), (t_c, rh)| {
        let further = t_c > KELVIN || rh > HUMIDITY;
        (
            t_c.max(kelvin),
            rh.max(humidity),
            count + usize::from(further),
        )
    })
}

fn hours(winter: &Winter, option: usize, steps: u32) -> Vec<HourInside> {
    let run = winter.season_in_steps(option, steps, &go_on);
    run.expect("never given up").expect("known").hours
}

/// Whether something runs in it that has a limit: a lowest temperature, a set point, a rating.
fn has_limits(option: &WinterOption) -> bool {
    use crate::assess::drying::OptionKind;
    !matches!(option.kind, OptionKind::Nothing | OptionKind::LockersOpen)
}

/// What half the step moves in each option of one survey through ten days of two winters, as rows: largest
/// difference of an hour in K and in points of humidity, and how many of its hours move further than they
/// may; then for each winter how many of all options do, and of how many. `Err` where the survey has no
/// winter.
fn held(text: &str) -> Result<(String, Vec<(usize, usize)>), String> {
    let (mut table, mut counts) = (String::new(), Vec::new());
    let survey = file::parse(text).expect("a sample");
    let title = &survey.header.title;
    let study = Study::of(&survey);
    for typical in [TypicalWinter::MildMaritime, TypicalWinter::Alpine] {
        let weather = invented(typical);
        let all = season(&weather).expect("a winter");
        let part = &all[JANUARY..JANUARY + HOURS];
        let winter = Winter::over(&study, &weather, part, &Stay::default())
            .map_err(|unknown| format!("{title}: {unknown}"))?;
        let mut all_further = 0;
        for (at, option) in winter.options().iter().enumerate() {
            let one = hours(&winter, at, STEPS_PER_HOUR);
            let other = hours(&winter, at, 2 * STEPS_PER_HOUR);
            let (kelvin, humidity, further) = moved(&one, &other);
            let row = format!(
                "{title}|{}|{}|{kelvin:.4}|{:.3}|{further}\n",
                typical.name(),
                option.name,
                humidity * 100.0
            );
            assert!(has_limits(option) || further == 0, "{row}");
            table += &row;
            all_further += further;
        }
        counts.push((all_further, winter.options().len() * HOURS));
    }
    Ok((table, counts))
}

const HEAD: &str = "survey|winter|option|K|points|hours further";

#[test]
fn half_the_step_moves_no_hour_where_nothing_runs_and_one_in_a_hundred_of_all_at_most() {
    println!("{HEAD}");
    for text in &SAMPLES[..2] {
        let (table, counts) = held(text).expect("ready");
        print!("{table}");
        assert_eq!(counts.len(), 2, "{table}");
        for (further, of) in counts {
            assert!(of > 5 * HOURS, "{table}");
            assert!(further * 100 <= of, "{further} of {of}:\n{table}");
        }
    }
}

/// Where guard and machine have their limits at the same temperature, as in the coach-built among the vines,
/// more than one hour in a hundred of those ten days may move; of all samples it is no more.
#[test]
#[ignore = "minutes: cargo test --lib half_the_step -- --ignored --nocapture"]
fn half_the_step_of_every_sample() {
    const OTHERS: [&str; 2] = [
        include_str!("../../../../sample-surveys/orchard-trial.ron"),
        include_str!("../../../../sample-surveys/two-opening-check.ron"),
    ];
    println!("{HEAD}");
    let (mut without, mut all_further, mut all) = (Vec::new(), 0, 0);
    for text in SAMPLES.iter().chain(&OTHERS) {
        match held(text) {
            Ok((table, counts)) => {
                print!("{table}");
                all_further += counts.iter().map(|(further, _)| further).sum::<usize>();
                all += counts.iter().map(|(_, of)| of).sum::<usize>();
            }
            Err(why) => without.push(why),
        }
    }
    println!("{all_further} of {all} hours");
    assert!(all_further * 100 <= all, "{all_further} of {all}");
    // The box to check by hand has no fabric, so no winter.
    assert_eq!(without.len(), 1, "{without:?}");
}
