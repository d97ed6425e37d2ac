//! A field for a day with a time of day: written in the order of the reader's country, taken once it
//! is left; what is none stays in the field with the reason under it.

use super::layout::label as label_before;
use super::severity::message_line;
use super::words::tell_name;
use crate::survey::date::DateWay;
use crate::survey::{Field, Moment, Severity};
use crate::window::help;
use crate::window::units;
use eframe::egui;
use egui::text::CCursor;
use egui::text_selection::CCursorRange;
use egui::{Id, Key, Response, RichText, TextEdit, Ui};
use std::fmt::Debug;
use std::hash::Hash;

/// Room for the label and for what is typed.
const LABEL: f32 = 44.0;
const WIDE: f32 = 176.0;

/// What was typed and is not taken yet.
#[derive(Clone, Default)]
struct Draft {
    text: String,
    /// The field was left with it, and it is no moment.
    refused: bool,
}

/// What such a field is to the focus.
pub fn moment_id(field: Field, of: impl Hash + Debug) -> Id {
    Id::unique(("moment", field, of))
}

/// Draws the field; `Some` is what it holds now. `name` says to assistive technology which it is.
pub fn moment_field(
    ui: &mut Ui,
    field: Field,
    name: &str,
    of: impl Hash + Debug,
    value: Option<Moment>,
) -> Option<Option<Moment>> {
    let id = moment_id(field, of);
    let way = units::shown(ui.ctx()).dates();
    let written = value.map_or_else(String::new, |moment| written(moment, way));
    let draft = ui.data(|data| data.get_temp::<Draft>(id));
    let mut text = draft.as_ref().map_or(written, |draft| draft.text.clone());
    let mut taken = None;
    ui.vertical(|ui| {
        // What is refused is told below it, and moves nothing beside it.
        ui.set_max_width(LABEL + WIDE + 3.0 * ui.spacing().item_spacing.x);
        let response = ui
            .horizontal(|ui| {
                label_before(ui, field.label(), LABEL);
                let hint = format!("{} hh:mm", way.hint());
                let edit = TextEdit::singleline(&mut text)
                    .id(id)
                    .desired_width(WIDE)
                    .char_limit(40)
                    .return_key(None)
                    .hint_text(RichText::new(hint).italics());
                let mut output = edit.show(ui);
                let response = output.response.response.clone();
                if entered_by_key(ui, &response) {
                    let end = CCursor::new(text.chars().count());
                    let all = CCursorRange::two(CCursor::new(0), end);
                    output.state.cursor.set_char_range(Some(all));
                    output.state.store(ui.ctx(), id);
                }
                response
            })
            .inner;
        tell_name(ui, id, name);
        let entered = response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        let escaped = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Escape));
        if response.changed() {
            let refused = false;
            ui.data_mut(|data| data.insert_temp(id, Draft { text: text.clone(), refused }));
        }
        if escaped {
            ui.data_mut(|data| data.remove::<Draft>(id));
        } else if entered || response.lost_focus() {
            taken = settle(ui, id, way, value);
        }
        let refused = ui.data(|data| data.get_temp::<Draft>(id));
        if let Some(draft) = refused.filter(|draft| draft.refused) {
            let words = format!(
                "\u{201c}{}\u{201d} is no day with a time: write it as {} hh:mm; Esc restores the old one",
                draft.text.trim(),
                way.hint()
            );
            message_line(ui, Severity::Error, &words);
        }
        help::explain(ui, response, field.label(), field.help());
    });
    taken
}

/// Whether a key has just brought the focus here, so that its text is selected whole.
fn entered_by_key(ui: &Ui, response: &Response) -> bool {
    let by_pointer = ui.input(|input| input.pointer.any_down() || input.pointer.any_click());
    response.gained_focus() && !by_pointer
}

/// Takes what was typed, or keeps it as refused.
fn settle(ui: &Ui, id: Id, way: DateWay, value: Option<Moment>) -> Option<Option<Moment>> {
    let draft = ui.data_mut(|data| data.remove_temp::<Draft>(id))?;
    let text = draft.text.trim().to_owned();
    let read = match text.is_empty() {
        true => Some(None),
        false => read(&text, way).map(Some),
    };
    match read {
        Some(moment) => (moment != value).then_some(moment),
        None => {
            let refused = true;
            ui.data_mut(|data| data.insert_temp(id, Draft { text, refused }));
            None
        }
    }
}

/// A moment with its day in the order of the country.
fn written(moment: Moment, way: DateWay) -> String {
    let text = moment.to_string();
    match text.split_once(' ') {
        Some((day, time)) => format!("{} {time}", way.written(day)),
        None => text,
    }
}

/// The moment that a text says; a day alone is its start.
fn read(text: &str, way: DateWay) -> Option<Moment> {
    let (day, time) = match text.rsplit_once([' ', 'T']) {
        Some((day, time)) if time.contains(':') => (day, time),
        _ => (text, "00:00"),
    };
    let day = way.read(day.trim())?;
    let time = match time.split_once(':') {
        // 9:30 is half past nine.
        Some((hour, rest)) if hour.len() == 1 => format!("0{hour}:{rest}"),
        _ => time.to_owned(),
    };
    Moment::parse(&format!("{day} {time}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_are_read_in_the_order_of_the_country_and_written_back_so() {
        // Seconds by Python's datetime: 2026-11-05 14:30.
        let moment = Moment::from_seconds(1_793_889_000).unwrap();
        let iso = DateWay::YearMonthDay;
        assert_eq!(written(moment, iso), "2026-11-05 14:30");
        assert_eq!(read("2026-11-05 14:30", iso), Some(moment));
        assert_eq!(read(" 2026-11-05T14:30", iso), Some(moment));
        let day = read("2026-11-05", iso).unwrap();
        assert_eq!(day.seconds(), moment.seconds() - (14 * 60 + 30) * 60);
        assert_eq!(
            read("2026-11-05 9:30", iso),
            Moment::parse("2026-11-05 09:30")
        );
        for none in ["", "noon", "2026-02-30 10:00", "2026-11-05 25:00", "10:00"] {
            assert_eq!(read(none, iso), None, "{none}");
        }
        let ways = [
            iso,
            DateWay::DayMonthYear('.'),
            DateWay::DayMonthYear('/'),
            DateWay::of_locale("en_US"),
        ];
        for way in ways {
            assert_eq!(read(&written(moment, way), way), Some(moment), "{way:?}");
        }
    }
}
