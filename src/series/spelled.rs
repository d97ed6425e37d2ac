//! Spellings of a date or a time of day that are met less often, brought into the plain one.

use super::clock::Clock;

/// Beginnings of the names of months in English, German, French, Spanish, Italian, Portuguese, Dutch,
/// Danish and Swedish, which all mean the same month in each of them. Common practice, no source.
const MONTHS: [&[&str]; 12] = [
    &["jan", "jän", "ene", "gen"],
    &["feb", "fév", "fev"],
    &["mar", "mär", "mrz", "mrt", "maart"],
    &["apr", "avr", "abr"],
    &["may", "mai", "maj", "mag", "mei"],
    &["jun", "juin", "giu"],
    &["jul", "juil", "lug"],
    &["aug", "aoû", "aou", "ago"],
    &["sep", "set"],
    &["oct", "okt", "ott", "out"],
    &["nov"],
    &["dec", "déc", "dez", "dic"],
];

/// Beginnings of the names of weekdays, looked for at the start of a date alone.
const WEEKDAYS: [&str; 34] = [
    "mon", "tue", "wed", "thu", "fri", "sat", "sun", "die", "mit", "don", "fre", "sam", "son",
    "lun", "mardi", "martes", "marted", "mer", "mié", "mie", "jeu", "jue", "gio", "ven", "vie",
    "sáb", "sab", "dim", "dom", "maandag", "din", "woe", "vri", "zo",
];

/// Weekdays of two letters, as German and Dutch shorten them.
const SHORT_WEEKDAYS: [&str; 11] = [
    "mo", "di", "mi", "do", "fr", "sa", "so", "ma", "wo", "vr", "za",
];

/// Names of clocks that mean one offset, with the minutes it is ahead of universal time.
const CLOCKS: [(&str, i64); 11] = [
    ("z", 0),
    ("utc", 0),
    ("gmt", 0),
    ("wet", 0),
    ("west", 60),
    ("cet", 60),
    ("mez", 60),
    ("cest", 120),
    ("mesz", 120),
    ("eet", 120),
    ("eest", 180),
];

