//! What every input has, whatever is put into it: label, field of the catalogue, id, findings, looks.

use super::layout::LABEL_WIDTH;
use crate::survey::{Field, Finding, MergeKey};
use crate::window::marks::Marks;
use eframe::egui;
use egui::{Id, Response, Ui};
use std::fmt::Debug;
use std::hash::Hash;

/// What an input takes.
pub trait Takes {
    /// Tells the ids of one kind of input from those of another.
    const KIND: &'static str;
    /// Width unless another is asked for.
    const WIDTH: f32;
}

/// An input for `K`, with its label.
#[must_use = "call show"]
pub struct Input<'a, K> {
    pub(super) label: &'a str,
    pub(super) of: Option<Field>,
    pub(super) id: Id,
    pub(super) width: f32,
    pub(super) compact: bool,
    pub(super) focus: bool,
    pub(super) hint: &'static str,
    pub(super) help: &'static str,
    pub(super) takes: K,
    marks: Option<Marks<'a>>,
}

impl<'a, K: Takes> Input<'a, K> {
    /// An input for a field of the survey.
    pub(super) fn for_field(field: Field, takes: K) -> Self {
        Self {
            of: Some(field),
            id: Id::unique((K::KIND, field)),
            help: field.help(),
            hint: field.when_empty(),
            ..Self::for_page(field.label(), takes)
        }
    }

    /// An input for something of the page, which the survey does not hold.
    pub(super) fn for_page(label: &'a str, takes: K) -> Self {
        Self {
            label,
            of: None,
            id: Id::unique((K::KIND, label)),
            width: K::WIDTH,
            compact: false,
            focus: false,
            hint: "",
            help: "",
            takes,
            marks: None,
        }
    }

    /// Another label than the catalogue's, to say which record it is of.
    pub fn label(mut self, label: &'a str) -> Self {
        self.label = label;
        self
    }

    /// Tells this input from that of another record; take the record's id, never its index.
    pub fn id(mut self, of: impl Hash + Debug) -> Self {
        self.id = self.of.map_or(self.id, |field| Self::id_of(field, of));
        self
    }

    /// The id of the input of this field, told apart as [`Input::id`] does.
    #[must_use]
    pub fn id_of(field: Field, of: impl Hash + Debug) -> Id {
        Id::unique((K::KIND, field, of))
    }

    /// Shows the findings about its item at this input, and takes the focus when wanted.
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

    /// What to put in, and how to find out.
    pub fn help(mut self, help: &'static str) -> Self {
        self.help = help;
        self
    }

    /// The finding at its field.
    pub(super) fn finding(&self) -> Option<&'a Finding> {
        self.marks?.at(self.of?)
    }

    /// Takes the focus where it is wanted, and comes into sight with it.
    pub(super) fn take_focus(&self, response: &Response) {
        let marks = self.marks.zip(self.of);
        let led_to = marks.is_some_and(|(marks, field)| marks.wants(field));
        if self.focus || led_to {
            response.request_focus();
            response.scroll_to_me(led_to.then_some(egui::Align::Center));
        }
    }

    /// Whether the focus has just come to it, so that its text is selected whole: by key at once,
    /// by a click once that is over and was no drag across some of the text.
    pub(super) fn entered(&self, ui: &Ui, response: &Response) -> bool {
        let pointer = ui.input(|input| input.pointer.any_down() || input.pointer.any_click());
        let by_click = self.id.with("entered by a click");
        if response.gained_focus() {
            let pending = pointer && !response.clicked();
            ui.data_mut(|data| data.insert_temp(by_click, pending));
            return !pending;
        }
        let released = ui.input(|input| input.pointer.any_released());
        let pending = || ui.data_mut(|data| data.remove_temp::<bool>(by_click));
        released && pending() == Some(true) && response.clicked()
    }

    /// Its label, to stand in front of it.
    pub(super) fn label_before(&self, ui: &mut Ui) -> Response {
        super::layout::label(ui, self.label, LABEL_WIDTH)
    }

    /// Everything typed into it in a row is one step for undo.
    pub(super) fn key(&self) -> MergeKey {
        MergeKey(format!("{:?}", self.id))
    }
}
