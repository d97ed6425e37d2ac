//! The system's file dialogs, asked on a thread so that the window goes on.

use eframe::egui;
use std::future::Future;
use std::path::PathBuf;
use std::pin::pin;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, sync_channel};
use std::task::{Context, Poll, Wake, Waker};
use std::thread::Thread;
use std::time::{Duration, Instant};

/// What the system is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pick {
    /// Which dialog.
    pub way: Way,
    /// Folder to begin in.
    pub folder: Option<PathBuf>,
    /// What such files are called.
    pub sort: &'static str,
    /// Endings of such files, without the dot.
    pub endings: Vec<&'static str>,
}

/// The dialogs there are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Way {
    /// One file to open.
    One,
    /// Several files to open.
    Several,
    /// A file to save to, offered under this name.
    Save(String),
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Picked {
    /// These files.
    Paths(Vec<PathBuf>),
    /// The dialog was put away.
    Cancelled,
    /// The system has no such dialog.
    NoDialog,
}

/// Asks the system for files; the answer arrives later.
pub type Picker =
    Arc<dyn Fn(&Pick, &eframe::Frame, &egui::Context) -> Receiver<Picked> + Send + Sync>;

/// Nobody sees a dialog and puts it away in so short a time: it was never there.
const NEVER_SEEN: Duration = Duration::from_millis(150);

/// The real one.
#[must_use]
pub fn system() -> Picker {
    Arc::new(|pick, frame, ctx| {
        let mut dialog = rfd::AsyncFileDialog::new()
            .add_filter(pick.sort, &pick.endings)
            .set_parent(frame);
        if let Some(folder) = &pick.folder {
            dialog = dialog.set_directory(folder);
        }
        let (sender, receiver) = sync_channel(1);
        let way = pick.way.clone();
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("file dialog".to_owned());
        // When no thread starts the sender is dropped, which reads as a dialog that is not there.
        let _ = thread.spawn(move || {
            let since = Instant::now();
            let chosen = match way {
                Way::One => wait_for(dialog.pick_file()).map(|file| vec![file]),
                Way::Several => wait_for(dialog.pick_files()),
                Way::Save(name) => {
                    wait_for(dialog.set_file_name(name).save_file()).map(|file| vec![file])
                }
            };
            let picked = match chosen {
                Some(files) => {
                    Picked::Paths(files.iter().map(|file| file.path().to_owned()).collect())
                }
                None if has_dialog() && since.elapsed() > NEVER_SEEN => Picked::Cancelled,
                None => Picked::NoDialog,
            };
            // Nobody waits for the answer any more when the window is gone.
            let _ = sender.send(picked);
            ctx.request_repaint();
        });
        receiver
    })
}

/// One that never has a dialog, for tests.
#[must_use]
pub fn none() -> Picker {
    Arc::new(|_, _, _| sync_channel(1).1)
}

/// Whether the system has a file dialog. On desktops of the freedesktop kind it is shown by a
/// service that is installed with a description, or else by a program.
#[must_use]
pub fn has_dialog() -> bool {
    if !cfg!(all(unix, not(target_os = "macos"))) {
        return true;
    }
    let folders = |name: &str, otherwise: &str| {
        let set = std::env::var_os(name).filter(|value| !value.is_empty());
        let set = set.unwrap_or_else(|| otherwise.into());
        std::env::split_paths(&set).collect::<Vec<PathBuf>>()
    };
    let mut data = folders("XDG_DATA_DIRS", "/usr/local/share:/usr/share");
    data.extend(folders("XDG_DATA_HOME", ""));
    offers_dialog(&data, &folders("PATH", ""))
}

/// Whether one of the data folders describes a service that chooses files, or one of the others
/// holds the program.
fn offers_dialog(data: &[PathBuf], programs: &[PathBuf]) -> bool {
    let service = |folder: &PathBuf| {
        let entries = std::fs::read_dir(folder.join("xdg-desktop-portal/portals"));
        entries.into_iter().flatten().flatten().any(|entry| {
            let text = std::fs::read_to_string(entry.path());
            text.is_ok_and(|text| text.contains("org.freedesktop.impl.portal.FileChooser"))
        })
    };
    data.iter().any(service)
        || programs
            .iter()
            .any(|folder| folder.join("zenity").is_file())
}

struct Unpark(Thread);

impl Wake for Unpark {
    fn wake(self: Arc<Self>) {
        self.0.unpark();
    }
}

/// Waits on this thread until the future is done.
fn wait_for<T>(future: impl Future<Output = T>) -> T {
    let waker = Waker::from(Arc::new(Unpark(std::thread::current())));
    let mut context = Context::from_waker(&waker);
    let mut future = pin!(future);
    loop {
        match future.as_mut().poll(&mut context) {
            Poll::Ready(value) => return value,
            Poll::Pending => std::thread::park(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn waiting_ends_when_the_future_is_done() {
        let mut polls = 0;
        let future = std::future::poll_fn(|context| {
            polls += 1;
            if polls < 3 {
                context.waker().wake_by_ref();
                Poll::Pending
            } else {
                Poll::Ready(7)
            }
        });
        assert_eq!(wait_for(future), 7);
    }

    #[test]
    fn a_dialog_is_there_where_a_service_or_a_program_shows_it() {
        let folder = tempfile::tempdir().unwrap();
        let here = || vec![folder.path().to_owned()];
        assert!(!offers_dialog(&here(), &here()));
        let portals = folder.path().join("xdg-desktop-portal/portals");
        std::fs::create_dir_all(&portals).unwrap();
        let other = "Interfaces=org.freedesktop.impl.portal.Settings;";
        std::fs::write(portals.join("other.portal"), other).unwrap();
        assert!(!offers_dialog(&here(), &here()));
        let chooser = "Interfaces=org.freedesktop.impl.portal.FileChooser;";
        std::fs::write(portals.join("some.portal"), chooser).unwrap();
        assert!(offers_dialog(&here(), &[]));
        std::fs::write(folder.path().join("zenity"), "").unwrap();
        assert!(offers_dialog(&[], &here()));
    }
}
