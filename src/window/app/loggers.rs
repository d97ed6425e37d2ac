//! Files of loggers on their way into the survey: chosen or dropped, looked at, read.

use super::App;
use crate::series::moment;
use crate::survey::file::data_folder;
use crate::survey::{Edit, LoggerSeries, MergeKey, Record, Severity};
use crate::window::loggers::{Ask, Chosen, Place, ReadFile, Told};
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
        for (sensor, place) in &chosen.places {
            let (Some(Place::Hung(hung)), Some(survey)) = (place, self.survey()) else {
                continue;
            };
            let id = survey.free_series_id();
            let mut series = LoggerSeries::new(id, *hung, name.clone(), chosen.mapping.clone());
            series.original.clone_from(&chosen.file.name);
            series.sensor.clone_from(sensor);
            let put = Edit::Put(Record::Series(Box::new(series)));
            self.edit(put, Some(merge.clone()));
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
