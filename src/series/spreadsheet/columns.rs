//! How the cells of each column are written, which only all of them together tell: whether days have
//! a time, which sign stands before decimals in numbers kept as text, which order dates kept as text
//! have, and whether plain numbers are days.

use super::grid::{DAY, Grid, Placed, Shown, Value};
use crate::series::date::{self, DateOrder};
use crate::series::notes::Note;
use crate::series::refused::ReadError;

/// Day numbers that may be meant as dates where a heading says so: the years 1982 to 2064.
const DAYS: std::ops::RangeInclusive<f64> = 30_000.0..=60_200.0;

/// Words of a heading that say that a column holds dates or times. Common practice, no source.
const OF_TIME: [&str; 26] = [
    "date",
    "time",
    "datetime",
    "timestamp",
    "day",
    "datum",
    "zeit",
    "uhrzeit",
    "zeitstempel",
    "zeitpunkt",
    "tag",
    "fecha",
    "hora",
    "heure",
    "horodatage",
    "jour",
    "tijd",
    "tijdstip",
    "data",
    "ora",
    "datatid",
    "tid",
    "czas",
    "dato",
    "pvm",
    "aika",
];

/// How dates of a column are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Clocks {
    /// With the time of day.
    #[default]
    Full,
    /// The day alone: none of them has a time.
    Day,
    /// The time of day alone, as they are shown: the day stands in another column.
    TimeOfDay,
}

/// What plain numbers of a column are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Numbers {
    /// Numbers.
    #[default]
    Plain,
    /// Days with their time.
    Moments,
    /// Days.
    Days,
    /// Shares of a day.
    TimesOfDay,
}

/// How a column is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct How {
    pub(super) clocks: Clocks,
    pub(super) numbers: Numbers,
    /// Numbers kept as text have a comma before decimals.
    pub(super) has_commas: bool,
    /// Order of dates kept as text among dates that are none.
    pub(super) text_dates: Option<DateOrder>,
}

/// What is counted of a column.
#[derive(Clone, Debug, Default)]
struct Counted {
    cells: usize,
    clocks: usize,
    midnights: usize,
    shown_as_times: usize,
    times: usize,
    numbers: usize,
    days: usize,
    whole: usize,
    shares: usize,
    rises: bool,
    falls: bool,
    last: Option<f64>,
    texts: usize,
    /// Text as `12,5`, and how much of it has not three digits behind the comma, as thousands have.
    commas: usize,
    sure_commas: usize,
    points: usize,
    /// The text above the first number.
    heading: Option<Value>,
}

impl Counted {
    fn take(&mut self, grid: &Grid, cell: &Placed) {
        self.cells += 1;
        match cell.value {
            Value::Clock(seconds, is_time) => {
                self.clocks += 1;
                self.midnights += usize::from(seconds.rem_euclid(DAY) == 0);
                self.shown_as_times += usize::from(is_time);
            }
            Value::Time(_) => self.times += 1,
            Value::Number(number, Shown::Plain) => {
                self.numbers += 1;
                self.days += usize::from(DAYS.contains(&number));
                self.whole += usize::from(number.fract().abs() < 1e-9);
                self.shares += usize::from((0.0..1.0).contains(&number));
                if let Some(last) = self.last.replace(number) {
                    self.rises |= number > last;
                    self.falls |= number < last;
                }
            }
            Value::Text(..) => {
                self.texts += 1;
                if self.numbers == 0 {
                    self.heading = Some(cell.value);
                }
                let text = grid.text_of(cell.value).unwrap_or_default();
                if let Some((sign, decimals)) = written_number(text) {
                    let is_comma = sign == b',';
                    self.commas += usize::from(is_comma);
                    self.sure_commas += usize::from(is_comma && decimals != 3);
                    self.points += usize::from(!is_comma);
                }
            }
            Value::Number(..) | Value::Truth(_) | Value::Error => {}
        }
    }

    /// Dates without a time.
    fn are_days(&self) -> bool {
        self.clocks > 0 && self.midnights == self.clocks
    }

    fn says_time(&self, grid: &Grid) -> bool {
        let heading = self.heading.and_then(|value| grid.text_of(value));
        heading.is_some_and(|heading| {
            heading
                .to_lowercase()
                .split(|sign: char| !sign.is_alphabetic())
                .any(|word| OF_TIME.contains(&word))
        })
    }

    /// Plain numbers that are days: nothing else stands in the column, they go one way, and the heading
    /// says so.
    fn are_day_numbers(&self, grid: &Grid) -> bool {
        self.numbers > 1
            && self.days == self.numbers
            && self.texts <= 1
            && !(self.rises && self.falls)
            && (self.rises || self.falls)
            && self.says_time(grid)
    }

    fn are_shares_of_days(&self, grid: &Grid) -> bool {
        self.numbers > 1 && self.shares == self.numbers && self.texts <= 1 && self.says_time(grid)
    }
}

/// How all columns of a sheet are written.
pub(super) struct Columns {
    pub(super) how: Vec<How>,
    /// Cells that each row has at least: up to the last column in which more than one stands.
    pub(super) width: u32,
    pub(super) notes: Vec<Note>,
}

