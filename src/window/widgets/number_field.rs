//! The one number field: comma or point, units and simple sums, and an out-of-range number stays
//! visible. It shows and reads the units of the window; the survey's value is metric.
//!
//! A valid number is reported with every keystroke, so that the results move at once; all
//! typing into a field is one step for undo. Enter, Tab and leaving the field end the step, Esc
//! takes it back. What cannot be read stays in the field, with the reason under it, and the survey
//! has the value from before the typing again: of `30 cm` the 30 is not left behind.

use super::input::{Input, Takes};
use super::number_text;
use super::severity::{finding_words, message_line};
use super::touched::tell_touched;
use super::words::tell_name;
use crate::assess::shown::Units;
use crate::assess::words::compass_point;
use crate::survey::findings::is_off_body;
use crate::survey::number::given;
use crate::survey::typed;
use crate::survey::{Field, Severity};
use crate::window::help;
use crate::window::request::Queue;
use crate::window::theme::palette;
use crate::window::units;
use eframe::egui;
use egui::text::CCursor;
use egui::text_selection::CCursorRange;
use egui::{Id, Key, Response, Stroke, TextEdit, Ui};

/// Edges of an input to both sides of its words, and a little air.
const HINT_MARGIN: f32 = 28.0;

/// What newly typed text or a key makes of the value: `None` where it stays.
type Commit = Option<Option<f64>>;

/// A field for one number.
pub type NumberField<'a> = Input<'a, Number<'a>>;

/// A number, and which numbers are taken.
#[derive(Default)]
pub struct Number<'a> {
    value: Option<f64>,
    unit: Option<&'a str>,
    required: bool,
    reaches: Option<f64>,
    whole: bool,
    note_apart: bool,
}

impl Takes for Number<'_> {
    const KIND: &'static str = "number";
    const WIDTH: f32 = 84.0;
}

impl Number<'_> {
    fn of(value: Option<f64>) -> Self {
        Self {
            value,
            ..Self::default()
        }
    }
}

/// What was typed and not yet shown back from the survey.
#[derive(Clone, Debug)]
struct Typing {
    text: String,
    /// The survey's value this text belongs to; another value means it was changed elsewhere.
    known: Option<f64>,
    /// The value before this typing.
    before: Option<f64>,
    /// Why the text cannot be read.
    refused: Option<String>,
    /// Whether the refusal is shown: not while still typing.
    settled: bool,
    /// Whether this typing has changed the survey.
    committed: bool,
}

fn same(a: Option<f64>, b: Option<f64>) -> bool {
    a.map(f64::to_bits) == b.map(f64::to_bits)
}

impl<'a> NumberField<'a> {
    /// A field of the survey; its label, unit, range and help are those of the catalogue.
    pub fn new(field: Field, value: Option<f64>) -> Self {
        Self::for_field(field, Number::of(value))
    }

    /// A number of the page, which the survey does not hold.
    pub fn of_page(label: &'a str, value: Option<f64>) -> Self {
        Self::for_page(label, Number::of(value))
    }

    /// Whether what stands in the input with this id cannot be read as a number.
    #[must_use]
    pub fn refuses(ui: &Ui, id: Id) -> bool {
        ui.data(|data| data.get_temp::<Typing>(id))
            .is_some_and(|typing| typing.refused.is_some())
    }

    /// Forgets what was typed into the input with this id, which is put away.
    pub fn forget(ui: &Ui, id: Id) {
        ui.data_mut(|data| data.remove::<Typing>(id));
    }

    /// Another unit than the range's, such as a currency.
    pub fn unit(mut self, unit: &'a str) -> Self {
        self.takes.unit = Some(unit);
        self
    }

    /// An empty field is refused.
    pub fn required(mut self) -> Self {
        self.takes.required = true;
        self
    }

    /// It is a place on a body that reaches so far, where that is known: what lies beside the body
    /// is refused.
    pub fn on_body(mut self, reaches: Option<f64>) -> Self {
        self.takes.reaches = reaches;
        self
    }

    /// What is only worth knowing of it is written elsewhere: typing takes it away, and what stands
    /// below would jump.
    pub fn note_apart(mut self, apart: bool) -> Self {
        self.takes.note_apart = apart;
        self
    }

    /// Only whole numbers are taken.
    pub fn whole(mut self) -> Self {
        self.takes.whole = true;
        self
    }

    /// Draws the field. `Some` is a new value, `Some(None)` the field cleared; pass the edit
    /// that follows from it to [`Queue::typed`].
    pub fn show(self, ui: &mut Ui, queue: &mut Queue) -> Commit {
        if self.compact {
            let (commit, response, trouble) = self.input(ui, queue);
            let unit = self.unit_shown(ui);
            let name = if unit.is_empty() {
                self.label.to_owned()
            } else {
                format!("{} ({unit})", self.label)
            };
            tell_name(ui, response.id, &name);
            self.hover(response, trouble.as_ref());
            return commit;
        }
        ui.vertical(|ui| {
            let (commit, trouble) = ui.horizontal(|ui| self.labelled_input(ui, queue)).inner;
            let apart = self.takes.note_apart;
            let here = |severity: Severity| !(apart && severity == Severity::Note);
            if let Some((severity, words)) = trouble.filter(|(severity, _)| here(*severity)) {
                message_line(ui, severity, &words);
            }
            commit
        })
        .inner
    }

