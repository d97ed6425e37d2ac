//! Rows as they are taken one after another, and what is noticed on the way.

use jiff::tz::TimeZone;

use super::beside::Beside;
use super::clock::Clock;
use super::date;
use super::heading::said;
use super::mapping::{Column, Mapping, Zone};
use super::marks::Marks;
use super::number::{self, Written};
use super::places::{Places, Times};
use super::readings::Readings;
use super::refused::ReadError;
use super::rows::{LARGEST_READING, MOST_ROWS};
use super::spelled;

/// Cells of one column that hold a word where a number is expected.
#[derive(Clone, Default)]
pub(super) struct Words {
    pub(super) cells: usize,
    pub(super) line: u64,
    pub(super) found: String,
}

/// Lines or rows that were left out, and where the first is.
#[derive(Default)]
pub(super) struct Passed {
    pub(super) number: usize,
    pub(super) first: u64,
    /// What stands in the first where a time was expected, by column.
    found: (usize, String),
}

impl Passed {
    fn one(&mut self, line: u64, found: (usize, String)) {
        if self.number == 0 {
            (self.first, self.found) = (line, found);
        }
        self.number += 1;
    }

    /// As an error, where there is nearly nothing else.
    pub(super) fn refused(&self) -> ReadError {
        wrong(
            self.first,
            self.found.0,
            "a date with a time of day",
            &self.found.1,
        )
    }
}

pub(super) struct Rows<'a> {
    pub(super) places: &'a Places,
    pub(super) mapping: &'a Mapping,
    /// What stands above the first row.
    above: &'a str,
    pub(super) zone: Option<TimeZone>,
    /// Seconds since 1970, in the order of the file: of universal time where a row or an offset says
    /// it, otherwise as the clock showed them.
    pub(super) times: Vec<i64>,
    pub(super) values: Vec<Readings>,
    pub(super) words: Vec<Words>,
    pub(super) missing: usize,
    pub(super) marks: Marks,
    /// Lines without a time that readings follow, and those behind the last.
    pub(super) passed: Passed,
    pub(super) behind: Passed,
    /// Rows that end before the last column that is needed, and how many cells the first has.
    pub(super) short: Passed,
    short_cells: usize,
    /// Whether the times say their offset from universal time.
    pub(super) says_offset: bool,
    /// Whether each time is counted in one number.
    is_counted: bool,
    pub(super) beside: Beside,
}

impl<'a> Rows<'a> {
    pub(super) fn new(
        places: &'a Places,
        mapping: &'a Mapping,
        above: &'a str,
    ) -> Result<Self, ReadError> {
        let zone = match &mapping.zone {
            Zone::Named(name) => {
                Some(TimeZone::get(name).map_err(|_| ReadError::NoZone(name.clone()))?)
            }
            Zone::Unnamed | Zone::Offset(_) => None,
        };
        Ok(Self {
            places,
            mapping,
            above,
            zone,
            times: Vec::new(),
            values: vec![Readings::default(); places.readings.len()],
            words: vec![Words::default(); places.readings.len()],
            missing: 0,
            marks: Marks::default(),
            passed: Passed::default(),
            behind: Passed::default(),
            short: Passed::default(),
            short_cells: 0,
            says_offset: false,
            is_counted: false,
            beside: Beside::default(),
        })
    }

    /// Takes a row.
    pub(super) fn take(&mut self, record: &csv::ByteRecord, line: u64) -> Result<(), ReadError> {
        if record.iter().all(|cell| cell.trim_ascii().is_empty()) {
            return Ok(());
        }
        if self.times.len() >= MOST_ROWS {
            return Err(ReadError::TooManyRows);
        }
        if self.times.is_empty() {
            self.beside = Beside::of(record, self.places);
        }
        let Some(clock) = self.clock(record, line)? else {
            return self.pass_over(record, line);
        };
        if self.behind.number > 0 {
            let behind = std::mem::take(&mut self.behind);
            let number = behind.number + self.passed.number;
            if self.passed.number == 0 {
                self.passed = behind;
            }
            self.passed.number = number;
        }
        if record.len() < self.places.needed {
            self.short.one(line, (0, String::new()));
            if self.short.number == 1 {
                self.short_cells = record.len();
            }
            return Ok(());
        }
        self.readings(record, line)?;
        self.beside.row(record);
        self.times.push(clock);
        Ok(())
    }

