//! Dates and times of day, by a stated order of day, month and year.

use jiff::tz::Offset;

use super::clock::Clock;
use super::spelled;

/// The order in which a date is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum DateOrder {
    /// Year, month, day.
    YearMonthDay,
    /// Day, month, year.
    DayMonthYear,
    /// Month, day, year.
    MonthDayYear,
}

impl DateOrder {
    /// All, in the order offered.
    pub const ALL: [Self; 3] = [Self::YearMonthDay, Self::DayMonthYear, Self::MonthDayYear];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::YearMonthDay => "year, month, day",
            Self::DayMonthYear => "day, month, year",
            Self::MonthDayYear => "month, day, year",
        }
    }
}

const DAY: i64 = 86_400;

/// Days since the start of 1970 of a date; `None` where the calendar has no such day.
fn days(year: i64, month: i64, day: i64) -> Option<i64> {
    let date = jiff::civil::Date::new(
        i16::try_from(year).ok()?,
        i8::try_from(month).ok()?,
        i8::try_from(day).ok()?,
    )
    .ok()?;
    let midnight = Offset::UTC.to_timestamp(date.at(0, 0, 0, 0)).ok()?;
    Some(midnight.as_second().div_euclid(DAY))
}

/// Reads on from a place in a text.
struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Reader<'_> {
    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn skip(&mut self, what: impl Fn(u8) -> bool) {
        while self.peek().is_some_and(&what) {
            self.at += 1;
        }
    }

    fn take(&mut self, what: u8) -> bool {
        let there = self.peek() == Some(what);
        if there {
            self.at += 1;
        }
        there
    }

    /// A number of at most `most` digits, with how many there were.
    fn number(&mut self, most: usize) -> Option<(i64, usize)> {
        let (start, mut value) = (self.at, 0_i64);
        while self.at - start < most
            && let Some(digit) = self.peek().filter(u8::is_ascii_digit)
        {
            value = value * 10 + i64::from(digit - b'0');
            self.at += 1;
        }
        (self.at > start).then_some((value, self.at - start))
    }

    fn is_done(&self) -> bool {
        self.at >= self.bytes.len()
    }
}

/// A date's three numbers as they stand, the sign between them, and the digits of the first and last.
fn parts(reader: &mut Reader<'_>) -> Option<([(i64, usize); 3], u8)> {
    let first = reader.number(8)?;
    if first.1 == 8 {
        // 20260115
        let (year, rest) = (first.0 / 10_000, first.0 % 10_000);
        return Some(([(year, 4), (rest / 100, 2), (rest % 100, 2)], b' '));
    }
    let sign = reader
        .peek()
        .filter(|sign| matches!(sign, b'-' | b'/' | b'.'))?;
    reader.at += 1;
    let second = reader.number(2)?;
    if !reader.take(sign) {
        return None;
    }
    let third = reader.number(4)?;
    Some(([first, second, third], sign))
}

/// Days since 1970 of the three numbers in an order; `None` where they are no date in it.
fn in_order(numbers: [(i64, usize); 3], order: DateOrder) -> Option<i64> {
    let [first, second, third] = numbers;
    let (year, month, day) = match order {
        DateOrder::YearMonthDay => (first, second, third),
        DateOrder::DayMonthYear => (third, second, first),
        DateOrder::MonthDayYear => (third, first, second),
    };
    let full = match year.1 {
        4 => year.0,
        2 => 2000 + year.0,
        _ => return None,
    };
    if !(1970..=2100).contains(&full) {
        return None;
    }
    days(full, month.0, day.0)
}

/// A time of day in seconds: `13:05`, `13:05:30`, `1:05:30.250 PM`, `13.05`.
fn time_of_day(reader: &mut Reader<'_>) -> Option<i64> {
    let (mut hour, _) = reader.number(2)?;
    let sign = reader.peek().filter(|sign| matches!(sign, b':' | b'.'))?;
    reader.at += 1;
    let (minute, digits) = reader.number(2)?;
    if digits != 2 {
        return None;
    }
    let mut second = 0;
    if reader.peek() == Some(sign) && reader.take(sign) {
        second = reader.number(2)?.0;
        if reader.take(b'.') || reader.take(b',') {
            reader.skip(|byte| byte.is_ascii_digit());
        }
    }
    reader.skip(|byte| {
        byte == b' ' || byte == 0xC2 || byte == 0xA0 || byte == 0xE2 || byte == 0x80 || byte == 0xAF
    });
    if let Some(half) = half_of_day(reader) {
        if !(1..=12).contains(&hour) {
            return None;
        }
        hour = hour % 12 + half;
    }
    let end_of_day = hour == 24 && minute == 0 && second == 0;
    let fits = (hour <= 23 || end_of_day) && minute <= 59 && second <= 60;
    fits.then_some(hour * 3600 + minute * 60 + second.min(59))
}

/// Hours to add for AM or PM.
fn half_of_day(reader: &mut Reader<'_>) -> Option<i64> {
    let half = match reader.peek()? {
        b'A' | b'a' => 0,
        b'P' | b'p' => 12,
        _ => return None,
    };
    reader.at += 1;
    reader.take(b'.');
    if !(reader.take(b'M') || reader.take(b'm')) {
        return None;
    }
    reader.take(b'.');
    Some(half)
}

/// `Z`, `+01:00`, `-0530`, `+01`: seconds ahead of universal time.
fn offset(reader: &mut Reader<'_>) -> Option<i64> {
    if reader.take(b'Z') || reader.take(b'z') {
        return Some(0);
    }
    let sign = match reader.peek()? {
        b'+' => 1,
        b'-' => -1,
        _ => return None,
    };
    reader.at += 1;
    let (hours, digits) = reader.number(2)?;
    reader.take(b':');
    let minutes = reader.number(2).map_or(0, |(minutes, _)| minutes);
    (digits == 2 && hours <= 14 && minutes <= 59).then_some(sign * (hours * 3600 + minutes * 60))
}

