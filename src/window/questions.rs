//! The questions the window asks, one at a time, and their answers.

use super::loggers::Chosen;
use super::typesetting::SheetFile;
use crate::survey::findings::called;
use crate::survey::{Edit, Gap, GapId, MergeKey, SeriesId, VehicleKind};
use std::path::PathBuf;

/// What follows once unsaved changes are out of the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Then {
    /// Leave the program.
    Close,
    /// Ask which kind of vehicle a new survey is for.
    New,
    /// Begin a new survey.
    NewSurvey(VehicleKind),
    /// Ask which file to open.
    Open,
    /// Open this file.
    OpenFile(PathBuf),
    /// Open what was rescued in this file.
    OpenRescued(PathBuf),
    /// Show the start page.
    StartPage,
}

/// What a path is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PathFor {
    /// To open.
    Open,
    /// To save to, and then go on.
    Save(Option<Then>),
    /// To add as a photo of this gap.
    Photo(GapId),
    /// To take as the workshop's logo.
    Logo,
    /// To run the winter with its weather.
    Weather,
    /// To take in as a logger's readings, in place of those of a logger where one is named.
    Logger(Option<SeriesId>),
    /// To write a sheet or table to.
    Write(SheetFile),
}

impl PathFor {
    /// The sort of file, where it is no survey.
    #[must_use]
    pub fn file(&self) -> Option<SheetFile> {
        match self {
            Self::Write(file) => Some(*file),
            Self::Open
            | Self::Save(_)
            | Self::Photo(_)
            | Self::Logo
            | Self::Weather
            | Self::Logger(_) => None,
        }
    }
}

/// A question.
#[derive(Clone, Debug, PartialEq)]
pub enum Dialog {
    /// There are unsaved changes.
    Unsaved(Then),
    /// Which vehicle a new survey is for.
    NewSurvey,
    /// Which file.
    Path {
        /// What for.
        purpose: PathFor,
        /// The path typed so far.
        text: String,
        /// What to tell beside the field.
        note: String,
    },
    /// A file would be overwritten.
    Overwrite {
        /// The file.
        path: PathBuf,
        /// Why it was not.
        sentence: String,
        /// What follows.
        then: Option<Then>,
    },
    /// A sheet or table would take the place of a file.
    Replace {
        /// The file.
        path: PathBuf,
        /// What would be written.
        file: SheetFile,
    },
    /// A file to save to is open in another program.
    Shared {
        /// The file.
        path: PathBuf,
        /// What follows.
        then: Option<Then>,
    },
    /// Work on the survey that was just opened was rescued.
    Rescued {
        /// The rescue file.
        path: PathBuf,
        /// What it is.
        sentence: String,
    },
    /// Rescued work is to be put away.
    PutAway {
        /// The rescue file.
        path: PathBuf,
        /// What then happens to it.
        sentence: String,
    },
    /// An opening that protects people is to be called something else.
    GivenUp {
        /// The change.
        edit: Box<Edit>,
        /// The step that it belongs to.
        merge: Option<MergeKey>,
        /// Which openings, and what that means.
        sentence: String,
    },
    /// How a logger's file is read.
    Logger(Box<Chosen>),
    /// Everything that was noticed.
    Findings,
    /// What the window told in this run.
    Messages,
    /// Every key.
    Keys,
}

/// What it means to call openings that protect people something else; nothing where there are none.
#[must_use]
pub fn what_is_given_up(gaps: &[&Gap]) -> Option<String> {
    let (first, more) = gaps.split_first()?;
    let which = called(&format!("Gap {}", first.id), first.shown_name());
    let others = match more.len() {
        0 => String::new(),
        1 => " (and one more)".to_owned(),
        more => format!(" (and {more} more)"),
    };
    Some(format!(
        "{which}{others} is {}: it protects the people inside. Called anything else, it may be closed, \
         and whoever closes it may take the air from people or a flame, or keep leaked gas in. Change it \
         only if it was entered wrongly and you have seen both ends. It stays marked as changed by hand.",
        first.purpose.name()
    ))
}

/// How a dialog was answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answered {
    /// The dialog is put away and nothing is done.
    Cancel,
    /// Unsaved changes: save them, then go on.
    SaveFirst,
    /// Unsaved changes: let them go.
    Discard,
    /// This path, to open or to save to.
    Path(PathBuf),
    /// Ask the system's file dialog for the path.
    Browse,
    /// Save although the file was changed on disk or exists already.
    Overwrite,
    /// Save although another program has the file open.
    SaveAnyway,
    /// Open what was rescued.
    OpenRescued,
    /// Put away what was rescued.
    PutAway,
    /// Call the opening something else: it was entered wrongly.
    GiveUp,
    /// Read the logger's file so.
    ReadLogger,
    /// Save under another name instead.
    OtherName,
}

/// A question with whether it was only just asked: then its first input takes the focus.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The question.
    pub dialog: Dialog,
    /// Not drawn yet.
    pub fresh: bool,
}

impl From<Dialog> for Asked {
    fn from(dialog: Dialog) -> Self {
        Self {
            dialog,
            fresh: true,
        }
    }
}
