//! How a file is likely to be read, and what only its owner can say.

use std::borrow::Cow;

use csv_nose::{SampleSize, Sniffer};

use super::columns;
use super::date::{self, DateOrder, written};
use super::decode::Encoding;
use super::heading;
use super::mapping::{Column, Mapping, Separator, Zone};
use super::notes::Note;
use super::number::{self, Cell, Decimal, Written};
use super::read::{skip_lines, text};
use super::refused::ReadError;
use super::remark::Remark;
use super::rows::{MOST_COLUMNS, MOST_LINE_BYTES};
use super::spreadsheet;

/// Lines looked at to find separator, headings and columns.
const LINES: usize = 200;

/// Rows looked at to find the order of day and month: where none of so many has a day above 12, the
/// rest of the file is looked at too.
const ROWS: usize = 2_000;

/// How the dates of a file would read in one order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrderReading {
    /// The order.
    pub order: DateOrder,
    /// The first time by it.
    pub first: String,
    /// The last time by it.
    pub last: String,
}

/// A likely mapping, the first rows by it, and what has to be asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Guess {
    /// The mapping. Its order is `None` where day and month can be read in two ways.
    pub mapping: Mapping,
    /// Headings of the columns, as the file has them.
    pub headings: Vec<String>,
    /// The first rows as they stand.
    pub first_rows: Vec<Vec<String>>,
    /// The orders that every date allows, more than one where it has to be asked.
    pub orders: Vec<OrderReading>,
    /// Columns (counted from 0) whose unit is not said in the file.
    pub units_not_said: Vec<usize>,
    /// What else is to be looked at, by column.
    pub remarks: Vec<Remark>,
    /// Sheets of a spreadsheet.
    pub sheets: Vec<String>,
    /// What was decided of a spreadsheet and has to be looked at.
    pub notes: Vec<Note>,
}

/// What somebody has said of a file already; the rest is guessed by it.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Given {
    /// How its text is encoded.
    pub encoding: Option<Encoding>,
    /// The sign between its columns.
    pub separator: Option<Separator>,
    /// The sign before decimals.
    pub decimal: Option<Decimal>,
    /// Sheet of a spreadsheet; the first that has readings where none is named.
    pub sheet: String,
}

/// Guesses how a file is to be read.
///
/// # Errors
/// A file that is too large, no text, or has no row with a time and a number.
pub fn guess(bytes: &[u8]) -> Result<Guess, ReadError> {
    guess_with(bytes, &Given::default())
}

/// Guesses what was not said of a file.
///
/// # Errors
/// As [`guess()`], by what was said.
pub fn guess_with(bytes: &[u8], given: &Given) -> Result<Guess, ReadError> {
    let is_workbook = spreadsheet::is_workbook(bytes);
    let mut mapping = Mapping {
        encoding: if is_workbook {
            Encoding::Utf8
        } else {
            given.encoding.unwrap_or_else(|| Encoding::of(bytes))
        },
        separator: Separator::Comma,
        decimal: Decimal::Point,
        lines_before: 0,
        order: None,
        zone: Zone::Unnamed,
        clock_ahead_s: 0,
        columns: Vec::new(),
        sheet: given.sheet.clone(),
    };
    // Its text is written with commas and points, whatever was said of another file.
    let decimal = given.decimal.filter(|_| !is_workbook);
    let (text, sheets, notes) = if is_workbook {
        let rows = |text: &str| {
            Layout::of(text, Separator::Comma, None).map_or(0, |layout| layout.rows.len())
        };
        let chosen = spreadsheet::chosen(bytes, &given.sheet, rows)?;
        mapping.sheet = chosen.sheet;
        (Cow::Owned(chosen.text), chosen.sheets, chosen.notes)
    } else {
        (text(bytes, &mapping)?.0, Vec::new(), Vec::new())
    };
    bounded(&text)?;
    let best = separators(&text, is_workbook)
        .into_iter()
        .filter(|separator| is_workbook || given.separator.is_none_or(|said| said == *separator))
        .filter_map(|separator| Layout::of(&text, separator, decimal))
        .max_by_key(|layout| layout.worth)
        .ok_or(ReadError::NoReadings)?;
    mapping.separator = best.separator;
    mapping.decimal = best.decimal;
    mapping.lines_before = best.lines_before;
    let headings = best.headings();
    let told = best.told(&text, &headings, &mut mapping);
    let orders = orders(&text, &mapping);
    if let [only] = orders.as_slice() {
        mapping.order = Some(only.order);
    }
    Ok(Guess {
        mapping,
        headings,
        first_rows: best.rows.iter().take(8).cloned().collect(),
        orders,
        units_not_said: told.units_not_said,
        remarks: told.remarks,
        sheets,
        notes,
    })
}

