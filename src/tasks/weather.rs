//! Weather read from its file, wherever that of a survey stands.

use crate::assess::{Answer, NotKnown};
use crate::climate::{LoggedError, Place, Weather, epw};
use crate::series::{self, Column, Mapping, ReadError};
use crate::survey::Survey;
use crate::survey::file::{self, LoadError};
use std::path::{Path, PathBuf};

/// Largest weather file that is read: a year by the hour has two megabytes.
const MOST_BYTES: u64 = 64 << 20;
/// What a file of building simulation begins with.
const EPW_BEGINS: &[u8] = b"LOCATION";

/// Why a weather file gives no weather.
#[derive(Debug, thiserror::Error)]
pub enum WeatherFailure {
    /// It is not there.
    #[error("there is no weather file {0:?}: check the name and the folder")]
    Missing(PathBuf),
    /// It is no ordinary file, too large, or may not be read.
    #[error(
        "{0:?} could not be read as a weather file: it must be an ordinary file of at most 64 MiB that you may read"
    )]
    Unreadable(PathBuf),
    /// What stands in it is wrong, with line and column.
    #[error("{0:?}, {1}")]
    Wrong(PathBuf, epw::EpwError),
    /// Its rows cannot be read, with line and column.
    #[error("{0:?}, {1}")]
    Rows(PathBuf, ReadError),
    /// A value in its rows cannot be, with line and column.
    #[error("{path:?}, line {line}, column {column}: {error}")]
    Value {
        /// The file.
        path: PathBuf,
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What is wrong.
        error: LoggedError,
    },
    /// Its rows are no weather.
    #[error("{0:?}: {1}")]
    NoWeather(PathBuf, LoggedError),
    /// Its rows do not say where they are from, nor does the survey.
    #[error(
        "{0:?} does not say where its weather is from: enter the latitude, or choose a typical winter of the place"
    )]
    NoLatitude(PathBuf),
}

/// Reads a weather file: that of building simulation, or rows of readings of a logger or a weather
/// service. Rows do not say where they are from: that is the latitude and altitude of the survey, and
/// their clock counts as the sun's **\[A\]**.
///
/// # Errors
/// [`WeatherFailure`], with line and column where its content is wrong.
pub fn weather(path: &Path, survey: &Survey) -> Result<Weather, WeatherFailure> {
    let bytes = file::read_file(path, MOST_BYTES).map_err(|error| match error {
        LoadError::Missing { path } => WeatherFailure::Missing(path),
        _ => WeatherFailure::Unreadable(path.to_owned()),
    })?;
    let is_simulation = bytes
        .trim_ascii_start()
        .get(..EPW_BEGINS.len())
        .is_some_and(|begins| begins.eq_ignore_ascii_case(EPW_BEGINS));
    if !is_simulation && bytes.contains(&b'\n') && !names_epw(path) {
        return rows(path, &bytes, survey);
    }
    let read = epw::read(&bytes);
    let read = read.map_err(|error| WeatherFailure::Wrong(path.to_owned(), error))?;
    Ok(read.weather())
}

fn names_epw(path: &Path) -> bool {
    path.extension()
        .is_some_and(|extension| extension.eq_ignore_ascii_case("epw"))
}

/// Weather from rows of readings.
fn rows(path: &Path, bytes: &[u8], survey: &Survey) -> Result<Weather, WeatherFailure> {
    let unread = |error| WeatherFailure::Rows(path.to_owned(), error);
    let guessed = series::guess(bytes).map_err(unread)?;
    let series = series::read(bytes, &guessed.mapping).map_err(unread)?;
    let latitude_deg = survey.stay.means().map(|means| means.latitude_deg);
    let latitude_deg = latitude_deg
        .or(survey.stay.latitude_deg)
        .ok_or_else(|| WeatherFailure::NoLatitude(path.to_owned()))?;
    // A file that was kept by its content is called as it was when it was chosen.
    let stay = &survey.stay;
    let is_named = path.file_name() == Some(stay.weather_file.as_ref());
    let name = if is_named {
        Path::new(stay.weather_name())
    } else {
        path
    };
    let name = name.file_stem().unwrap_or_default();
    let place = Place {
        name: name.to_string_lossy().into_owned(),
        latitude_deg,
        longitude_deg: 0.0,
        zone_h: 0.0,
        clock_assumed: true,
        altitude_m: survey.site.altitude_m,
    };
    Weather::of_series(&series, place.clone()).map_err(|error| {
        let path = path.to_owned();
        match wrong_at(bytes, &guessed.mapping, &place, &error) {
            Some((line, column)) => WeatherFailure::Value {
                path,
                line,
                column,
                error,
            },
            None => WeatherFailure::NoWeather(path, error),
        }
    })
}