/// What a spelling is made of.
#[derive(Clone, Debug, PartialEq)]
enum Part {
    Number(String),
    Month(usize),
    Half(&'static str),
    Ahead(i64),
    Sign(char),
}

/// The text without the quotes that keep a spreadsheet from changing it: `="…"`, `'…'`.
pub(super) fn bare(text: &str) -> &str {
    let text = text.trim();
    let text = text.strip_prefix('=').unwrap_or(text);
    text.trim_matches(['"', '\'']).trim()
}

/// A date, alone or with its time of day, in the plain spelling; `None` where it is no spelling of one.
/// Numbers that stand in an order which has to be said keep their order.
pub(super) fn moment(text: &str) -> Option<String> {
    // A date alone has five digits at the least, or three beside the name of a month.
    let digits = text.bytes().filter(u8::is_ascii_digit).count();
    let is_named = text.bytes().filter(u8::is_ascii_alphabetic).count() >= 3;
    if text.len() > 64 || digits < if is_named { 3 } else { 5 } {
        return None;
    }
    let mut reader = Reader {
        parts: parts(bare(text))?,
        at: 0,
    };
    let date = reader.date()?;
    reader.skip(&[' ', ',', '_', '.']);
    if reader.rest() == Some(&Part::Sign('-')) {
        reader.at += 1;
        reader.skip(&[' ']);
    }
    if reader.rest().is_none() {
        return Some(date.to_string(None));
    }
    let time = reader.time()?;
    let offset = reader.offset()?;
    let date = reader.year_behind(date)?;
    reader.skip(&[' ', '.']);
    let whole = reader.rest().is_none();
    whole.then(|| format!("{}{offset}", date.to_string(Some(&time))))
}

/// A time of day alone in the plain spelling: also `0830`, `8`, `8h30`, `8:30 Uhr`, and behind the day
/// that a spreadsheet calls zero.
pub(super) fn of_day(text: &str) -> Option<String> {
    let text = bare(text);
    if text.len() > 40 {
        return None;
    }
    let behind_zero = ["1899-12-30", "1899-12-31", "1900-01-00", "30.12.1899"];
    let text = behind_zero
        .iter()
        .find_map(|day| text.strip_prefix(day))
        .map_or(text, |rest| rest.trim_start_matches(['T', ' ']));
    let mut reader = Reader {
        parts: parts(text)?,
        at: 0,
    };
    let time = reader.time()?;
    reader.skip(&[' ', '.']);
    reader.rest().is_none().then_some(time)
}

/// A time counted in one number: the days of a spreadsheet, or seconds or thousandths of them since the
/// start of 1970, told apart by their digits. Of the second two the count is of universal time.
pub(super) fn counted(text: &str) -> Option<Clock> {
    let text = bare(text);
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let is_number = |digits: &str| digits.bytes().all(|byte| byte.is_ascii_digit());
    if !is_number(whole) || !is_number(part) || part.len() > 18 {
        return None;
    }
    let number: i64 = whole.parse().ok()?;
    let since_1970 = |seconds: i64| {
        Some(Clock {
            seconds,
            offset_s: Some(0),
        })
    };
    match whole.len() {
        // 1970 to 2100.
        5 if (25_569..=73_415).contains(&number) => {
            let share: f64 = format!("0.{part}0").parse().ok()?;
            let of_day = crate::physics::counts::nearest(share * 86_400.0);
            Some(Clock {
                seconds: (number - 25_569) * 86_400 + i64::from(of_day),
                offset_s: None,
            })
        }
        10 => since_1970(number),
        13 if part.is_empty() => since_1970(number.div_euclid(1000)),
        _ => None,
    }
}

/// Whether a text is AM or PM alone, as a column of its own writes it.
pub(super) fn is_half(text: &str) -> bool {
    matches!(
        parts(bare(text)).as_deref(),
        Some([Part::Half(_)] | [Part::Half(_), Part::Sign('.')])
    )
}

/// Seconds by which a text alone, such as `+01:00` or `UTC+1`, says a clock to be ahead.
pub(super) fn offset_alone(text: &str) -> Option<i64> {
    let text = bare(text);
    let named = text.starts_with(|sign: char| sign.is_ascii_alphabetic());
    if text.len() > 12 || !(named || text.contains(':')) {
        return None;
    }
    let mut reader = Reader {
        parts: parts(text)?,
        at: 0,
    };
    let (sign, hours, minutes) = reader.ahead()??;
    reader
        .rest()
        .is_none()
        .then_some(sign * (hours * 3600 + minutes * 60))
}

fn month(word: &str) -> Option<usize> {
    let starts = |names: &&[&str]| names.iter().any(|name| word.starts_with(name));
    MONTHS.iter().position(starts).map(|at| at + 1)
}

/// Splits a spelling up; `None` where a word or sign in it has no part in a date.
fn parts(text: &str) -> Option<Vec<Part>> {
    let mut low = text.to_lowercase();
    for (dotted, short) in [
        ("a. m.", "am"),
        ("p. m.", "pm"),
        ("a.m.", "am"),
        ("p.m.", "pm"),
    ] {
        low = low.replace(dotted, short);
    }
    let mut parts = Vec::new();
    let mut rest = low.as_str();
    while let Some(sign) = rest.chars().next() {
        let of = |belongs: fn(char) -> bool| {
            let end = rest.find(|sign: char| !belongs(sign)).unwrap_or(rest.len());
            rest.split_at(end)
        };
        if sign.is_ascii_digit() {
            let (digits, behind) = of(|sign| sign.is_ascii_digit());
            parts.push(Part::Number(digits.to_owned()));
            rest = behind;
        } else if sign.is_alphabetic() {
            let (word, behind) = of(char::is_alphabetic);
            rest = behind;
            of_word(word, behind, &mut parts)?;
        } else if sign == '[' {
            // The name of the zone behind its offset.
            break;
        } else {
            let plain = match sign {
                '\u{a0}' | '\u{202f}' | '\u{2009}' => ' ',
                '\u{2212}' | '\u{2010}' | '\u{2011}' => '-',
                ' ' | '.' | ',' | ':' | '/' | '-' | '+' | '_' => sign,
                _ => return None,
            };
            parts.push(Part::Sign(plain));
            rest = rest.get(sign.len_utf8()..).unwrap_or_default();
        }
    }
    Some(parts)
}

fn of_word(word: &str, behind: &str, parts: &mut Vec<Part>) -> Option<()> {
    let is_first = parts.is_empty();
    let clock = CLOCKS.iter().find(|(name, _)| *name == word);
    let digit_follows = behind.starts_with(|sign: char| sign.is_ascii_digit());
    match word {
        "am" | "vorm" => parts.push(Part::Half(" AM")),
        "pm" | "nachm" => parts.push(Part::Half(" PM")),
        "t" | "uhr" | "à" | "um" | "at" | "kl" | "de" => parts.push(Part::Sign(' ')),
        "h" | "m" | "min" if digit_follows => parts.push(Part::Sign(':')),
        "h" => parts.extend([Part::Sign(':'), Part::Number(String::from("00"))]),
        "m" | "min" | "s" => {}
        _ if clock.is_some() => parts.extend(clock.map(|(_, ahead)| Part::Ahead(*ahead))),
        _ if is_first && WEEKDAYS.iter().any(|day| word.starts_with(day)) => {}
        _ if is_first && SHORT_WEEKDAYS.contains(&word) => {}
        _ => parts.push(Part::Month(month(word)?)),
    }
    Some(())
}

/// A date as far as it is known.
enum Date {
    /// Three numbers in an order that has to be said, with the sign between.
    Numbers(String),
    /// Year, month, day.
    Known(String, usize, String),
    /// The year stands behind the time of day.
    WithoutYear(usize, String),
}

impl Date {
    fn to_string(&self, time: Option<&str>) -> String {
        let time = time.map_or_else(String::new, |time| format!(" {time}"));
        match self {
            Self::Numbers(numbers) => format!("{numbers}{time}"),
            Self::Known(year, month, day) => format!("{year}-{month:02}-{day}{time}"),
            Self::WithoutYear(..) => String::new(),
        }
    }
}

struct Reader {
    parts: Vec<Part>,
    at: usize,
}

impl Reader {
    fn rest(&self) -> Option<&Part> {
        self.parts.get(self.at)
    }