/// Whether the first lines are such as a logger writes: to take one of a million columns apart would
/// take long.
fn bounded(text: &str) -> Result<(), ReadError> {
    for (at, line) in text.split('\n').take(LINES).enumerate() {
        if line.len() > MOST_LINE_BYTES {
            return Err(ReadError::LongLine(at + 1));
        }
        let has_many = |separator: &Separator| {
            let signs = line.bytes().filter(|byte| *byte == separator.byte());
            line.len() > MOST_COLUMNS && signs.count() >= MOST_COLUMNS
        };
        if Separator::ALL.iter().any(has_many) {
            return Err(ReadError::ManyColumns(at + 1));
        }
    }
    Ok(())
}

/// Separators worth trying, the sniffer's first.
fn separators(text: &str, is_workbook: bool) -> Vec<Separator> {
    if is_workbook {
        return vec![Separator::Comma];
    }
    let end = text
        .match_indices('\n')
        .nth(LINES)
        .map_or(text.len(), |(at, _)| at);
    let sniffed = Sniffer::new()
        .sample_size(SampleSize::Records(LINES))
        .sniff_bytes(text.get(..end).unwrap_or_default().as_bytes())
        .ok()
        .and_then(|found| {
            Separator::ALL
                .into_iter()
                .find(|one| one.byte() == found.dialect.delimiter)
        });
    // What the sniffer says comes last, so that it wins where two are worth the same.
    let mut all: Vec<Separator> = Separator::ALL
        .into_iter()
        .filter(|one| Some(*one) != sniffed)
        .collect();
    all.extend(sniffed);
    all
}

/// What is told of the columns of a file.
#[derive(Default)]
struct Told {
    units_not_said: Vec<usize>,
    remarks: Vec<Remark>,
    /// Columns that have no reading among the lines looked at.
    empty_yet: Vec<usize>,
}

/// What a file looks like by one separator.
struct Layout {
    separator: Separator,
    decimal: Decimal,
    lines_before: usize,
    heading: Vec<String>,
    rows: Vec<Vec<String>>,
    /// What cells that are numbers or times count in rows as wide as the first, which tells a good
    /// reading.
    worth: usize,
}

impl Layout {
    fn of(text: &str, separator: Separator, said: Option<Decimal>) -> Option<Self> {
        let lines: Vec<Vec<String>> = text
            .split('\n')
            .take(LINES)
            .map(|line| cells(line, separator))
            .collect();
        Decimal::ALL
            .into_iter()
            .filter(|decimal| match said {
                Some(said) => said == *decimal,
                None => !(*decimal == Decimal::Comma && separator == Separator::Comma),
            })
            .filter_map(|decimal| {
                let first = lines.iter().position(|line| is_row(line, decimal))?;
                let rows: Vec<Vec<String>> = lines
                    .iter()
                    .skip(first)
                    .filter(|line| is_row(line, decimal))
                    .cloned()
                    .collect();
                let width = rows.first()?.len();
                let worth = rows
                    .iter()
                    .filter(|row| row.len() == width)
                    .flatten()
                    .map(|cell| worth(cell, decimal))
                    .sum();
                Some(Self {
                    separator,
                    decimal,
                    lines_before: first,
                    heading: heading::headings(lines.get(..first).unwrap_or_default(), width),
                    rows,
                    worth,
                })
            })
            .max_by_key(|layout| layout.worth)
    }

    fn width(&self) -> usize {
        self.rows.first().map_or(0, Vec::len)
    }

    fn headings(&self) -> Vec<String> {
        (0..self.width())
            .map(|at| self.heading.get(at).cloned().unwrap_or_default())
            .collect()
    }

    /// All cells of a column that are not empty.
    fn cells(&self, at: usize) -> impl Iterator<Item = &str> {
        self.rows
            .iter()
            .filter_map(move |row| row.get(at))
            .map(|cell| cell.trim())
            .filter(|cell| !cell.is_empty())
    }

    /// Puts what each column is into a mapping.
    fn told(&self, text: &str, headings: &[String], mapping: &mut Mapping) -> Told {
        let mut told = Told::default();
        for at in 0..self.width() {
            let heading = headings.get(at).map_or("", String::as_str);
            let column = self.column(at, heading, &mut told);
            let zone = columns::zone_of(&column, heading);
            let zone = zone.map(|about| Remark::new(at, heading, about));
            told.remarks.extend(zone);
            mapping.columns.push(column);
        }
        columns::pair(&mut mapping.columns, headings, &mut told.remarks);
        let rows = skip_lines(text, self.lines_before);
        let empty = std::mem::take(&mut told.empty_yet);
        columns::drop_empty(rows, mapping, empty, headings, &mut told.remarks);
        told
    }

