//! A logger's file as it was understood: how it is read, what stands in it, what is odd.

use super::blocks::{Align, Fact, Section, Table};
use crate::assess::words::{capital, counted, listed, sentence};
use crate::series::{
    About, Channel, Column, Guess, Mapping, ReadError, Series, Zone, doubtful, moment,
};
use crate::survey::number::signed;

/// How the file is read and what is in it.
#[must_use]
pub(crate) fn section(name: &str, guess: &Guess, mapping: &Mapping, series: &Series) -> Section {
    let mut section = Section::new(format!("Readings of {name}"));
    section.push(super::Block::Facts {
        rows: how_read(guess, mapping, series),
    });
    section.points(guess.notes.iter().map(|note| sentence(&note.to_string())));
    section.points(unsure(guess, mapping));
    section.points(left_out(guess, mapping));
    section.push(super::Block::Table {
        table: channels(series),
    });
    let notes = series.notes.iter().map(|note| capital(&note.to_string()));
    section.points(notes.chain(odd(series)));
    section
}

/// What has to be said before a file can be read: its dates in both orders.
#[must_use]
pub(crate) fn question(name: &str, guess: &Guess) -> Section {
    let mut section = Section::new(format!("Readings of {name}"));
    // The year too, where it has two digits.
    let ways = match guess.orders.len() {
        2 => "two",
        _ => "three",
    };
    let words: Vec<String> = guess
        .orders
        .iter()
        .map(|reading| format!("`--order {}`", reading.order.name().replace(", ", "-")))
        .collect();
    section.paragraph(format!(
        "Day, month and year can be read in {ways} ways, and nothing in the file tells which is right. \
         Say it: {}.",
        words.join(" or ")
    ));
    section.points(guess.orders.iter().map(|reading| {
        format!(
            "{}: from {} to {}",
            reading.order.name(),
            reading.first,
            reading.last
        )
    }));
    section
}

/// Why a file whose columns say too little is not read, and what they are called.
#[must_use]
pub(crate) fn columns(name: &str, guess: &Guess, mapping: &Mapping, error: &ReadError) -> Section {
    let mut section = Section::new(format!("Readings of {name}"));
    section.paragraph(sentence(&error.to_string()));
    section.points(left_out(guess, mapping));
    section
}

/// Most columns that are named in one sentence.
const MOST_NAMED: usize = 12;

/// Columns of which nothing is read, and how that is changed.
fn left_out(guess: &Guess, mapping: &Mapping) -> Option<String> {
    let holds_something = |at: usize| {
        let mut cells = guess.first_rows.iter().filter_map(|row| row.get(at));
        cells.any(|cell| !cell.trim().is_empty())
    };
    let all: Vec<usize> = mapping
        .columns
        .iter()
        .enumerate()
        .filter(|(at, column)| **column == Column::LeftOut && holds_something(*at))
        .map(|(at, _)| at)
        .collect();
    let first = all.first()? + 1;
    let named = all.iter().take(MOST_NAMED).map(|at| {
        let heading = guess.headings.get(*at).map_or("", |heading| heading.trim());
        match heading.is_empty() {
            true => format!("{}, which has no heading", at + 1),
            false => format!("{} \u{201c}{}\u{201d}", at + 1, short(heading)),
        }
    });
    let more = all.len().saturating_sub(MOST_NAMED);
    let more = (more > 0).then(|| format!("{more} more"));
    let are = match all.len() {
        1 => "One column is",
        _ => "Some columns are",
    };
    Some(format!(
        "{are} left out: {}. `--column \"HEADING=WHAT\"` reads one, such as `--column \"{first}=rh\"`.",
        listed(named.chain(more))
    ))
}

/// Most letters of a name that are shown.
const MOST_SHOWN: usize = 60;

/// A name, cut short.
fn short(name: &str) -> String {
    let mut cut: String = name.chars().take(MOST_SHOWN).collect();
    if cut.len() < name.len() {
        cut.push('\u{2026}');
    }
    cut
}

/// How the text of a file is taken apart, or which sheet of a spreadsheet was read.
fn form(guess: &Guess, mapping: &Mapping) -> [Fact; 2] {
    let lines = counted(mapping.lines_before, "line", "lines");
    if let Some(first) = guess.sheets.first() {
        let sheet = if mapping.sheet.is_empty() {
            first
        } else {
            &mapping.sheet
        };
        return [
            Fact::new(
                "Spreadsheet",
                format!("sheet \u{201c}{}\u{201d}", short(sheet)),
            ),
            Fact::new("Rows", format!("{lines} before the readings")),
        ];
    }
    let columns = format!(
        "parted by a {}, {} before decimals, {lines} before the readings",
        mapping.separator.name(),
        mapping.decimal.name(),
    );
    [
        Fact::new("Text", mapping.encoding.name()),
        Fact::new("Columns", columns),
    ]
}

