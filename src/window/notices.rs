//! What the window tells: short sentences above the result strip that never take the focus.

use super::commands::Command;
use super::request::{Queue, Request};
use super::widgets;
use crate::assess::words::sentence;
use crate::survey::Severity;
use eframe::egui;
use egui::{RichText, Ui};
use std::collections::VecDeque;
use std::time::Instant;

/// An error as a sentence: capital letter, full stop.
pub(super) fn sentence_of(error: &dyn std::fmt::Display) -> String {
    sentence(&error.to_string())
}

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
    /// Everything told in this run, with when; the oldest make room.
    all: VecDeque<(Instant, Severity, String)>,
}

/// Older ones make room.
const MOST: usize = 3;
/// As many stay in the list of all.
const MOST_KEPT: usize = 200;

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
        if self.all.len() == MOST_KEPT {
            self.all.pop_front();
        }
        self.all
            .push_back((Instant::now(), severity, sentence.clone()));
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

    /// Everything told in this run, oldest first.
    pub fn all(&self) -> impl DoubleEndedIterator<Item = (Severity, &str)> {
        self.all
            .iter()
            .map(|(_, severity, sentence)| (*severity, sentence.as_str()))
    }

    /// Draws everything told in this run, newest first.
    pub(super) fn show_all(&self, ui: &mut Ui) {
        if self.all.is_empty() {
            ui.label("No messages yet.");
        }
        for (at, severity, sentence) in self.all.iter().rev() {
            ui.horizontal_wrapped(|ui| {
                widgets::severity_sign(ui, *severity);
                ui.label(sentence);
                widgets::muted(ui, ago(at.elapsed().as_secs()));
            });
        }
    }

    /// Draws them.
    pub fn show(&self, ui: &mut Ui, queue: &mut Queue) {
        for notice in &self.list {
            ui.horizontal_wrapped(|ui| {
                let colour = widgets::severity_colour(ui, notice.severity);
                let sign = widgets::sign(notice.severity);
                ui.label(RichText::new(sign).color(colour));
                ui.label(&notice.sentence);
                if notice.undo && widgets::link(ui, "Undo").clicked() {
                    queue.command(Command::Undo);
                }
                if widgets::named_link(ui, "put away", &format!("put away: {}", notice.sentence)) {
                    queue.push(Request::Dismiss(notice.number));
                }
            });
        }
    }
}

/// How long ago, in words.
fn ago(seconds: u64) -> String {
    match (seconds / 60, seconds / 3600) {
        (0, _) => "just now".to_owned(),
        (minutes, 0) => format!("{minutes} min ago"),
        (_, hours) => format!("{hours} h ago"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_put_away_stays_in_the_list_of_all() {
        let mut notices = Notices::default();
        for sentence in ["one", "two", "three", "four"] {
            notices.tell(Severity::Warning, sentence);
        }
        assert_eq!(notices.list().len(), MOST);
        let last = notices.list().last().unwrap().number;
        notices.dismiss(last);
        let all: Vec<&str> = notices.all().map(|(_, sentence)| sentence).collect();
        assert_eq!(all, ["one", "two", "three", "four"]);
    }

    #[test]
    fn time_gone_by_is_told_in_words() {
        let words = [(12, "just now"), (61, "1 min ago"), (7300, "2 h ago")];
        for (seconds, expected) in words {
            assert_eq!(ago(seconds), expected);
        }
    }
}
