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

/// `GAPLEDGER_STEP_TABLE=FILE` has what each option moves written to that file.
#[test]
fn half_the_step_moves_no_hour_where_nothing_runs_and_hardly_one_at_a_limit() {
    let mut table = String::new();
    for text in SAMPLES {
        let survey = file::parse(text).expect("a sample");
        let study = Study::of(&survey);
        for typical in [TypicalWinter::MildMaritime, TypicalWinter::Alpine] {
            let weather = invented(typical);
            let all = season(&weather).expect("a winter");
            let part = &all[JANUARY..JANUARY + HOURS];
            let winter = Winter::over(&study, &weather, part, &Stay::default()).expect("ready");
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
                let most = if has_limits(option) { HOURS / 100 } else { 0 };
                assert!(
                    further <= most,
                    "{}, {}, {}: {further} of {HOURS} hours, up to {kelvin} K and {humidity}",
                    survey.header.title,
                    typical.name(),
                    option.name
                );
            }
        }
    }
    assert!(table.lines().count() > 5 * 2 * 5, "{table}");
    if let Some(file) = std::env::var_os("GAPLEDGER_STEP_TABLE") {
        std::fs::write(file, table).expect("written");
    }
}