impl Columns {
    /// Looks through all cells.
    ///
    /// # Errors
    /// Dates of which some are text, in an order that cannot be told.
    pub(super) fn of(grid: &Grid) -> Result<Self, ReadError> {
        let widest = grid.cells.iter().map(|cell| cell.column).max();
        let columns = widest.map_or(0, |last| usize::try_from(last).unwrap_or(0) + 1);
        let mut counted = vec![Counted::default(); columns];
        for cell in &grid.cells {
            let at = usize::try_from(cell.column).unwrap_or(0);
            if let Some(counted) = counted.get_mut(at) {
                counted.take(grid, cell);
            }
        }
        let has_days = counted.iter().any(Counted::are_days);
        let has_commas = counted
            .iter()
            .any(|one| one.sure_commas > 0 && one.points == 0);
        let mut how: Vec<How> = counted
            .iter()
            .map(|one| How {
                clocks: if one.are_days() {
                    Clocks::Day
                } else if has_days && one.clocks > 0 && one.shown_as_times == one.clocks {
                    Clocks::TimeOfDay
                } else {
                    Clocks::Full
                },
                has_commas: has_commas && one.commas > 0 && one.points == 0,
                ..How::default()
            })
            .collect();
        let mut notes = Vec::new();
        let no_dates = counted.iter().all(|one| one.clocks == 0);
        if no_dates && let Some(at) = counted.iter().position(|one| one.are_day_numbers(grid)) {
            days_of_numbers(grid, &counted, at, &mut how);
            notes.push(Note::DayNumbers(at + 1));
        }
        for (at, one) in counted.iter().enumerate() {
            if one.clocks > 0
                && one.texts > 1
                && let Some((order, cells)) = text_dates(grid, at)?
                && let Some(how) = how.get_mut(at)
            {
                how.text_dates = Some(order);
                notes.push(Note::DatesAsText(cells, order));
            }
        }
        let width = counted.iter().rposition(|one| one.cells > 1);
        let width = width.map_or(columns, |last| last + 1);
        Ok(Self {
            how,
            width: u32::try_from(width).unwrap_or(0),
            notes,
        })
    }
}

/// A column of day numbers and, where they are whole, the one with their times.
fn days_of_numbers(grid: &Grid, counted: &[Counted], at: usize, how: &mut [How]) {
    let are_whole = counted.get(at).is_some_and(|one| one.whole == one.numbers);
    if let Some(how) = how.get_mut(at) {
        how.numbers = if are_whole {
            Numbers::Days
        } else {
            Numbers::Moments
        };
    }
    let times = counted
        .iter()
        .position(|one| are_whole && one.are_shares_of_days(grid));
    if let Some(how) = times.and_then(|at| how.get_mut(at)) {
        how.numbers = Numbers::TimesOfDay;
    }
}

/// The order of dates that are kept as text in a column of dates, and how many there are: the only one
/// by which all of them together, text or not, go one way.
fn text_dates(grid: &Grid, at: usize) -> Result<Option<(DateOrder, usize)>, ReadError> {
    let of_column = || {
        let cells = grid.cells.iter();
        cells.filter(move |cell| usize::try_from(cell.column) == Ok(at))
    };
    let texts = || of_column().filter_map(|cell| Some((cell.row, grid.text_of(cell.value)?)));
    let dates = || texts().filter(|(_, text)| !date::orders(text).is_empty());
    let Some((line, _)) = dates().next() else {
        return Ok(None);
    };
    if dates().all(|(_, text)| date::orders(text) == [DateOrder::YearMonthDay]) {
        return Ok(None);
    }
    let mut fitting = DateOrder::ALL
        .into_iter()
        .filter(|order| dates().all(|(_, text)| date::moment(text, *order).is_some()))
        .filter(|order| {
            let times = of_column().filter_map(|cell| match cell.value {
                Value::Clock(seconds, _) => Some(seconds),
                value => Some(date::moment(grid.text_of(value)?, *order)?.seconds),
            });
            let times: Vec<i64> = times.collect();
            times.is_sorted() || times.iter().rev().is_sorted()
        });
    match (fitting.next(), fitting.next()) {
        (Some(order), None) => Ok(Some((order, dates().count()))),
        _ => Err(ReadError::MixedDates {
            line: u64::from(line) + 1,
            column: at + 1,
        }),
    }
}

/// The sign before the decimals of a number that is kept as text, and how many decimals it has.
fn written_number(text: &str) -> Option<(u8, usize)> {
    let text = text.trim().trim_start_matches(['-', '+', '\u{2212}']);
    let end = text.find(|sign: char| !sign.is_ascii_digit())?;
    let sign = text.as_bytes().get(end).copied()?;
    if end == 0 || !matches!(sign, b',' | b'.') {
        return None;
    }
    let decimals = text.get(end + 1..)?;
    let digits = decimals.bytes().take_while(u8::is_ascii_digit).count();
    let behind = decimals.get(digits..)?;
    let is_number =
        digits > 0 && !behind.contains(|sign: char| sign.is_ascii_digit() || sign == ',');
    (is_number && !behind.starts_with(['.', ':', '/'])).then_some((sign, digits))
}
