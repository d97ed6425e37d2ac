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

/// It prints what each option moves: largest difference of an hour in K and in points of humidity, and
/// how many of its hours move further than they may.
#[test]
fn half_the_step_moves_no_hour_where_nothing_runs_and_one_in_a_hundred_of_all_at_most() {
    let mut table = String::new();
    for text in &SAMPLES[..2] {
        let survey = file::parse(text).expect("a sample");
        let study = Study::of(&survey);
        for typical in [TypicalWinter::MildMaritime, TypicalWinter::Alpine] {
            let weather = invented(typical);
            let all = season(&weather).expect("a winter");
            let part = &all[JANUARY..JANUARY + HOURS];
            let winter = Winter::over(&study, &weather, part, &Stay::default()).expect("ready");
            let mut all_further = 0;
            for (at, option) in winter.options().iter().enumerate() {
                let one = hours(&winter, at, STEPS_PER_HOUR);
                let other = hours(&winter, at, 2 * STEPS_PER_HOUR);
                let (kelvin, humidity, further) = moved(&one, &other);
                table += &format!(
                    "{}|{}|{}|{kelvin:.4}|{:.3}|{further}\n",
                    survey.header.title,
                    typical.name(),
                    option.name,
                    humidity * 100.0
                );
                let limits = has_limits(option);
                assert!(
                    limits || further == 0,
                    "{}, {}, {}: {further} hours, up to {kelvin} K and {humidity}",
                    survey.header.title,
                    typical.name(),
                    option.name
                );
                all_further += further;
            }
            let most = winter.options().len() * HOURS / 100;
            assert!(all_further <= most, "{all_further} of {most}:\n{table}");
        }
    }
    println!("survey|winter|option|K|points|hours further\n{table}");
    assert!(table.lines().count() > 2 * 2 * 5, "{table}");
}
