//! The worker that reads and writes the files of surveys, one at a time.

use crate::survey::Survey;
use crate::survey::file::{Backups, FileStamp, LoadError, Loaded, SaveError};
use crate::window::background::Spawner;
use crate::window::questions::Then;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, sync_channel};

/// What came of a file.
pub(super) enum Done {
    Loaded(Box<Result<Loaded, LoadError>>),
    Saved(Backups, Result<FileStamp, SaveError>),
}

/// What is being done with a file.
pub(super) enum Doing {
    /// It is read; the survey that was open had this revision.
    Loading { revision: Option<u64> },
    /// This state of the open survey is written, and then it goes on.
    Saving {
        document: u64,
        survey: Arc<Survey>,
        then: Option<Then>,
    },
}

pub(super) struct Running {
    pub(super) path: PathBuf,
    pub(super) doing: Doing,
    pub(super) done: Receiver<Done>,
}

/// A save that was asked for while a file was read or written.
pub(super) struct Waiting {
    pub(super) path: PathBuf,
    pub(super) anyway: bool,
    pub(super) then: Option<Then>,
}

/// The files of surveys, read and written on a worker.
pub(super) struct Files {
    spawner: Spawner,
    wake: Arc<dyn Fn() + Send + Sync>,
    pub(super) backups: Backups,
    pub(super) running: Option<Running>,
    pub(super) waiting: Option<Waiting>,
    pub(super) closing: bool,
}

impl Files {
    pub(super) fn new(spawner: Spawner, wake: Arc<dyn Fn() + Send + Sync>) -> Self {
        Self {
            spawner,
            wake,
            backups: Backups::default(),
            running: None,
            waiting: None,
            closing: false,
        }
    }

    /// Whether a file is being read or written.
    pub(super) fn is_busy(&self) -> bool {
        self.running.is_some()
    }

    /// The window closes once that is done.
    pub(super) fn close_when_done(&mut self) {
        self.closing = true;
    }

    /// What is being done, in words.
    pub(super) fn words(&self) -> Option<String> {
        let running = self.running.as_ref()?;
        let verb = match running.doing {
            Doing::Loading { .. } => "Opening",
            Doing::Saving { .. } => "Saving",
        };
        Some(format!("{verb} {} …", running.path.display()))
    }

    pub(super) fn start(
        &mut self,
        path: &Path,
        doing: Doing,
        work: impl FnOnce() -> Done + Send + 'static,
    ) -> std::io::Result<()> {
        let (sender, done) = sync_channel(1);
        let wake = Arc::clone(&self.wake);
        (self.spawner)(Box::new(move || {
            // Nobody waits for it any more when the window is gone.
            let _ = sender.send(work());
            wake();
        }))?;
        self.running = Some(Running {
            path: path.to_owned(),
            doing,
            done,
        });
        Ok(())
    }
}
