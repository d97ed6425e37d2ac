//! Fields of one record: each draws a widget, and queues the record with its new value.

use crate::survey::{Edit, Item, Severity};
use crate::window::context::PageContext;
use crate::window::marks::Marks;
use crate::window::request::Queue;
use crate::window::widgets::{self, Choice, NumberField, TextField};
use eframe::egui::Ui;

/// The fields of one record.
pub(super) struct Fields<'a, 'u, T> {
    /// Where they are drawn.
    pub(super) ui: &'u mut Ui,
    queue: &'u mut Queue,
    marks: Marks<'a>,
    item: Item,
    record: T,
    put: fn(T) -> Edit,
    inputs: InputLook,
}

/// How the next inputs look.
#[derive(Clone, Copy, Default)]
struct InputLook {
    hint: &'static str,
    rows: usize,
    direction: bool,
}

/// The part of a record that a field shows and changes.
type Part<T, V> = fn(&mut T) -> &mut V;

impl<'a, 'u, T: Clone> Fields<'a, 'u, T> {
    /// Fields of `record`, which is the survey's `item`; `put` is the edit that replaces it.
    pub(super) fn new<View>(
        ui: &'u mut Ui,
        context: &'u mut PageContext<'a, View>,
        item: Item,
        record: &T,
        put: fn(T) -> Edit,
    ) -> Self {
        let marks = context.marks(item);
        Self {
            ui,
            queue: context.queue,
            marks,
            item,
            record: record.clone(),
            put,
            inputs: InputLook::default(),
        }
    }

    /// Words shown in the next input while it is empty.
    pub(super) fn hint(&mut self, hint: &'static str) -> &mut Self {
        self.inputs.hint = hint;
        self
    }

    /// The next text has several lines.
    pub(super) fn rows(&mut self, rows: usize) -> &mut Self {
        self.inputs.rows = rows;
        self
    }

    /// The next number is a direction: a point of the compass is taken too.
    pub(super) fn direction(&mut self) -> &mut Self {
        self.inputs.direction = true;
        self
    }

    /// A number that may be left out.
    pub(super) fn optional(
        &mut self,
        label: &str,
        field: &'static str,
        part: Part<T, Option<f64>>,
    ) {
        self.optional_in(label, field, None, part);
    }

    /// A number that may be left out, with another unit than its range's.
    pub(super) fn optional_in(
        &mut self,
        label: &str,
        field: &'static str,
        unit: Option<&str>,
        part: Part<T, Option<f64>>,
    ) {
        let look = std::mem::take(&mut self.inputs);
        let mut input = NumberField::new(label, field, *part(&mut self.record))
            .id(self.item)
            .marks(self.marks)
            .hint(look.hint)
            .direction(look.direction);
        if let Some(unit) = unit {
            input = input.unit(unit);
        }
        if let Some(value) = input.show(self.ui, self.queue) {
            *part(&mut self.record) = value;
            self.typed();
        }
    }

    /// A number that is needed.
    pub(super) fn number(&mut self, label: &str, field: &'static str, part: Part<T, f64>) {
        let typed = NumberField::new(label, field, Some(*part(&mut self.record)))
            .id(self.item)
            .marks(self.marks)
            .required()
            .show(self.ui, self.queue);
        if let Some(Some(value)) = typed {
            *part(&mut self.record) = value;
            self.typed();
        }
    }

    /// A whole number that is needed.
    pub(super) fn count(&mut self, label: &str, field: &'static str, part: Part<T, u32>) {
        let value = f64::from(*part(&mut self.record));
        let typed = NumberField::new(label, field, Some(value))
            .id(self.item)
            .marks(self.marks)
            .required()
            .whole()
            .show(self.ui, self.queue);
        if let Some(Some(value)) = typed {
            *part(&mut self.record) = whole(value);
            self.typed();
        }
    }

    /// Words.
    pub(super) fn text(&mut self, label: &str, field: &'static str, part: Part<T, String>) {
        let look = std::mem::take(&mut self.inputs);
        let width = input_width(self.ui);
        let typed = TextField::new(label, field, part(&mut self.record))
            .id(self.item)
            .width(width)
            .marks(self.marks)
            .hint(look.hint)
            .rows(look.rows.max(1))
            .show(self.ui, self.queue);
        if let Some(text) = typed {
            *part(&mut self.record) = text;
            self.typed();
        }
    }

    /// One of several.
    pub(super) fn choice<C: PartialEq + Clone>(
        &mut self,
        label: &str,
        options: &[C],
        words: impl Fn(&C) -> String,
        part: Part<T, C>,
    ) {
        let width = input_width(self.ui);
        let chosen = Choice::new(label, part(&mut self.record), options)
            .id(self.item)
            .width(width)
            .show(self.ui, words);
        if let Some(chosen) = chosen {
            *part(&mut self.record) = chosen;
            self.typed();
        }
    }

    /// Yes or no; a finding at the field stands under it.
    pub(super) fn tick(&mut self, words: &str, field: &'static str, part: Part<T, bool>) {
        let ticked = widgets::tick(self.ui, words, *part(&mut self.record));
        if let Some(ticked) = ticked {
            *part(&mut self.record) = ticked;
            self.typed();
        }
        if let Some(finding) = self.marks.at(field) {
            widgets::finding_line(self.ui, finding);
        }
    }

    /// Any change that a widget of its own has just reported.
    pub(super) fn change(&mut self, change: impl FnOnce(&mut T)) {
        change(&mut self.record);
        self.typed();
    }

    /// What a widget of one's own needs: where to draw, where changes go, and the findings.
    pub(super) fn parts(&mut self) -> (&mut Ui, &mut Queue, Marks<'a>) {
        (self.ui, self.queue, self.marks)
    }

    /// The findings about the record as a whole.
    pub(super) fn noticed(&mut self) {
        whole_findings(self.ui, self.marks);
    }

    fn typed(&mut self) {
        self.queue.typed((self.put)(self.record.clone()));
    }
}

/// Width of an input for words: what the label leaves, within reason.
fn input_width(ui: &Ui) -> f32 {
    let left = ui.available_width() - widgets::LABEL_WIDTH - 2.0 * ui.spacing().item_spacing.x;
    (left - 12.0).clamp(120.0, 300.0)
}

/// The findings about an item that are about none of its fields.
pub(super) fn whole_findings(ui: &mut Ui, marks: Marks<'_>) {
    for finding in marks.all() {
        if finding.place.field.is_empty() {
            widgets::finding_line(ui, finding);
        }
    }
}

/// The findings at fields that a record holds several times; their words say which is meant.
pub(super) fn field_findings(ui: &mut Ui, marks: Marks<'_>, fields: &[&str]) {
    for finding in marks.all() {
        if fields.contains(&finding.place.field) {
            widgets::finding_line(ui, finding);
        }
    }
}

/// A count that the number field has already held to whole numbers from 0 up.
pub(super) fn whole(value: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the field takes whole numbers from 0 to a million only"
    )]
    let count = value as u32;
    count
}

/// The worst severity among the findings about an item, for lists that show a sign.
pub(super) fn worst<View>(context: &PageContext<'_, View>, item: Item) -> Option<Severity> {
    context
        .marks(item)
        .all()
        .map(|finding| finding.severity)
        .min()
}
