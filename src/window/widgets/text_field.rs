//! A field for words, with the same rules as the number field: live, one step, Esc takes back.

use super::input::{Input, Takes};
use super::severity::finding_line;
use super::words::tell_name;
use crate::survey::Field;
use crate::window::help;
use crate::window::request::Queue;
use eframe::egui;
use egui::{Key, Response, TextEdit, Ui};

/// A field for words.
pub type TextField<'a> = Input<'a, Text<'a>>;

/// A text.
pub struct Text<'a> {
    value: &'a str,
}

impl Takes for Text<'_> {
    const KIND: &'static str = "text";
    const WIDTH: f32 = 190.0;
}

/// Longest text taken: notes of a survey, not books.
const LONGEST: usize = 4000;

impl<'a> TextField<'a> {
    /// A text of the survey; its label and help are those of the catalogue.
    pub fn new(field: Field, value: &'a str) -> Self {
        Self::for_field(field, Text { value })
    }

    /// A text of the page, which the survey does not hold.
    pub fn of_page(label: &'a str, value: &'a str) -> Self {
        Self::for_page(label, Text { value })
    }

    /// Draws the field. `Some` is the new text; pass the edit that follows to [`Queue::typed`].
    pub fn show(self, ui: &mut Ui, queue: &mut Queue) -> Option<String> {
        if self.compact {
            let (commit, response) = self.input(ui, queue);
            tell_name(ui, response.id, self.label);
            return commit;
        }
        ui.vertical(|ui| {
            let commit = ui
                .horizontal(|ui| {
                    let label = self.label_before(ui);
                    let (commit, response) = self.input(ui, queue);
                    let _ = response.labelled_by(label.id);
                    commit
                })
                .inner;
            if let Some(finding) = self.finding() {
                finding_line(ui, finding);
            }
            commit
        })
        .inner
    }

    fn input(&self, ui: &mut Ui, queue: &mut Queue) -> (Option<String>, Response) {
        let mut text = self.takes.value.to_owned();
        let edit = if self.rows() > 1 {
            TextEdit::multiline(&mut text).desired_rows(self.rows())
        } else {
            TextEdit::singleline(&mut text)
                .return_key(None)
                .align(egui::Align2::LEFT_CENTER)
        };
        let response = edit
            .id(self.id)
            .desired_width(self.width)
            .char_limit(LONGEST)
            .hint_text(self.hint)
            .show(ui)
            .response
            .response;
        self.take_focus(&response);
        let changed = response.changed() && text != self.takes.value;
        if changed {
            queue.typing_in(self.key());
            ui.data_mut(|data| data.insert_temp(self.id, true));
        }
        self.settle(ui, &response, queue);
        let response = help::explain(ui, response, self.label, self.help);
        (changed.then_some(text), response)
    }

    /// Over how many lines it is written: one in a table.
    fn rows(&self) -> usize {
        match self.of {
            Some(field) if !self.compact => field.rows(),
            _ => 1,
        }
    }

    fn settle(&self, ui: &Ui, response: &Response, queue: &mut Queue) {
        let entered = self.rows() == 1
            && response.has_focus()
            && ui.input(|input| input.key_pressed(Key::Enter));
        if !(entered || response.lost_focus()) {
            return;
        }
        let committed = ui
            .data_mut(|data| data.remove_temp::<bool>(self.id))
            .unwrap_or(false);
        if !committed {
            return;
        }
        if response.lost_focus() && ui.input(|input| input.key_pressed(Key::Escape)) {
            queue.abort_step();
        } else {
            queue.close_step();
        }
    }
}
