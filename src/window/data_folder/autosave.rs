//! The worker that writes unsaved work down.
//!
//! The window hands it a snapshot after each change and goes on; a second after the first change
//! that is not yet written, the newest snapshot goes to the disk. So whatever ends the program,
//! only the last moments are lost. The worker sleeps until there is something to do and wakes by
//! itself: the window need not be painted for it.

use super::held_file::{HeldFile, session_name};
use super::offer::{self, Offer, rescue_file, session_lock};
use super::recent::{self, Recent};
use super::{DataFolder, disk, rescue};
use crate::survey::Survey;
use std::fs;
use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

/// How long after a change it is written down. At most three seconds of work may be lost; the
/// rest of them is left to slow disks.
pub const WRITTEN_AFTER: Duration = Duration::from_secs(1);

/// How long after a failure it is tried again.
const TRIED_AGAIN_AFTER: Duration = Duration::from_secs(10);

/// The survey as it is now, to be written down.
#[derive(Clone, Debug)]
pub struct Snapshot {
    /// The so-many-th survey of this run.
    pub document: u64,
    /// Where it belongs.
    pub belongs: rescue::Belongs,
    /// The survey.
    pub survey: Arc<Survey>,
}

/// What the worker has found or failed at.
#[derive(Clone, Debug, PartialEq)]
pub enum News {
    /// What earlier runs left behind, and the files that were open last.
    Found(Vec<Offer>, Vec<Recent>),
    /// A sentence: something could not be kept.
    Failed(String),
}

/// What is to be done.
enum Task {
    RemoveRescue(u64),
    Remember(PathBuf),
    Forget(PathBuf),
    Look,
}

#[derive(Default)]
struct Desk {
    tasks: Vec<Task>,
    waiting: Option<Waiting>,
    busy: bool,
    ending: bool,
    news: Vec<News>,
}

struct Waiting {
    snapshot: Snapshot,
    due: Instant,
}

struct Shared {
    desk: Mutex<Desk>,
    changed: Condvar,
    wake: Box<dyn Fn() + Send + Sync>,
}

impl Shared {
    /// A poisoned lock only means that a task panicked; the desk is still whole.
    fn desk(&self) -> MutexGuard<'_, Desk> {
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn tell(&self, news: News) {
        self.desk().news.push(news);
        (self.wake)();
    }
}

/// Hands work to the worker. Dropping it waits until everything is written.
pub struct Autosave {
    folder: DataFolder,
    session: String,
    shared: Arc<Shared>,
    worker: Option<JoinHandle<()>>,
}

impl Autosave {
    /// Starts the worker on a folder. `wake` is called from it whenever there is news.
    ///
    /// # Errors
    /// When no thread could be started.
    pub fn start(folder: DataFolder, wake: Box<dyn Fn() + Send + Sync>) -> io::Result<Self> {
        let shared = Arc::new(Shared {
            // Busy until it holds the file which says that it runs.
            desk: Mutex::new(Desk {
                busy: true,
                ..Desk::default()
            }),
            changed: Condvar::new(),
            wake,
        });
        let session = session_name();
        let worker = Worker {
            folder: folder.clone(),
            session: session.clone(),
            shared: Arc::clone(&shared),
        };
        let thread = std::thread::Builder::new().name("autosave".to_owned());
        Ok(Self {
            worker: Some(thread.spawn(move || worker.run())?),
            folder,
            session,
            shared,
        })
    }

    /// The folder it works in.
    #[must_use]
    pub fn folder(&self) -> &DataFolder {
        &self.folder
    }

    /// The name of this run of the program.
    #[must_use]
    pub fn session(&self) -> &str {
        &self.session
    }

    /// Has the survey written down soon.
    pub fn note(&self, snapshot: Snapshot) {
        let mut desk = self.shared.desk();
        let due = match &desk.waiting {
            Some(waiting) => waiting.due,
            None => Instant::now() + WRITTEN_AFTER,
        };
        desk.waiting = Some(Waiting { snapshot, due });
        drop(desk);
        self.shared.changed.notify_one();
    }

    /// Nothing of this survey is unsaved any more: what was written down goes.
    pub fn settled(&self, document: u64) {
        let mut desk = self.shared.desk();
        let of_it = |waiting: &Waiting| waiting.snapshot.document == document;
        if desk.waiting.as_ref().is_some_and(of_it) {
            desk.waiting = None;
        }
        desk.tasks.push(Task::RemoveRescue(document));
        drop(desk);
        self.shared.changed.notify_one();
    }

    /// Takes over what another run left behind, as the rescue file of a survey of this run, and
    /// reads it.
    ///
    /// # Errors
    /// A sentence, when it is not there any more or cannot be read.
    pub fn adopt(&self, document: u64, path: &Path) -> Result<(rescue::Belongs, Survey), String> {
        let read = rescue::read(path).map_err(|error| {
            format!("{path:?} cannot be opened: {error}. It has been left as it is")
        })?;
        let own = rescue_file(&self.folder.rescue(), &self.session, document);
        fs::rename(path, own).map_err(|error| {
            format!("{path:?} cannot be taken over ({error}): perhaps another Gapledger did")
        })?;
        Ok(read)
    }

