//! The system's dialog for photos, asked on a thread so that the window goes on.

use crate::window::picker::wait_for;
use eframe::egui;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, sync_channel};

/// Asks the system for photos; the answer arrives later. `None` is a dialog that was cancelled or
/// that the system does not have.
pub type PhotoPicker =
    Arc<dyn Fn(&eframe::Frame, &egui::Context) -> Receiver<Option<Vec<PathBuf>>> + Send + Sync>;

/// The real one.
#[must_use]
pub fn system() -> PhotoPicker {
    Arc::new(|frame, ctx| {
        let dialog = rfd::AsyncFileDialog::new()
            .add_filter(
                "photos",
                &["jpg", "jpeg", "JPG", "JPEG", "png", "PNG", "webp"],
            )
            .set_parent(frame);
        let (sender, receiver) = sync_channel(1);
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("photo dialog".to_owned());
        // When no thread starts the sender is dropped, which reads as a dialog that is not there.
        let _ = thread.spawn(move || {
            let chosen = wait_for(dialog.pick_files()).map(|files| {
                files
                    .iter()
                    .map(|file| file.path().to_owned())
                    .collect::<Vec<_>>()
            });
            // Nobody waits for the answer any more when the window is gone.
            let _ = sender.send(chosen);
            ctx.request_repaint();
        });
        receiver
    })
}

/// One that never has a dialog, for tests.
#[must_use]
pub fn none() -> PhotoPicker {
    Arc::new(|_, _| sync_channel(1).1)
}

/// The program's own folder for photos of changes that are not saved.
#[must_use]
pub fn holding_folder() -> Option<PathBuf> {
    use etcetera::BaseStrategy;
    let folders = etcetera::choose_base_strategy().ok()?;
    Some(folders.data_dir().join("gapledger").join("photos"))
}
