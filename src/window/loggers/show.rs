//! The question how a logger's file is read: what was guessed, the first rows read so, and what only
//! its owner can say.

use super::chosen::{Chosen, Place, ZoneKind};
use super::columns;
use crate::assess::words::{capital, counted, sentence};
use crate::series::{Decimal, Encoding, Separator, Zone, moment};
use crate::window::questions::Answered;
use crate::window::request::{Queue, Request};
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, Choice, NumberField, TextField};
use eframe::egui;
use egui::{Grid, RichText, ScrollArea, Ui};

/// Rows shown as they are read.
const ROWS: usize = 5;
/// Seconds of a minute and of an hour.
const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
/// Most hours from universal time, and most minutes of a wrong clock: a year.
const MOST_HOURS: f64 = 14.0;
const MOST_MINUTES: f64 = 525_600.0;

/// What of the answer is to be worked out again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Changed {
    /// How the columns are read.
    rows: bool,
    /// What was said of the file as a whole, so that the rest is guessed anew.
    whole: bool,
}

/// Draws the question.
pub fn show(ui: &mut Ui, chosen: &mut Chosen, fresh: bool, queue: &mut Queue) {
    ui.heading(format!("How is {} read?", chosen.file.name));
    if chosen.is_as_before {
        widgets::muted(
            ui,
            "Read as the last file of this shape was. Look whether it fits this one too.",
        );
    }
    if chosen.taken.len() > 1 {
        let loggers = counted(chosen.taken.len(), "logger", "loggers");
        let words = format!(
            "What is changed here changes {loggers} of the survey that stand on this file."
        );
        widgets::muted(ui, words);
    }
    let tall = (ui.ctx().content_rect().height() - 210.0).max(120.0);
    let mut changed = Changed::default();
    // As tall at once as it will be: it would grow by a piece with each frame that something else asks for.
    let area = ScrollArea::vertical()
        .max_height(tall)
        .min_scrolled_height(tall);
    // Not where the question before it was left.
    let area = if fresh {
        area.vertical_scroll_offset(0.0)
    } else {
        area
    };
    area.show(ui, |ui| {
        ui.set_width(ui.available_width());
        for note in &chosen.guess.notes {
            widgets::muted(ui, sentence(&note.to_string()));
        }
        changed.rows |= orders(ui, chosen, fresh);
        part(ui, "First rows, read so");
        first(ui, chosen);
        part(ui, "Columns");
        changed.rows |= columns::show(ui, chosen, queue);
        if !chosen.places.is_empty() {
            part(ui, "Where the sensors hung");
            places(ui, chosen);
        }
        part(ui, "Clock of the logger");
        changed.rows |= clock(ui, chosen, queue);
        part(ui, "Text");
        let of_text = text(ui, chosen, queue);
        changed.rows |= of_text.rows;
        changed.whole |= of_text.whole;
        widgets::follow_focus(ui);
    });
    if changed.rows || changed.whole {
        let chosen = Box::new(chosen.clone());
        let anew = changed.whole;
        queue.push(Request::LookAtLogger { chosen, anew });
    }
    foot(ui, chosen, fresh, queue);
}

fn part(ui: &mut Ui, words: &str) {
    ui.add_space(6.0);
    ui.label(RichText::new(words).family(bold()));
}

fn foot(ui: &mut Ui, chosen: &Chosen, fresh: bool, queue: &mut Queue) {
    ui.add_space(6.0);
    if !chosen.refused.is_empty() {
        ui.label(RichText::new(&chosen.refused).color(palette(ui).danger));
    }
    let asks = chosen.asks();
    if let Some(asks) = &asks {
        ui.label(RichText::new(asks).color(palette(ui).warning));
    }
    ui.horizontal_wrapped(|ui| {
        let button = ui.add_enabled(asks.is_none(), egui::Button::new("Read it so"));
        if fresh && asks.is_none() {
            button.request_focus();
        }
        if button.clicked() {
            queue.push(Request::Answer(Answered::ReadLogger));
        }
        if ui.button("Cancel").clicked() {
            queue.push(Request::Answer(Answered::Cancel));
        }
    });
}

