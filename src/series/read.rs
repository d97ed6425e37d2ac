//! Rows by a mapping.

use std::borrow::Cow;
use std::ops::ControlFlow;
use std::sync::Arc;

use jiff::tz::{AmbiguousOffset, TimeZone};

use super::date::{self, DateOrder};
use super::decode::decode;
use super::mapping::{Column, Mapping, Unit, Zone};
use super::marks::Marks;
use super::notes::Note;
use super::number::{self, Written};
use super::readings::Readings;
use super::refused::ReadError;
use super::rows::{Channel, LARGEST_READING, MOST_BYTES, MOST_ROWS, Series};
use super::spreadsheet;
use crate::physics::counts::count;

/// The text of a file by a mapping.
pub(super) fn text<'a>(
    bytes: &'a [u8],
    mapping: &Mapping,
) -> Result<(Cow<'a, str>, bool), ReadError> {
    if bytes.len() > MOST_BYTES {
        return Err(ReadError::TooLarge);
    }
    if spreadsheet::is_workbook(bytes) {
        return Ok((Cow::Owned(spreadsheet::text(bytes, &mapping.sheet)?), false));
    }
    if bytes.contains(&0) && mapping.encoding.name() == "UTF-8" {
        return Err(ReadError::NoText("UTF-8"));
    }
    let decoded = decode(bytes, mapping.encoding);
    Ok((decoded.text, decoded.has_replaced))
}

/// Reads all rows by a mapping.
///
/// Rows are put in order of time; a time that comes twice is kept once. What was done is told in
/// [`Series::notes`].
///
/// # Errors
/// With line and column where a cell is not what its column holds; lines behind the last reading that
/// hold no time are not an error, but told.
pub fn read(bytes: &[u8], mapping: &Mapping) -> Result<Series, ReadError> {
    read_watched(bytes, mapping, &mut |_| ControlFlow::Continue(()))
}

/// Rows after which it is told how far reading has come.
const TOLD_EVERY: usize = 20_000;

