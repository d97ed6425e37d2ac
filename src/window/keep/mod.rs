//! Nothing is lost: the program's own folder, and everything it keeps there.
//!
//! - [`keeper`]: a worker thread that writes the open survey down soon after each change;
//! - [`rescue`]: how such a file is written, and read after a crash;
//! - [`offer`]: what earlier runs left behind, to be offered on the start page;
//! - [`open_files`]: by which two programs on one file notice each other;
//! - [`recent`]: the files that were open last.
//!
//! Nothing in this folder is needed to open a survey: without it, or where it cannot be written,
//! the program works and says what it does not do.

mod disk;
pub mod held;
pub mod keeper;
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