fn how_read(guess: &Guess, mapping: &Mapping, series: &Series) -> Vec<Fact> {
    let at = |time: Option<&i64>| time.map_or_else(String::new, |time| moment(*time));
    let zone = match &mapping.zone {
        Zone::Unnamed => String::from("the logger\u{2019}s own clock, no zone named"),
        Zone::Offset(seconds) => format!(
            "{}\u{a0}h from universal time; times are told here in universal time",
            signed(crate::physics::counts::seconds_as_f64(*seconds) / 3600.0, 2)
        ),
        Zone::Named(name) => format!("{name}; times are told here in universal time"),
    };
    let order = mapping
        .order
        .map_or("not said", crate::series::DateOrder::name);
    let [text, columns] = form(guess, mapping);
    vec![
        text,
        columns,
        Fact::new("Dates", order),
        Fact::new("Clock", zone),
        Fact::new(
            "Readings",
            format!(
                "{}, from {} to {}",
                counted(series.times_s.len(), "row", "rows"),
                at(series.times_s.first()),
                at(series.times_s.last())
            ),
        ),
    ]
}

/// What was taken for likely and should be looked at.
fn unsure(guess: &Guess, mapping: &Mapping) -> Vec<String> {
    let is_named = mapping.zone != Zone::Unnamed;
    let remarks = guess
        .remarks
        .iter()
        .filter(|remark| !(is_named && matches!(remark.about, About::Zone(_))))
        .map(|remark| format!("{}.", capital(&remark.to_string())));
    let mut all = units_not_said(guess, mapping);
    all.extend(remarks);
    all
}

fn units_not_said(guess: &Guess, mapping: &Mapping) -> Vec<String> {
    guess
        .units_not_said
        .iter()
        .filter_map(|at| {
            let Column::Readings { what, unit, .. } = mapping.columns.get(*at)? else {
                return None;
            };
            Some(format!(
                "Column {}: the file does not say in which unit the {} is; {} is taken. Look whether \
                 the numbers fit.",
                at + 1,
                what.name(),
                unit.sign()
            ))
        })
        .collect()
}

fn channels(series: &Series) -> Table {
    let mut table = Table::default()
        .wide("Sensor", Align::Left, 2)
        .wide("What", Align::Left, 2)
        .column("Unit", Align::Left)
        .column("Lowest", Align::Right)
        .column("Mean", Align::Right)
        .column("Highest", Align::Right)
        .column("Readings", Align::Right);
    for channel in &series.channels {
        let (low, mean, high, number) = span(channel);
        let written = |value: f64| {
            if number == 0 {
                String::from("–")
            } else {
                format!("{value:.1}").replace('-', "\u{2212}")
            }
        };
        let sensor = if channel.sensor.is_empty() {
            String::from("–")
        } else {
            short(&channel.sensor)
        };
        table.row([
            sensor,
            channel.what.name().to_owned(),
            channel.what.held_in().sign().to_owned(),
            written(low),
            written(mean),
            written(high),
            number.to_string(),
        ]);
    }
    table
}

/// Lowest, mean and highest of a channel, and how many readings it has.
fn span(channel: &Channel) -> (f64, f64, f64, usize) {
    let there = || channel.values.iter().filter(|value| !value.is_nan());
    let number = there().count();
    (
        there().fold(f64::INFINITY, f64::min),
        there().sum::<f64>() / crate::physics::counts::count(number.max(1)),
        there().fold(f64::NEG_INFINITY, f64::max),
        number,
    )
}

/// Odd readings, told by channel and reason: how many and when first.
fn odd(series: &Series) -> Vec<String> {
    let found = doubtful(series);
    let mut told: Vec<(usize, crate::series::Why, usize, usize)> = Vec::new();
    for run in &found {
        let readings = run.to - run.from + 1;
        match told
            .iter_mut()
            .find(|(channel, why, ..)| *channel == run.channel && *why == run.why)
        {
            Some((.., number, _)) => *number += readings,
            None => told.push((run.channel, run.why, readings, run.from)),
        }
    }
    told.into_iter()
        .map(|(channel, why, number, first)| {
            let of = series.channels.get(channel);
            let name = of.map_or_else(String::new, |one| {
                let sensor = &one.sensor;
                let between = if sensor.is_empty() { "" } else { ", " };
                format!("{sensor}{between}{}", one.what.name())
            });
            let from = series
                .times_s
                .get(first)
                .map_or_else(String::new, |time| moment(*time));
            format!(
                "{} {}: {}, first at {from}. Marked, not left out.",
                capital(&name),
                why.words(),
                counted(number, "reading", "readings"),
            )
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::series::guess;

    #[test]
    fn what_is_unsure_of_a_column_is_told_and_a_zone_only_until_one_is_named() {
        let text = "Time (UTC);Temp °C/°F\n2026-01-20 08:00;7.5\n2026-01-20 08:10;7.6\n";
        let guess = guess(text.as_bytes()).unwrap();
        let mut mapping = guess.mapping.clone();
        let told = unsure(&guess, &mapping);
        assert_eq!(told.len(), 2, "{told:?}");
        assert!(
            told[0].starts_with("Column 1, ") && told[0].ends_with('.'),
            "{told:?}"
        );
        mapping.zone = Zone::Offset(0);
        let told = unsure(&guess, &mapping);
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].contains("two units"), "{told:?}");
    }
}
