//! Over which season the options are told: the kinds of weather written down, or the winter that was
//! run, never both.

use crate::assess::drying::{Comparison, OptionAnswer, Shares, Verdict};
use crate::assess::in_short::{Pick, WINTERS, is_priced, pick};
use crate::assess::quantity::Kind;
use crate::assess::winter::Throughout;
use crate::assess::words::{figure, listed};
use crate::report::drying::{running_costs, shares};
use crate::report::{Material, winter_short};
use crate::survey::{MonthDay, SetUp};

/// `for 94 % of the season`, `in all 3 kinds of weather written down, none colder than 4 °C`.
pub(super) fn for_how_long(comparison: &Comparison, option: &OptionAnswer) -> String {
    match option.verdict {
        Ok(Verdict::Partly(share)) => format!("for {} of the season", Kind::Share.text(share)),
        Ok(Verdict::Always) if comparison.shares == Shares::WeatherCases => {
            in_weather(comparison, option)
        }
        Ok(Verdict::Always) => comparison.always(),
        _ => option.verdict_words(comparison),
    }
}

/// The weather in which it is held: all that is written down, or, where it is not held in weather that is
/// no part of the season, all that is part of it, and where it is not.
fn in_weather(comparison: &Comparison, option: &OptionAnswer) -> String {
    let cases = comparison.cases.iter().zip(&option.cases);
    let (held, not): (Vec<_>, Vec<_>) =
        cases.partition(|(_, state)| state.as_ref().is_ok_and(|state| state.holds));
    let counted = comparison.counted_cases().len();
    let kinds = match (not.is_empty(), held.len()) {
        (true, 1) => "in the weather written down".to_owned(),
        (true, number) => format!("in all {number} kinds of weather written down"),
        (false, _) if counted == 1 => "in the weather that counts".to_owned(),
        (false, _) => format!("in all {counted} kinds of weather that count"),
    };
    let outside = held.iter().map(|(case, _)| case.outside.as_ref().ok());
    let coldest = outside
        .map(|air| air.map(|air| air.t_c))
        .collect::<Option<Vec<f64>>>()
        .and_then(|all| all.into_iter().reduce(f64::min));
    let names = listed(not.iter().map(|(case, _)| format!("“{}”", case.name)));
    let but = if names.is_empty() {
        String::new()
    } else {
        format!(", but not in {names}")
    };
    // Machines that stop in the cold are judged by warmer weather alone then.
    match coldest.filter(|coldest| *coldest >= 0.0 && comparison.set_up == SetUp::LaidUp) {
        Some(coldest) => format!("{kinds}, none below {}{but}", Kind::Celsius.text(coldest)),
        None => format!("{kinds}{but}"),
    }
}

/// The winter that the options are told by, where one was run.
fn run<'a>(material: &Material<'a>, comparison: &Comparison) -> Option<&'a Throughout> {
    let run = material.study.winter()?.as_ref().ok();
    run.filter(|_| comparison.shares == Shares::Winter)
}

/// What the column of costs of the whole season is called.
pub(super) fn name(material: &Material<'_>, comparison: &Comparison) -> String {
    let limits = material.survey.stay.season_days();
    match run(material, comparison) {
        Some(run) if limits != (None, None) => {
            let days = run.weathered().hours.div_ceil(24);
            format!("{days} days")
        }
        _ => "a winter".to_owned(),
    }
}

/// Which season it is, what its costs hold, and by what the advice was chosen.
pub(super) fn note(material: &Material<'_>, comparison: &Comparison) -> String {
    let winters = figure(WINTERS, 1);
    let taken = match pick(comparison) {
        Pick::Take(at) => comparison.options.get(at),
        Pick::NothingNeeded | Pick::NoneSuffices(_) => None,
    };
    let chosen = if taken.is_some_and(is_priced) {
        format!(" Advised: least cost over {winters} winters, bought and run (assumed).")
    } else {
        String::new()
    };
    let season = match run(material, comparison) {
        None => format!(
            "{} A winter hour by hour tells more. {}",
            shares(comparison),
            running_costs(comparison, "Costs").replace(" from November [A]", "")
        ),
        Some(run) => format!(
            "{}: the {}{}. {}",
            shares(comparison).trim_end_matches('.'),
            winter_short::weather(run),
            dates(run),
            running_costs(comparison, "Costs")
        ),
    };
    format!("{season}{chosen}")
}

/// From which day to which: `, 1 November to 30 November`.
fn dates(run: &Throughout) -> String {
    let day = |hour: &crate::climate::Hour| {
        format!("{} {}", hour.day.day, MonthDay::month_name(hour.day.month))
    };
    match (run.hours().first(), run.hours().last()) {
        (Some(first), Some(last)) => format!(", {} to {}", day(first), day(last)),
        _ => String::new(),
    }
}