    fn labelled_input(
        &self,
        ui: &mut Ui,
        queue: &mut Queue,
    ) -> (Commit, Option<(Severity, String)>) {
        let label = self.label_before(ui);
        let (commit, response, trouble) = self.input(ui, queue);
        let response = response.labelled_by(label.id);
        let unit = match self.takes.value {
            Some(degrees) if self.is_direction() => {
                format!("{} {}", self.unit_words(), compass_point(degrees))
            }
            _ => self.unit_shown(ui),
        };
        if !unit.is_empty() {
            ui.label(egui::RichText::new(unit).color(palette(ui).muted));
        }
        if let Some((severity, _)) = &trouble {
            super::severity::severity_sign(ui, *severity);
        }
        self.hover(response, trouble.as_ref());
        (commit, trouble)
    }

    fn is_direction(&self) -> bool {
        self.of.is_some_and(Field::is_direction)
    }

    fn unit_words(&self) -> &str {
        self.takes
            .unit
            .or_else(|| self.of.map(Field::unit))
            .unwrap_or("")
    }

    /// The unit that the number is shown in.
    fn unit_shown(&self, ui: &Ui) -> String {
        units::shown(ui.ctx())
            .units()
            .symbol(self.unit_words())
            .to_owned()
    }

    /// The value as the field shows it, in these units.
    fn text_of(&self, units: Units) -> String {
        number_text::format(
            self.takes
                .value
                .map(|value| units.typed(value, self.unit_words())),
        )
    }

    /// Hover text: the trouble, what to measure and how, and the range in words.
    fn hover(&self, response: Response, trouble: Option<&(Severity, String)>) {
        let shown = units::shown(&response.ctx);
        let range = self.of.and_then(|of| {
            Some(format!(
                "{}: {}",
                of.words(),
                shown.units().range(of.range()?)
            ))
        });
        let words: Vec<String> = trouble
            .map(|(_, words)| words.clone())
            .into_iter()
            .chain(self.of.map(|of| shown.help(of).into_owned()))
            .chain(range.filter(|_| trouble.is_none()))
            .collect();
        if !words.is_empty() {
            response.on_hover_text(words.join("\n"));
        }
    }

    fn input(
        &self,
        ui: &mut Ui,
        queue: &mut Queue,
    ) -> (Commit, Response, Option<(Severity, String)>) {
        let mut typing = ui
            .data(|data| data.get_temp::<Typing>(self.id))
            .filter(|typing| same(typing.known, self.takes.value));
        let mut text = typing.as_ref().map_or_else(
            || self.text_of(units::shown(ui.ctx()).units()),
            |typing| typing.text.clone(),
        );
        let shown = units::shown(ui.ctx());
        let trouble = self
            .trouble(shown.units(), typing.as_ref())
            .map(|(severity, words)| (severity, shown.text(&words).into_owned()));
        let response = self.text_edit(ui, &mut text, trouble.as_ref());
        let mut commit = None;
        if response.changed() {
            commit = self.take_text((text, shown.units()), &mut typing, queue);
        }
        commit = self.settle(ui, &response, &mut typing, queue).or(commit);
        tell_touched(ui, self.id, &response, typing.is_some());
        ui.data_mut(|data| match typing {
            Some(typing) => {
                data.insert_temp(self.id, typing);
            }
            None => {
                data.remove::<Typing>(self.id);
            }
        });
        (commit, response, trouble)
    }

    /// Wide enough for the words of an empty field: cut off, they say nothing.
    fn width_for_hint(&self, ui: &Ui) -> f32 {
        if self.compact || self.hint.is_empty() {
            return self.width;
        }
        let font = egui::TextStyle::Body.resolve(ui.style());
        let words = ui.fonts_mut(|fonts| {
            fonts.layout_no_wrap(self.hint.to_owned(), font, egui::Color32::PLACEHOLDER)
        });
        self.width.max(words.size().x + HINT_MARGIN)
    }

    fn text_edit(
        &self,
        ui: &mut Ui,
        text: &mut String,
        trouble: Option<&(Severity, String)>,
    ) -> Response {
        let mut output = ui
            .scope(|ui| {
                if let Some((severity, _)) = trouble {
                    outline(ui, *severity);
                }
                TextEdit::singleline(text)
                    .id(self.id)
                    .desired_width(self.width_for_hint(ui))
                    .align(egui::Align2::RIGHT_CENTER)
                    .hint_text(egui::RichText::new(self.hint).italics())
                    .return_key(None)
                    .show(ui)
            })
            .inner;
        let response = output.response.response.clone();
        self.take_focus(&response);
        if self.entered(ui, &response) || self.focus {
            let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
            output.state.cursor.set_char_range(Some(all));
            output.state.store(ui.ctx(), self.id);
        }
        let help = self.help;
        help::offer(ui, &response, self.label, help);
        if let Some((_, words)) = trouble {
            let words = format!("{words}. {help}");
            ui.ctx()
                .accesskit_node_builder(self.id, |node| node.set_description(words));
        }
        response
    }

