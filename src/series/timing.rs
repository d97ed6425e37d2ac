//! Which columns hold the time.

use super::cells::{is_date, is_moment, is_of_day};
use super::date;
use super::mapping::Column;
use super::spelled;

/// What a column may be as to time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    /// No time.
    None,
    /// Dates with the time of day.
    Moment,
    /// Dates, or dates at midnight.
    Date,
    /// Times of day.
    OfDay,
    /// Times counted in one number.
    Counted,
}

/// One way to take the times.
#[derive(Clone, Copy)]
enum Way {
    Alone(usize),
    Apart(usize, usize),
}

/// What each column is as to time: `None` for one that holds none. Times that are not those of the rows,
/// such as when a sensor was adjusted, are left out.
pub(super) fn columns(rows: &[Vec<String>], headings: &[String]) -> Vec<Option<Column>> {
    let kinds: Vec<Kind> = (0..headings.len())
        .map(|at| kind(rows, at, headings.get(at).map_or("", String::as_str)))
        .collect();
    let of = |wanted: Kind| {
        let all = kinds.iter().enumerate();
        all.filter(move |(_, kind)| **kind == wanted)
            .map(|(at, _)| at)
    };
    let mut ways: Vec<Way> = of(Kind::Moment).map(Way::Alone).collect();
    for date in of(Kind::Date) {
        ways.extend(of(Kind::OfDay).map(|of_day| Way::Apart(date, of_day)));
    }
    if ways.is_empty() {
        ways.extend(of(Kind::Date).map(Way::Alone));
    }
    if ways.is_empty() {
        ways.extend(of(Kind::Counted).map(Way::Alone));
    }
    let worth = |way: &Way| {
        let heading = |at: usize| headings.get(at).map_or("", String::as_str);
        let (cells, heading): (&[usize], String) = match way {
            Way::Alone(at) => (&[*at], heading(*at).to_owned()),
            Way::Apart(date, of_day) => (
                &[*date, *of_day],
                format!("{} {}", heading(*date), heading(*of_day)),
            ),
        };
        (
            goes_on(rows, cells),
            !is_of_something_else(&heading),
            matches!(way, Way::Alone(_)),
        )
    };
    // The first of the best.
    let best = ways.iter().rev().max_by_key(|way| worth(way)).copied();
    kinds
        .iter()
        .enumerate()
        .map(|(at, kind)| match best {
            Some(Way::Alone(time)) if time == at => Some(Column::Moment),
            Some(Way::Apart(date, _)) if date == at => Some(Column::Date),
            Some(Way::Apart(_, of_day)) if of_day == at => Some(Column::TimeOfDay),
            _ => (*kind != Kind::None && *kind != Kind::Counted).then_some(Column::LeftOut),
        })
        .collect()
}

fn kind(rows: &[Vec<String>], at: usize, heading: &str) -> Kind {
    let cells = || {
        let cells = rows.iter().filter_map(move |row| row.get(at));
        cells
            .map(|cell| cell.trim())
            .filter(|cell| !cell.is_empty())
    };
    if cells().next().is_none() {
        return Kind::None;
    }
    if cells().all(is_moment) {
        let at_midnight = |cell: &str| {
            let orders = date::orders(cell);
            let read = orders.first().and_then(|order| date::moment(cell, *order));
            read.is_some_and(|clock| {
                clock.seconds.rem_euclid(86_400) == 0 && clock.offset_s.is_none()
            })
        };
        let is_date = cells().all(is_date)
            || (cells().all(at_midnight) && (0..12).any(|other| is_of_day_column(rows, other)));
        return if is_date { Kind::Date } else { Kind::Moment };
    }
    let is_named = is_named_time(heading);
    if cells().all(is_of_day) || (is_named && cells().all(|cell| date::of_day(cell).is_some())) {
        return Kind::OfDay;
    }
    if is_named && cells().all(|cell| spelled::counted(cell).is_some()) {
        return Kind::Counted;
    }
    Kind::None
}

fn is_of_day_column(rows: &[Vec<String>], at: usize) -> bool {
    let mut cells = rows.iter().filter_map(|row| row.get(at)).peekable();
    cells.peek().is_some() && cells.all(|cell| is_of_day(cell))
}

/// Whether the cells of some columns together change from row to row, as the time of a reading does.
fn goes_on(rows: &[Vec<String>], columns: &[usize]) -> bool {
    let cells = |row: &Vec<String>| -> Vec<Option<String>> {
        columns.iter().map(|at| row.get(*at).cloned()).collect()
    };
    let changes = rows.windows(2).filter(|pair| match pair {
        [one, next] => cells(one) != cells(next),
        _ => false,
    });
    changes.count() * 2 >= rows.len().saturating_sub(1)
}

/// Words of headings over the times of rows, in the languages that headings are met in; the short ones
/// stand alone. Common practice, no source.
const TIME: [&str; 12] = [
    "time", "zeit", "heure", "hour", "stunde", "tijd", "date", "datum", "fecha", "unix", "epoch",
    "clock",
];
const SHORT_TIME: [&str; 9] = ["hh", "std", "uhr", "ora", "hora", "data", "tid", "hr", "h"];

pub(super) fn is_named_time(heading: &str) -> bool {
    let low = heading.to_lowercase();
    let mut words = low.split(|sign: char| !sign.is_alphanumeric());
    TIME.iter().any(|word| low.contains(word)) || words.any(|word| SHORT_TIME.contains(&word))
}

/// Words of headings over times that are not those of the readings.
const ELSE: [&str; 16] = [
    "elapsed", "duration", "dauer", "laufzeit", "upload", "receiv", "export", "calib", "kalib",
    "adjust", "start", "begin", "install", "serial", "modified", "battery",
];

fn is_of_something_else(heading: &str) -> bool {
    let low = heading.to_lowercase();
    ELSE.iter().any(|word| low.contains(word))
}
