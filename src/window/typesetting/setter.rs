//! Where sheets are set: by the program itself, started once more, so that all that the typesetter
//! held goes back to the system with that process; or in this process.

use crate::sheet::SheetError;
use crate::sheet::manuscript::Manuscript;
use crate::sheet::setting::{Look, Said, set_whole, write_order};
use std::io::{BufReader, BufWriter, ErrorKind, Read};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;
use std::time::Duration;

/// How often it is looked whether the sheet is still wanted.
const LOOK_EVERY: Duration = Duration::from_millis(30);
/// Letters of what the other process complains of: it says one sentence.
const COMPLAINT: u64 = 4_000;
/// What its sentence begins with.
const SAYS: &str = "gapledger: ";

/// Where sheets are set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Setter {
    /// In this process.
    Here,
    /// In another one, of this program.
    Program(PathBuf),
}

impl Setter {
    /// The running program. In Linux it is called by the name that still leads to it after it was
    /// replaced by a newer one.
    #[must_use]
    pub fn own_program() -> Self {
        let itself = Path::new("/proc/self/exe");
        if cfg!(target_os = "linux") && itself.exists() {
            return Self::Program(itself.to_owned());
        }
        std::env::current_exe().map_or(Self::Here, Self::Program)
    }

    /// Sets a sheet and passes on what comes of it, until nobody wants it any more.
    ///
    /// # Errors
    /// A sentence, where it could not be set.
    pub(super) fn set(
        &self,
        manuscript: Manuscript,
        look: Look,
        stopped: &(dyn Fn() -> bool + Sync),
        say: &mut dyn FnMut(Said),
    ) -> Result<(), String> {
        let mut failed = None;
        let mut heard = |said: Said| {
            if stopped() {
                return ControlFlow::Break(());
            }
            match said {
                Said::Failed(words) => failed = Some(words),
                said => say(said),
            }
            ControlFlow::Continue(())
        };
        match self {
            Self::Here => {
                let _ended = set_whole(manuscript, look, &mut heard);
            }
            Self::Program(program) => {
                elsewhere(program, manuscript, look, stopped, &mut heard)?;
            }
        }
        failed.map_or(Ok(()), Err)
    }

    /// The PDF of a sheet.
    ///
    /// # Errors
    /// As [`Setter::set`].
    pub(super) fn pdf(&self, manuscript: Manuscript) -> Result<Vec<u8>, String> {
        let mut pdf = None;
        self.set(manuscript, Look::default(), &|| false, &mut |said| {
            if let Said::Pdf(bytes) = said {
                pdf = Some(bytes);
            }
        })?;
        pdf.ok_or_else(|| unfinished(&"no PDF came of it"))
    }
}

/// The sentence about a worker that did not come to its end.
fn unfinished(why: &dyn std::fmt::Display) -> String {
    SheetError::Worker(why.to_string()).to_string()
}

/// Has another process set it.
fn elsewhere(
    program: &Path,
    manuscript: Manuscript,
    look: Look,
    stopped: &(dyn Fn() -> bool + Sync),
    heard: &mut dyn FnMut(Said) -> ControlFlow<()>,
) -> Result<(), String> {
    let mut child = Command::new(program)
        .arg("set-pages")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map_err(|error| {
            let program = program.display();
            unfinished(&format_args!("{program} could not be started: {error}"))
        })?;
    let (order, told, complaint) = (child.stdin.take(), child.stdout.take(), child.stderr.take());
    let (child, over) = (Mutex::new(child), AtomicBool::new(false));
    let ended = thread::scope(|scope| {
        let watcher = thread::Builder::new()
            .name("sheet wanted".to_owned())
            .spawn_scoped(scope, || {
                while !over.load(Ordering::SeqCst) {
                    if stopped() {
                        kill(&child);
                    }
                    thread::park_timeout(LOOK_EVERY);
                }
            });
        let watcher = watcher.map_err(|error| {
            kill(&child);
            unfinished(&format_args!("nobody could watch over it: {error}"))
        });
        let mut ended = false;
        if let (Some(order), Some(told), Ok(_)) = (order, told, &watcher) {
            // What does not take the order in ends, and how it ended is told below.
            let _ = write_order(&mut BufWriter::new(order), &manuscript, look);
            drop(manuscript);
            ended = passed_on(&mut BufReader::new(told), heard);
        }
        over.store(true, Ordering::SeqCst);
        watcher.map(|watcher| {
            watcher.thread().unpark();
            ended
        })
    })?;
    // All was told, or it is of no use any more; it may hang with its output closed.
    kill(&child);
    let mut words = String::new();
    if let (false, Some(complaint)) = (ended, complaint) {
        let _ = complaint.take(COMPLAINT).read_to_string(&mut words);
    }
    let mut child = child.into_inner().unwrap_or_else(PoisonError::into_inner);
    let status = child.wait().map_err(|error| unfinished(&error))?;
    if ended || stopped() {
        return Ok(());
    }
    Err(became(status, &words))
}

