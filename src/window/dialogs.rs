//! Questions the window asks.

use std::path::PathBuf;

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
}
