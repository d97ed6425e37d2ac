//! Nothing is lost: the program's own folder, and everything it keeps there.
//!
//! - [`autosave`]: a worker thread that writes the open survey down soon after each change;
//! - [`rescue`]: how such a file is written, and read after a crash;
//! - [`offer`]: what earlier runs left behind, to be offered on the start page;
//! - [`open_files`]: by which two programs on one file notice each other;
//! - [`recent`]: the files that were open last.
//!
//! Nothing in this folder is needed to open a survey: without it, or where it cannot be written,
//! the program works and says what it does not do.
//!
//! # What is kept
//!
//! The program keeps a folder of its own, `gapledger` in the platform's folder for programs' data
//! (`~/.local/share` on Linux).
//!
//! | in the folder | what it is |
//! |---|---|
//! | `rescue/RUN.NUMBER.ron` | an unsaved survey: the so-many-th of that run of the program |
//! | `rescue/RUN.lock` | held (locked) as long as that run lasts |
//! | `put-away/` | rescued work that the user has put away; never deleted by the program |
//! | `open/HASH-RUN.lock` | held while that run has a file open; the hash is of its canonical path |
//! | `photos/` | photos of changes that are not saved; kept for 90 days, so rescued work finds its photos |
//! | `recent.ron` | the last eight files, a list of texts, the last one first |
//! | `app.ron` | size and place of the window, looks, page, columns of the ledger, workshop; written by eframe |
//!
//! A second after the first change that is not yet written, a worker thread writes the newest
//! snapshot: to a temporary file (`RUN.NUMBER.tmp`), onto the disk, then into place. It goes when
//! the survey is saved, or let go after the question. What stays in `rescue/` and belongs to no
//! running program is offered on the start page, and when its file is opened; opening it renames it
//! to the new run's name, so that no two programs take the same. A file that cannot be read is
//! shown with its path and left.
//!
//! A rescue file is a survey file with one line in front, a comment:
//!
//! ```text
//! // Gapledger rescue 1 (file:Some("/home/a/van.ron"),stamp:Some("812-5f…"),gaps:3,unix_s:1922837465)
//! ```
//!
//! `file` is the file it belongs to (`None`: never saved; `file_bytes` is added where its name is
//! no text), `stamp` the length and BLAKE3 hash of what that file held when it was opened or saved,
//! `gaps` the number of gaps, to notice damage, and `unix_s` the seconds since 1970 at the last
//! change. It is opened as unsaved changes of that file, with that stamp: if the file holds
//! anything else by now, saving asks first.

pub mod autosave;
mod disk;
pub mod held_file;
pub mod offer;
pub mod open_files;
pub mod recent;
pub mod rescue;
pub mod words;

use etcetera::BaseStrategy;
use std::path::{Path, PathBuf};

/// The folder that the program keeps for itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DataFolder(PathBuf);

impl DataFolder {
    /// The one that the platform has for programs' data; `None` where there is no home.
    #[must_use]
    pub fn of_the_platform() -> Option<Self> {
        let strategy = etcetera::choose_base_strategy().ok()?;
        Some(Self(strategy.data_dir().join("gapledger")))
    }

    /// This folder; it is made when something is first kept in it.
    #[must_use]
    pub fn at(path: &Path) -> Self {
        Self(path.to_owned())
    }

    /// Where unsaved work is written down.
    #[must_use]
    pub fn rescue(&self) -> PathBuf {
        self.0.join("rescue")
    }

    /// Where rescued work goes that the user has put away.
    #[must_use]
    pub fn put_away(&self) -> PathBuf {
        self.0.join("put-away")
    }

    /// Where each running program says which file it has open.
    #[must_use]
    pub fn open_files(&self) -> PathBuf {
        self.0.join("open")
    }

    /// The list of the files that were open last.
    #[must_use]
    pub fn recent(&self) -> PathBuf {
        self.0.join("recent.ron")
    }
}
