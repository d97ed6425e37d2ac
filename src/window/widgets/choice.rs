//! Choosing one of several, and ticking yes or no.

use super::focus::hold_up_and_down;
use super::input::{Input, Takes};
use super::layout::LABEL_WIDTH;
use super::words::tell_name;
use crate::survey::Field;
use crate::window::help;
use crate::window::units;
use eframe::egui;
use egui::{ComboBox, Id, Key, Modifiers, Response, Ui};

/// A choice of one among several, with its label. Up and down step through the options while it
/// has the focus, letters go to the next option that begins with them; Enter, Space or a click
/// opens the list. In the open list the same keys go from option to option, and nothing is chosen
/// until Enter.
pub type Choice<'a, T> = Input<'a, Among<'a, T>>;

/// One of several.
pub struct Among<'a, T> {
    current: &'a T,
    options: &'a [T],
    entered: Option<&'a mut bool>,
}

/// Where the keyboard is in an open list.
#[derive(Clone, Copy)]
struct Pointed {
    at: usize,
    /// It has come here in this frame.
    moved: bool,
    /// This option was taken, which closes the list.
    taken: bool,
}

impl<T> Takes for Among<'_, T> {
    const KIND: &'static str = "choice";
    const WIDTH: f32 = 190.0;
}

impl<'a, T> Among<'a, T> {
    fn new(current: &'a T, options: &'a [T]) -> Self {
        Self {
            current,
            options,
            entered: None,
        }
    }
}

impl<'a, T: PartialEq + Clone> Choice<'a, T> {
    /// A choice of the survey; its label and help are those of the catalogue.
    pub fn of(field: Field, current: &'a T, options: &'a [T]) -> Self {
        Self::for_field(field, Among::new(current, options))
    }

    /// A choice of the page among these options.
    pub fn new(label: &'a str, current: &'a T, options: &'a [T]) -> Self {
        Self::for_page(label, Among::new(current, options))
    }

    /// Enter does not open the list but is told here: for lines where Enter means the whole line.
    pub fn on_enter(mut self, entered: &'a mut bool) -> Self {
        self.takes.entered = Some(entered);
        self
    }

    /// Draws it; `Some` is the option newly chosen.
    pub fn show(mut self, ui: &mut Ui, words: impl Fn(&T) -> String) -> Option<T> {
        let shown = units::shown(ui.ctx());
        let words = |option: &T| shown.text(&words(option)).into_owned();
        if self.compact {
            return self.input(ui, &words).0;
        }
        ui.horizontal(|ui| {
            self.label_before(ui);
            self.input(ui, &words).0
        })
        .inner
    }

