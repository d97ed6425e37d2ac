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

/// What a warning or an error came of: where that goes well the next time, it is over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// A change of the survey that was refused.
    Edit,
    /// A file that was not read.
    Open,
    /// A file that was not written.
    Save,
    /// A job sheet or a table that was not written.
    Sheet,
    /// Anything else.
    Other,
}

/// One sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    number: u64,
    cause: Cause,
    /// What was asked for at once with it.
    turn: u64,
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
    turn: u64,
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
        self.tell_of(Cause::Other, severity, sentence);
    }

    /// Tells something that is over once its cause is.
    pub fn tell_of(&mut self, cause: Cause, severity: Severity, sentence: impl Into<String>) {
        self.push(cause, severity, sentence.into(), false);
    }

    /// Tells of something that can be undone.
    pub fn tell_undoable(&mut self, sentence: impl Into<String>) {
        self.push(Cause::Other, Severity::Note, sentence.into(), true);
    }

    fn push(&mut self, cause: Cause, severity: Severity, sentence: String, undo: bool) {
        self.list.retain(|notice| notice.sentence != sentence);
        // News takes the place of older news; warnings and errors stay.
        let turn = self.turn;
        let stays = |one: &Notice| one.severity != Severity::Note || one.turn == turn;
        if severity == Severity::Note {
            self.list.retain(stays);
        }
        if cause != Cause::Other {
            self.over(cause);
        }
        self.told += 1;
        if self.all.len() == MOST_KEPT {
            self.all.pop_front();
        }
        self.all
            .push_back((Instant::now(), severity, sentence.clone()));
        self.list.push(Notice {
            number: self.told,
            cause,
            turn,
            severity,
            sentence,
            undo,
        });
        if self.list.len() > MOST {
            self.list.remove(0);
        }
    }

    /// Something was asked for: what is told from now on is told anew.
    pub fn turn(&mut self) {
        self.turn += 1;
    }

    /// Takes away warnings and errors whose cause is gone.
    pub fn over(&mut self, cause: Cause) {
        self.list.retain(|notice| notice.cause != cause);
    }

    /// Takes one away.
    pub fn dismiss(&mut self, number: u64) {
        self.list.retain(|notice| notice.number != number);
    }

    /// Takes away what is only worth knowing: the user has gone on.
    pub fn gone_on(&mut self) {
        self.list.retain(|notice| notice.severity != Severity::Note);
    }

    /// The same, but what was asked for just now is still told.
    pub fn forget_earlier(&mut self) {
        let turn = self.turn;
        self.list
            .retain(|notice| notice.severity != Severity::Note || notice.turn == turn);
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
                if widgets::named_link(ui, "dismiss", &format!("dismiss: {}", notice.sentence)) {
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
    fn what_is_dismissed_stays_in_the_list_of_all() {
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
    fn news_takes_the_place_of_news_and_an_error_goes_with_its_cause() {
        let mut notices = Notices::default();
        notices.tell(Severity::Note, "saved");
        notices.tell(Severity::Note, "copied at once with it");
        assert_eq!(notices.list().len(), 2);
        notices.turn();
        notices.tell_of(Cause::Save, Severity::Error, "the disk is full");
        notices.tell(Severity::Warning, "a photo is missing");
        notices.turn();
        notices.tell(Severity::Note, "undone");
        let told = |notices: &Notices| -> Vec<String> {
            let all = notices.list().iter();
            all.map(|notice| notice.sentence.clone()).collect()
        };
        let expected = ["the disk is full", "a photo is missing", "undone"];
        assert_eq!(told(&notices), expected);
        notices.over(Cause::Save);
        assert_eq!(told(&notices), ["a photo is missing", "undone"]);
        // The same trouble with other words stands there once.
        notices.tell_of(Cause::Open, Severity::Error, "no such file");
        notices.tell_of(Cause::Open, Severity::Error, "not a survey");
        assert_eq!(
            told(&notices).last().map(String::as_str),
            Some("not a survey")
        );
        assert!(!told(&notices).contains(&"no such file".to_owned()));
    }

    #[test]
    fn time_gone_by_is_told_in_words() {
        let words = [(12, "just now"), (61, "1 min ago"), (7300, "2 h ago")];
        for (seconds, expected) in words {
            assert_eq!(ago(seconds), expected);
        }
    }
}
