//! Which weather and which hours of it a stay asks for.

use super::SEED;
use crate::assess::answer::Answer;
use crate::assess::not_known::NotKnown;
use crate::climate::{Hour, Weather, invent, season_between, usual_season, whole_winters};
use crate::survey::{Finding, Item, MonthDay, Severity, Stay, TypicalWinter};

/// The hours of the typical winter that a stay names, with its own months and latitude.
///
/// # Errors
/// [`NotKnown`] where no winter is chosen, or something is entered of it that cannot be.
pub fn typical_weather(stay: &Stay, findings: &[Finding]) -> Answer<Weather> {
    sound(findings)?;
    let winter = stay
        .winter
        .ok_or_else(|| NotKnown::because("no winter is chosen"))?;
    let means = stay.means().unwrap_or_else(|| winter.means());
    let place = typical(stay).map_or(OWN_MEANS, TypicalWinter::name);
    Ok(invent(&means, place, SEED))
}

/// What stands for the place of a weather made of the user's own months.
const OWN_MEANS: &str = "your own monthly means";

/// The typical winter that a stay's weather is made of where no file names another: none with months of the
/// user's own.
#[must_use]
pub fn typical(stay: &Stay) -> Option<TypicalWinter> {
    stay.winter.filter(|_| stay.months.is_empty())
}

/// Refuses a stay in which something cannot be.
///
/// # Errors
/// The first error that was found in it.
pub fn sound(findings: &[Finding]) -> Answer<()> {
    let wrong = findings
        .iter()
        .find(|one| one.place.item == Item::Stay && one.severity == Severity::Error);
    match wrong {
        Some(finding) => Err(NotKnown::because(finding.sentence.clone())),
        None => Ok(()),
    }
}

/// How many of the seasons that a stay asks for the weather holds whole.
pub(super) fn winters_of(weather: &Weather, stay: &Stay) -> usize {
    let (first, last) = days_of(weather, stay);
    whole_winters(weather, first, last)
}

/// First and last day of the season that a stay asks for.
fn days_of(weather: &Weather, stay: &Stay) -> (MonthDay, MonthDay) {
    let usual = usual_season(weather.place.latitude_deg < 0.0);
    let (first, last) = stay.season_days();
    (first.unwrap_or(usual.0), last.unwrap_or(usual.1))
}

/// The hours of the season that a stay asks for.
///
/// # Errors
/// [`NotKnown`] where the weather does not hold all of them.
pub(super) fn season_of(weather: &Weather, stay: &Stay) -> Answer<Vec<Hour>> {
    let (first, last) = days_of(weather, stay);
    season_between(weather, first, last).ok_or_else(|| {
        NotKnown::because(format!(
            "the weather holds no whole winter from {} to {}: choose a first and a last day that it holds, or another \
             weather file",
            in_words(first),
            in_words(last)
        ))
    })
}

fn in_words(day: MonthDay) -> String {
    format!("{} {}", day.day, MonthDay::month_name(day.month))
}
