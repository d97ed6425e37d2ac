//! How a file is likely to be read, and what only its owner can say.

use std::borrow::Cow;

use csv_nose::{SampleSize, Sniffer};

use super::beginning::Beginning;
use super::cells::{cells, is_counted, is_moment, is_of_day, worth};
use super::columns;
use super::date::{self, DateOrder};
use super::decode::Encoding;
use super::heading;
use super::mapping::{Column, Mapping, Separator, Zone};
use super::nearest;
use super::notes::Note;
use super::number::{self, Decimal, Written};
use super::orders::{OrderReading, orders};
use super::read::{skip_lines, text};
use super::refused::ReadError;
use super::remark::Remark;
use super::rows::{MOST_COLUMNS, MOST_LINE_BYTES};
use super::shifted;
use super::spelled;
use super::spreadsheet;
use super::timing;

/// Lines looked at to find separator, headings and columns.
const LINES: usize = 200;

/// A likely mapping, the first rows by it, and what has to be asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Guess {
    /// The mapping. Its order is `None` where dates can be read in more than one way.
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
            Layout::of(text, Separator::Comma, None, is_moment)
                .map_or(0, |layout| layout.rows.len())
        };
        let chosen = spreadsheet::chosen(bytes, &given.sheet, rows)?;
        mapping.sheet = chosen.sheet;
        (Cow::Owned(chosen.text), chosen.sheets, chosen.notes)
    } else {
        (text(bytes, &mapping)?.0, Vec::new(), Vec::new())
    };
    bounded(&text)?;
    let separators: Vec<Separator> = separators(&text, is_workbook)
        .into_iter()
        .filter(|separator| is_workbook || given.separator.is_none_or(|said| said == *separator))
        .collect();
    let best = |is_time: fn(&str) -> bool| {
        let all = separators.iter();
        all.filter_map(|separator| Layout::of(&text, *separator, decimal, is_time))
            .max_by_key(|layout| layout.worth)
    };
    // Where no time is written as one, it may be counted.
    let counted = || best(is_counted).filter(Layout::has_time);
    let mut best = best(is_moment)
        .or_else(counted)
        .ok_or_else(|| nearest::refused(&text, &separators, LINES))?;
    shifted::set_right(&mut best.heading, &best.rows, best.width, best.lines_before)?;
    mapping.separator = best.separator;
    mapping.decimal = best.settled_decimal(&text, decimal);
    mapping.lines_before = best.lines_before;
    let headings = best.headings();
    let told = best.told(&text, &headings, &mut mapping);
    mapping.zone = zone(&best.rows, &mapping.columns);
    let orders = orders(&text, &mapping);
    if let [only] = orders.as_slice() {
        mapping.order = Some(only.order);
    } else if orders.is_empty() {
        // What is counted in one number has no order.
        mapping.order = Some(DateOrder::YearMonthDay);
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
    width: usize,
    heading: Vec<String>,
    rows: Vec<Vec<String>>,
    /// What cells that are numbers or times count in rows as wide as the first, which tells a good
    /// reading.
    worth: usize,
}

impl Layout {
    fn of(
        text: &str,
        separator: Separator,
        said: Option<Decimal>,
        is_time: fn(&str) -> bool,
    ) -> Option<Self> {
        let lines: Vec<Vec<String>> = text
            .split('\n')
            .take(LINES)
            .map(|line| cells(line, separator))
            .collect();
        Decimal::ALL
            .into_iter()
            // Where both read alike, a point stands before decimals.
            .rev()
            .filter(|decimal| said.is_none_or(|said| said == *decimal))
            .filter_map(|decimal| {
                let Beginning { first, width, rows } = Beginning::of(&lines, decimal, is_time)?;
                let worth = rows
                    .iter()
                    .filter(|row| row.len() == width)
                    .flatten()
                    .map(|cell| worth(cell, decimal, is_time))
                    .sum();
                Some(Self {
                    separator,
                    decimal,
                    lines_before: first,
                    width,
                    heading: heading::headings(
                        &shifted::above(text, separator, &lines, first),
                        width,
                    ),
                    rows,
                    worth,
                })
            })
            .max_by_key(|layout| layout.worth)
    }

    fn width(&self) -> usize {
        self.width
    }

    /// Whether a column holds times that are counted.
    fn has_time(&self) -> bool {
        let times = timing::columns(&self.rows, &self.headings());
        times.contains(&Some(Column::Moment))
    }

    /// The sign before decimals, looked for in all rows where the first tell nothing.
    fn settled_decimal(&self, text: &str, said: Option<Decimal>) -> Decimal {
        let tells = |cell: &str| {
            // A sign between thousands may be one before decimals, and tells nothing.
            let number = |decimal| {
                let written = number::written(cell, decimal);
                matches!(
                    written,
                    Written::Number {
                        is_grouped: false,
                        ..
                    }
                )
            };
            match (number(Decimal::Point), number(Decimal::Comma)) {
                (true, false) => Some(Decimal::Point),
                (false, true) => Some(Decimal::Comma),
                _ => None,
            }
        };
        let tells = |cell: &str| tells(cell).filter(|_| !is_moment(cell) && !is_of_day(cell));
        let of_first = |row: &Vec<String>| row.iter().any(|cell| tells(cell).is_some());
        if said.is_some() || self.separator == Separator::Comma || self.rows.iter().any(of_first) {
            return self.decimal;
        }
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(self.separator.byte())
            .has_headers(false)
            .flexible(true)
            .from_reader(skip_lines(text, self.lines_before).as_bytes());
        let mut record = csv::StringRecord::new();
        while reader.read_record(&mut record).unwrap_or(false) {
            // A dot or comma alone is looked at closer.
            let mut cells = record.iter().filter(|cell| cell.contains(['.', ',']));
            if let Some(decimal) = cells.find_map(tells) {
                return decimal;
            }
        }
        self.decimal
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
        let (times, mut told) = (timing::columns(&self.rows, headings), Told::default());
        for at in 0..self.width() {
            let heading = headings.get(at).map_or("", String::as_str);
            let column = match times.get(at).cloned().flatten() {
                Some(column) => column,
                None => self.column(at, heading, &mut told),
            };
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

    /// What a column is that holds no times.
    fn column(&self, at: usize, heading: &str, told: &mut Told) -> Column {
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
}

/// The offset that all times of the first rows say; none but that of universal time itself where they
/// differ, as over the end of summer time.
fn zone(rows: &[Vec<String>], columns: &[Column]) -> Zone {
    let Some(at) = columns.iter().position(|column| *column == Column::Moment) else {
        return Zone::Unnamed;
    };
    let offset = |row: &Vec<String>| {
        let cell = row.get(at)?;
        let order = date::orders(cell).into_iter().next();
        let beside = || {
            let mut left_out = columns
                .iter()
                .zip(row)
                .filter(|(column, _)| **column == Column::LeftOut);
            left_out.find_map(|(_, cell)| spelled::offset_alone(cell))
        };
        let said = match order {
            Some(order) => date::moment(cell, order)?.offset_s,
            None => spelled::counted(cell)?.offset_s,
        };
        beside().or(said)
    };
    let offsets: Vec<Option<i64>> = rows.iter().map(offset).collect();
    match offsets.first() {
        Some(Some(first)) if offsets.iter().all(|one| *one == Some(*first)) => Zone::Offset(*first),
        Some(Some(_)) => Zone::Offset(0),
        _ => Zone::Unnamed,
    }
}
