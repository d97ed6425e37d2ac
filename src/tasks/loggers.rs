//! The files of loggers read from the data folder, and the trials of a study worked out with them.

use super::shared::Watch;
use super::weather::{kept_weather, weather_places};
use crate::assess::measured::trial::{Loggers, Tried};
use crate::assess::{Answer, NotKnown, Study};
use crate::physics::counts::count;
use crate::series::{self, Mapping, ReadError, Series};
use crate::survey::file::{data_folder, data_names, find_data};
use crate::survey::{LoggerSeries, OutsideFrom, Survey};
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::SystemTime;

/// Readings that were read already, by file and the way it is read: the name is that of the content,
/// so that what is here stays right.
#[derive(Debug, Default)]
pub struct Shelf {
    read: Mutex<Vec<Read>>,
    /// What was the matter with files as they last were.
    looked_at: Mutex<Vec<LookedAt>>,
}

/// A file as it was looked at: where it was, how large and from when, and what was the matter.
#[derive(Debug)]
struct LookedAt {
    path: PathBuf,
    as_it_was: Option<(u64, SystemTime)>,
    trouble: Option<String>,
}

#[derive(Debug)]
struct Read {
    file: String,
    mapping: Mapping,
    series: Answer<Arc<Series>>,
}

impl Shelf {
    /// The readings of a logger, read where they are not here yet. A file that could not be read is
    /// tried again.
    ///
    /// # Errors
    /// [`NotKnown`] with what is the matter with the file, by line and column where it is in it.
    pub fn readings(&self, folders: &[PathBuf], logger: &LoggerSeries) -> Answer<Arc<Series>> {
        let read = self.readings_watched(folders, logger, &mut |_| ControlFlow::Continue(()));
        read.unwrap_or_else(|| Err(NotKnown::because("reading was given up")))
    }

    /// The same; `None` where `watch`, which hears which share of the file is read, gave it up.
    pub fn readings_watched(
        &self,
        folders: &[PathBuf],
        logger: &LoggerSeries,
        watch: &mut dyn FnMut(f64) -> ControlFlow<()>,
    ) -> Option<Answer<Arc<Series>>> {
        let (file, mapping) = (&logger.file, &logger.mapping);
        {
            let read = self.read.lock().unwrap_or_else(PoisonError::into_inner);
            let same = |one: &&Read| one.file == *file && one.mapping == *mapping;
            if let Some(found) = read.iter().find(same) {
                return Some(found.series.clone());
            }
        }
        let bytes = match find_data(folders, file) {
            Ok(bytes) => bytes,
            Err(error) => return Some(Err(NotKnown::because(error.to_string()))),
        };
        let series = match series::read_watched(&bytes, mapping, watch) {
            Ok(series) => Ok(Arc::new(series)),
            Err(ReadError::Stopped) => return None,
            Err(error) => {
                let words = format!("\u{201c}{}\u{201d}: {error}", shown(logger));
                Err(NotKnown::because(words))
            }
        };
        let mut read = self.read.lock().unwrap_or_else(PoisonError::into_inner);
        read.push(Read {
            file: file.clone(),
            mapping: mapping.clone(),
            series: series.clone(),
        });
        Some(series)
    }

    /// What is the matter with the files that a survey names, by name; none where all is well. A file is
    /// read again only where its length or its time has changed.
    #[must_use]
    pub fn troubles(&self, folders: &[PathBuf], survey: &Survey) -> BTreeMap<String, String> {
        let names = data_names(survey);
        let found = names
            .into_iter()
            .filter_map(|name| Some((name.clone(), self.trouble(folders, &name)?)));
        found.collect()
    }

    fn trouble(&self, folders: &[PathBuf], name: &str) -> Option<String> {
        let paths = folders.iter().map(|folder| folder.join(name));
        let path = paths
            .clone()
            .find(|path| path.symlink_metadata().is_ok())
            .or_else(|| paths.clone().next())?;
        let now = path
            .metadata()
            .and_then(|there| Ok((there.len(), there.modified()?)))
            .ok();
        let mut looked_at = self
            .looked_at
            .lock()
            .unwrap_or_else(PoisonError::into_inner);
        let known = looked_at.iter().find(|one| one.path == path);
        if let Some(known) = known.filter(|one| one.as_it_was == now) {
            return known.trouble.clone();
        }
        let trouble = find_data(folders, name)
            .err()
            .map(|error| error.to_string());
        looked_at.retain(|one| one.path != path);
        looked_at.push(LookedAt {
            path,
            as_it_was: now,
            trouble: trouble.clone(),
        });
        trouble
    }

    /// Lets go of what a survey no longer names.
    pub fn keep_only(&self, survey: &Survey) {
        let mut read = self.read.lock().unwrap_or_else(PoisonError::into_inner);
        read.retain(|one| {
            let mut loggers = survey.series.iter();
            loggers.any(|logger| logger.file == one.file && logger.mapping == one.mapping)
        });
    }
}

/// The name that a logger's file had, or has.
fn shown(logger: &LoggerSeries) -> &str {
    match logger.original.as_str() {
        "" => &logger.file,
        original => original,
    }
}

