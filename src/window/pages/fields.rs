//! Fields of one record: each draws a widget, and queues the record with its new value.

use crate::survey::number::whole;
use crate::survey::{Closing, Edit, Field, Item, Severity};
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
    put: &'u dyn Fn(T) -> Edit,
    hint: Option<&'static str>,
    reaches: Option<f64>,
    note_apart: bool,
    focus: bool,
}

/// The part of a record that a field shows and changes.
pub(super) type Part<T, V> = fn(&mut T) -> &mut V;

impl<'a, 'u, T: Clone> Fields<'a, 'u, T> {
    /// Fields of `record`, which is the survey's `item`; `put` is the edit that replaces it.
    pub(super) fn new<View>(
        ui: &'u mut Ui,
        context: &'u mut PageContext<'a, View>,
        item: Item,
        record: &T,
        put: &'u dyn Fn(T) -> Edit,
    ) -> Self {
        let marks = context.marks(item);
        Self {
            ui,
            queue: context.queue,
            marks,
            item,
            record: record.clone(),
            put,
            hint: None,
            reaches: None,
            note_apart: false,
            focus: false,
        }
    }

    /// Other words than the catalogue's in the next input while it is empty.
    pub(super) fn hint(&mut self, hint: &'static str) -> &mut Self {
        self.hint = Some(hint);
        self
    }

    /// The next number is a place on a body that reaches so far, where that is known.
    pub(super) fn on_body(&mut self, reaches: Option<f64>) -> &mut Self {
        self.reaches = reaches;
        self
    }

    /// A note at the next number is drawn elsewhere, by [`note`].
    pub(super) fn note_apart(&mut self) -> &mut Self {
        self.note_apart = true;
        self
    }

    /// The next text takes the focus in this frame.
    pub(super) fn focus(&mut self, focus: bool) -> &mut Self {
        self.focus = focus;
        self
    }

    /// A number that may be left out.
    pub(super) fn optional(&mut self, field: Field, part: Part<T, Option<f64>>) {
        self.optional_in(field.unit(), field, part);
    }

    /// A price in this currency that may be left out.
    pub(super) fn price(&mut self, currency: &str, field: Field, part: Part<T, Option<f64>>) {
        let unit = format!("{}{}", currency.trim(), field.unit());
        self.optional_in(&unit, field, part);
    }

    /// A number in another unit than the catalogue's that may be left out.
    pub(super) fn optional_in(&mut self, unit: &str, field: Field, part: Part<T, Option<f64>>) {
        let hint = self.hint.take().unwrap_or(field.when_empty());
        let typed = NumberField::new(field, *part(&mut self.record))
            .id(self.item)
            .marks(self.marks)
            .unit(unit)
            .hint(hint)
            .on_body(self.reaches.take())
            .note_apart(std::mem::take(&mut self.note_apart))
            .show(self.ui, self.queue);
        self.take(typed, part);
    }

    /// A number that is needed.
    pub(super) fn number(&mut self, field: Field, part: Part<T, f64>) {
        let typed = NumberField::new(field, Some(*part(&mut self.record)))
            .id(self.item)
            .marks(self.marks)
            .required()
            .show(self.ui, self.queue);
        self.take(typed.flatten(), part);
    }

    /// A whole number that is needed.
    pub(super) fn count(&mut self, field: Field, part: Part<T, u32>) {
        let typed = NumberField::new(field, Some(f64::from(*part(&mut self.record))))
            .id(self.item)
            .marks(self.marks)
            .required()
            .whole()
            .show(self.ui, self.queue);
        self.take(typed.flatten().map(whole), part);
    }

    /// Words.
    pub(super) fn text(&mut self, field: Field, part: Part<T, String>) {
        let hint = self.hint.take().unwrap_or(field.when_empty());
        let width = input_width(self.ui);
        let typed = TextField::new(field, part(&mut self.record))
            .id(self.item)
            .width(width)
            .marks(self.marks)
            .hint(hint)
            .focus(std::mem::take(&mut self.focus))
            .show(self.ui, self.queue);
        self.take(typed, part);
    }

    /// One of several.
    pub(super) fn choice<C: PartialEq + Clone>(
        &mut self,
        field: Field,
        options: &[C],
        words: impl Fn(&C) -> String,
        part: Part<T, C>,
    ) {
        let width = input_width(self.ui);
        let chosen = Choice::of(field, part(&mut self.record), options)
            .id(self.item)
            .width(width)
            .show(self.ui, words);
        self.take(chosen, part);
    }

    /// One of several that have a name.
    pub(super) fn one_of<C: PartialEq + Copy>(
        &mut self,
        field: Field,
        options: &[C],
        name: fn(C) -> &'static str,
        part: Part<T, C>,
    ) {
        self.choice(field, options, |one| name(*one).to_owned(), part);
    }