    fn skip(&mut self, signs: &[char]) {
        while matches!(self.rest(), Some(Part::Sign(sign)) if signs.contains(sign)) {
            self.at += 1;
        }
    }

    fn number(&mut self) -> Option<String> {
        let Some(Part::Number(digits)) = self.rest() else {
            return None;
        };
        let digits = digits.clone();
        self.at += 1;
        Some(digits)
    }

    fn month(&mut self) -> Option<usize> {
        let Some(Part::Month(month)) = self.rest() else {
            return None;
        };
        let month = *month;
        self.at += 1;
        Some(month)
    }

    fn date(&mut self) -> Option<Date> {
        const BETWEEN: [char; 5] = [' ', '.', '-', '/', ','];
        self.skip(&BETWEEN);
        if let Some(month) = self.month() {
            self.skip(&BETWEEN);
            let day = self.number().filter(|day| day.len() <= 2)?;
            self.skip(&BETWEEN);
            let is_year = matches!(self.rest(), Some(Part::Number(digits)) if digits.len() == 4);
            return Some(match is_year.then(|| self.number()).flatten() {
                Some(year) => Date::Known(year, month, day),
                None => Date::WithoutYear(month, day),
            });
        }
        let first = self.number()?;
        if matches!(first.len(), 8 | 10 | 12 | 14) {
            return self.compact(&first);
        }
        let at = self.at;
        self.skip(&BETWEEN);
        if let Some(month) = self.month() {
            self.skip(&BETWEEN);
            let last = self.number()?;
            let (year, day) = match (first.len(), last.len()) {
                (4, 1 | 2) => (first, last),
                (1 | 2, 4) => (last, first),
                // Between a day and a month's name, two digits behind are the year.
                (1 | 2, 2) => (format!("20{last}"), first),
                _ => return None,
            };
            return Some(Date::Known(year, month, day));
        }
        self.at = at;
        let Some(Part::Sign(sign @ ('.' | '-' | '/' | ':'))) = self.rest().cloned() else {
            return None;
        };
        let (second, third) = (self.behind(sign)?, self.behind(sign)?);
        // Colons stand between the numbers of a date only where the year leads.
        let plain = match sign {
            ':' if first.len() == 4 => '-',
            ':' => return None,
            _ => sign,
        };
        Some(Date::Numbers(format!(
            "{first}{plain}{second}{plain}{third}"
        )))
    }

    /// The number behind a sign, blanks between them.
    fn behind(&mut self, sign: char) -> Option<String> {
        if self.rest() != Some(&Part::Sign(sign)) {
            return None;
        }
        self.at += 1;
        self.skip(&[' ']);
        self.number()
    }

