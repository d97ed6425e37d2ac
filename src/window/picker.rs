//! The system's file dialog, asked on a thread so that the window goes on.

use eframe::egui;
use std::future::Future;
use std::path::PathBuf;
use std::pin::pin;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, sync_channel};
use std::task::{Context, Poll, Wake, Waker};
use std::thread::Thread;

/// What the system is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pick {
    /// To save rather than to open.
    pub saving: bool,
    /// Folder to begin in.
    pub folder: Option<PathBuf>,
    /// File name offered.
    pub name: String,
    /// Ending of such files, without the dot.
    pub ending: &'static str,
}

/// Asks the system for a path; the answer arrives later. `None` is a dialog that was cancelled
/// or that the system does not have.
pub type Picker =
    Arc<dyn Fn(&Pick, &eframe::Frame, &egui::Context) -> Receiver<Option<PathBuf>> + Send + Sync>;

/// The real one.
#[must_use]
pub fn system() -> Picker {
    Arc::new(|pick, frame, ctx| {
        let mut dialog = rfd::AsyncFileDialog::new()
            .add_filter(pick.ending, &[pick.ending])
            .set_parent(frame);
        if let Some(folder) = &pick.folder {
            dialog = dialog.set_directory(folder);
        }
        let (sender, receiver) = sync_channel(1);
        let saving = pick.saving;
        let name = pick.name.clone();
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("file dialog".to_owned());
        // When no thread starts the sender is dropped, which reads as a dialog that is not there.
        let _ = thread.spawn(move || {
            let chosen = if saving {
                wait_for(dialog.set_file_name(name).save_file())
            } else {
                wait_for(dialog.pick_file())
            };
            // Nobody waits for the answer any more when the window is gone.
            let _ = sender.send(chosen.map(|file| file.path().to_owned()));
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

struct Unpark(Thread);

impl Wake for Unpark {
    fn wake(self: Arc<Self>) {
        self.0.unpark();
    }
}

/// Waits on this thread until the future is done.
pub(super) fn wait_for<T>(future: impl Future<Output = T>) -> T {
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
}