/// Line and column of the first value that cannot be, both from 1: the shortest beginning of the file
/// that holds one ends with it. `None` where it is not a value that is wrong.
fn wrong_at(
    bytes: &[u8],
    mapping: &Mapping,
    place: &Place,
    error: &LoggedError,
) -> Option<(usize, usize)> {
    let LoggedError::Value { name, .. } = error else {
        return None;
    };
    let holds =
        |column: &Column| matches!(column, Column::Readings { what, .. } if what.name() == *name);
    let column = mapping.columns.iter().position(holds)? + 1;
    let is_wrong = |lines: usize| {
        let beginning = series::preview(bytes, mapping, lines);
        beginning.is_ok_and(|rows| {
            // Another thing's may be wrong before it.
            matches!(
                Weather::of_series(&rows, place.clone()),
                Err(LoggedError::Value { name: found, .. }) if found == *name
            )
        })
    };
    let (mut right, mut wrong) = (0, 1_usize);
    while !is_wrong(wrong) {
        if wrong > bytes.len() {
            return None;
        }
        (right, wrong) = (wrong, 2 * wrong);
    }
    while wrong - right > 1 {
        let middle = usize::midpoint(right, wrong);
        if is_wrong(middle) {
            wrong = middle;
        } else {
            right = middle;
        }
    }
    Some((mapping.lines_before + wrong, column))
}

/// Where the weather file of a survey is looked for: in its data folders, and then beside the survey.
#[must_use]
pub fn weather_places(data: &[PathBuf], folder: Option<&Path>) -> Vec<PathBuf> {
    data.iter()
        .cloned()
        .chain(folder.map(Path::to_owned))
        .collect()
}

/// The weather file that a survey names, read from the first of the places that has it.
pub(super) fn kept_weather(places: &[PathBuf], survey: &Survey) -> Answer<Weather> {
    if places.is_empty() {
        return Err(NotKnown::because(
            "the survey has no folder yet to look for its weather file in: save it",
        ));
    }
    let path = file::find_weather(places, survey);
    let path = path.map_err(|error| NotKnown::because(error.to_string()))?;
    weather(&path, survey).map_err(|error| NotKnown::because(error.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::TypicalWinter;

    fn caravan(change: impl FnOnce(&mut Survey)) -> Survey {
        let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
        let mut survey = file::parse(text).expect("a sample");
        change(&mut survey);
        survey
    }

    #[test]
    fn hourly_rows_are_weather_where_the_survey_says_from_which_latitude() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("service.csv");
        let text = "time,temperature (°C),relative humidity (%),wind (m/s)\n\
                    2024-01-10T01:00,4.0,80,3\n2024-01-10T02:00,5.0,80,3\n\
                    2024-01-10T03:00,6.0,80,3\n";
        std::fs::write(&path, text).expect("written");
        let nowhere = caravan(|_| {});
        let error = weather(&path, &nowhere).expect_err("no latitude");
        assert!(error.to_string().contains("latitude"), "{error}");
        let placed = caravan(|survey| {
            survey.stay.winter = Some(TypicalWinter::Alpine);
            survey.stay.latitude_deg = Some(47.5);
        });
        let found = weather(&path, &placed).expect("weather");
        assert_eq!(found.place.name, "service");
        assert!((found.place.latitude_deg - 47.5).abs() < 1e-12);
        assert_eq!(found.hours.len(), 24);
        std::fs::write(&path, text.replace("5.0", "5 ±1")).expect("written");
        let error = weather(&path, &placed).expect_err("no number");
        assert!(error.to_string().contains("line 3, column 2"), "{error}");
    }

    #[test]
    fn a_weather_file_is_read_from_the_data_folder_before_one_beside_the_survey_and_keeps_its_name()
    {
        let folder = tempfile::tempdir().expect("a folder");
        let survey_path = folder.path().join("van.ron");
        let rows = |t_c: &str| {
            format!(
                "time,temperature (°C),relative humidity (%),wind (m/s)\n\
                 2024-01-10T01:00,{t_c},80,3\n2024-01-10T02:00,{t_c},80,3\n"
            )
        };
        let data = file::data_folder(&survey_path);
        let kept = file::keep_data(&data, rows("4.0").as_bytes(), "hill.csv").expect("kept");
        let mut survey = caravan(|survey| {
            survey.stay.winter = Some(TypicalWinter::Alpine);
            survey.stay.latitude_deg = Some(47.5);
            survey.stay.weather_file.clone_from(&kept);
            survey.stay.weather_original = "Hill 2024.csv".into();
        });
        std::fs::write(folder.path().join(&kept), rows("9.0")).expect("written");
        let places = weather_places(std::slice::from_ref(&data), survey_path.parent());
        let found = kept_weather(&places, &survey).expect("weather");
        assert_eq!(found.place.name, "Hill 2024");
        let first = found.hours.iter().find_map(|hour| hour.t_c);
        assert!(
            first.is_some_and(|t_c| (t_c - 4.0).abs() < 1e-12),
            "{first:?}"
        );
        // A name that somebody wrote by hand is one of a file beside the survey.
        survey.stay.weather_file = "mine.csv".into();
        survey.stay.weather_original.clear();
        std::fs::write(folder.path().join("mine.csv"), rows("9.0")).expect("written");
        let found = kept_weather(&places, &survey).expect("weather");
        assert_eq!(found.place.name, "mine");
        // Gone, and out of the folder.
        survey.stay.weather_file = "0123456789abcdef.csv".into();
        survey.stay.weather_original = "Hill 2024.csv".into();
        let gone = kept_weather(&places, &survey).expect_err("gone").reason;
        for words in ["Hill 2024.csv", "van.data", "0123456789abcdef.csv"] {
            assert!(gone.contains(words), "{gone}");
        }
        survey.stay.weather_file = "../van.ron".into();
        let elsewhere = kept_weather(&places, &survey)
            .expect_err("elsewhere")
            .reason;
        assert!(elsewhere.contains("not a plain file name"), "{elsewhere}");
    }
}