    /// Year, month and day in one number, and maybe hour, minute and second.
    fn compact(&mut self, digits: &str) -> Option<Date> {
        let (day, time) = digits.split_at_checked(8)?;
        let year: i64 = day.get(..4)?.parse().ok()?;
        if !(1970..=2100).contains(&year) {
            return None;
        }
        if !time.is_empty() {
            // What follows is read as a time of its own.
            self.parts.insert(self.at, Part::Number(time.to_owned()));
        }
        let month = day.get(4..6)?.parse().ok()?;
        Some(Date::Known(
            day.get(..4)?.to_owned(),
            month,
            day.get(6..)?.to_owned(),
        ))
    }

    /// A time of day as `08:30:00`, with its half of the day.
    fn time(&mut self) -> Option<String> {
        self.skip(&[' ']);
        let mut half = self.half();
        self.skip(&[' ']);
        let first = self.number()?;
        let mut all = match first.len() {
            1 | 2 => vec![first],
            // 830 is half past eight.
            3..=6 => {
                let even = format!("{first:0>width$}", width = first.len().div_ceil(2) * 2);
                let pair = |at: usize| even.get(at..at + 2).map(str::to_owned);
                (0..even.len())
                    .step_by(2)
                    .map(pair)
                    .collect::<Option<_>>()?
            }
            _ => return None,
        };
        if all.len() == 1 {
            self.more(&mut all)?;
        }
        self.skip(&[' ']);
        half = half.or_else(|| self.half());
        all.resize(3, String::from("00"));
        Some(format!("{}{}", all.join(":"), half.unwrap_or_default()))
    }

    /// Minutes and seconds behind an hour; fractions of a second are passed over.
    fn more(&mut self, all: &mut Vec<String>) -> Option<()> {
        let at = self.at;
        self.skip(&[' ']);
        let Some(Part::Sign(sign @ (':' | '.' | '-'))) = self.rest().cloned() else {
            self.at = at;
            return Some(());
        };
        while all.len() < 3
            && let Some(number) = self.behind(sign)
        {
            if number.len() != 2 {
                return None;
            }
            all.push(number);
        }
        // A dash and one number behind an hour would be an offset.
        if sign == '-' && all.len() < 3 {
            return None;
        }
        if all.len() == 3 && matches!(self.rest(), Some(Part::Sign('.' | ',' | ':'))) {
            self.at += 1;
            let _ = self.number();
        }
        Some(())
    }

    fn half(&mut self) -> Option<&'static str> {
        let Some(Part::Half(half)) = self.rest() else {
            return None;
        };
        let half = *half;
        self.at += 1;
        self.skip(&['.']);
        Some(half)
    }

    /// The offset in the plain spelling, empty where none stands there.
    fn offset(&mut self) -> Option<String> {
        let at = self.at;
        self.skip(&[' ']);
        Some(match self.ahead()? {
            Some((sign, hours, minutes)) => {
                let sign = if sign < 0 { '-' } else { '+' };
                format!("{sign}{hours:02}:{minutes:02}")
            }
            None => {
                self.at = at;
                String::new()
            }
        })
    }

    /// Sign, hours and minutes of an offset; nothing where there is none, `None` where it is no offset.
    #[expect(
        clippy::option_option,
        reason = "nothing said differs from what is no offset"
    )]
    fn ahead(&mut self) -> Option<Option<(i64, i64, i64)>> {
        let mut named = None;
        if let Some(Part::Ahead(ahead)) = self.rest() {
            named = Some((1, ahead / 60, ahead % 60));
            self.at += 1;
        }
        let sign = match self.rest() {
            Some(Part::Sign('+')) => 1,
            Some(Part::Sign('-')) => -1,
            _ => return Some(named),
        };
        self.at += 1;
        let digits = self.number()?;
        let (hours, minutes) = match digits.len() {
            1 | 2 if self.rest() == Some(&Part::Sign(':')) => {
                self.at += 1;
                (digits, self.number()?)
            }
            1 | 2 => (digits, String::from("0")),
            4 => (digits.get(..2)?.to_owned(), digits.get(2..)?.to_owned()),
            _ => return None,
        };
        let (hours, minutes) = (hours.parse().ok()?, minutes.parse().ok()?);
        ((0..=14).contains(&hours) && (0..=59).contains(&minutes))
            .then_some(Some((sign, hours, minutes)))
    }

    /// A date whose year stands behind the time of day.
    fn year_behind(&mut self, date: Date) -> Option<Date> {
        let Date::WithoutYear(month, day) = date else {
            return Some(date);
        };
        self.skip(&[' ']);
        let year = self.number().filter(|year| year.len() == 4)?;
        Some(Date::Known(year, month, day))
    }
}