    /// Reads newly typed text; a number that differs from the survey's is reported, and for text
    /// that is none the value from before.
    fn take_text(
        &self,
        (text, units): (String, Units),
        typing: &mut Option<Typing>,
        queue: &mut Queue,
    ) -> Commit {
        let begun = typing.as_ref().filter(|typing| typing.committed);
        let before = begun.map_or(self.takes.value, |typing| typing.before);
        let (value, refused) = match self.read(&text, units) {
            Ok(value) => (value, None),
            Err(why) => (before, Some(why)),
        };
        let commit = self.commit(value, queue);
        *typing = Some(Typing {
            text,
            known: value,
            before,
            refused,
            settled: false,
            committed: begun.is_some() || commit.is_some(),
        });
        commit
    }

    /// Reports a value, where it is another than the survey's.
    fn commit(&self, value: Option<f64>, queue: &mut Queue) -> Commit {
        let another = !same(value, self.takes.value);
        another.then(|| {
            queue.typing_in(self.key());
            value
        })
    }

    fn read(&self, text: &str, units: Units) -> Result<Option<f64>, String> {
        // What the field showed by itself is the value, with all its digits.
        if !text.is_empty() && text == self.text_of(units) {
            return Ok(self.takes.value);
        }
        let value = if self.is_direction() {
            number_text::parse_direction(text)?
        } else {
            typed::number(text, units.wanted(self.unit_words()))?
        };
        match value {
            None if self.takes.required => Err("a number is needed here".to_owned()),
            Some(number) if self.takes.whole && number.fract().abs() > 0.0 => {
                Err("whole numbers only".to_owned())
            }
            Some(number) if self.is_outside_where_it_may_be(number) => {
                let range = self.of.and_then(Field::range);
                let range = range.map_or_else(String::new, |range| units.range(range));
                Err(format!("outside {range}: no gap is there"))
            }
            Some(number) if self.takes.reaches.is_some_and(|to| is_off_body(number, to)) => {
                let to = self.takes.reaches.map_or_else(String::new, given);
                Err(format!("outside the body, which ends at {to} m"))
            }
            Some(number) if self.takes.whole && !(0.0..=1e6).contains(&number) => {
                Err("a count from 0 up is needed here".to_owned())
            }
            value => Ok(value),
        }
    }

    /// Whether it is a place that no gap can have. Other sizes out of range are taken and marked:
    /// the surveyor may have measured what this program holds impossible.
    fn is_outside_where_it_may_be(&self, number: f64) -> bool {
        let place = self.of.filter(|field| field.is_place());
        place.is_some_and(|field| !field.allows(number))
    }

    /// Enter, Esc and leaving the field; after Esc the value from before is reported.
    fn settle(
        &self,
        ui: &Ui,
        response: &Response,
        typing: &mut Option<Typing>,
        queue: &mut Queue,
    ) -> Commit {
        let entered = response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        let escaped = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Escape));
        if escaped {
            let begun = typing.take().filter(|typing| typing.committed)?;
            let commit = self.commit(begun.before, queue);
            queue.abort_step();
            return commit;
        }
        if !(entered || response.lost_focus()) {
            return None;
        }
        if let Some(begun) = typing.as_ref().filter(|typing| typing.committed) {
            // Typing that came to nothing is no step.
            if same(begun.known, begun.before) {
                queue.abort_step();
            } else {
                queue.close_step();
            }
        }
        match typing {
            Some(refused) if refused.refused.is_some() => {
                refused.settled = true;
                refused.committed = false;
            }
            _ => *typing = None,
        }
        None
    }

    /// What is wrong at the field: unreadable text, a number outside its range, or a finding.
    fn trouble(&self, units: Units, typing: Option<&Typing>) -> Option<(Severity, String)> {
        match typing {
            Some(Typing {
                refused: Some(why),
                settled: true,
                ..
            }) => {
                return Some((
                    Severity::Error,
                    format!("{why}; Esc restores the old value"),
                ));
            }
            Some(Typing { settled: false, .. }) => return None,
            _ => {}
        }
        if let (Some(range), Some(value)) = (self.of.and_then(Field::range), self.takes.value)
            && !range.allows(value)
        {
            let words = format!(
                "outside {}: results go without it, or are not known",
                units.range(range)
            );
            return Some((Severity::Error, words));
        }
        self.finding()
            .map(|finding| (finding.severity, finding_words(finding)))
    }
}

/// Draws the inputs of this ui with an outline in the severity's colour.
fn outline(ui: &mut Ui, severity: Severity) {
    let stroke = Stroke::new(2.0, super::severity::severity_colour(ui, severity));
    let visuals = ui.visuals_mut();
    for state in [
        &mut visuals.widgets.inactive,
        &mut visuals.widgets.hovered,
        &mut visuals.widgets.active,
    ] {
        state.bg_stroke = stroke;
    }
    visuals.selection.stroke = stroke;
}