/// Which order the dates have, with both readings where both are possible.
fn orders(ui: &mut Ui, chosen: &mut Chosen, fresh: bool) -> bool {
    if chosen.guess.orders.len() < 2 {
        return false;
    }
    part(
        ui,
        "Day and month can be read in more than one way. Which is right?",
    );
    let mut changed = false;
    for (at, reading) in chosen.guess.orders.iter().enumerate() {
        let words = format!(
            "{}: from {} to {}",
            reading.order.name(),
            reading.first,
            reading.last
        );
        let said = chosen.mapping.order == Some(reading.order);
        let radio = ui.radio(said, words);
        if at == 0 && fresh && chosen.mapping.order.is_none() {
            radio.request_focus();
        }
        if radio.clicked() && !said {
            chosen.mapping.order = Some(reading.order);
            changed = true;
        }
    }
    changed
}

/// The first rows as they are understood.
fn first(ui: &mut Ui, chosen: &Chosen) {
    let series = match &chosen.first {
        Ok(series) => series,
        Err(error) => {
            let words = format!("{}.", capital(&error.to_string()));
            ui.label(RichText::new(words).color(palette(ui).muted));
            return;
        }
    };
    ScrollArea::horizontal()
        .id_salt("first rows")
        .show(ui, |ui| {
            Grid::new("first rows").striped(true).show(ui, |ui| {
                ui.label(RichText::new("time").small());
                for channel in &series.channels {
                    let between = if channel.sensor.is_empty() { "" } else { ", " };
                    let words = format!(
                        "{}{between}{}, {}",
                        channel.sensor,
                        channel.what.name(),
                        channel.what.held_in().sign()
                    );
                    ui.label(RichText::new(words).small());
                }
                ui.end_row();
                for (row, time) in series.times_s.iter().take(ROWS).enumerate() {
                    ui.label(moment(*time));
                    for channel in &series.channels {
                        let value = channel.values.get(row).filter(|value| !value.is_nan());
                        let words = value.map_or_else(
                            || "–".to_owned(),
                            |value| format!("{value:.1}").replace('-', "\u{2212}"),
                        );
                        ui.label(words);
                    }
                    ui.end_row();
                }
            });
        });
}

/// Where each sensor hung.
fn places(ui: &mut Ui, chosen: &mut Chosen) {
    let mut options: Vec<Option<Place>> = vec![None];
    options.extend(Place::ALL.into_iter().map(Some));
    for (sensor, place) in &mut chosen.places {
        ui.horizontal_wrapped(|ui| {
            let label = match sensor.as_str() {
                "" => "The sensor hung".to_owned(),
                sensor => format!("{sensor} hung"),
            };
            ui.label(&label);
            let said = Choice::new(&label, place, &options)
                .compact()
                .width(200.0)
                .show(ui, |place| {
                    place.map_or("say where", Place::name).to_owned()
                });
            if let Some(said) = said {
                *place = said;
            }
        });
    }
}