/// What became of a process that did not come to its end.
fn became(status: ExitStatus, complaint: &str) -> String {
    let sentence = complaint.lines().find_map(|line| line.strip_prefix(SAYS));
    match sentence {
        Some(sentence) => sentence.to_owned(),
        None => unfinished(&status),
    }
}

/// Passes on what is told until the last of it, or until nobody listens. Whether that was all.
fn passed_on(told: &mut impl Read, heard: &mut dyn FnMut(Said) -> ControlFlow<()>) -> bool {
    loop {
        match Said::read(told) {
            Ok(said) => {
                let last = said.is_last();
                if heard(said).is_break() {
                    return false;
                }
                if last {
                    return true;
                }
            }
            Err(error) if error.kind() == ErrorKind::Interrupted => {}
            Err(_) => return false,
        }
    }
}

fn kill(child: &Mutex<Child>) {
    let mut child = child.lock().unwrap_or_else(PoisonError::into_inner);
    // Where it has ended already there is nothing to end.
    let _ = child.kill();
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::shown::{Shown, Units};
    use crate::sheet::{Paper, guide};
    use crate::survey::VehicleKind;
    use crate::survey::date::DateWay;
    use std::time::Instant;

    fn manuscript() -> Manuscript {
        let shown = Shown::of(Units::Metric, DateWay::YearMonthDay);
        Manuscript::of(&guide(VehicleKind::PanelVan, Paper::A4, &shown)).unwrap()
    }

    #[test]
    fn a_program_that_is_not_there_is_told() {
        let none = Setter::Program("/no/such/program".into());
        let words = none.pdf(manuscript()).unwrap_err();
        assert!(
            words.contains("did not finish: /no/such/program could not be started: "),
            "{words}"
        );
    }

    /// A program of a few lines of shell, which is given the command as its first word.
    #[cfg(unix)]
    fn shell(lines: &str) -> (tempfile::TempDir, Setter) {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("program");
        std::fs::write(&path, format!("#!/bin/sh\n{lines}\n")).unwrap();
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o700)).unwrap();
        (folder, Setter::Program(path))
    }

    #[cfg(unix)]
    #[test]
    fn a_worker_that_is_killed_complains_or_talks_nonsense_ends_in_a_sentence() {
        for (lines, told) in [
            ("kill -9 $$", "did not finish: signal: 9"),
            ("cat > /dev/null; exit 7", "did not finish: exit status: 7"),
            (
                "echo nonsense that is longer than a number",
                "did not finish: ",
            ),
            (
                "echo 'gapledger: too much of it' >&2; exit 2",
                "too much of it",
            ),
        ] {
            let (_folder, setter) = shell(lines);
            let words = setter.pdf(manuscript()).unwrap_err();
            assert!(words.contains(told), "{lines}: {words}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_worker_that_hangs_is_ended_once_nobody_wants_its_sheet() {
        let (_folder, setter) = shell("exec sleep 600");
        let begun = Instant::now();
        let stopped = || begun.elapsed() > Duration::from_millis(200);
        let set = setter.set(manuscript(), Look::default(), &stopped, &mut |_| {});
        assert_eq!(set, Ok(()));
        assert!(begun.elapsed() < Duration::from_secs(60));
    }
}
