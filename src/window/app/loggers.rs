//! Files of loggers on their way into the survey: chosen or dropped, looked at, read.

use super::App;
use crate::series::moment;
use crate::survey::file::data_folder;
use crate::survey::{
    Edit, Hung, LoggerSeries, MergeKey, Record, RecordId, SeriesId, Severity, Survey,
};
use crate::tasks::data_folders;
use crate::window::loggers::{Again, Ask, Chosen, Place, ReadFile, Taken, Told, Whence, taken};
use crate::window::page::Page;
use crate::window::pages::measurements::Section;
use crate::window::questions::Dialog;
use std::path::{Path, PathBuf};

/// Endings of the files that loggers and their programs write.
pub(super) const READINGS: [&str; 6] = ["csv", "txt", "xlsx", "CSV", "TXT", "XLSX"];

impl App {
    /// Opens a logger's file to be looked at.
    pub(super) fn take_logger(&mut self, path: &Path) {
        let known = Box::new(self.shapes.clone());
        self.ask_loggers(Ask::Open(path.to_owned(), known));
    }

    /// Opens the file of a logger of the survey again.
    pub(super) fn logger_again(&mut self, id: SeriesId) {
        let holding = self.photos.holding();
        let folders = data_folders(self.path(), holding);
        let Some(logger) = self.survey().and_then(|survey| survey.logger(id)) else {
            return;
        };
        let original = match logger.original.as_str() {
            "" => &logger.file,
            original => original,
        };
        let file = Whence::Kept(folders, logger.file.clone(), original.to_owned());
        self.open_again(id, file);
    }

    /// Opens a file that takes the place of a logger's; of a new logger where none is named.
    pub(super) fn take_logger_for(&mut self, id: Option<SeriesId>, path: &Path) {
        match id {
            Some(id) => self.open_again(id, Whence::Path(path.to_owned())),
            None => self.take_logger(path),
        }
    }

    fn open_again(&mut self, id: SeriesId, file: Whence) {
        let Some(survey) = self.survey() else { return };
        let Some(logger) = survey.logger(id) else {
            return;
        };
        let again = Again {
            file,
            mapping: logger.mapping.clone(),
            taken: taken(survey, id),
        };
        self.ask_loggers(Ask::Again(Box::new(again)));
    }

    /// Looks at a file again by what was changed.
    pub(super) fn look_at_logger(&mut self, chosen: Box<Chosen>, anew: bool) {
        self.ask_loggers(Ask::Look(chosen, anew));
    }

    /// Reads all of a file.
    pub(super) fn read_logger(&mut self, chosen: Box<Chosen>) {
        let Some(folder) = self.folder_for_loggers() else {
            let words = "Save the survey first: the logger\u{2019}s file is kept beside it.";
            self.notices.tell(Severity::Note, words);
            return;
        };
        self.shapes.keep(&chosen.guess, &chosen.mapping);
        self.ask_loggers(Ask::Read(chosen, folder));
    }

    /// Where a file is kept until the survey is saved: the program's own folder, or where there is
    /// none, the data folder of the survey.
    pub(super) fn folder_for_loggers(&self) -> Option<PathBuf> {
        let beside = || self.path().map(data_folder);
        self.photos.holding().map(Path::to_owned).or_else(beside)
    }

    pub(super) fn ask_loggers(&mut self, ask: Ask) {
        if let Err(sentence) = self.loggers.ask(ask) {
            self.notices.tell(Severity::Error, sentence);
        }
    }

