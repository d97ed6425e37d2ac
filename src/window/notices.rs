//! What the window tells: short sentences above the result strip that never take the focus.

use super::commands::Command;
use super::page::{Queue, Request};
use super::widgets;
use crate::survey::Severity;
use eframe::egui;
use egui::{RichText, Ui};

/// One sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    number: u64,
    /// How bad it is.
    pub severity: Severity,
    /// What happened.
    pub sentence: String,
    /// Whether undoing is offered beside it.
    pub undo: bool,
}

/// The sentences shown.
#[derive(Debug, Default)]
pub struct Notices {
    list: Vec<Notice>,
    told: u64,
}

/// Older ones make room.
const MOST: usize = 3;

impl Notices {
    /// Tells something.
    pub fn tell(&mut self, severity: Severity, sentence: impl Into<String>) {
        self.push(severity, sentence.into(), false);
    }

    /// Tells of something that can be undone.
    pub fn tell_undoable(&mut self, sentence: impl Into<String>) {
        self.push(Severity::Note, sentence.into(), true);
    }

    fn push(&mut self, severity: Severity, sentence: String, undo: bool) {
        self.list.retain(|notice| notice.sentence != sentence);
        self.told += 1;
        self.list.push(Notice {
            number: self.told,
            severity,
            sentence,
            undo,
        });
        if self.list.len() > MOST {
            self.list.remove(0);
        }
    }

    /// Puts one away.
    pub fn dismiss(&mut self, number: u64) {
        self.list.retain(|notice| notice.number != number);
    }

    /// Puts away what is only worth knowing: the user has gone on.
    pub fn gone_on(&mut self) {
        self.list.retain(|notice| notice.severity != Severity::Note);
    }

    /// What is shown.
    #[must_use]
    pub fn list(&self) -> &[Notice] {
        &self.list
    }

    /// Draws them.
    pub fn show(&self, ui: &mut Ui, queue: &mut Queue) {
        for notice in &self.list {
            ui.horizontal_wrapped(|ui| {
                let colour = widgets::severity_colour(ui, notice.severity);
                let sign = widgets::sign(notice.severity);
                ui.label(RichText::new(sign).color(colour));
                ui.label(&notice.sentence);
                if notice.undo && ui.link("Undo").clicked() {
                    queue.command(Command::Undo);
                }
                let away = ui.link("put away");
                widgets::tell_name(ui, away.id, &format!("put away: {}", notice.sentence));
                if away.clicked() {
                    queue.push(Request::Dismiss(notice.number));
                }
            });
        }
    }
}
