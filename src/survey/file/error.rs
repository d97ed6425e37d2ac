//! What can go wrong with a survey file, each in a sentence that says what, where, and what to do.

use super::limits::{LARGEST_FILE_BYTES, NEWEST_FORMAT};
use super::stamp::FileStamp;
use super::trouble::in_plain_words;
use std::io;
use std::path::PathBuf;

/// Why the text of a file is not a survey.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ParseError {
    /// Nothing in it.
    #[error("the file is empty: if a survey was in it, open its .bak file instead")]
    Empty,
    /// Not text.
    #[error(
        "line {line}, column {column}: this is not UTF-8 text, so it is not a survey file, or it is damaged or saved in another encoding"
    )]
    NotUtf8 {
        /// Line of the first byte that is not text, from 1.
        line: usize,
        /// Column of that byte in characters, from 1.
        column: usize,
    },
    /// No format number.
    #[error(
        "the file does not say which format it is, so it is not a survey file: one starts with `(format: {NEWEST_FORMAT}, …`"
    )]
    NoFormat,
    /// Written by a newer program.
    #[error(
        "this file is format {format}; this program reads up to {NEWEST_FORMAT}: get a newer Gapledger"
    )]
    NewerFormat {
        /// The format it states.
        format: u32,
    },
    /// A format that never was.
    #[error(
        "this file says it is format {format}, which does not exist: formats are numbered from 1 to {NEWEST_FORMAT}"
    )]
    UnknownFormat {
        /// The format it states.
        format: u32,
    },
    /// Something at a place in the text.
    #[error("line {line}, column {column}: {what}")]
    Wrong {
        /// Line, from 1.
        line: usize,
        /// Column in characters, from 1.
        column: usize,
        /// What is wrong, and what to do.
        what: String,
    },
    /// A gap in a zone that is not listed.
    #[error(
        "gap {gap} is in zone {zone}, but no zone has that id: add the zone to `zones`, or write the id of one listed there"
    )]
    NoSuchZone {
        /// Id of the gap.
        gap: u32,
        /// Id of the zone it names.
        zone: u32,
    },
}

/// Why a file could not be loaded. Nothing on the disk has been changed.
#[derive(Debug, thiserror::Error)]
pub enum LoadError {
    /// It is not there.
    #[error("there is no file {path:?}: check the name and the folder")]
    Missing {
        /// The file.
        path: PathBuf,
    },
    /// It is a folder.
    #[error("{path:?} is a folder: choose the survey file (NAME.ron) in it or beside it")]
    IsFolder {
        /// The folder.
        path: PathBuf,
    },
    /// Neither file nor folder.
    #[error("{path:?} is not an ordinary file: choose a survey file (NAME.ron)")]
    NotAFile {
        /// The thing.
        path: PathBuf,
    },
    /// Not allowed.
    #[error(
        "no permission to read {path:?}: ask its owner for permission, or copy it to a folder of your own"
    )]
    NoPermission {
        /// The file.
        path: PathBuf,
    },
    /// Too large.
    #[error(
        "{path:?} is larger than {} MiB, more than any survey: it is not a survey file",
        LARGEST_FILE_BYTES / (1024 * 1024)
    )]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// The disk refused in another way.
    #[error(
        "{path:?} could not be read ({}): check the disk or the connection, then try again",
        in_plain_words(.source)
    )]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// It was read, but it is not a survey.
    #[error("{path:?}: {source}")]
    Content {
        /// The file.
        path: PathBuf,
        /// What is wrong in it.
        source: ParseError,
    },
}

/// One step of saving.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SaveStep {
    /// Looking at what is there.
    Look,
    /// Keeping the previous version as `.bak`.
    KeepPrevious,
    /// Making the temporary file.
    Create,
    /// Writing it.
    Write,
    /// Making sure that it is on the disk.
    Sync,
    /// Putting it in the place of the old one.
    Rename,
}

impl std::fmt::Display for SaveStep {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(match self {
            Self::Look => "looking at the file",
            Self::KeepPrevious => "keeping the previous version as .bak",
            Self::Create => "making a temporary file beside it",
            Self::Write => "writing the temporary file",
            Self::Sync => "writing the temporary file through to the disk",
            Self::Rename => "replacing the old file by the new one",
        })
    }
}

/// Why a survey was not saved. But for [`SaveError::NotConfirmed`], the file on the disk is the
/// old one, whole.
#[derive(Debug, thiserror::Error)]
pub enum SaveError {
    /// Somebody else wrote the file since it was loaded.
    #[error(
        "{path:?} was changed on the disk since it was loaded, and has not been overwritten: save under another name, or confirm that it is to be overwritten"
    )]
    ChangedOnDisk {
        /// The file.
        path: PathBuf,
    },
    /// There is a file of that name already.
    #[error(
        "there is already a file {path:?}, and it has not been overwritten: choose another name, or confirm that it is to be overwritten"
    )]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// It is a folder.
    #[error("{path:?} is a folder: choose a file name in it")]
    IsFolder {
        /// The folder.
        path: PathBuf,
    },
    /// Neither file nor folder.
    #[error("{path:?} is not an ordinary file: choose another name")]
    NotAFile {
        /// The thing.
        path: PathBuf,
    },
    /// The file may not be written.
    #[error("{path:?} is write-protected: save under another name, or remove the protection")]
    ReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// The folder that the file is in is protected.
    #[error(
        "{path:?} is in a write-protected folder: save in another folder, or remove the protection"
    )]
    ReadOnlyFolder {
        /// The file.
        path: PathBuf,
    },
    /// The folder is not there.
    #[error("there is no folder {folder:?}: make it first, or choose another")]
    NoFolder {
        /// The folder.
        folder: PathBuf,
    },
    /// What would be written could not be read back.
    #[error("the survey was not saved, because the file could not be read back: {source}")]
    WouldNotLoad {
        /// What reading it back says.
        source: ParseError,
    },
    /// What would be written would not be read back as the same survey.
    #[error(
        "the survey was not saved, because the file would not contain all of it: save a copy under another name and report this"
    )]
    WouldNotMatch,
    /// What would be written is larger than what is ever read.
    #[error(
        "the survey was not saved, because it is larger than {} MiB: shorten its notes",
        LARGEST_FILE_BYTES / (1024 * 1024)
    )]
    TooLarge,
    /// A step failed; the old file is untouched and the temporary file removed.
    #[error(
        "{path:?} was not saved: {step} failed ({}). The file on the disk is unchanged: check free space and permission, or save elsewhere",
        in_plain_words(.source)
    )]
    Failed {
        /// The file.
        path: PathBuf,
        /// The step that failed.
        step: SaveStep,
        /// What the system said.
        source: io::Error,
    },
    /// The new file is in place and whole, but the disk did not confirm that it will survive a
    /// power cut.
    #[error(
        "{path:?} was saved, but the disk did not confirm it ({}): save once more before switching off",
        in_plain_words(.source)
    )]
    NotConfirmed {
        /// The file.
        path: PathBuf,
        /// Stamp of the new file: what the next save expects to find.
        stamp: FileStamp,
        /// What the system said.
        source: io::Error,
    },
}