    /// Takes in what has come of files.
    pub(super) fn loggers_in(&mut self) {
        let (told, wrong) = self.loggers.collect();
        if let Some(sentence) = wrong {
            self.notices.tell(Severity::Error, sentence);
        }
        for told in told {
            match told {
                Told::Opened(chosen) | Told::NotRead(chosen) => {
                    if self.survey().is_some() {
                        self.asked = Some(Dialog::Logger(chosen).into());
                    }
                }
                Told::Looked(chosen) => {
                    // The question may have been put away meanwhile.
                    if let Some(asked) = &mut self.asked
                        && let Dialog::Logger(open) = &mut asked.dialog
                    {
                        *open = chosen;
                    }
                }
                Told::Read(read) => self.logger_read(&read),
                Told::WeatherKept { name, original } => self.weather_kept(name, original),
                Told::Refused(sentence) => self.notices.tell(Severity::Warning, sentence),
            }
        }
    }

    /// Keeps the file and puts each sensor that is used into the survey, as one step.
    fn logger_read(&mut self, read: &ReadFile) {
        let chosen = &read.chosen;
        let name = match &read.kept {
            Ok(name) => name,
            Err(sentence) => {
                self.notices.tell(Severity::Error, sentence.clone());
                return;
            }
        };
        let merge = MergeKey(format!("logger {name}"));
        let edits = self.survey().map(|survey| became(survey, chosen, name));
        for edit in edits.into_iter().flatten() {
            self.edit(edit, Some(merge.clone()));
        }
        if let Some(document) = self.document.as_mut() {
            document.history.close_step();
        }
        let times = &read.series.times_s;
        let at = |time: Option<&i64>| time.map_or_else(String::new, |time| moment(*time));
        let words = format!(
            "{} rows of {} were read, from {} to {}.",
            times.len(),
            chosen.file.name,
            at(times.first()),
            at(times.last())
        );
        self.notices.tell(Severity::Note, words);
        self.view.page = Page::Measurements;
        self.view.measurements.show(Section::Trials);
    }

    /// Takes a file dropped on the page Measurements for a logger's.
    pub(super) fn takes_dropped_logger(&mut self, path: &Path) -> bool {
        let here = self.view.page == Page::Measurements && self.survey().is_some();
        if here {
            self.take_logger(path);
        }
        here
    }
}

/// The edits by which a file that was read becomes loggers of the survey: those that stood on it are
/// read anew, one whose sensor is no longer used goes, one that is used for the first time comes.
fn became(survey: &Survey, chosen: &Chosen, file: &str) -> Vec<Edit> {
    let mut used: Vec<(&str, Hung)> = Vec::new();
    for (sensor, place) in &chosen.places {
        if let Some(Place::Hung(hung)) = place {
            used.push((sensor, *hung));
        }
    }
    let mut edits = Vec::new();
    let of_survey = |taken: &Taken| survey.logger(taken.id).cloned();
    let has_place = |taken: &Taken| {
        chosen
            .places
            .iter()
            .any(|(sensor, _)| *sensor == taken.sensor)
    };
    let mut put = |mut series: LoggerSeries, (sensor, hung): (&str, Hung)| {
        series.file = file.to_owned();
        series.original.clone_from(&chosen.file.name);
        series.mapping.clone_from(&chosen.mapping);
        (series.sensor, series.hung) = (sensor.to_owned(), hung);
        edits.push(Edit::Put(Record::Series(Box::new(series))));
    };
    let mut gone = Vec::new();
    let mut renamed = Vec::new();
    for taken in &chosen.taken {
        let Some(series) = of_survey(taken) else {
            continue;
        };
        match used.iter().position(|(sensor, _)| *sensor == taken.sensor) {
            Some(at) => put(series, used.remove(at)),
            None if has_place(taken) => gone.push(taken.id),
            None => renamed.push(series),
        }
    }
    for series in renamed {
        match used.is_empty() {
            // Its sensor has another name now.
            false => put(series, used.remove(0)),
            true => gone.push(series.id),
        }
    }
    let mut free = survey.free_series_id();
    for one in used {
        let new = LoggerSeries::new(free, one.1, file.to_owned(), chosen.mapping.clone());
        put(new, one);
        free = SeriesId(free.0.saturating_add(1));
    }
    edits.extend(
        gone.into_iter()
            .map(|id| Edit::Remove(RecordId::Series(id))),
    );
    edits
}
