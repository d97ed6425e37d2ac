//! What a winter comes to, in a few sentences for its owner.

use super::winter::{BEGUN, PlannedTold, WinterTold, lockers};
use crate::assess::drying::OptionKind;
use crate::assess::quantity::{Kind, price_about};
use crate::assess::winter::{Season, Throughout, WORTH_NAMING, WinterOption};
use crate::assess::words::{capital, counted};
use crate::assess::{Answer, Study};
use crate::report::words::nothing_done;
use crate::survey::{SetUp, Survey};

const HOURS_A_DAY: usize = 24;
/// Days of a whole winter, 1 November to 31 March, at least.
const WHOLE_WINTER: usize = 151;

/// A winter with its study, to be told: as far as they were worked out, with the plan and the draws.
#[must_use]
pub fn told<'a>(run: &'a Throughout, study: &'a Study) -> WinterTold<'a> {
    let planned = study.winter_after_plan().map(|planned| {
        planned.map(|run| PlannedTold {
            options: run.options(),
            seasons: run.seasons(),
        })
    });
    WinterTold {
        survey: study.survey(),
        weathered: run.weathered(),
        options: run.options(),
        seasons: run.seasons(),
        hours: run.hours(),
        typical: run.typical(),
        planned,
        doubt: study.winter_bands().map(Answer::as_ref),
        laid: study.winter_laid().unwrap_or_default(),
    }
}

/// The sentences, the gravest first. Draining is the first advice where water freezes.
#[must_use]
pub fn sentences(run: &Throughout, survey: &Survey) -> Vec<String> {
    let Some(idle) = run.nothing() else {
        return vec!["Not known: doing nothing has no result.".to_owned()];
    };
    let mut all = vec![frost(run, idle, survey)];
    all.extend(damp(run, idle, survey));
    all.push(mould(idle, survey));
    all.extend(lockers(idle));
    all
}

/// Options that have a season.
fn known(run: &Throughout) -> impl Iterator<Item = (&WinterOption, &Season)> {
    let all = run.options().iter().zip(run.seasons());
    all.filter_map(|(option, season)| Some((option, season.as_ref().ok()?)))
}

/// What doing nothing comes to: frost and mould.
#[must_use]
pub fn without_options(run: &Throughout, survey: &Survey) -> Vec<String> {
    match run.nothing() {
        Some(idle) => vec![
            format!("{}.", freezes(run, idle, survey)),
            mould(idle, survey),
        ],
        None => vec!["Not known: doing nothing has no result.".to_owned()],
    }
}

/// Which weather it is.
#[must_use]
pub fn weather(run: &Throughout) -> String {
    match run.typical() {
        Some(winter) => format!("{} winter, invented (assumed)", winter.name()),
        None => format!("weather of {}", run.weathered().place),
    }
}

/// Frost with nothing done; draining comes first whatever the winter was.
fn freezes(run: &Throughout, idle: &Season, survey: &Survey) -> String {
    let (inside, corner) = (&idle.frost, &idle.frost_in_corner);
    let done = nothing_done(survey);
    let outside = run.weathered().frost.nights;
    match (inside.nights, corner.nights) {
        // Who heats for a while must not think that the winter is mild.
        (0, 0) if survey.set_up == SetUp::InUse && outside > 0 => format!(
            "Drain the water before it stands unheated: {done} it does not freeze inside, but outside it \
             freezes on {}",
            counted(outside, "night", "nights")
        ),
        (0, 0) => format!(
            "Drain the water all the same: {done} it does not freeze inside in this winter, but another may be \
             colder"
        ),
        (0, nights) => format!(
            "Drain the water. {} it may freeze in the coldest corner on {}",
            capital(&done),
            counted(nights, "night", "nights")
        ),
        (nights, _) => format!(
            "Drain the water. {} it freezes on {}, the longest spell {}",
            capital(&done),
            counted(nights, "night", "nights"),
            counted(inside.longest_h, "hour", "hours")
        ),
    }
}

/// The same, and what background heat does about it for which money.
fn frost(run: &Throughout, idle: &Season, survey: &Survey) -> String {
    let currency = survey.tariffs.currency.trim();
    let mut words = freezes(run, idle, survey);
    let guard = known(run).find(|(option, _)| option.kind == OptionKind::BackgroundHeat);
    let worth = idle.frost_in_corner.nights > 0;
    if let Some((option, season)) = guard.filter(|_| worth) {
        let left = match (season.frost.nights, season.frost_in_corner.nights) {
            (0, 0) => "it freezes on none".to_owned(),
            (0, corner) => format!(
                "it freezes on none, but in the coldest corner on {}",
                counted(corner, "night", "nights")
            ),
            (nights, _) => format!("it still freezes on {}", counted(nights, "night", "nights")),
        };
        let money = cost_words(run, &season.cost, currency);
        words.push_str(&format!("; with {} {money} {left}", option.name));
    }
    words + "."
}

fn cost_words(run: &Throughout, cost: &Answer<f64>, currency: &str) -> String {
    match cost {
        Ok(cost) => format!(
            "({} for {})",
            price_about(*cost, currency),
            how_long(run.weathered().hours)
        ),
        Err(unknown) => format!("(cost not known: {})", unknown.reason.trim_end_matches('.')),
    }
}

/// The winter, or the days of it that were run where they are fewer.
fn how_long(hours: usize) -> String {
    match hours / HOURS_A_DAY {
        days if days < WHOLE_WINTER => format!("these {}", counted(days, "day", "days")),
        _ => "the winter".to_owned(),
    }
}

/// How damp it is with nothing done, and what makes it driest.
fn damp(run: &Throughout, idle: &Season, survey: &Survey) -> Option<String> {
    let currency = survey.tariffs.currency.trim();
    let wet = |season: &Season| season.humidity.share_above[2];
    let mut words = format!(
        "{} the air inside is above 80 % for {} of the winter",
        capital(&nothing_done(survey)),
        Kind::WholePercent.text(wet(idle))
    );
    match run.driest().and_then(|at| run.option(at)) {
        Some((option, Ok(season))) => {
            let energy = season.machine_kwh + season.heater_kwh;
            words.push_str(&format!(
                "; the driest is {}: {} of it, with {}",
                option.name,
                Kind::WholePercent.text(wet(season)),
                Kind::KilowattHours.text(energy)
            ));
            if let Ok(cost) = &season.cost {
                words.push_str(&format!(" for {}", price_about(*cost, currency)));
            }
        }
        _ if wet(idle) > WORTH_NAMING => words.push_str(", and no option changes that"),
        _ => {}
    }
    Some(words + ".")
}

fn mould(idle: &Season, survey: &Survey) -> String {
    match idle.worst_mould() {
        None => {
            "Whether mould grows is not known: there is no wall or roof in the fabric.".to_owned()
        }
        Some(index) if index < BEGUN => {
            format!(
                "{} mould does not begin on boards and furniture.",
                capital(&nothing_done(survey))
            )
        }
        Some(index) => format!(
            "{} mould begins on boards and furniture: its index reaches {}, where 3 is seen by eye and 6 is all \
             over.",
            capital(&nothing_done(survey)),
            Kind::MouldIndex.number(index)
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::how_long;

    #[test]
    fn a_month_is_no_winter() {
        assert_eq!(how_long(30 * 24), "these 30 days");
        // 1 November to 31 March by the calendar: 30 + 31 + 31 + 28 + 31 days.
        assert_eq!(how_long(151 * 24), "the winter");
        assert_eq!(how_long(150 * 24), "these 150 days");
    }
}
