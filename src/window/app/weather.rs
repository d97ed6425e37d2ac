//! The weather file of the winter: chosen or dropped, it is kept with the survey.

use super::App;
use crate::survey::{Edit, Severity, Stay};
use crate::window::loggers::Ask;
use crate::window::page::Page;
use std::path::Path;

impl App {
    /// Runs the winter with the weather of this file. It is kept by its content, as files of loggers
    /// are, and goes with the survey; whether it holds a winter, the run tells.
    pub(super) fn take_weather(&mut self, path: &Path) {
        if self.survey().is_none() {
            return;
        }
        let Some(folder) = self.folder_for_loggers() else {
            let words = "Save the survey first: its weather file is kept beside it.";
            self.notices.tell(Severity::Note, words);
            return;
        };
        self.ask_loggers(Ask::KeepWeather(path.to_owned(), folder));
    }

    /// Names a weather file that was kept.
    pub(super) fn weather_kept(&mut self, name: String, original: String) {
        let Some(survey) = self.survey() else { return };
        let stay = Stay {
            weather_file: name,
            weather_original: original,
            ..survey.stay.clone()
        };
        self.edit(Edit::Stay(Box::new(stay)), None);
    }

    /// Takes a file dropped on the Winter page for its weather.
    pub(super) fn takes_dropped_weather(&mut self, path: &Path) -> bool {
        let here = self.view.page == Page::Winter && self.survey().is_some();
        if here {
            self.take_weather(path);
        }
        here
    }
}
