//! The weather file of the winter: chosen or dropped, it must stand beside the survey.

use super::App;
use crate::survey::{Edit, Severity, Stay};
use crate::window::page::Page;
use std::path::Path;

impl App {
    /// Runs the winter with the weather of this file. Only its name is kept in the survey, so that
    /// both can be taken elsewhere together; whether it holds a winter, the run tells.
    pub(super) fn take_weather(&mut self, path: &Path) {
        let folder = self.path().and_then(Path::parent).map(Path::to_owned);
        let Some(folder) = folder else {
            let words = "Save the survey first: its weather file is looked for in the same folder.";
            self.notices.tell(Severity::Note, words);
            return;
        };
        let name = path.file_name().and_then(|name| name.to_str());
        let (Some(name), true) = (name, path.parent() == Some(folder.as_path())) else {
            let words = format!(
                "Put the weather file into {}, where the survey is, and choose it there: they then stay \
                 together.",
                folder.display()
            );
            self.notices.tell(Severity::Note, words);
            return;
        };
        let Some(survey) = self.survey() else { return };
        let stay = Stay {
            weather_file: name.to_owned(),
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