    fn column(&self, at: usize, heading: &str, told: &mut Told) -> Column {
        let earlier = |is: fn(&str) -> bool| (0..at).any(|one| self.all(one, is));
        if self.all(at, |cell| is_moment(cell) && !is_date(cell)) {
            return if earlier(|cell| is_moment(cell) && !is_date(cell)) {
                Column::LeftOut
            } else {
                Column::Moment
            };
        }
        if self.all(at, is_date) {
            let has_time = (0..self.width()).any(|one| self.all(one, is_of_day));
            return match (has_time, earlier(is_date)) {
                (true, false) => Column::Date,
                (false, false) => Column::Moment,
                (_, true) => Column::LeftOut,
            };
        }
        if self.all(at, is_of_day) {
            return if earlier(is_of_day) || !(0..self.width()).any(|one| self.all(one, is_date)) {
                Column::LeftOut
            } else {
                Column::TimeOfDay
            };
        }
        let found = columns::of_numbers(heading, self.cells(at), self.decimal);
        if found.unit_not_said {
            told.units_not_said.push(at);
        }
        if found.is_empty_yet {
            told.empty_yet.push(at);
        }
        let about = found.about;
        told.remarks
            .extend(about.map(|about| Remark::new(at, heading, about)));
        found.column
    }

    fn all(&self, at: usize, is: fn(&str) -> bool) -> bool {
        let mut cells = self.cells(at).peekable();
        cells.peek().is_some() && cells.all(is)
    }
}

fn cells(line: &str, separator: Separator) -> Vec<String> {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(line.as_bytes());
    let mut record = csv::StringRecord::new();
    match reader.read_record(&mut record) {
        Ok(true) => record.iter().map(str::to_owned).collect(),
        _ => Vec::new(),
    }
}

/// Whether a line holds a time and a number that is no part of it.
fn is_row(line: &[String], decimal: Decimal) -> bool {
    line.iter().any(|cell| is_moment(cell)) && line.iter().any(|cell| is_reading(cell, decimal))
}

/// What a cell counts. A number with a sign between its thousands counts less than one without, so that
/// `1.200` beside `7.62` is no thousand.
fn worth(cell: &str, decimal: Decimal) -> usize {
    if is_moment(cell) {
        return 2;
    }
    match number::written(cell, decimal) {
        _ if !is_reading(cell, decimal) => 0,
        Written::Number {
            is_grouped: true, ..
        } => 1,
        _ => 2,
    }
}

fn is_reading(cell: &str, decimal: Decimal) -> bool {
    !is_moment(cell) && !is_of_day(cell) && matches!(number::cell(cell, decimal), Cell::Number(_))
}

fn is_moment(cell: &str) -> bool {
    date::orders(cell)
        .into_iter()
        .any(|order| date::moment(cell, order).is_some())
}

fn is_date(cell: &str) -> bool {
    date::orders(cell)
        .into_iter()
        .any(|order| date::date(cell, order).is_some())
}

fn is_of_day(cell: &str) -> bool {
    cell.contains(':') && date::of_day(cell).is_some()
}

/// The orders that every date of a file allows, with its first and last time in each.
fn orders(text: &str, mapping: &Mapping) -> Vec<OrderReading> {
    let place = |wanted: &Column| mapping.columns.iter().position(|column| column == wanted);
    let Some(at) = place(&Column::Moment).or_else(|| place(&Column::Date)) else {
        return Vec::new();
    };
    let of_day = place(&Column::TimeOfDay);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(mapping.separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(skip_lines(text, mapping.lines_before).as_bytes());
    let mut allowed: Option<Vec<DateOrder>> = None;
    let (mut first, mut last) = (None, None);
    for (row, record) in reader.records().flatten().enumerate() {
        let Some(cell) = record.get(at) else {
            continue;
        };
        let by_cell = date::orders(cell);
        if by_cell.is_empty() {
            continue;
        }
        let stamp = (
            cell.to_owned(),
            of_day.and_then(|at| record.get(at)).map(str::to_owned),
        );
        first.get_or_insert_with(|| stamp.clone());
        last = Some(stamp);
        let before = allowed.take().unwrap_or_else(|| by_cell.clone());
        let both: Vec<DateOrder> = before
            .into_iter()
            .filter(|order| by_cell.contains(order))
            .collect();
        let settled = both.len() <= 1;
        allowed = Some(both);
        if settled && row > ROWS {
            break;
        }
    }
    let reading = |order: DateOrder, stamp: &Option<(String, Option<String>)>| {
        let (day, time) = stamp.as_ref()?;
        let moment = date::moment(day, order)?.seconds;
        let of_day = time.as_deref().and_then(date::of_day).unwrap_or(0);
        Some(written(moment + of_day))
    };
    allowed
        .unwrap_or_default()
        .into_iter()
        .filter_map(|order| {
            Some(OrderReading {
                order,
                first: reading(order, &first)?,
                last: reading(order, &last)?,
            })
        })
        .collect()
}