    fn readings(&mut self, record: &csv::ByteRecord, line: u64) -> Result<(), ReadError> {
        for (slot, (column, unit)) in self.places.readings.iter().enumerate() {
            let text = String::from_utf8_lossy(record.get(*column).unwrap_or_default());
            let mut cell = number::written(&text, self.mapping.decimal);
            if cell == Written::Other {
                cell = number::written(spelled::bare(&text), self.mapping.decimal);
            }
            let value = match cell {
                Written::Number {
                    value,
                    behind: "",
                    is_grouped: false,
                } => unit.held(value),
                Written::Number {
                    value,
                    behind,
                    is_grouped,
                } => self
                    .marks
                    .held(value, *unit, (behind, is_grouped), (line, *column))
                    .map_err(|expected| wrong(line, *column, expected, &text))?,
                Written::Missing => {
                    self.missing += 1;
                    f64::NAN
                }
                Written::Other if number::says_no_reading(&text) => {
                    if let Some(words) = self.words.get_mut(slot) {
                        if words.cells == 0 {
                            (words.line, words.found) = (line, short(&text));
                        }
                        words.cells += 1;
                    }
                    f64::NAN
                }
                Written::Other => return Err(wrong(line, *column, "a number", &text)),
            };
            if value.abs() > LARGEST_READING {
                let expected = "a number below a thousand million";
                return Err(wrong(line, *column, expected, &text));
            }
            if let Some(values) = self.values.get_mut(slot) {
                values.push(value);
            }
        }
        Ok(())
    }

    /// A line that holds no time: a remark, a heading once more, a summary.
    fn pass_over(&mut self, record: &csv::ByteRecord, line: u64) -> Result<(), ReadError> {
        if let Some((column, found)) = self.other_heading(record) {
            return Err(ReadError::OtherHeadings {
                line,
                column: column + 1,
                found,
            });
        }
        let column = match self.places.times {
            Times::Moment(at) | Times::Apart { date: at, .. } => at,
        };
        let found = String::from_utf8_lossy(record.get(column).unwrap_or_default());
        self.behind.one(line, (column, found.into_owned()));
        Ok(())
    }

    /// The column that a heading among the rows calls otherwise than the mapping does, where the line is a
    /// heading and none of those above the first row.
    fn other_heading(&self, record: &csv::ByteRecord) -> Option<(usize, String)> {
        let mut other = None;
        for (at, column) in self.mapping.columns.iter().enumerate() {
            let Column::Readings { what, unit, .. } = column else {
                continue;
            };
            let text = String::from_utf8_lossy(record.get(at).unwrap_or_default());
            let said = said(&text)?;
            if said.what != *what || said.unit.is_some_and(|said| said != *unit) {
                other.get_or_insert((at, short(&text)));
            }
        }
        let (other, mut above) = (other?, csv::ByteRecord::new());
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(self.mapping.separator.byte())
            .has_headers(false)
            .flexible(true)
            .from_reader(self.above.as_bytes());
        while reader.read_byte_record(&mut above).unwrap_or(false) {
            if above == *record {
                return None;
            }
        }
        Some(other)
    }

