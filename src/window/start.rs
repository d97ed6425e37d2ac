//! What the window starts with: everything it needs from outside, so that tests can give their own.

use super::answers::Effort;
use super::background::{self, Spawner};
use super::data_folder::DataFolder;
use super::photos;
use super::picker::{self, Picker};
use super::samples::{SAMPLES, Sample};
use super::today::today;
use super::typesetting::Setter;
use crate::sheet::locale::dates_of_the_system;
use crate::survey::date::DateWay;
use std::path::PathBuf;

/// What the window starts with.
pub struct Start {
    /// The survey to open.
    pub path: Option<PathBuf>,
    /// Where results are worked out.
    pub spawner: Spawner,
    /// Where job sheets are set.
    pub setter: Setter,
    /// The system's file dialogs.
    pub picker: Picker,
    /// Whether the system has them, as far as can be seen beforehand.
    pub file_dialog: bool,
    /// Sample surveys offered on the start page.
    pub samples: &'static [Sample],
    /// How much is made of longer work.
    pub effort: Effort,
    /// The day that a new survey is dated with; `None` dates none.
    pub today: Option<fn() -> String>,
    /// How the system writes dates.
    pub dates: DateWay,
    /// Whether someone new is shown the first steps.
    pub guide: bool,
    /// Where unsaved work is written down, and what was open last; `None` keeps nothing.
    pub data: Option<DataFolder>,
    /// The platform has no folder for what the program keeps, which is told.
    pub no_data_folder: bool,
    /// Where surveys are read and written.
    pub file_spawner: Spawner,
    /// Where photos are read and kept.
    pub photo_spawner: Spawner,
    /// The program's own folder for photos of changes that are not saved.
    pub photo_holding: Option<PathBuf>,
}

impl Start {
    /// As the program starts: results on a thread, the system's file dialog, its samples.
    #[must_use]
    pub fn program(path: Option<PathBuf>) -> Self {
        let data = DataFolder::of_the_platform();
        Self {
            path,
            no_data_folder: data.is_none(),
            spawner: background::on_a_thread(),
            setter: Setter::own_program(),
            picker: picker::system(),
            file_dialog: picker::has_dialog(),
            samples: SAMPLES,
            effort: Effort::program(),
            dates: dates_of_the_system(),
            today: Some(today),
            guide: true,
            data,
            file_spawner: background::on_a_thread_named("files"),
            photo_spawner: background::on_a_thread_named("photos"),
            photo_holding: photos::holding_folder(),
        }
    }

    /// As tests start: results at once, sheets in their own process, no file dialog, no samples, nothing kept.
    #[must_use]
    pub fn test(path: Option<PathBuf>) -> Self {
        Self {
            path,
            spawner: background::inline(),
            setter: Setter::Here,
            picker: picker::none(),
            file_dialog: true,
            samples: &[],
            effort: Effort::test(),
            dates: DateWay::default(),
            today: None,
            guide: false,
            data: None,
            no_data_folder: false,
            file_spawner: background::inline(),
            photo_spawner: background::inline(),
            photo_holding: None,
        }
    }
}