/// The folders in which a survey's data are looked for: beside its file, then where what is not
/// saved yet is held.
#[must_use]
pub fn data_folders(survey_path: Option<&Path>, holding: Option<&Path>) -> Vec<PathBuf> {
    let beside = survey_path.map(data_folder);
    beside
        .into_iter()
        .chain(holding.map(Path::to_owned))
        .collect()
}

/// Reads what the trials of a survey stand on; `folder` is where its weather file stands. `None`
/// where `watch`, which hears how far it is, gave it up.
pub fn loggers(
    survey: &Survey,
    folders: &[PathBuf],
    folder: Option<&Path>,
    shelf: &Shelf,
    watch: &impl Watch,
) -> Option<Loggers> {
    let mut found = Loggers::default();
    let files = count(survey.series.len().max(1));
    for (at, logger) in survey.series.iter().enumerate() {
        if watch(count(at) / files).is_break() {
            return None;
        }
        let mut of_all = |share: f64| watch((count(at) + share) / files);
        let readings = shelf.readings_watched(folders, logger, &mut of_all)?;
        found.series.push((logger.id, readings));
    }
    let wants_weather =
        |trial: &crate::survey::Trial| trial.outside_from == OutsideFrom::WeatherFile;
    let file = survey.stay.weather_file.as_str();
    if survey.trials.iter().any(wants_weather) && !file.is_empty() {
        let places = weather_places(folders, folder);
        found.weather = Some(kept_weather(&places, survey).map(Arc::new));
    }
    Some(found)
}

/// The trials of a study, worked out and kept in it. `None` where there is none, or `watch` gave it
/// up.
pub fn tried<'a>(
    study: &'a Study,
    folders: &[PathBuf],
    folder: Option<&Path>,
    shelf: &Shelf,
    watch: &impl Watch,
) -> Option<&'a Tried> {
    if !study.survey().asks_for_readings() {
        return None;
    }
    if let Some(found) = study.tried() {
        return Some(found);
    }
    let loggers = loggers(study.survey(), folders, folder, shelf, watch)?;
    Some(study.keep_loggers(&loggers))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::series::guess;
    use crate::survey::file::keep_data;
    use crate::survey::{Hung, SeriesId, VehicleKind};
    use crate::tasks::to_the_end;

    const ROWS: &[u8] =
        b"time;t \xC2\xB0C;rh %\n2026-11-05 14:30;5.0;80\n2026-11-05 15:30;5.5;81\n";

    fn logger(file: String) -> LoggerSeries {
        let mapping = guess(ROWS).unwrap().mapping;
        LoggerSeries::new(SeriesId(1), Hung::Inside, file, mapping)
    }

    #[test]
    fn a_file_is_read_once_and_a_missing_one_is_told_by_its_name() {
        let folder = tempfile::tempdir().unwrap();
        let folders = vec![folder.path().to_owned()];
        let shelf = Shelf::default();
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey.series = vec![logger(keep_data(folder.path(), ROWS, "a.csv").unwrap())];
        let read = || loggers(&survey, &folders, None, &shelf, &to_the_end).unwrap();
        let (first, second) = (read(), read());
        let of = |loggers: &Loggers| Arc::clone(loggers.readings(SeriesId(1)).unwrap());
        assert_eq!(of(&first).times_s.len(), 2);
        assert!(Arc::ptr_eq(&of(&first), &of(&second)));
        survey.series[0].file = "gone.csv".into();
        let gone = loggers(&survey, &folders, None, &shelf, &to_the_end).unwrap();
        let unknown = gone.readings(SeriesId(1)).unwrap_err();
        assert!(unknown.reason.contains("gone.csv"), "{}", unknown.reason);
    }

    #[test]
    fn a_file_changed_or_gone_since_is_in_trouble_and_is_well_again_once_it_is_back() {
        let folder = tempfile::tempdir().unwrap();
        let folders = vec![folder.path().to_owned()];
        let shelf = Shelf::default();
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey.series = vec![logger(keep_data(folder.path(), ROWS, "a.csv").unwrap())];
        let path = folder.path().join(&survey.series[0].file);
        assert!(shelf.troubles(&folders, &survey).is_empty());
        std::fs::write(&path, b"another").unwrap();
        let changed = shelf.troubles(&folders, &survey);
        assert!(changed.values().any(|words| words.contains("was changed")));
        std::fs::remove_file(&path).unwrap();
        let gone = shelf.troubles(&folders, &survey);
        assert!(gone.values().any(|words| words.contains("is missing")));
        std::fs::write(&path, ROWS).unwrap();
        assert!(shelf.troubles(&folders, &survey).is_empty());
    }

    #[test]
    fn a_shelf_lets_go_of_what_no_survey_names() {
        let folder = tempfile::tempdir().unwrap();
        let folders = vec![folder.path().to_owned()];
        let shelf = Shelf::default();
        let one = logger(keep_data(folder.path(), ROWS, "a.csv").unwrap());
        shelf.readings(&folders, &one).unwrap();
        shelf.keep_only(&Survey::new(VehicleKind::TouringCaravan));
        std::fs::remove_file(folder.path().join(&one.file)).unwrap();
        assert!(shelf.readings(&folders, &one).is_err());
    }
}