    /// Puts a file in front of those that were open last.
    pub fn remember(&self, path: &Path) {
        self.task(Task::Remember(path.to_owned()));
    }

    /// Takes a file out of those that were open last.
    pub fn forget(&self, path: &Path) {
        self.task(Task::Forget(path.to_owned()));
    }

    /// Looks for what earlier runs left behind; the answer is in the news.
    pub fn look(&self) {
        self.task(Task::Look);
    }

    fn task(&self, task: Task) {
        self.shared.desk().tasks.push(task);
        self.shared.changed.notify_one();
    }

    /// Takes what there is to tell.
    #[must_use]
    pub fn news(&self) -> Vec<News> {
        std::mem::take(&mut self.shared.desk().news)
    }

    /// Waits until everything asked for is done and written, without waiting for its time.
    pub fn finish(&self) {
        let mut desk = self.shared.desk();
        if let Some(waiting) = &mut desk.waiting {
            waiting.due = Instant::now();
        }
        self.shared.changed.notify_all();
        while desk.busy || !desk.tasks.is_empty() || due(&desk) {
            let waited = self.shared.changed.wait(desk);
            desk = waited.unwrap_or_else(PoisonError::into_inner);
        }
    }
}

fn due(desk: &Desk) -> bool {
    let now = Instant::now();
    desk.waiting
        .as_ref()
        .is_some_and(|waiting| waiting.due <= now)
}

impl Drop for Autosave {
    fn drop(&mut self) {
        self.shared.desk().ending = true;
        self.shared.changed.notify_all();
        if let Some(worker) = self.worker.take() {
            // A worker that panicked has nothing more to write.
            let _ = worker.join();
        }
    }
}

struct Worker {
    folder: DataFolder,
    session: String,
    shared: Arc<Shared>,
}

impl Worker {
    fn run(self) {
        // Held as long as this thread runs: while it is, nobody takes our files for left behind.
        let _running = self.begin();
        self.rest();
        while let Some((tasks, waiting)) = self.next() {
            for task in tasks {
                let done = catch_unwind(AssertUnwindSafe(|| self.perform(task)));
                if done.is_err() {
                    self.failed("Looking after files failed inside the program");
                }
            }
            if let Some(waiting) = waiting {
                self.write(waiting);
            }
            self.rest();
        }
    }

    /// Says that nothing is being done.
    fn rest(&self) {
        self.shared.desk().busy = false;
        self.shared.changed.notify_all();
    }

    fn begin(&self) -> Option<HeldFile> {
        match HeldFile::take(session_lock(&self.folder.rescue(), &self.session)) {
            Ok(held) => Some(held),
            Err(error) => {
                self.failed(&format!(
                    "{:?} cannot be used ({error})",
                    self.folder.rescue()
                ));
                None
            }
        }
    }

    /// What is to be done next; waits for it. `None`: the end.
    fn next(&self) -> Option<(Vec<Task>, Option<Waiting>)> {
        let mut desk = self.shared.desk();
        loop {
            let write = due(&desk) || desk.ending;
            if write && desk.waiting.is_some() || !desk.tasks.is_empty() {
                desk.busy = true;
                let tasks = std::mem::take(&mut desk.tasks);
                let waiting = if write { desk.waiting.take() } else { None };
                return Some((tasks, waiting));
            }
            if desk.ending {
                return None;
            }
            let now = Instant::now();
            let left = desk.waiting.as_ref().map(|waiting| waiting.due - now);
            desk = match left {
                Some(left) => {
                    let waited = self.shared.changed.wait_timeout(desk, left);
                    waited.unwrap_or_else(PoisonError::into_inner).0
                }
                None => {
                    let waited = self.shared.changed.wait(desk);
                    waited.unwrap_or_else(PoisonError::into_inner)
                }
            };
        }
    }

    fn perform(&self, task: Task) {
        let list = self.folder.recent();
        match task {
            Task::RemoveRescue(document) => {
                let path = rescue_file(&self.folder.rescue(), &self.session, document);
                if let Err(error) = disk::remove(&path) {
                    self.failed(&format!(
                        "{path:?} is not needed any more, but stays ({error})"
                    ));
                }
            }
            Task::Remember(path) => {
                // A list of conveniences: not worth a message.
                let _ = recent::remember(&list, &path);
            }
            Task::Forget(path) => {
                let _ = recent::forget(&list, &path);
                self.look();
            }
            Task::Look => self.look(),
        }
    }

    fn look(&self) {
        let offers = offer::look(&self.folder);
        let recent = recent::read(&self.folder.recent());
        self.shared.tell(News::Found(offers, recent));
    }

    fn write(&self, waiting: Waiting) {
        let written = catch_unwind(AssertUnwindSafe(|| self.written(&waiting.snapshot)));
        let problem = match written {
            Ok(Ok(())) => return,
            Ok(Err(problem)) => problem,
            Err(_) => "the program made a mistake".to_owned(),
        };
        self.failed(&format!(
            "The changes could not be written down for a rescue: {problem}. Save the survey"
        ));
        let mut desk = self.shared.desk();
        if desk.waiting.is_none() && !desk.ending {
            desk.waiting = Some(Waiting {
                due: Instant::now() + TRIED_AGAIN_AFTER,
                ..waiting
            });
        }
    }