    /// The time of a row, of universal time where that is said; `None` where it holds none at all.
    fn clock(&mut self, record: &csv::ByteRecord, line: u64) -> Result<Option<i64>, ReadError> {
        let cell = |at: usize| String::from_utf8_lossy(record.get(at).unwrap_or_default());
        let is_first = self.times.is_empty();
        let clock = match self.places.times {
            Times::Moment(at) => {
                let text = self.beside.with_half(cell(at), record);
                let read = match self.is_counted {
                    true => spelled::counted(&text),
                    false => date::moment(&text, self.places.order),
                };
                let read = read.or_else(|| {
                    let counted = spelled::counted(&text).filter(|_| is_first)?;
                    self.is_counted = true;
                    Some(counted)
                });
                match read {
                    Some(clock) => clock,
                    None if is_first || is_nearly_a_time(&text) => {
                        return Err(wrong(line, at, "a date with a time of day", &text));
                    }
                    None => return Ok(None),
                }
            }
            Times::Apart { date: at, of_day } => {
                let (date_text, time_text) =
                    (cell(at), self.beside.with_half(cell(of_day), record));
                let Some(day) = date::moment(&date_text, self.places.order) else {
                    return if is_first || is_nearly_a_time(&date_text) {
                        Err(wrong(line, at, "a date", &date_text))
                    } else {
                        Ok(None)
                    };
                };
                let seconds = date::of_day(&time_text)
                    .ok_or_else(|| wrong(line, of_day, "a time of day", &time_text))?;
                self.beside.one_kind(&time_text).ok_or_else(|| {
                    wrong(
                        line,
                        of_day,
                        "a time of day as in the rows above",
                        &time_text,
                    )
                })?;
                Clock {
                    seconds: day.seconds + seconds,
                    offset_s: None,
                }
            }
        };
        let offset_s = match self.beside.offset {
            None => clock.offset_s,
            Some(at) => Some(
                spelled::offset_alone(&cell(at))
                    .ok_or_else(|| wrong(line, at, "an offset from universal time", &cell(at)))?,
            ),
        };
        if is_first {
            self.says_offset = offset_s.is_some();
        } else if self.says_offset != offset_s.is_some() {
            let (at, expected) = match (self.places.times, self.says_offset) {
                (Times::Moment(at), true) => {
                    (at, "an offset behind the time, as in the rows above,")
                }
                (Times::Moment(at), false) => {
                    (at, "a time without an offset, as in the rows above,")
                }
                (Times::Apart { date, .. }, _) => (date, "a date"),
            };
            return Err(wrong(line, at, expected, &cell(at)));
        }
        Ok(Some(clock.seconds - offset_s.unwrap_or(0)))
    }

    /// What has to be refused after all rows: what is left out may not be most of the file.
    pub(super) fn too_much_left_out(&self) -> Option<ReadError> {
        let rows = self.times.len();
        for (slot, words) in self.words.iter().enumerate() {
            let values = self.values.get(slot)?;
            let numbers = values.iter().filter(|value| !value.is_nan());
            if words.cells > 0 && words.cells * 2 > numbers.count() {
                let (column, _) = self.places.readings.get(slot)?;
                return Some(wrong(words.line, *column, "a number", &words.found));
            }
        }
        if self.short.number * 2 > rows {
            return Some(ReadError::ShortRow {
                line: self.short.first,
                cells: self.short_cells,
                expected: self.mapping.columns.len(),
            });
        }
        if rows == 0 {
            return Some(ReadError::NoReadings);
        }
        let passed = &self.passed;
        (passed.number > rows).then(|| passed.refused())
    }
}

/// Whether a text that is no time was meant as one: it begins with a digit and has as many as a date.
fn is_nearly_a_time(text: &str) -> bool {
    let text = spelled::bare(text);
    let digits = text.bytes().filter(u8::is_ascii_digit).count();
    text.starts_with(|sign: char| sign.is_ascii_digit()) && digits >= 6
}

/// A cell as it is told, cut short.
pub(super) fn short(text: &str) -> String {
    let mut short: String = text.trim().chars().take(40).collect();
    if short.len() < text.trim().len() {
        short.push('…');
    }
    short
}

pub(super) fn wrong(line: u64, column: usize, expected: &'static str, found: &str) -> ReadError {
    ReadError::Cell {
        line,
        column: column + 1,
        expected,
        found: short(found),
    }
}
