//! How a file is likely to be read, and what only its owner can say.

use csv_nose::{SampleSize, Sniffer};

use super::beginning::Beginning;
use super::date::{self, DateOrder};
use super::decode::Encoding;
use super::heading::said;
use super::mapping::{Column, Mapping, Separator, Unit, What, Zone};
use super::nearest;
use super::number::{self, Cell, Decimal};
use super::orders::orders;
use super::read::{skip_lines, text};
use super::refused::ReadError;
use super::shifted;
use super::spelled;
use super::spreadsheet;
use super::timing;

/// Lines looked at to find separator, headings and columns.
const LINES: usize = 200;

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
    /// Sheets of a spreadsheet.
    pub sheets: Vec<String>,
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
    /// Sheet of a spreadsheet; the first where none is named.
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
    let sheets = if is_workbook {
        spreadsheet::sheets(bytes)?
    } else {
        Vec::new()
    };
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
    let (text, _) = text(bytes, &mapping)?;
    let separators: Vec<Separator> = separators(&text, is_workbook)
        .into_iter()
        .filter(|separator| is_workbook || given.separator.is_none_or(|said| said == *separator))
        .collect();
    let best = |is_time: fn(&str) -> bool| {
        let all = separators.iter();
        all.filter_map(|separator| Layout::of(&text, *separator, given.decimal, is_time))
            .max_by_key(|layout| layout.worth)
    };
    // Where no time is written as one, it may be counted.
    let counted = || best(is_counted).filter(Layout::has_time);
    let mut best = best(is_moment)
        .or_else(counted)
        .ok_or_else(|| nearest::refused(&text, &separators, LINES))?;
    shifted::set_right(&mut best.heading, &best.rows, best.width, best.lines_before)?;
    mapping.separator = best.separator;
    mapping.decimal = best.settled_decimal(&text, given.decimal);
    mapping.lines_before = best.lines_before;
    let headings = best.headings();
    let times = timing::columns(&best.rows, &headings);
    let mut units_not_said = Vec::new();
    mapping.columns = (0..best.width())
        .map(|at| match times.get(at).cloned().flatten() {
            Some(column) => column,
            None => best.column(at, &headings, &mut units_not_said),
        })
        .collect();
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
        units_not_said,
        sheets,
    })
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

/// What a file looks like by one separator.
struct Layout {
    separator: Separator,
    decimal: Decimal,
    lines_before: usize,
    width: usize,
    heading: Vec<String>,
    rows: Vec<Vec<String>>,
    /// Cells that are numbers or times in rows as wide as the first, which tells a good reading.
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
                    .filter(|cell| is_reading(cell, decimal) || is_time(cell))
                    .count();
                Some(Self {
                    separator,
                    decimal,
                    lines_before: first,
                    width,
                    heading: heading(&shifted::above(text, separator, &lines, first), width),
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
            let number = |decimal| matches!(number::cell(cell, decimal), Cell::Number(_));
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

    fn column(&self, at: usize, headings: &[String], units_not_said: &mut Vec<usize>) -> Column {
        let heading = headings.get(at).map_or("", String::as_str);
        let numbers = self
            .cells(at)
            .filter(|cell| matches!(number::cell(cell, self.decimal), Cell::Number(_)))
            .count();
        match said(heading) {
            Some(said) if numbers > 0 => {
                let unit = said.unit.or_else(|| self.unit_behind(at, said.what));
                if unit.is_none() && said.what.units().len() > 1 {
                    units_not_said.push(at);
                }
                Column::Readings {
                    what: said.what,
                    unit: unit.unwrap_or_else(|| said.what.held_in()),
                    sensor: said.sensor,
                }
            }
            _ => Column::LeftOut,
        }
    }

    /// The unit behind the numbers of a column, `12.5 °F`.
    fn unit_behind(&self, at: usize, what: What) -> Option<Unit> {
        let cell = self.cells(at).next()?;
        what.units()
            .iter()
            .copied()
            .find(|unit| cell.ends_with(unit.sign()))
    }
}

/// The last line above the readings that is wide enough; a line of units below the headings is put
/// behind them.
fn heading(above: &[Vec<String>], width: usize) -> Vec<String> {
    let full = |line: &&Vec<String>| {
        line.len() >= width.min(2) && line.iter().filter(|cell| !cell.trim().is_empty()).count() > 1
    };
    let mut wide = above.iter().rev().filter(full);
    let Some(last) = wide.next() else {
        return Vec::new();
    };
    let are_units = last
        .iter()
        .all(|cell| cell.chars().count() <= 8 && !cell.chars().any(|sign| sign.is_ascii_digit()))
        && last.iter().any(|cell| cell.contains(['%', '°', '/']));
    let is_time = |line: &Vec<String>| line.iter().any(|cell| is_moment(cell));
    match wide.next().filter(|above| are_units && !is_time(above)) {
        Some(names) => names
            .iter()
            .enumerate()
            .map(|(at, name)| {
                let unit = last.get(at).map_or("", String::as_str);
                format!("{} {unit}", name.trim()).trim().to_owned()
            })
            .collect(),
        None => last.iter().map(|cell| cell.trim().to_owned()).collect(),
    }
}

pub(super) fn cells(line: &str, separator: Separator) -> Vec<String> {
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(line.as_bytes());
    let mut record = csv::StringRecord::new();
    match reader.read_record(&mut record) {
        Ok(true) => record
            .iter()
            .map(|cell| unquoted(cell).to_owned())
            .collect(),
        _ => Vec::new(),
    }
}

/// A cell without the quotes that keep a spreadsheet from changing it.
fn unquoted(cell: &str) -> &str {
    if cell.starts_with(['\'', '=']) {
        spelled::bare(cell)
    } else {
        cell
    }
}

/// Whether a line holds a time and a number that is no part of it.
pub(super) fn is_row(line: &[String], decimal: Decimal, is_time: fn(&str) -> bool) -> bool {
    let is_number = |cell: &String| is_reading(cell, decimal) && !is_time(cell);
    line.iter().any(|cell| is_time(cell)) && line.iter().any(is_number)
}

fn is_reading(cell: &str, decimal: Decimal) -> bool {
    let is_number = |cell: &str| matches!(number::cell(cell, decimal), Cell::Number(_));
    !is_moment(cell) && !is_of_day(cell) && (is_number(cell) || is_number(spelled::bare(cell)))
}

pub(super) fn is_moment(cell: &str) -> bool {
    date::orders(cell)
        .into_iter()
        .any(|order| date::moment(cell, order).is_some())
}

fn is_counted(cell: &str) -> bool {
    spelled::counted(cell).is_some()
}

pub(super) fn is_date(cell: &str) -> bool {
    date::orders(cell)
        .into_iter()
        .any(|order| date::date(cell, order).is_some())
}

pub(super) fn is_of_day(cell: &str) -> bool {
    cell.contains(':') && date::of_day(cell).is_some()
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
