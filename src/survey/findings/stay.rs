//! Findings about the stay through a winter.

use super::finding::{Finder, Finding, Item};
use crate::climate::usual_season;
use crate::survey::number::given;
use crate::survey::{Field, MonthDay, MonthlyWeather, Stay, Survey};

/// Fewest days that a season may have: as many as come before the first that counts **\[A\]**.
const FEWEST_DAYS: u16 = 14;
/// Most days **\[A\]**: a winter and the months beside it.
const MOST_DAYS: u16 = 300;
/// Months of a year.
const YEAR: usize = 12;

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    let stay = &survey.stay;
    let mut finder = Finder::new(findings, Item::Stay, "winter");
    finder.check(Field::Latitude, stay.latitude_deg);
    finder.check(Field::Stores, stay.stores_g_per_percent);
    season(&mut finder, stay);
    presence(&mut finder, stay);
    months(&mut finder, stay);
    let name = stay.weather_file.as_str();
    if !name.is_empty() && !crate::survey::file::is_plain_file_name(name) {
        finder.error(
            Field::WeatherFile,
            "the weather file is named with a folder, or by no name at all",
            "put the file into the folder of the survey, and write its name alone",
        );
    }
}

fn season(finder: &mut Finder<'_>, stay: &Stay) {
    let mut sound = true;
    for (field, words, text) in [
        (Field::SeasonFirst, "first day", &stay.season_first),
        (Field::SeasonLast, "last day", &stay.season_last),
    ] {
        if !text.is_empty() && MonthDay::parse(text).is_none() {
            sound = false;
            finder.error(
                field,
                format!("the {words} is no day of the year"),
                "write month and day, such as 11-01 for 1 November",
            );
        }
    }
    let (first, last) = stay.season_days();
    if !sound || (first.is_none() && last.is_none()) {
        return;
    }
    let usual = usual_season(stay.latitude_deg.is_some_and(|latitude| latitude < 0.0));
    let days = first.unwrap_or(usual.0).days_until(last.unwrap_or(usual.1)) + 1;
    if !(FEWEST_DAYS..=MOST_DAYS).contains(&days) {
        finder.error(
            Field::SeasonLast,
            format!("the season has {days} days"),
            format!("choose first and last day so that it has {FEWEST_DAYS} to {MOST_DAYS}"),
        );
    }
}

fn presence(finder: &mut Finder<'_>, stay: &Stay) {
    finder.check(Field::PresentFrom, stay.present_from_h);
    finder.check(Field::PresentTo, stay.present_to_h);
    match (stay.present_from_h, stay.present_to_h) {
        (Some(from), Some(to)) if (from - to).abs() < f64::EPSILON => finder.error(
            Field::PresentTo,
            "people come and leave at the same hour",
            "enter two hours that differ, or leave both empty where somebody is always there",
        ),
        (Some(_), None) => finder.warn(
            Field::PresentTo,
            "the hour at which people leave is missing, so they count as there all the time",
            "enter it, or leave both empty",
        ),
        (None, Some(_)) => finder.warn(
            Field::PresentFrom,
            "the hour at which people come is missing, so they count as there all the time",
            "enter it, or leave both empty",
        ),
        _ => {}
    }
}

fn months(finder: &mut Finder<'_>, stay: &Stay) {
    if !stay.months.is_empty() && stay.months.len() != YEAR {
        finder.error(
            Field::MonthMean,
            format!("{} months are given", stay.months.len()),
            "give all twelve from January to December, or none",
        );
    }
    for (number, month) in (1u8..).zip(&stay.months) {
        let MonthlyWeather {
            mean_c,
            daily_range_k,
            rh_percent,
            wind_m_s,
            sunshine_h_per_day,
        } = *month;
        for (field, value) in [
            (Field::MonthMean, mean_c),
            (Field::MonthRange, daily_range_k),
            (Field::MonthRh, rh_percent),
            (Field::MonthWind, wind_m_s),
            (Field::MonthSun, sunshine_h_per_day),
        ] {
            let Some(range) = field.range().filter(|range| !range.allows(value)) else {
                continue;
            };
            let name = MonthDay::month_name(number);
            finder.error(
                field,
                format!(
                    "{name}: {} is {} {}, which is not possible",
                    field.words(),
                    given(value),
                    range.unit
                ),
                format!("enter a value from {}", range.in_words()),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::survey::findings::{Item, find};
    use crate::survey::{Field, Stay, Survey, TypicalWinter, VehicleKind};

    /// Fields of the stay at which something is found.
    fn found(stay: Stay) -> Vec<Field> {
        let mut survey = Survey::new(VehicleKind::Other);
        survey.stay = stay;
        let all = find(&survey);
        let own = all.iter().filter(|one| one.place.item == Item::Stay);
        own.filter_map(|one| one.place.field).collect()
    }

    #[test]
    fn a_sound_stay_is_not_remarked_on() {
        assert_eq!(found(Stay::default()), []);
        let sound = Stay {
            winter: Some(TypicalWinter::Alpine),
            months: TypicalWinter::Alpine.means().months.into(),
            weather_file: "hill.epw".into(),
            latitude_deg: Some(-44.0),
            season_first: "05-10".into(),
            season_last: "9-1".into(),
            present_from_h: Some(18.0),
            present_to_h: Some(8.0),
            stores_g_per_percent: Some(30.0),
            ..Stay::default()
        };
        assert_eq!(found(sound), []);
    }

    #[test]
    fn what_no_winter_has_is_found_at_its_field() {
        let stay = Stay::default;
        for (wrong, field) in [
            (
                Stay {
                    latitude_deg: Some(91.0),
                    ..stay()
                },
                Field::Latitude,
            ),
            (
                Stay {
                    season_first: "31-10".into(),
                    ..stay()
                },
                Field::SeasonFirst,
            ),
            (
                Stay {
                    season_last: "11-05".into(),
                    ..stay()
                },
                Field::SeasonLast,
            ),
            (
                Stay {
                    present_from_h: Some(18.0),
                    ..stay()
                },
                Field::PresentTo,
            ),
            (
                Stay {
                    present_from_h: Some(8.0),
                    present_to_h: Some(8.0),
                    ..stay()
                },
                Field::PresentTo,
            ),
            (
                Stay {
                    weather_file: "../hill.epw".into(),
                    ..stay()
                },
                Field::WeatherFile,
            ),
            (
                Stay {
                    months: TypicalWinter::Alpine.means().months[..3].into(),
                    ..stay()
                },
                Field::MonthMean,
            ),
        ] {
            assert_eq!(found(wrong), [field]);
        }
    }

    #[test]
    fn a_month_that_cannot_be_is_named() {
        let mut stay = Stay {
            months: TypicalWinter::Alpine.means().months.into(),
            ..Stay::default()
        };
        stay.months[1].rh_percent = 180.0;
        let mut survey = Survey::new(VehicleKind::Other);
        survey.stay = stay;
        let all = find(&survey);
        let humid = all.iter().find(|one| one.place.is_at(Field::MonthRh));
        let sentence = &humid.expect("found").sentence;
        assert_eq!(
            sentence,
            "winter: February: mean humidity of a month is 180 %, which is not possible"
        );
    }
}
