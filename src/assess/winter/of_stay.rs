//! Which weather and which hours of it a stay asks for.

use super::SEED;
use crate::assess::answer::Answer;
use crate::assess::not_known::NotKnown;
use crate::climate::{Hour, Weather, invent, season_between, usual_season};
use crate::survey::{Finding, Item, MonthDay, Severity, Stay};

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
    Ok(invent(&means, winter.name(), SEED))
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

/// The hours of the season that a stay asks for.
///
/// # Errors
/// [`NotKnown`] where the weather does not hold all of them.
pub(super) fn season_of(weather: &Weather, stay: &Stay) -> Answer<Vec<Hour>> {
    let usual = usual_season(weather.place.latitude_deg < 0.0);
    let (first, last) = stay.season_days();
    let (first, last) = (first.unwrap_or(usual.0), last.unwrap_or(usual.1));
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
