//! How far longer work is, with the way to stop it.

use crate::window::answers::LongWork;
use crate::window::background::Status;
use crate::window::request::{Queue, Request};
use eframe::egui;
use egui::{ProgressBar, Ui};

/// A line that says how far longer work is and offers to stop it, or to ask for it again once it
/// was stopped; nothing where it rests. `what` names it: `the best set`.
pub fn long_work(ui: &mut Ui, queue: &mut Queue, work: LongWork, status: Status, what: &str) {
    match status {
        Status::Idle => {}
        Status::Working(share) => {
            ui.horizontal_wrapped(|ui| {
                super::words::muted(ui, format!("{what} is being worked out"));
                ui.add(
                    ProgressBar::new(share)
                        .desired_width(150.0)
                        .show_percentage(),
                );
                if super::words::named_button(ui, "Stop", &format!("Stop working out {what}")) {
                    queue.push(Request::Stop(work));
                }
            });
        }
        Status::Stopped => {
            ui.horizontal_wrapped(|ui| {
                super::words::muted(ui, format!("{what}: stopped before it was worked out."));
                if super::words::named_button(ui, "Work it out", &format!("Work out {what}")) {
                    queue.push(Request::Again(work));
                }
            });
        }
    }
}