/// Reads as [`read()`] does; `watch` hears which share of the text is read, 0…1, and may stop it.
///
/// # Errors
/// As [`read()`]; [`ReadError::Stopped`] where `watch` said so.
pub fn read_watched(
    bytes: &[u8],
    mapping: &Mapping,
    watch: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> Result<Series, ReadError> {
    let (text, has_replaced) = text(bytes, mapping)?;
    let start = skip_lines(&text, mapping.lines_before);
    let mut series = of_text(start, mapping, watch)?;
    if has_replaced {
        series.notes.push(Note::Replaced);
    }
    Ok(series)
}

/// The first rows by a mapping, so many lines of them: to look at before all is read.
///
/// # Errors
/// As [`read()`].
pub fn preview(bytes: &[u8], mapping: &Mapping, lines: usize) -> Result<Series, ReadError> {
    let (text, _) = text(bytes, mapping)?;
    let start = skip_lines(&text, mapping.lines_before);
    let behind = skip_lines(start, lines).len();
    let first = start.get(..start.len() - behind).unwrap_or(start);
    of_text(first, mapping, &mut |_| ControlFlow::Continue(()))
}

/// Rows of a text that begins with the first of them.
fn of_text(
    start: &str,
    mapping: &Mapping,
    watch: &mut dyn FnMut(f64) -> ControlFlow<()>,
) -> Result<Series, ReadError> {
    let places = Places::of(mapping)?;
    let mut rows = Rows::new(&places, mapping)?;
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(mapping.separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(start.as_bytes());
    let mut record = csv::ByteRecord::new();
    while reader
        .read_byte_record(&mut record)
        .map_err(|_| ReadError::NoReadings)?
    {
        if rows.times.len() % TOLD_EVERY == 0 {
            let at = record.position().map_or(0, csv::Position::byte);
            let share = share(at, start.len());
            if watch(share).is_break() {
                return Err(ReadError::Stopped);
            }
        }
        let line = record.position().map_or(0, |at| line_of(at, start));
        let line = line + u64::try_from(mapping.lines_before).unwrap_or(0);
        if !rows.take(&record, line)? {
            break;
        }
    }
    rows.into_series(mapping)
}

/// The line that a record begins in. Where lines end in two characters, the reader takes the second for
/// the beginning of the next record, and that one for a line too few.
fn line_of(record: &csv::Position, text: &str) -> u64 {
    let at = usize::try_from(record.byte()).unwrap_or(usize::MAX);
    let behind = text.as_bytes().get(at) == Some(&b'\n');
    record.line() + u64::from(behind)
}

/// Which share of a text is read.
fn share(at: u64, all: usize) -> f64 {
    let at = usize::try_from(at).unwrap_or(all);
    count(at) / count(all.max(1))
}

/// The text behind its first lines.
pub(super) fn skip_lines(text: &str, lines: usize) -> &str {
    let mut rest = text;
    for _ in 0..lines {
        match rest.split_once('\n') {
            Some((_, behind)) => rest = behind,
            None => return "",
        }
    }
    rest
}

/// Where the times stand.
enum Times {
    Moment(usize),
    Apart { date: usize, of_day: usize },
}

struct Places {
    times: Times,
    order: DateOrder,
    readings: Vec<(usize, Unit)>,
}

impl Places {
    fn of(mapping: &Mapping) -> Result<Self, ReadError> {
        let find = |wanted: &Column| mapping.columns.iter().position(|column| column == wanted);
        let times = match (
            find(&Column::Moment),
            find(&Column::Date),
            find(&Column::TimeOfDay),
        ) {
            (Some(at), ..) => Times::Moment(at),
            (None, Some(date), Some(of_day)) => Times::Apart { date, of_day },
            (None, Some(_), None) => return Err(ReadError::NoColumn("the time of day")),
            _ => return Err(ReadError::NoColumn("date and time")),
        };
        let readings: Vec<(usize, Unit)> = mapping
            .columns
            .iter()
            .enumerate()
            .filter_map(|(at, column)| match column {
                Column::Readings { unit, .. } => Some((at, *unit)),
                _ => None,
            })
            .collect();
        if readings.is_empty() {
            return Err(ReadError::NoColumn("readings"));
        }
        Ok(Self {
            times,
            order: mapping.order.ok_or(ReadError::OrderNotSaid)?,
            readings,
        })
    }
}

struct Rows<'a> {
    places: &'a Places,
    mapping: &'a Mapping,
    zone: Option<TimeZone>,
    times: Vec<i64>,
    values: Vec<Readings>,
    odd_times: usize,
    missing: usize,
    marks: Marks,
    ends: Option<u64>,
    last_clock: Option<i64>,
}

impl<'a> Rows<'a> {
    fn new(places: &'a Places, mapping: &'a Mapping) -> Result<Self, ReadError> {
        let zone = match &mapping.zone {
            Zone::Named(name) => {
                Some(TimeZone::get(name).map_err(|_| ReadError::NoZone(name.clone()))?)
            }
            Zone::Unnamed | Zone::Offset(_) => None,
        };
        Ok(Self {
            places,
            mapping,
            zone,
            times: Vec::new(),
            values: vec![Readings::default(); places.readings.len()],
            odd_times: 0,
            missing: 0,
            marks: Marks::default(),
            ends: None,
            last_clock: None,
        })
    }

    /// Takes a row; false where the readings have ended.
    fn take(&mut self, record: &csv::ByteRecord, line: u64) -> Result<bool, ReadError> {
        if record.iter().all(<[u8]>::is_empty) {
            return Ok(true);
        }
        if self.times.len() >= MOST_ROWS {
            return Err(ReadError::TooManyRows);
        }
        let Some(clock) = self.clock(record, line)? else {
            self.ends = Some(line);
            return Ok(false);
        };
        let expected = self.mapping.columns.len();
        for (slot, (column, unit)) in self.places.readings.iter().enumerate() {
            let Some(bytes) = record.get(*column) else {
                return Err(ReadError::ShortRow {
                    line,
                    cells: record.len(),
                    expected,
                });
            };
            let text = String::from_utf8_lossy(bytes);
            let value = match number::written(&text, self.mapping.decimal) {
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
        self.times.push(clock);
        Ok(true)
    }

    /// The time of a row on the axis of the series; `None` where it holds none at all.
    fn clock(&mut self, record: &csv::ByteRecord, line: u64) -> Result<Option<i64>, ReadError> {
        let cell = |at: usize| String::from_utf8_lossy(record.get(at).unwrap_or_default());
        let (seconds, offset) = match self.places.times {
            Times::Moment(at) => {
                let text = cell(at);
                match date::moment(&text, self.places.order) {
                    Some(clock) => (clock.seconds, clock.offset_s),
                    None if !holds_a_digit(&text) && !self.times.is_empty() => return Ok(None),
                    None => return Err(wrong(line, at, "a date with a time of day", &text)),
                }
            }
            Times::Apart { date: at, of_day } => {
                let (date_text, time_text) = (cell(at), cell(of_day));
                if !holds_a_digit(&date_text) && !self.times.is_empty() {
                    return Ok(None);
                }
                let day = date::moment(&date_text, self.places.order)
                    .ok_or_else(|| wrong(line, at, "a date", &date_text))?;
                let seconds = date::of_day(&time_text)
                    .ok_or_else(|| wrong(line, of_day, "a time of day", &time_text))?;
                (day.seconds + seconds, None)
            }
        };
        Ok(Some(
            self.placed(seconds, offset) - self.mapping.clock_ahead_s,
        ))
    }

    /// A clock's reading as universal time, where the zone is known.
    fn placed(&mut self, seconds: i64, offset: Option<i64>) -> i64 {
        if let Some(offset) = offset {
            return seconds - offset;
        }
        let placed = match (&self.mapping.zone, &self.zone) {
            (Zone::Offset(ahead), _) => seconds - ahead,
            (_, Some(zone)) => {
                let (placed, is_odd) = in_zone(zone, seconds, self.last_clock);
                self.odd_times += usize::from(is_odd);
                placed
            }
            _ => seconds,
        };
        self.last_clock = Some(placed);
        placed
    }

    fn into_series(mut self, mapping: &Mapping) -> Result<Series, ReadError> {
        if self.times.is_empty() {
            return Err(ReadError::NoReadings);
        }
        let mut notes = Vec::new();
        if self.times.is_sorted_by(|one, next| one < next) {
            // As nearly every logger writes them: nothing is to be put in order, nothing doubled.
            notes.extend(self.last_notes());
            return Ok(Series {
                channels: channels(mapping, std::mem::take(&mut self.values)),
                times_s: Arc::new(self.times),
                notes,
            });
        }
        if matches!(mapping.zone, Zone::Unnamed)
            && let Some(at) = went_back(&self.times)
        {
            notes.push(Note::WentBackAnHour(at));
        }
        let mut order: Vec<usize> = (0..self.times.len()).collect();
        let time = |at: usize| self.times.get(at).copied().unwrap_or_default();
        let out_of_order = self
            .times
            .windows(2)
            .filter(|pair| matches!(pair, [one, next] if next < one))
            .count();
        if out_of_order > 0 {
            order.sort_by_key(|at| time(*at));
            notes.push(Note::PutInOrder(out_of_order));
        }
        let same = |one: usize, other: usize| {
            self.values.iter().all(|values| {
                let value = |at: usize| values.get(at).map(|value| value.to_bits());
                value(one) == value(other)
            })
        };
        let (mut kept, mut doubled, mut conflicting, mut first) =
            (Vec::with_capacity(order.len()), 0, 0, None);
        for at in order {
            match kept.last() {
                Some(last) if time(*last) == time(at) => {
                    if same(*last, at) {
                        doubled += 1;
                    } else {
                        conflicting += 1;
                        first.get_or_insert(time(at));
                    }
                }
                _ => kept.push(at),
            }
        }
        notes.extend((doubled > 0).then_some(Note::Doubled(doubled)));
        notes.extend(first.map(|first| Note::Conflicting(conflicting, first)));
        notes.extend(self.last_notes());
        let in_order = |values: &Readings| {
            let kept = kept.iter();
            kept.filter_map(|at| values.get(*at)).collect()
        };
        let values = self.values.iter().map(in_order).collect();
        Ok(Series {
            times_s: Arc::new(kept.iter().map(|at| time(*at)).collect()),
            channels: channels(mapping, values),
            notes,
        })
    }

    /// What was noticed on the way, after what was done to the order.
    fn last_notes(&self) -> impl Iterator<Item = Note> {
        let summer = (self.odd_times > 0).then_some(Note::SummerTime(self.odd_times));
        let missing = (self.missing > 0).then_some(Note::Missing(self.missing));
        let [units, thousands] = self.marks.notes();
        [summer, missing, units, thousands, self.ends.map(Note::Ends)]
            .into_iter()
            .flatten()
    }
}

/// The columns of readings with their values.
fn channels(mapping: &Mapping, values: Vec<Readings>) -> Vec<Channel> {
    let columns = mapping.columns.iter().filter_map(|column| match column {
        Column::Readings { what, sensor, .. } => Some((*what, sensor.clone())),
        _ => None,
    });
    columns
        .zip(values)
        .map(|((what, sensor), values)| Channel {
            sensor,
            what,
            values,
        })
        .collect()
}

/// Where the clock goes back by an hour less one step and runs on from there.
fn went_back(times: &[i64]) -> Option<i64> {
    times.windows(3).find_map(|three| match three {
        [before, back, on] if (-3600..=-1800).contains(&(back - before)) && on > back => {
            Some(*before)
        }
        _ => None,
    })
}

/// A civil time of a zone as universal time, and whether the zone does not have it or has it twice
/// without what came before telling which.
fn in_zone(zone: &TimeZone, seconds: i64, last: Option<i64>) -> (i64, bool) {
    let Ok(stamp) = jiff::Timestamp::from_second(seconds) else {
        return (seconds, true);
    };
    let civil = jiff::tz::Offset::UTC.to_datetime(stamp);
    match zone.to_ambiguous_timestamp(civil).offset() {
        AmbiguousOffset::Unambiguous { offset } => (seconds - i64::from(offset.seconds()), false),
        AmbiguousOffset::Gap { before, .. } => (seconds - i64::from(before.seconds()), true),
        AmbiguousOffset::Fold { before, after } => {
            let early = seconds - i64::from(before.seconds());
            let late = seconds - i64::from(after.seconds());
            match last {
                Some(last) if early > last => (early, false),
                Some(_) => (late, false),
                None => (early, true),
            }
        }
    }
}

fn holds_a_digit(text: &str) -> bool {
    text.bytes().any(|byte| byte.is_ascii_digit())
}

fn wrong(line: u64, column: usize, expected: &'static str, found: &str) -> ReadError {
    let mut short: String = found.trim().chars().take(40).collect();
    if short.len() < found.trim().len() {
        short.push('…');
    }
    ReadError::Cell {
        line,
        column: column + 1,
        expected,
        found: short,
    }
}