    fn input(&mut self, ui: &mut Ui, words: &impl Fn(&T) -> String) -> (Option<T>, Response) {
        let mut chosen = None;
        let drawn = self.drawn_as(ui);
        // Esc takes the focus away before the list closes.
        let was_open = drawn.is_some_and(|id| ComboBox::is_open(ui.ctx(), id));
        let focused = drawn.filter(|id| ui.memory(|memory| memory.has_focus(*id)));
        // A space in a word being spelled is a letter, and opens or closes nothing.
        if focused.is_some_and(|id| is_spelling(ui, id)) {
            ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Space));
        }
        let pointed = focused.and_then(|id| self.pointed(ui, id, words));
        self.take_enter(ui);
        let response = ComboBox::from_id_salt(self.id)
            .selected_text(words(self.takes.current))
            .width(self.width)
            .truncate()
            .show_ui(ui, |ui| {
                for (at, option) in self.takes.options.iter().enumerate() {
                    let here = option == self.takes.current;
                    let lit = pointed.map_or(here, |pointed| pointed.at == at);
                    let response = ui.selectable_label(lit, words(option));
                    if response.clicked() {
                        // By keyboard it would stay open.
                        ui.close();
                        chosen = (!here).then(|| option.clone());
                    }
                    if lit && pointed.is_some_and(|pointed| pointed.moved) {
                        response.scroll_to_me(None);
                    }
                }
            })
            .response;
        tell_name(ui, response.id, self.label);
        let of = self.id.with("drawn as");
        ui.data_mut(|data| data.insert_temp(of, response.id));
        self.take_focus(&response);
        let escaped = ui.input(|input| input.key_pressed(Key::Escape));
        // Whoever opens the list by mouse goes on by keyboard; Esc closes the list alone.
        if response.clicked() || (escaped && was_open && response.lost_focus()) {
            response.request_focus();
        }
        let response = help::explain(ui, response, self.label, self.help);
        if let Some(Pointed {
            at, taken: true, ..
        }) = pointed
        {
            chosen = self.takes.options.get(at).cloned();
            chosen = chosen.filter(|option| option != self.takes.current);
        } else if response.has_focus() && pointed.is_none() {
            hold_up_and_down(ui, response.id);
            let names: Vec<String> = self.takes.options.iter().map(words).collect();
            let at = self.place();
            let letters = || spelled(ui, response.id, &names, at);
            if let Some(option) = self.stepped(ui, at).or_else(letters) {
                chosen = self.takes.options.get(option).cloned();
            }
        }
        (chosen, response)
    }

    /// The id it was drawn with.
    fn drawn_as(&self, ui: &Ui) -> Option<Id> {
        ui.data(|data| data.get_temp(self.id.with("drawn as")))
    }

    /// Where the keyboard is in the open list, after the keys of this frame.
    fn pointed(&self, ui: &Ui, id: Id, words: &impl Fn(&T) -> String) -> Option<Pointed> {
        let kept = id.with("pointed at");
        if !ComboBox::is_open(ui.ctx(), id) {
            ui.data_mut(|data| data.remove::<usize>(kept));
            return None;
        }
        hold_up_and_down(ui, id);
        let before = ui.data(|data| data.get_temp::<usize>(kept));
        let from = before.or_else(|| self.place());
        let names: Vec<String> = self.takes.options.iter().map(words).collect();
        let letters = || spelled(ui, id, &names, from);
        let at = self.stepped(ui, from).or_else(letters).or(from)?;
        ui.data_mut(|data| data.insert_temp(kept, at));
        let key = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
        let taken = key(Key::Enter) || key(Key::Space);
        if taken {
            egui::Popup::close_all(ui.ctx());
        }
        let moved = before != Some(at);
        Some(Pointed { at, moved, taken })
    }

    /// Takes Enter away from the list while this has the focus and the list is closed.
    fn take_enter(&mut self, ui: &Ui) {
        let drawn = self.drawn_as(ui);
        let Some(entered) = &mut self.takes.entered else {
            return;
        };
        let has_focus = drawn.is_some_and(|id| ui.memory(|memory| memory.has_focus(id)));
        if has_focus && !egui::Popup::is_any_open(ui.ctx()) {
            let enter =
                |input: &mut egui::InputState| input.consume_key(egui::Modifiers::NONE, Key::Enter);
            **entered |= ui.input_mut(enter);
        }
    }

    fn place(&self) -> Option<usize> {
        let mut options = self.takes.options.iter();
        options.position(|option| option == self.takes.current)
    }

    fn stepped(&self, ui: &Ui, from: Option<usize>) -> Option<usize> {
        let down = ui.input(|input| input.key_pressed(Key::ArrowDown));
        let up = ui.input(|input| input.key_pressed(Key::ArrowUp));
        let at = from?;
        let next = match (up, down) {
            (false, true) => at.checked_add(1)?,
            (true, false) => at.checked_sub(1)?,
            _ => return None,
        };
        (next < self.takes.options.len()).then_some(next)
    }
}

/// The place of the name that letters lead to, those typed in this frame and just before into what
/// has this id.
pub fn spelled(ui: &Ui, id: Id, names: &[String], from: Option<usize>) -> Option<usize> {
    let (typed, now) = ui.input(|input| {
        let text = |event: &egui::Event| match event {
            egui::Event::Text(text) => Some(text.clone()),
            _ => None,
        };
        let typed: String = input.events.iter().filter_map(text).collect();
        (typed, input.time)
    });
    let mut letters = letters_before(ui, id);
    if typed.is_empty() || (typed.trim().is_empty() && letters.is_empty()) {
        return None;
    }
    let names: Vec<String> = names.iter().map(|name| name.to_lowercase()).collect();
    let mut found = None;
    for letter in typed.to_lowercase().chars() {
        found = led_to(&names, found.or(from), &mut letters, letter).or(found);
    }
    ui.data_mut(|data| data.insert_temp(id, (now, letters)));
    found
}