    fn written(&self, snapshot: &Snapshot) -> Result<(), String> {
        let text = rescue::text(&snapshot.belongs, &snapshot.survey)?;
        let folder = self.folder.rescue();
        let path = rescue_file(&folder, &self.session, snapshot.document);
        fs::create_dir_all(&folder)
            .and_then(|()| disk::write_whole(&path, text.as_bytes()))
            .map_err(|error| format!("{path:?}: {error}"))
    }

    fn failed(&self, what: &str) {
        self.shared.tell(News::Failed(format!("{what}.")));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::VehicleKind;
    use std::time::SystemTime;

    fn autosave(folder: &Path) -> Autosave {
        Autosave::start(DataFolder::at(folder), Box::new(|| {})).unwrap()
    }

    fn snapshot(document: u64, title: &str) -> Snapshot {
        let mut survey = Survey::new(VehicleKind::Other);
        survey.header.title = title.to_owned();
        Snapshot {
            document,
            belongs: rescue::Belongs {
                file: None,
                stamp: None,
                when: SystemTime::now(),
            },
            survey: Arc::new(survey),
        }
    }

    fn rescued(folder: &Path) -> Vec<String> {
        let offers = offer::look(&DataFolder::at(folder)).into_iter();
        offers.map(|offer| offer.content.unwrap().name).collect()
    }

    #[test]
    fn the_newest_is_written_and_goes_when_it_is_settled() {
        let folder = tempfile::tempdir().unwrap();
        let first = autosave(folder.path());
        for title in ["one", "two", "three"] {
            first.note(snapshot(1, title));
        }
        first.finish();
        let own = rescue_file(&first.folder().rescue(), first.session(), 1);
        assert_eq!(rescue::read(&own).unwrap().1.header.title, "three");
        assert!(rescued(folder.path()).is_empty(), "its program still runs");
        first.note(snapshot(1, "four"));
        first.settled(1);
        first.note(snapshot(2, "another"));
        drop(first);
        assert_eq!(rescued(folder.path()), ["another"]);
        assert!(!own.exists());
    }

    #[test]
    fn two_programs_do_not_write_over_each_other_and_one_may_take_over() {
        let folder = tempfile::tempdir().unwrap();
        let (first, second) = (autosave(folder.path()), autosave(folder.path()));
        first.note(snapshot(1, "first"));
        second.note(snapshot(1, "second"));
        drop(first);
        second.finish();
        assert_eq!(rescued(folder.path()), ["first"]);
        let left = offer::look(second.folder()).remove(0).path;
        let third = autosave(folder.path());
        third.finish();
        let (_, survey) = third.adopt(7, &left).unwrap();
        assert_eq!(survey.header.title, "first");
        assert!(second.adopt(2, &left).is_err(), "it was taken already");
        assert!(rescued(folder.path()).is_empty());
        drop(second);
        drop(third);
        let mut both = rescued(folder.path());
        both.sort();
        assert_eq!(both, ["first", "second"]);
    }

    #[cfg(unix)]
    #[test]
    fn a_pipe_among_the_rescue_files_holds_up_neither_looking_nor_the_end() {
        let folder = tempfile::tempdir().unwrap();
        let rescue = DataFolder::at(folder.path()).rescue();
        fs::create_dir_all(&rescue).unwrap();
        for name in ["1-a.1.ron", "1-a.lock", "2-b.1.ron", "2-b.1.tmp"] {
            let made = std::process::Command::new("mkfifo")
                .arg(rescue.join(name))
                .status();
            assert!(made.unwrap().success());
        }
        let made = std::process::Command::new("mkfifo")
            .arg(DataFolder::at(folder.path()).recent())
            .status();
        assert!(made.unwrap().success());
        let (ended, end) = std::sync::mpsc::channel();
        let path = folder.path().to_owned();
        std::thread::spawn(move || {
            let autosave = autosave(&path);
            autosave.look();
            autosave.note(snapshot(1, "kept"));
            autosave.finish();
            let news = autosave.news();
            drop(autosave);
            let _ = ended.send(news);
        });
        let news = end.recv_timeout(Duration::from_secs(20)).unwrap();
        assert_eq!(news, [News::Found(Vec::new(), Vec::new())]);
        assert_eq!(rescued(folder.path()), ["kept"]);
    }

    #[test]
    fn a_folder_that_cannot_be_written_is_told_and_does_not_hold_up_the_end() {
        let folder = tempfile::tempdir().unwrap();
        let in_the_way = folder.path().join("file");
        std::fs::write(&in_the_way, "").unwrap();
        let autosave = autosave(&in_the_way);
        autosave.note(snapshot(1, "lost"));
        autosave.finish();
        let news = autosave.news();
        let told = |words: &str| {
            news.iter()
                .any(|news| matches!(news, News::Failed(told) if told.contains(words)))
        };
        assert!(
            told("cannot be used") && told("Save the survey"),
            "{news:?}"
        );
    }
}