/// A date alone; the days since 1970.
pub(super) fn date(text: &str, order: DateOrder) -> Option<i64> {
    plain_date(text, order).or_else(|| plain_date(&spelled::moment(text)?, order))
}

fn plain_date(text: &str, order: DateOrder) -> Option<i64> {
    let mut reader = Reader {
        bytes: text.trim().as_bytes(),
        at: 0,
    };
    let (numbers, _) = parts(&mut reader)?;
    reader.is_done().then(|| in_order(numbers, order)).flatten()
}

/// A time of day alone, s, in the plain spelling.
pub(super) fn plain_of_day(text: &str) -> Option<i64> {
    let mut reader = Reader {
        bytes: text.trim().as_bytes(),
        at: 0,
    };
    let seconds = time_of_day(&mut reader)?;
    reader.is_done().then_some(seconds)
}

/// A time of day alone, s, also in the spellings that only a column of such times may have: `0830`, `8`.
pub(super) fn of_day(text: &str) -> Option<i64> {
    plain_of_day(text).or_else(|| plain_of_day(&spelled::of_day(text)?))
}

/// A date with its time of day. A date alone is its midnight.
pub(super) fn moment(text: &str, order: DateOrder) -> Option<Clock> {
    plain_moment(text, order).or_else(|| plain_moment(&spelled::moment(text)?, order))
}

fn plain_moment(text: &str, order: DateOrder) -> Option<Clock> {
    let mut reader = Reader {
        bytes: text.trim().as_bytes(),
        at: 0,
    };
    let (numbers, _) = parts(&mut reader)?;
    let day = in_order(numbers, order)?;
    if reader.is_done() {
        return Some(Clock {
            seconds: day * DAY,
            offset_s: None,
        });
    }
    reader.take(b',');
    reader.take(b'T');
    reader.take(b't');
    reader.skip(|byte| byte == b' ');
    let seconds = time_of_day(&mut reader)?;
    reader.skip(|byte| byte == b' ');
    let offset_s = if reader.is_done() {
        None
    } else {
        Some(offset(&mut reader)?)
    };
    reader.is_done().then_some(Clock {
        seconds: day * DAY + seconds,
        offset_s,
    })
}

/// The orders in which a text could be a date at all, by its signs and the size of its numbers. A year
/// of four digits first is year, month, day; of three numbers of two digits, each end may be the year.
/// Between numbers with dots the day comes first (common practice, no source), which
/// [`without_rare`] sees to where a file allows both.
pub(super) fn orders(text: &str) -> Vec<DateOrder> {
    let plain = orders_of_plain(text);
    if !plain.is_empty() {
        return plain;
    }
    spelled::moment(text).map_or_else(Vec::new, |text| orders_of_plain(&text))
}

fn orders_of_plain(text: &str) -> Vec<DateOrder> {
    let mut reader = Reader {
        bytes: text.trim().as_bytes(),
        at: 0,
    };
    let Some((numbers, _)) = parts(&mut reader) else {
        return Vec::new();
    };
    let [(_, first), _, (_, last)] = numbers;
    let candidates: &[DateOrder] = match (first, last) {
        (4, _) => &[DateOrder::YearMonthDay],
        (2, 2) => &DateOrder::ALL,
        _ => &[DateOrder::DayMonthYear, DateOrder::MonthDayYear],
    };
    candidates
        .iter()
        .copied()
        .filter(|order| in_order(numbers, *order).is_some())
        .collect()
}

/// The orders without month, day, year, which nobody writes with dots while the day may lead.
pub(super) fn without_rare(orders: &[DateOrder], text: &str) -> Vec<DateOrder> {
    let has_dots = text.trim_start_matches(|sign: char| sign.is_ascii_digit());
    let is_rare = has_dots.starts_with('.') && orders.contains(&DateOrder::DayMonthYear);
    let kept = |order: &DateOrder| !(is_rare && *order == DateOrder::MonthDayYear);
    orders.iter().copied().filter(kept).collect()
}

/// A moment written as this program writes it, to the minute or, where it has seconds, the second.
#[must_use]
pub fn written(seconds: i64) -> String {
    let Ok(moment) = jiff::Timestamp::from_second(seconds) else {
        return String::from("a time out of the calendar");
    };
    let clock = Offset::UTC.to_datetime(moment);
    let pattern = if clock.second() == 0 {
        "%Y-%m-%d %H:%M"
    } else {
        "%Y-%m-%d %H:%M:%S"
    };
    clock.strftime(pattern).to_string()
}

/// Seconds since the start of 1970 of a moment as [`written`] writes it; a day alone is its start.
#[must_use]
pub fn from_written(text: &str) -> Option<i64> {
    let (day, time) = text.split_once([' ', 'T']).unwrap_or((text, "00:00"));
    let mut digits = day.split('-').map(str::len);
    let four_two_two = [Some(4), Some(2), Some(2), None].map(|wanted| digits.next() == wanted);
    if four_two_two.contains(&false) || !matches!(time.len(), 5 | 8) {
        return None;
    }
    let pattern = if time.len() == 5 {
        "%Y-%m-%d %H:%M"
    } else {
        "%Y-%m-%d %H:%M:%S"
    };
    let clock = jiff::civil::DateTime::strptime(pattern, format!("{day} {time}")).ok()?;
    let moment = Offset::UTC.to_timestamp(clock).ok()?;
    Some(moment.as_second())
}