/// The letters typed just before.
fn letters_before(ui: &Ui, id: Id) -> String {
    let now = ui.input(|input| input.time);
    let before = ui.data(|data| data.get_temp::<(f64, String)>(id));
    before
        .filter(|(then, _)| now - then < LETTERS_BELONG_S)
        .map_or_else(String::new, |(_, letters)| letters)
}

/// Whether letters were typed just now, so that a space belongs to them.
fn is_spelling(ui: &Ui, id: Id) -> bool {
    !letters_before(ui, id).is_empty()
}

/// Letters that follow each other within this time spell one word, s.
const LETTERS_BELONG_S: f64 = 1.5;

/// Where one more letter leads: to what begins with all the letters, else to the next option that
/// begins with this one, going round.
fn led_to(
    options: &[String],
    from: Option<usize>,
    letters: &mut String,
    letter: char,
) -> Option<usize> {
    letters.push(letter);
    let begins = |at: &usize, with: &str| {
        options
            .get(*at)
            .is_some_and(|words| words.starts_with(with))
    };
    let count = options.len();
    let round = |first: usize| (first..first + count).map(move |at| at % count);
    if letters.chars().count() > 1 {
        let here = round(from.unwrap_or(0)).find(|at| begins(at, letters));
        if here.is_some() {
            return here;
        }
    }
    *letters = letter.to_string();
    round(from.map_or(0, |from| from + 1)).find(|at| begins(at, letters))
}

/// A tick of the survey, in line with the inputs of labelled rows. `Some` is the new state.
pub fn tick(ui: &mut Ui, field: Field, value: bool) -> Option<bool> {
    ui.horizontal(|ui| {
        ui.add_space(LABEL_WIDTH + ui.spacing().item_spacing.x);
        // Words that do not fit go on below, and make no card wider than its column.
        ui.style_mut().wrap_mode = Some(egui::TextWrapMode::Wrap);
        let mut ticked = value;
        let response = ui.checkbox(&mut ticked, field.label());
        let response = help::explain(ui, response, field.label(), field.help());
        response.changed().then_some(ticked)
    })
    .inner
}

/// A tick of the page with its words to the right. `Some` is the new state.
pub fn plain_tick(ui: &mut Ui, words: &str, value: bool) -> Option<bool> {
    let mut ticked = value;
    let changed = ui.checkbox(&mut ticked, words).changed();
    changed.then_some(ticked)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_to_the_next_option_that_begins_with_them_and_round_again() {
        let options = ["door", "cable hole", "cassette", "roof"].map(str::to_owned);
        let spell = |from: Option<usize>, word: &str| {
            let mut letters = String::new();
            let mut at = from;
            for letter in word.chars() {
                at = led_to(&options, at, &mut letters, letter).or(at);
            }
            at
        };
        assert_eq!(spell(Some(0), "c"), Some(1));
        assert_eq!(spell(Some(1), "c"), Some(2));
        assert_eq!(spell(Some(0), "cas"), Some(2));
        assert_eq!(spell(Some(1), "cab"), Some(1));
        assert_eq!(spell(Some(2), "cable h"), Some(1));
        // A space that leads nowhere stays where it is.
        assert_eq!(spell(Some(2), "cas "), Some(2));
        // The same letter again goes on, and round.
        assert_eq!(spell(Some(0), "cc"), Some(2));
        assert_eq!(spell(Some(0), "ccc"), Some(1));
        assert_eq!(spell(None, "d"), Some(0));
        assert_eq!(spell(Some(0), "x"), Some(0));
        assert_eq!(led_to(&[], None, &mut String::new(), 'x'), None);
    }
}