    /// Yes or no; a finding at the field stands under it.
    pub(super) fn tick(&mut self, field: Field, part: Part<T, bool>) {
        let ticked = widgets::tick(self.ui, field, *part(&mut self.record));
        self.take(ticked, part);
        if let Some(finding) = self.marks.at(field) {
            widgets::finding_line(self.ui, finding);
        }
    }

    /// Whether it closes, how it stands in each set-up, and what closed leaves.
    pub(super) fn closing(&mut self, part: Part<T, Option<Closing>>) {
        let now = *part(&mut self.record);
        let closes = widgets::tick(self.ui, Field::Closing, now.is_some());
        self.take(closes.map(|closes| closes.then_some(Closing::CLOSED)), part);
        let Some(mut closing) = now else { return };
        let laid_up = widgets::tick(self.ui, Field::OpenLaidUp, closing.open_laid_up);
        let in_use = widgets::tick(self.ui, Field::OpenInUse, closing.open_in_use);
        let leaves = NumberField::new(Field::ClosedLeaves, Some(closing.leaves_percent))
            .id(self.item)
            .marks(self.marks)
            .required()
            .show(self.ui, self.queue)
            .flatten();
        closing.open_laid_up = laid_up.unwrap_or(closing.open_laid_up);
        closing.open_in_use = in_use.unwrap_or(closing.open_in_use);
        closing.leaves_percent = leaves.unwrap_or(closing.leaves_percent);
        let changed = laid_up.is_some() || in_use.is_some() || leaves.is_some();
        self.take(changed.then_some(Some(closing)), part);
    }

    /// Takes what a widget has reported, if anything.
    pub(super) fn take<V>(&mut self, reported: Option<V>, part: Part<T, V>) {
        if let Some(value) = reported {
            *part(&mut self.record) = value;
            self.typed();
        }
    }

    /// Any change that a widget of its own has just reported.
    pub(super) fn change(&mut self, change: impl FnOnce(&mut T)) {
        change(&mut self.record);
        self.typed();
    }

    /// What the fields are of.
    pub(super) fn item(&self) -> Item {
        self.item
    }

    /// A part of the record as it is drawn.
    pub(super) fn get<V>(&mut self, part: Part<T, V>) -> &V {
        part(&mut self.record)
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
        if finding.place.field.is_none() {
            widgets::finding_line(ui, finding);
        }
    }
}

/// The findings at fields that a record holds several times; their words say which is meant.
pub(super) fn field_findings(ui: &mut Ui, marks: Marks<'_>, fields: &[Field]) {
    for finding in marks.all() {
        if finding
            .place
            .field
            .is_some_and(|field| fields.contains(&field))
        {
            widgets::finding_line(ui, finding);
        }
    }
}

/// The note at a field, where it is no worse than one.
pub(super) fn note(ui: &mut Ui, marks: Marks<'_>, field: Field) {
    if let Some(finding) = marks.at(field).filter(|one| one.severity == Severity::Note) {
        widgets::finding_line(ui, finding);
    }
}

/// The worst severity among the findings about an item, for lists that show a sign.
pub(super) fn worst<View>(context: &PageContext<'_, View>, item: Item) -> Option<Severity> {
    context
        .marks(item)
        .all()
        .map(|finding| finding.severity)
        .min()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::words::{shelter, terrain};
    use crate::physics::wind::{Shelter, Terrain};
    use crate::window::theme;
    use eframe::egui::{TextStyle, TextWrapMode, WidgetText};
    use egui_kittest::Harness;

    #[test]
    fn in_touch_size_a_drop_down_in_a_card_has_room_for_district_and_shelter() {
        for wide in [1280.0, 1024.0] {
            let mut cards = 0;
            let mut window = Harness::builder()
                .with_size(eframe::egui::vec2(wide, 800.0))
                .build_ui(|ui| {
                    theme::install(ui.ctx());
                    theme::size(ui.ctx(), true);
                    widgets::columns(ui, 370.0, 3, |ui, _| {
                        widgets::card(ui, "Where it stands", |ui| {
                            if !widgets::is_touch(ui) {
                                return;
                            }
                            cards += 1;
                            let spacing = ui.spacing();
                            let arrow = spacing.icon_width + spacing.icon_spacing;
                            let room = input_width(ui) - 2.0 * spacing.button_padding.x - arrow;
                            let options = Terrain::ALL.map(terrain).into_iter();
                            for words in options.chain(Shelter::ALL.map(shelter)) {
                                let wrap = Some(TextWrapMode::Extend);
                                let style = TextStyle::Button;
                                let text = WidgetText::from(words);
                                let galley = text.into_galley(ui, wrap, f32::INFINITY, style);
                                assert!(galley.size().x <= room, "{words}: {room}");
                            }
                        });
                    });
                });
            window.run_steps(3);
            drop(window);
            assert!(cards > 0);
        }
    }
}
