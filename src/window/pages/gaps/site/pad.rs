//! A number pad that types into the number field at hand.
//!
//! A press elsewhere takes the focus from a field, and with it what was typed; over the pad that is
//! switched off. What a key types is handed to the field at the beginning of the next frame.

use crate::assess::shown::Units;
use crate::window::{units, widgets};
use eframe::egui;
use egui::{Button, Event, Id, Key, Modifiers, Rect, SurrenderFocusOn, Ui, vec2};

/// What the pad remembers between frames.
#[derive(Clone, Debug, Default)]
pub(super) struct Pad {
    /// Where it was drawn.
    rect: Option<Rect>,
    /// What it has typed and no field has read yet.
    typed: Vec<Event>,
    /// The field that takes the focus in the next frame.
    to: Option<Id>,
}

impl Pad {
    /// Leads to a field in the next frame.
    pub(super) fn lead_to(&mut self, field: Option<Id>) {
        self.to = field;
    }
}

impl Pad {
    /// Does what a key does, where the field at this place has the focus.
    fn press(&mut self, does: Does, at: Option<usize>, fields: &[PadField]) {
        let first = fields.first().map(|field| field.id);
        let after = at.and_then(|at| fields.get(at + 1)).map(|field| field.id);
        let typed = match does {
            Does::GoesOn => {
                self.to = after.or(first);
                return;
            }
            Does::Types(text) | Does::Measures(text) => Event::Text(text.to_owned()),
            Does::Deletes => Event::Key {
                key: Key::Backspace,
                physical_key: None,
                pressed: true,
                repeat: false,
                modifiers: Modifiers::NONE,
            },
        };
        self.to = if at.is_none() { first } else { None };
        self.typed.push(typed);
    }
}

/// What a key does.
#[derive(Clone, Copy)]
enum Does {
    Types(&'static str),
    /// Types a unit of length.
    Measures(&'static str),
    Deletes,
    GoesOn,
}

/// A key: what stands on it, its name, and what it does.
type PadKey = (&'static str, &'static str, Does);

/// The keys row by row.
const KEYS: [[PadKey; 4]; 4] = [
    [
        ("7", "7", Does::Types("7")),
        ("8", "8", Does::Types("8")),
        ("9", "9", Does::Types("9")),
        ("Del", "Delete a digit", Does::Deletes),
    ],
    [
        ("4", "4", Does::Types("4")),
        ("5", "5", Does::Types("5")),
        ("6", "6", Does::Types("6")),
        ("½", "and a half", Does::Types(".5")),
    ],
    [
        ("1", "1", Does::Types("1")),
        ("2", "2", Does::Types("2")),
        ("3", "3", Does::Types("3")),
        ("¼", "and a quarter", Does::Types(".25")),
    ],
    [
        ("0", "0", Does::Types("0")),
        (".", "decimal point", Does::Types(".")),
        ("+", "plus", Does::Types("+")),
        ("Next", "Next number", Does::GoesOn),
    ],
];

/// The key at the end of each row, for the units of the tape and what goes with them.
fn behind(units: Units) -> [PadKey; 4] {
    match units {
        Units::Metric => [
            ("mm", "millimetres", Does::Measures(" mm")),
            ("cm", "centimetres", Does::Measures(" cm")),
            ("m", "metres", Does::Measures(" m")),
            ("×", "times", Does::Types("*")),
        ],
        Units::UsCustomary => [
            ("in", "inches", Does::Measures(" in")),
            ("ft", "feet", Does::Measures(" ft")),
            ("⅛", "and an eighth", Does::Types(".125")),
            ("/", "divided by", Does::Types("/")),
        ],
    }
}

/// A field that the pad types into.
#[derive(Clone, Copy)]
pub(super) struct PadField {
    /// The field.
    pub(super) id: Id,
    /// It is a length: a unit may stand behind the number.
    pub(super) is_length: bool,
}

/// Before anything is drawn: hands over what was typed.
pub(super) fn begin(ui: &Ui, pad: &mut Pad) {
    let pointer = ui.input(|input| input.pointer.interact_pos());
    let over = pad
        .rect
        .is_some_and(|rect| pointer.is_some_and(|at| rect.contains(at)));
    let surrender = if over {
        SurrenderFocusOn::Never
    } else {
        SurrenderFocusOn::default()
    };
    ui.ctx().options_mut(|options| {
        options.input_options.surrender_focus_on = surrender;
    });
    if let Some(to) = pad.to.take() {
        // The field selects what stands in it in this frame; what was typed replaces it in the next.
        ui.memory_mut(|memory| memory.request_focus(to));
        ui.ctx().request_repaint();
        return;
    }
    let typed = std::mem::take(&mut pad.typed);
    if !typed.is_empty() {
        ui.input_mut(|input| input.events.extend(typed));
    }
}

/// Draws the pad for these number fields, in their order.
pub(super) fn show(ui: &mut Ui, pad: &mut Pad, fields: &[PadField]) {
    let focused = ui.memory(|memory| memory.focused());
    let at = fields.iter().position(|field| Some(field.id) == focused);
    let is_length = fields
        .get(at.unwrap_or(0))
        .is_some_and(|field| field.is_length);
    let space = ui.spacing().item_spacing;
    let width = (ui.available_width() - 4.0 * space.x) / 5.0;
    let top = ui.cursor().left_top();
    let behind = behind(units::shown(ui.ctx()).units());
    let mut pressed = None;
    for (row, last) in KEYS.into_iter().zip(behind) {
        ui.horizontal(|ui| {
            for (sign, name, does) in row.into_iter().chain([last]) {
                let size = vec2(width, ui.spacing().interact_size.y);
                let of_use = is_length || !matches!(does, Does::Measures(_));
                let enabled = of_use && !fields.is_empty();
                let button = ui.add_enabled(enabled, Button::new(sign).min_size(size));
                widgets::tell_name(ui, button.id, name);
                if button.clicked() {
                    pressed = Some(does);
                }
            }
        });
    }
    let end = ui.cursor().left_top();
    let right = top.x + ui.available_width();
    pad.rect = Some(Rect::from_min_max(top, egui::pos2(right, end.y - space.y)));
    if let Some(does) = pressed {
        pad.press(does, at, fields);
        ui.ctx().request_repaint();
    }
}