/// Which clock the times are of, and by how much it was wrong.
fn clock(ui: &mut Ui, chosen: &mut Chosen, queue: &mut Queue) -> bool {
    let mut changed = false;
    ui.horizontal_wrapped(|ui| {
        ui.label("Times are of");
        let kind = Choice::new("Times are of", &chosen.zone, &ZoneKind::ALL)
            .compact()
            .width(210.0)
            .show(ui, |kind| kind.name().to_owned());
        if let Some(kind) = kind {
            chosen.zone = kind;
            chosen.mapping.zone = match kind {
                ZoneKind::Place => Zone::Unnamed,
                ZoneKind::Offset => Zone::Offset(0),
                ZoneKind::Named => Zone::Named(String::new()),
            };
            changed = true;
        }
        match &mut chosen.mapping.zone {
            Zone::Unnamed => {}
            Zone::Offset(seconds) => {
                let hours = crate::physics::counts::seconds_as_f64(*seconds) / HOUR;
                let typed = NumberField::of_page("Hours ahead of universal time", Some(hours))
                    .compact()
                    .show(ui, queue);
                if let Some(Some(hours)) = typed
                    && hours.abs() <= MOST_HOURS
                {
                    *seconds = seconds_of(hours * HOUR);
                    changed = true;
                }
                ui.label("hours ahead");
            }
            Zone::Named(name) => {
                let typed = TextField::of_page("Name of the time zone", name)
                    .compact()
                    .hint("Europe/London")
                    .show(ui, queue);
                if let Some(typed) = typed {
                    *name = typed;
                    changed = true;
                }
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.label("The clock was ahead of the true time by");
        let ahead = crate::physics::counts::seconds_as_f64(chosen.mapping.clock_ahead_s) / MINUTE;
        let typed = NumberField::of_page("Clock ahead by", Some(ahead))
            .unit("min")
            .compact()
            .show(ui, queue);
        if let Some(Some(minutes)) = typed
            && minutes.abs() <= MOST_MINUTES
        {
            chosen.mapping.clock_ahead_s = seconds_of(minutes * MINUTE);
            changed = true;
        }
        ui.label("min");
        widgets::muted(ui, "Less than zero where it was behind.");
    });
    changed
}

/// Whole seconds of a number of them that is within a year.
fn seconds_of(seconds: f64) -> i64 {
    #[expect(clippy::cast_possible_truncation, reason = "within a year")]
    let whole = seconds.round() as i64;
    whole
}

/// How the text is encoded and laid out.
fn text(ui: &mut Ui, chosen: &mut Chosen, queue: &mut Queue) -> Changed {
    let mut changed = Changed::default();
    let (given, mapping) = (&mut chosen.given, &mut chosen.mapping);
    if chosen.guess.sheets.is_empty() {
        ui.horizontal_wrapped(|ui| {
            let encoding = named(ui, "Encoding", &mapping.encoding, &Encoding::ALL, |one| {
                one.name()
            });
            if let Some(encoding) = encoding {
                (given.encoding, changed.whole) = (Some(encoding), true);
            }
            let separator = named(
                ui,
                "Sign between columns",
                &mapping.separator,
                &Separator::ALL,
                |one| one.name(),
            );
            if let Some(separator) = separator {
                (given.separator, changed.whole) = (Some(separator), true);
            }
            let decimal = named(
                ui,
                "Sign before decimals",
                &mapping.decimal,
                &Decimal::ALL,
                |one| one.name(),
            );
            if let Some(decimal) = decimal {
                (given.decimal, changed.whole) = (Some(decimal), true);
            }
        });
    } else {
        ui.horizontal_wrapped(|ui| {
            let first = chosen.guess.sheets.first().cloned().unwrap_or_default();
            let now = match mapping.sheet.is_empty() {
                true => first,
                false => mapping.sheet.clone(),
            };
            ui.label("Sheet");
            let sheet = Choice::new("Sheet", &now, &chosen.guess.sheets)
                .compact()
                .show(ui, Clone::clone);
            if let Some(sheet) = sheet {
                (given.sheet, changed.whole) = (sheet, true);
            }
        });
    }
    ui.horizontal_wrapped(|ui| {
        ui.label("Lines before the readings");
        let before = crate::physics::counts::count(mapping.lines_before);
        let typed = NumberField::of_page("Lines before the readings", Some(before))
            .whole()
            .compact()
            .show(ui, queue);
        if let Some(Some(lines)) = typed
            && (0.0..1e6).contains(&lines)
        {
            mapping.lines_before = crate::physics::counts::whole(lines);
            changed.rows = true;
        }
        let bytes = chosen.file.bytes.len();
        widgets::muted(ui, format!("The file has {}.", size_in_words(bytes)));
    });
    changed
}

/// The size of a file as a person reads it.
fn size_in_words(bytes: usize) -> String {
    if bytes < 1_000_000 {
        format!("{} kB", bytes.div_ceil(1000))
    } else {
        format!("{:.1} MB", crate::physics::counts::count(bytes) / 1e6)
    }
}

fn named<T: PartialEq + Clone>(
    ui: &mut Ui,
    label: &str,
    now: &T,
    options: &[T],
    name: fn(&T) -> &'static str,
) -> Option<T> {
    ui.label(label);
    Choice::new(label, now, options)
        .compact()
        .width(150.0)
        .show(ui, |one| name(one).to_owned())
}

/// How far reading a file is, with the way to stop it.
pub fn progress(ui: &mut Ui, name: &str, share: f32, queue: &mut Queue) {
    ui.horizontal_wrapped(|ui| {
        widgets::muted(ui, format!("{name} is being read"));
        ui.add(
            egui::ProgressBar::new(share)
                .desired_width(150.0)
                .show_percentage(),
        );
        if widgets::named_button(ui, "Stop", &format!("Stop reading {name}")) {
            queue.push(Request::StopLogger);
        }
    });
}

#[cfg(test)]
mod tests {
    use super::size_in_words;

    #[test]
    fn a_size_is_told_in_kilobytes_until_they_are_a_thousand() {
        let words = [1, 999_000, 1_000_000, 40_269_000].map(size_in_words);
        assert_eq!(words, ["1 kB", "999 kB", "1.0 MB", "40.3 MB"]);
    }
}
