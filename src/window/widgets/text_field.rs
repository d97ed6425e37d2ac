//! A field for words, with the same rules as the number field: live, one step, Esc takes back.

use super::input::{Input, Takes};
use super::severity::{finding_line, message_line};
use super::touched::tell_touched;
use super::words::tell_name;
use crate::survey::date::DateWay;
use crate::survey::{Field, Severity};
use crate::window::help;
use crate::window::request::Queue;
use crate::window::units;
use eframe::egui;
use egui::text::CCursor;
use egui::text_selection::CCursorRange;
use egui::{Id, Key, Response, RichText, TextEdit, Ui};

/// A field for words.
pub type TextField<'a> = Input<'a, Text<'a>>;

/// A text.
pub struct Text<'a> {
    value: &'a str,
    kept_on_escape: bool,
}

/// The text before the typing that goes on.
#[derive(Clone, Default)]
struct Before(String);

/// A date as it was typed.
#[derive(Clone, Default)]
struct DateDraft {
    text: String,
    /// What the survey has for it; another text means that it was changed elsewhere.
    known: String,
    /// The field was left with it.
    settled: bool,
}

impl Takes for Text<'_> {
    const KIND: &'static str = "text";
    const WIDTH: f32 = 190.0;
}

impl<'a> Text<'a> {
    fn of(value: &'a str) -> Self {
        Self {
            value,
            kept_on_escape: false,
        }
    }
}

/// Longest text taken: notes of a survey, not books.
const LONGEST: usize = 4000;

impl<'a> TextField<'a> {
    /// A text of the survey; its label and help are those of the catalogue.
    pub fn new(field: Field, value: &'a str) -> Self {
        Self::for_field(field, Text::of(value))
    }

    /// A text of the page, which the survey does not hold.
    pub fn of_page(label: &'a str, value: &'a str) -> Self {
        Self::for_page(label, Text::of(value))
    }

    /// Esc leaves what was typed as it is: for where Esc means that all around it is done.
    pub fn kept_on_escape(mut self) -> Self {
        self.takes.kept_on_escape = true;
        self
    }

    /// Forgets that something was typed into the input with this id, which is put away.
    pub fn forget(ui: &Ui, id: Id) {
        ui.data_mut(|data| data.remove::<Before>(id));
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
            if let Some(words) = self.refused_date(ui) {
                message_line(ui, Severity::Error, &words);
            } else if let Some(finding) = self.finding() {
                finding_line(ui, finding);
            }
            commit
        })
        .inner
    }

    fn input(&self, ui: &mut Ui, queue: &mut Queue) -> (Option<String>, Response) {
        let way = units::shown(ui.ctx()).dates();
        let is_date = self.is_date();
        let mut text = self.takes.value.to_owned();
        if is_date {
            let draft = self.date_draft(ui);
            text = draft.map_or_else(|| way.written(&text), |draft| draft.text);
        }
        let edit = if self.rows() > 1 {
            TextEdit::multiline(&mut text).desired_rows(self.rows())
        } else {
            TextEdit::singleline(&mut text)
                .return_key(None)
                .align(egui::Align2::LEFT_CENTER)
        };
        let mut output = edit
            .id(self.id)
            .desired_width(self.width)
            .char_limit(LONGEST)
            .hint_text(RichText::new(if is_date { way.hint() } else { self.hint }).italics())
            .show(ui);
        let response = output.response.response.clone();
        self.take_focus(&response);
        let by_pointer = ui.input(|input| input.pointer.any_released());
        if self.entered(ui, &response) && by_pointer && self.rows() == 1 {
            let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
            output.state.cursor.set_char_range(Some(all));
            output.state.store(ui.ctx(), self.id);
        }
        let mut commit = None;
        if is_date && response.changed() {
            text = self.take_date(ui, way, text);
        }
        if is_date && response.lost_focus() {
            self.leave_date(ui, way);
        }
        if response.changed() && text != self.takes.value {
            queue.typing_in(self.key());
            ui.data_mut(|data| {
                let before = || Before(self.takes.value.to_owned());
                data.get_temp_mut_or_insert_with(self.id, before);
            });
            commit = Some(text);
        }
        commit = self.settle(ui, &response, queue).or(commit);
        let begun = ui.data(|data| data.get_temp::<Before>(self.id));
        tell_touched(ui, self.id, &response, begun.is_some());
        let response = help::explain(ui, response, self.label, self.help);
        (commit, response)
    }

    fn is_date(&self) -> bool {
        self.of.is_some_and(Field::is_date)
    }

    /// What was typed into a date and belongs to the survey as it is.
    fn date_draft(&self, ui: &Ui) -> Option<DateDraft> {
        let draft = ui.data(|data| data.get_temp::<DateDraft>(self.id.with("date as typed")));
        draft.filter(|draft| draft.known == self.takes.value)
    }

    /// Keeps what was typed, and returns what the survey holds for it: the date, or for what is
    /// none the text from before the typing.
    fn take_date(&self, ui: &Ui, way: DateWay, text: String) -> String {
        let known = match way.read(&text) {
            Some(date) => date,
            None if text.trim().is_empty() => String::new(),
            None => ui
                .data(|data| data.get_temp::<Before>(self.id))
                .map_or_else(|| self.takes.value.to_owned(), |Before(before)| before),
        };
        let draft = DateDraft {
            text,
            known: known.clone(),
            settled: false,
        };
        ui.data_mut(|data| data.insert_temp(self.id.with("date as typed"), draft));
        known
    }

    /// What is no date stays in the field that was left, to be mended; Esc takes it away.
    fn leave_date(&self, ui: &Ui, way: DateWay) {
        let at = self.id.with("date as typed");
        let escaped = ui.input(|input| input.key_pressed(Key::Escape));
        let draft = ui.data_mut(|data| data.remove_temp::<DateDraft>(at));
        let Some(mut draft) = draft.filter(|_| !escaped) else {
            return;
        };
        if way.read(&draft.text).is_none() && !draft.text.trim().is_empty() {
            draft.settled = true;
            ui.data_mut(|data| data.insert_temp(at, draft));
        }
    }

    /// Why what stands in a date that was left is not taken.
    fn refused_date(&self, ui: &Ui) -> Option<String> {
        let draft = self.date_draft(ui).filter(|draft| draft.settled)?;
        let (text, hint) = (draft.text.trim(), units::shown(ui.ctx()).dates().hint());
        Some(match DateWay::two_readings(text) {
            Some(both) => format!(
                "\u{201c}{text}\u{201d} may be {both}: write it as {}; Esc restores the old one",
                DateWay::YearMonthDay.hint()
            ),
            None => format!(
                "\u{201c}{text}\u{201d} is no date: write it as {hint}; Esc restores the old one"
            ),
        })
    }

    /// Over how many lines it is written: one in a table.
    fn rows(&self) -> usize {
        match self.of {
            Some(field) if !self.compact => field.rows(),
            _ => 1,
        }
    }

    /// Enter, Esc and leaving the field; after Esc the text from before is reported.
    fn settle(&self, ui: &Ui, response: &Response, queue: &mut Queue) -> Option<String> {
        let entered = self.rows() == 1
            && response.has_focus()
            && ui.input(|input| input.key_pressed(Key::Enter));
        if !(entered || response.lost_focus()) {
            return None;
        }
        let Before(before) = ui.data_mut(|data| data.remove_temp(self.id))?;
        let escaped = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Escape));
        if !escaped || self.takes.kept_on_escape {
            queue.close_step();
            return None;
        }
        queue.typing_in(self.key());
        queue.abort_step();
        Some(before)
    }
}
