//! The inputs of the bar.

use super::draft::Draft;
use crate::survey::limits::range_of;
use crate::survey::{Facing, Form, Position};
use crate::window::pages::gaps::sizes::whole;
use crate::window::request::{Queue, Request};
use crate::window::theme::palette;
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

/// What a number of the bar is.
struct Number {
    label: &'static str,
    field: &'static str,
    value: Option<f64>,
    /// It is a whole number and never empty.
    counts: bool,
    focus: bool,
}

/// Draws a number; `Some` is a new value.
fn number(ui: &mut Ui, entry: &mut Entry, number: &Number) -> Option<Option<f64>> {
    let unit = range_of(number.field).map_or("", |range| range.unit);
    let words = if unit.is_empty() {
        number.label.to_owned()
    } else {
        format!("{} {unit}", number.label)
    };
    let name = format!("New gap: {}", number.label);
    let mut scratch = Queue::default();
    let typed = labelled(ui, &words, NUMBER + 12.0, |ui| {
        let mut field = NumberField::new(&name, number.field, number.value)
            .id(OF)
            .width(NUMBER)
            .focus(number.focus)
            .compact();
        if number.counts {
            field = field.whole().required();
        }
        field.show(ui, &mut scratch)
    });
    entry.asked(&mut scratch);
    entry.look_at(ui, NumberField::id_of(number.field, OF));
    typed
}

type Size<'f> = (&'static str, &'static str, &'f mut Option<f64>);

/// The sizes of a form in the order in which they are taken.
fn sizes_of(form: &mut Form) -> Vec<Size<'_>> {
    match form {
        Form::NarrowGap {
            length_mm,
            width_mm,
            depth_mm,
            ..
        } => vec![
            ("length", "gap_length_mm", length_mm),
            ("width", "gap_width_mm", width_mm),
            ("depth", "gap_depth_mm", depth_mm),
        ],
        Form::RoundHole { diameter_mm } => vec![("diameter", "diameter_mm", diameter_mm)],
        Form::RectangularHole {
            width_mm,
            height_mm,
        }
        | Form::Grille {
            width_mm,
            height_mm,
            ..
        } => vec![
            ("width", "gap_width_mm", width_mm),
            ("height", "gap_height_mm", height_mm),
        ],
        Form::RingGap { hole_mm, pipe_mm } => vec![
            ("hole ⌀", "hole_mm", hole_mm),
            ("pipe ⌀", "pipe_mm", pipe_mm),
        ],
        Form::StatedArea { area_mm2, .. } => vec![("area", "area_mm2", area_mm2)],
        Form::FlowTest {
            flow_m3_per_h,
            at_pa,
            ..
        } => vec![
            ("flow", "flow_m3_per_h", flow_m3_per_h),
            ("at", "at_pa", at_pa),
        ],
    }
}

/// Draws the sizes, bends and count.
pub(super) fn sizes(ui: &mut Ui, entry: &mut Entry, first_wanted: bool) {
    let mut form = entry.draft.form.clone();
    for (at, (label, field, value)) in sizes_of(&mut form).into_iter().enumerate() {
        let drawn = Number {
            label,
            field,
            value: *value,
            counts: false,
            focus: first_wanted && at == 0,
        };
        if let Some(typed) = number(ui, entry, &drawn) {
            *value = typed;
        }
    }
    if let Form::NarrowGap { bends, .. } = &mut form {
        counted(ui, entry, "bends", "bends", bends);
    }
    entry.draft.form = form;
    let mut count = entry.draft.count;
    counted(ui, entry, "alike", "count", &mut count);
    entry.draft.count = count;
}

fn counted(
    ui: &mut Ui,
    entry: &mut Entry,
    label: &'static str,
    field: &'static str,
    value: &mut u32,
) {
    let drawn = Number {
        label,
        field,
        value: Some(f64::from(*value)),
        counts: true,
        focus: false,
    };
    if let Some(Some(typed)) = number(ui, entry, &drawn) {
        *value = whole(typed);
    }
}

/// The co-ordinates that have to be asked for on a face.
fn asked_on(facing: Facing, place: &mut Position) -> Vec<Size<'_>> {
    let along = ("along", "along_m", &mut place.along_m);
    let across = ("across", "across_m", &mut place.across_m);
    let height = ("height", "height_m", &mut place.height_m);
    match facing {
        Facing::Nearside | Facing::Offside => vec![along, height],
        Facing::Front | Facing::Rear => vec![across, height],
        Facing::Roof | Facing::Underfloor => vec![along, across],
        Facing::Cavity(_) => vec![along, across, height],
    }
}

/// Draws the place.
pub(super) fn place(ui: &mut Ui, entry: &mut Entry) {
    let mut place = entry.draft.position;
    for (label, field, value) in asked_on(entry.draft.facing, &mut place) {
        let drawn = Number {
            label,
            field,
            value: *value,
            counts: false,
            focus: false,
        };
        if let Some(typed) = number(ui, entry, &drawn) {
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
        TextField::new("New gap: name", "name", &entry.draft.name)
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
    entry.look_at(ui, TextField::id_of("name", OF));
}
