//! A number pad that types into the number field at hand.
//!
//! A press elsewhere takes the focus from a field, and with it what was typed; over the pad that is
//! switched off. What a key types is handed to the field at the beginning of the next frame.

use crate::window::widgets;
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

/// What a key does.
#[derive(Clone, Copy)]
enum Does {
    Types(&'static str),
    Deletes,
    GoesOn,
}

/// The keys row by row: what stands on each, its name, and what it does.
const KEYS: [[(&str, &str, Does); 4]; 4] = [
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
pub(super) fn show(ui: &mut Ui, pad: &mut Pad, fields: &[Id]) {
    let focused = ui.memory(|memory| memory.focused());
    let at = fields.iter().position(|field| Some(*field) == focused);
    let space = ui.spacing().item_spacing;
    let width = (ui.available_width() - 3.0 * space.x) / 4.0;
    let top = ui.cursor().left_top();
    let mut pressed = None;
    for row in KEYS {
        ui.horizontal(|ui| {
            for (sign, name, does) in row {
                let size = vec2(width, ui.spacing().interact_size.y);
                let button = ui.add_enabled(!fields.is_empty(), Button::new(sign).min_size(size));
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
    let Some(does) = pressed else { return };
    let first = fields.first().copied();
    match (does, at) {
        (Does::GoesOn, Some(at)) => pad.to = fields.get(at + 1).copied().or(first),
        (Does::GoesOn, None) => pad.to = first,
        (Does::Types(text), at) => {
            pad.to = if at.is_none() { first } else { None };
            pad.typed.push(Event::Text(text.to_owned()));
        }
        (Does::Deletes, at) => {
            pad.to = if at.is_none() { first } else { None };
            pad.typed.push(Event::Key {
                key: Key::Backspace,
                physical_key: None,
                pressed: true,
                repeat: false,
                modifiers: Modifiers::NONE,
            });
        }
    }
    ui.ctx().request_repaint();
}
