//! Choosing one of several, and ticking yes or no.

use super::{LABEL_WIDTH, tell_name};
use crate::window::help;
use eframe::egui;
use egui::{ComboBox, EventFilter, Id, Key, Response, Ui};

/// A choice of one among several, with its label. Up and down step through the options while it
/// has the focus; Enter or Space opens the list.
#[must_use = "call show"]
pub struct Choice<'a, T> {
    label: &'a str,
    current: &'a T,
    options: &'a [T],
    id: Id,
    width: f32,
    compact: bool,
}

impl<'a, T: PartialEq + Clone> Choice<'a, T> {
    /// A choice among these options.
    pub fn new(label: &'a str, current: &'a T, options: &'a [T]) -> Self {
        Self {
            label,
            current,
            options,
            id: Id::unique(("choice", label)),
            width: 190.0,
            compact: false,
        }
    }

    /// Tells this choice from others of the same label; take the record's id, never its index.
    pub fn id(mut self, of: impl std::hash::Hash + std::fmt::Debug) -> Self {
        self.id = Id::unique(("choice", self.label, of));
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

    /// Draws it; `Some` is the option newly chosen.
    pub fn show(self, ui: &mut Ui, words: impl Fn(&T) -> String) -> Option<T> {
        if self.compact {
            return self.input(ui, &words).0;
        }
        ui.horizontal(|ui| {
            super::label(ui, self.label, LABEL_WIDTH);
            self.input(ui, &words).0
        })
        .inner
    }

    fn input(&self, ui: &mut Ui, words: &impl Fn(&T) -> String) -> (Option<T>, Response) {
        let mut chosen = None;
        let response = ComboBox::from_id_salt(self.id)
            .selected_text(words(self.current))
            .width(self.width)
            .truncate()
            .show_ui(ui, |ui| {
                for option in self.options {
                    let here = option == self.current;
                    if ui.selectable_label(here, words(option)).clicked() && !here {
                        chosen = Some(option.clone());
                    }
                }
            })
            .response;
        tell_name(ui, response.id, self.label);
        let response = help::explain(ui, response, "", self.label);
        if response.has_focus() {
            let filter = EventFilter {
                vertical_arrows: true,
                ..EventFilter::default()
            };
            ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
            if let Some(option) = self.stepped(ui) {
                chosen = Some(option);
            }
        }
        (chosen, response)
    }

    fn stepped(&self, ui: &Ui) -> Option<T> {
        let down = ui.input(|input| input.key_pressed(Key::ArrowDown));
        let up = ui.input(|input| input.key_pressed(Key::ArrowUp));
        let at = self
            .options
            .iter()
            .position(|option| option == self.current)?;
        let next = match (up, down) {
            (false, true) => at.checked_add(1)?,
            (true, false) => at.checked_sub(1)?,
            _ => return None,
        };
        self.options.get(next).cloned()
    }
}

/// A tick with its words to the right, in line with the inputs of labelled rows. `Some` is the
/// new state.
pub fn tick(ui: &mut Ui, words: &str, value: bool) -> Option<bool> {
    ui.horizontal(|ui| {
        ui.add_space(LABEL_WIDTH + ui.spacing().item_spacing.x);
        plain_tick(ui, words, value)
    })
    .inner
}

/// A tick with its words to the right. `Some` is the new state.
pub fn plain_tick(ui: &mut Ui, words: &str, value: bool) -> Option<bool> {
    let mut ticked = value;
    let response = ui.checkbox(&mut ticked, words);
    help::explain(ui, response, "", words)
        .changed()
        .then_some(ticked)
}
