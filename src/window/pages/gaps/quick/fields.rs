//! The inputs of the bar.

use super::draft::Draft;
use crate::survey::findings::body_reaches;
use crate::survey::number::whole;
use crate::survey::{Facing, Field, Position, Survey};
use crate::window::request::{Queue, Request};
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets::{NumberField, TextField};
use eframe::egui;
use egui::{Align, Id, Label, Layout, RichText, Ui, vec2};

/// Tells the bar's fields from those of the selected gap.
const OF: &str = "new gap";
/// Width of a number's input.
const NUMBER: f32 = 50.0;

/// One frame of the bar.
pub(super) struct Entry {
    pub(super) draft: Draft,
    /// A field for words or numbers has the focus.
    pub(super) has_focus: bool,
    /// A field holds what is not a number.
    pub(super) refused: bool,
    /// What was typed is settled.
    pub(super) settled: bool,
    /// What was typed is taken back.
    pub(super) aborted: bool,
    /// Enter was pressed on a choice.
    pub(super) entered: bool,
}

impl Entry {
    pub(super) fn new(draft: Draft) -> Self {
        Self {
            draft,
            has_focus: false,
            refused: false,
            settled: false,
            aborted: false,
            entered: false,
        }
    }

    /// Takes in what a field asked for: the draft has no history of its own.
    fn asked(&mut self, queue: &mut Queue) {
        for request in queue.take() {
            match request {
                Request::CloseStep => self.settled = true,
                Request::AbortStep => self.aborted = true,
                _ => {}
            }
        }
    }

    fn look_at(&mut self, ui: &Ui, id: Id) {
        self.has_focus |= ui.memory(|memory| memory.has_focus(id));
        self.refused |= NumberField::refuses(ui, id);
    }
}

/// A small label over an input.
pub(super) fn labelled<R>(
    ui: &mut Ui,
    words: &str,
    width: f32,
    input: impl FnOnce(&mut Ui) -> R,
) -> R {
    let height = ui.spacing().interact_size.y + 16.0;
    let layout = Layout::top_down(Align::Min);
    ui.allocate_ui_with_layout(vec2(width, height), layout, |ui| {
        ui.set_min_size(vec2(width, height));
        ui.spacing_mut().item_spacing.y = 1.0;
        let words = RichText::new(words).small().color(palette(ui).muted);
        ui.add(Label::new(words).truncate());
        input(ui)
    })
    .inner
}

/// A short label: the bar has little room.
fn short(field: Field) -> &'static str {
    match field {
        Field::RingHole => "hole ⌀",
        Field::RingPipe => "pipe ⌀",
        Field::TestPressure => "at",
        Field::GapCount => "alike",
        Field::Along => "along",
        Field::Across => "across",
        Field::MiddleHeight => "height",
        other => other.words(),
    }
}

/// Draws a number; `Some` is a new value.
fn number(
    ui: &mut Ui,
    entry: &mut Entry,
    (field, value): (Field, Option<f64>),
    focus: bool,
) -> Option<Option<f64>> {
    number_to(ui, entry, (field, value), (focus, None))
}

/// Draws a number that may be a place on a body that reaches so far.
fn number_to(
    ui: &mut Ui,
    entry: &mut Entry,
    (field, value): (Field, Option<f64>),
    (focus, reaches): (bool, Option<f64>),
) -> Option<Option<f64>> {
    let unit = units::shown(ui.ctx()).units().symbol(field.unit());
    let words = format!("{} {unit}", short(field));
    let name = format!("New gap: {}", short(field));
    let mut scratch = Queue::default();
    let typed = labelled(ui, words.trim_end(), NUMBER + 12.0, |ui| {
        let mut input = NumberField::new(field, value)
            .label(&name)
            .id(OF)
            .width(NUMBER)
            .focus(focus)
            .on_body(reaches)
            .compact();
        if matches!(field, Field::Bends | Field::GapCount) {
            input = input.whole().required();
        }
        input.show(ui, &mut scratch)
    });
    entry.asked(&mut scratch);
    entry.look_at(ui, NumberField::id_of(field, OF));
    typed
}

/// Draws the sizes, bends and count.
pub(super) fn sizes(ui: &mut Ui, entry: &mut Entry, first_wanted: bool) {
    let mut sizes = entry.draft.form.sizes();
    sizes.retain(|(field, _)| !field.may_stay_empty());
    for (at, size) in sizes.into_iter().enumerate() {
        if let Some(typed) = number(ui, entry, size, first_wanted && at == 0) {
            entry.draft.form.set_size(size.0, typed);
        }
    }
    let count = Some(f64::from(entry.draft.count));
    if let Some(Some(typed)) = number(ui, entry, (Field::GapCount, count), false) {
        entry.draft.count = whole(typed);
    }
}

/// The co-ordinates that have to be asked for on a face.
fn asked_on(facing: Facing, place: &mut Position) -> Vec<(Field, &mut Option<f64>)> {
    let along = (Field::Along, &mut place.along_m);
    let across = (Field::Across, &mut place.across_m);
    let height = (Field::MiddleHeight, &mut place.height_m);
    match facing {
        Facing::Nearside | Facing::Offside => vec![along, height],
        Facing::Front | Facing::Rear => vec![across, height],
        Facing::Roof | Facing::Underfloor => vec![along, across],
        Facing::Cavity(_) => vec![along, across, height],
    }
}

/// Draws the place.
pub(super) fn place(ui: &mut Ui, entry: &mut Entry, survey: &Survey) {
    let mut place = entry.draft.position;
    for (field, value) in asked_on(entry.draft.facing, &mut place) {
        let reaches = body_reaches(survey, field);
        if let Some(typed) = number_to(ui, entry, (field, *value), (false, reaches)) {
            *value = typed;
        }
    }
    entry.draft.position = place;
}

/// Draws the name; left empty, the starting shape's name is taken.
pub(super) fn name(ui: &mut Ui, entry: &mut Entry) {
    let hint = entry.draft.start.shape().map_or("", |shape| shape.name);
    let mut scratch = Queue::default();
    let typed = labelled(ui, "name", 150.0, |ui| {
        TextField::new(Field::GapName, &entry.draft.name)
            .label("New gap: name")
            .id(OF)
            .width(142.0)
            .hint(hint)
            .compact()
            .show(ui, &mut scratch)
    });
    if let Some(name) = typed {
        entry.draft.name = name;
    }
    entry.asked(&mut scratch);
    entry.look_at(ui, TextField::id_of(Field::GapName, OF));
}
