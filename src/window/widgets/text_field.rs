//! A field for words, with the same rules as the number field: live, one step, Esc takes back.

use super::layout::LABEL_WIDTH;
use super::severity::finding_line;
use super::words::tell_name;
use crate::survey::{Field, MergeKey};
use crate::window::help;
use crate::window::marks::Marks;
use crate::window::request::Queue;
use eframe::egui;
use egui::{Id, Key, Response, TextEdit, Ui};

/// A field for words.
#[must_use = "call show"]
pub struct TextField<'a> {
    label: &'a str,
    of: Option<Field>,
    value: &'a str,
    id: Id,
    marks: Option<Marks<'a>>,
    hint: &'static str,
    width: f32,
    rows: usize,
    compact: bool,
    focus: bool,
}

/// Longest text taken: notes of a survey, not books.
const LONGEST: usize = 4000;

impl<'a> TextField<'a> {
    /// A text of the survey; its label and help are those of the catalogue.
    pub fn new(field: Field, value: &'a str) -> Self {
        let id = Id::unique(("text", field));
        Self::with(Some(field), field.label(), id, value)
    }

    /// A text of the page, which the survey does not hold.
    pub fn of_page(label: &'a str, value: &'a str) -> Self {
        Self::with(None, label, Id::unique(("text", label)), value)
    }

    fn with(of: Option<Field>, label: &'a str, id: Id, value: &'a str) -> Self {
        Self {
            label,
            of,
            value,
            id,
            marks: None,
            hint: "",
            width: 190.0,
            rows: 1,
            compact: false,
            focus: false,
        }
    }

    /// Another label than the catalogue's, to say which record it is of.
    pub fn label(mut self, label: &'a str) -> Self {
        self.label = label;
        self
    }

    /// Tells this field from that of another record; take the record's id, never its index.
    pub fn id(mut self, of: impl std::hash::Hash + std::fmt::Debug) -> Self {
        self.id = self.of.map_or(self.id, |field| Self::id_of(field, of));
        self
    }

    /// The id of the input of this field, told apart as [`TextField::id`] does.
    #[must_use]
    pub fn id_of(field: Field, of: impl std::hash::Hash + std::fmt::Debug) -> Id {
        Id::unique(("text", field, of))
    }

    /// Shows the findings about its item at this field, and takes the focus when wanted.
    pub fn marks(mut self, marks: Marks<'a>) -> Self {
        self.marks = Some(marks);
        self
    }

    /// Words shown while it is empty.
    pub fn hint(mut self, hint: &'static str) -> Self {
        self.hint = hint;
        self
    }

    /// Width of the input.
    pub fn width(mut self, width: f32) -> Self {
        self.width = width;
        self
    }

    /// Several lines.
    pub fn rows(mut self, rows: usize) -> Self {
        self.rows = rows;
        self
    }

    /// Without visible label, for tables; assistive technology still reads it.
    pub fn compact(mut self) -> Self {
        self.compact = true;
        self
    }

    /// Takes the focus in this frame.
    pub fn focus(mut self, focus: bool) -> Self {
        self.focus = focus;
        self
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
                    let label = super::layout::label(ui, self.label, LABEL_WIDTH);
                    let (commit, response) = self.input(ui, queue);
                    let _ = response.labelled_by(label.id);
                    commit
                })
                .inner;
            let marks = self.marks.zip(self.of);
            if let Some(finding) = marks.and_then(|(marks, field)| marks.at(field)) {
                finding_line(ui, finding);
            }
            commit
        })
        .inner
    }

    fn input(&self, ui: &mut Ui, queue: &mut Queue) -> (Option<String>, Response) {
        let mut text = self.value.to_owned();
        let edit = if self.rows > 1 {
            TextEdit::multiline(&mut text).desired_rows(self.rows)
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
        let marks = self.marks.zip(self.of);
        if self.focus || marks.is_some_and(|(marks, field)| marks.wants(field)) {
            response.request_focus();
            response.scroll_to_me(Some(egui::Align::Center));
        }
        let changed = response.changed() && text != self.value;
        if changed {
            queue.typing_in(MergeKey(format!("{:?}", self.id)));
            ui.data_mut(|data| data.insert_temp(self.id, true));
        }
        self.settle(ui, &response, queue);
        let response = help::explain(ui, response, self.label, self.of.map_or("", Field::help));
        (changed.then_some(text), response)
    }

    fn settle(&self, ui: &Ui, response: &Response, queue: &mut Queue) {
        let entered = self.rows == 1
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
