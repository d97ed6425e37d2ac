//! Numbers as loggers write them.

/// The sign before the decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Decimal {
    /// `12.5`
    #[default]
    Point,
    /// `12,5`
    Comma,
}

impl Decimal {
    /// Both, in the order offered.
    pub const ALL: [Self; 2] = [Self::Point, Self::Comma];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Point => "point",
            Self::Comma => "comma",
        }
    }

    fn sign(self) -> u8 {
        match self {
            Self::Point => b'.',
            Self::Comma => b',',
        }
    }
}

/// What a cell holds where a number is expected.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Cell {
    /// Nothing: empty, or one of the words for it.
    Missing,
    /// A number.
    Number(f64),
    /// Neither.
    Other,
}

/// What stands alone in a cell that has no reading by custom: such a cell is as empty as an empty one.
const EMPTY_BY_CUSTOM: [&str; 12] = [
    "-", "--", "---", "na", "n/a", "n.a.", "k.a.", "nan", "null", "none", "err", "error",
];

/// First words by which instruments and services say that a row has no reading.
const FIRST_OF_NO_READING: [&str; 31] = [
    "disconnected",
    "err",
    "error",
    "fail",
    "failed",
    "failure",
    "fault",
    "high",
    "invalid",
    "low",
    "missing",
    "no",
    "none",
    "not",
    "off",
    "offline",
    "open",
    "out",
    "over",
    "overflow",
    "overrange",
    "sensor",
    "short",
    "start",
    "started",
    "stop",
    "stopped",
    "unavailable",
    "under",
    "underflow",
    "unknown",
];

/// Takes a cell by one decimal sign. Unit signs behind the number are let stand: `12.5 °C`, `63%`; so are
/// signs between thousands, `1 222`, and the minus sign of printed numbers.
pub(super) fn cell(text: &str, decimal: Decimal) -> Cell {
    match written(text, decimal) {
        Written::Number { value, .. } => Cell::Number(value),
        Written::Missing => Cell::Missing,
        Written::Other => Cell::Other,
    }
}

/// What stands in a cell beside its number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Written<'a> {
    /// Nothing: empty, or one of the words for it.
    Missing,
    /// A number.
    Number {
        /// The number.
        value: f64,
        /// What follows it.
        behind: &'a str,
        /// Whether a sign stands between its thousands.
        is_grouped: bool,
    },
    /// Neither.
    Other,
}

fn is_of_number(byte: u8, decimal: Decimal) -> bool {
    byte.is_ascii_digit() || byte == decimal.sign() || matches!(byte, b'+' | b'-' | b'e' | b'E')
}

/// Takes a cell with what follows its number.
pub(super) fn written(text: &str, decimal: Decimal) -> Written<'_> {
    let text = text.trim();
    if text.is_empty() {
        return Written::Missing;
    }
    // As nearly all are.
    if text.bytes().all(|byte| is_of_number(byte, decimal)) {
        return match parsed(text, decimal) {
            Some(value) => Written::Number {
                value,
                behind: "",
                is_grouped: false,
            },
            None => word(text),
        };
    }
    // As printed, and as written by hand with a blank behind it.
    let below_zero = text
        .strip_prefix(['\u{2212}', '\u{2013}'])
        .or_else(|| text.strip_prefix('-').filter(|rest| rest.starts_with(' ')))
        .map(str::trim_start)
        .filter(|rest| rest.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.'));
    let unsigned = below_zero.unwrap_or(text);
    let end = unsigned
        .bytes()
        .position(|byte| !is_of_number(byte, decimal))
        .unwrap_or(unsigned.len());
    let (digits, mut behind) = unsigned.split_at(end);
    let grouped = thousands(digits, behind, decimal);
    if let Some((_, rest)) = &grouped {
        behind = rest;
    }
    let is_number = digits.bytes().any(|byte| byte.is_ascii_digit());
    if is_number && is_no_number(behind) {
        return Written::Missing;
    }
    if !is_number || !is_unit(behind) {
        return word(text);
    }
    let digits = grouped.as_ref().map_or(digits, |(digits, _)| digits);
    match parsed(digits, decimal) {
        Some(number) => Written::Number {
            value: if below_zero.is_some() {
                -number
            } else {
                number
            },
            behind: behind.trim(),
            is_grouped: grouped.is_some(),
        },
        None => Written::Other,
    }
}

fn parsed(digits: &str, decimal: Decimal) -> Option<f64> {
    let number = match decimal {
        Decimal::Point => digits.parse::<f64>(),
        Decimal::Comma => digits.replace(',', ".").parse::<f64>(),
    };
    number.ok().filter(|number| number.is_finite())
}

/// Longest group of a number.
const GROUP: usize = 3;

/// The digits of a number whose thousands are parted, `1 222.5`, without the signs between, and what
/// follows them; `None` where none are.
fn thousands<'a>(digits: &str, behind: &'a str, decimal: Decimal) -> Option<(String, &'a str)> {
    let leading = digits.trim_start_matches(['+', '-']);
    let whole = !leading.is_empty() && leading.bytes().all(|byte| byte.is_ascii_digit());
    if !whole || leading.len() > GROUP {
        return None;
    }
    let between = behind.chars().next().filter(|sign| match sign {
        ',' => decimal == Decimal::Point,
        '.' => decimal == Decimal::Comma,
        ' ' | '\'' | '\u{2019}' | '\u{a0}' | '\u{202f}' | '\u{2009}' => true,
        _ => false,
    })?;
    let (mut joined, mut rest) = (digits.to_owned(), behind);
    while let Some(group) = rest.strip_prefix(between) {
        let (three, next) = group.split_at_checked(GROUP)?;
        if !three.bytes().all(|byte| byte.is_ascii_digit()) {
            // `5 mm` is a number with a unit.
            break;
        }
        if next.starts_with(|sign: char| sign.is_ascii_digit()) {
            return None;
        }
        joined.push_str(three);
        rest = next;
    }
    if joined.len() == digits.len() {
        return None;
    }
    let decimals = rest
        .bytes()
        .enumerate()
        .position(|(at, byte)| !(byte.is_ascii_digit() || (at == 0 && byte == decimal.sign())))
        .unwrap_or(rest.len());
    let (fraction, rest) = rest.split_at_checked(decimals)?;
    joined.push_str(fraction);
    Some((joined, rest))
}

/// What libraries write behind a digit for what is no number: `1.#QNAN`, `-1.#IND`.
fn is_no_number(behind: &str) -> bool {
    ["#qnan", "#snan", "#ind", "#inf", "#nan"]
        .iter()
        .any(|word| {
            behind
                .get(..word.len())
                .is_some_and(|start| start.eq_ignore_ascii_case(word))
        })
}

fn word(text: &str) -> Written<'_> {
    if EMPTY_BY_CUSTOM
        .iter()
        .any(|word| text.eq_ignore_ascii_case(word))
    {
        Written::Missing
    } else {
        Written::Other
    }
}

/// Whether a cell that is no number holds a word or sign for that: `LO`, `Err 1`, `unavailable`, `***`. Any
/// other word is a mistake in the file, and is refused with its place.
pub(super) fn says_no_reading(text: &str) -> bool {
    let text = text.trim();
    let first: String = text
        .chars()
        .take_while(|sign| sign.is_alphabetic())
        .collect();
    let is_code =
        !first.is_empty() && first.chars().all(char::is_uppercase) && text.chars().count() <= 8;
    text.chars().count() <= 40
        && (text.starts_with('#')
            || !text.chars().any(char::is_alphanumeric)
            || is_code
            || FIRST_OF_NO_READING.contains(&first.to_lowercase().as_str()))
}

/// Whether what follows a number may be its unit: a blank or a sign or letters; a digit only behind a
/// letter, as in `g/m3`.
fn is_unit(rest: &str) -> bool {
    let digit_alone = || {
        let mut before = ' ';
        rest.chars().any(|sign| {
            let is_alone =
                sign.is_ascii_digit() && !(matches!(sign, '2' | '3') && before.is_alphabetic());
            before = sign;
            is_alone
        })
    };
    rest.is_empty()
        || (rest.chars().count() <= 8
            && !digit_alone()
            && !rest.starts_with([',', '.', ':', '/', '\'', '\u{2019}']))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_between_thousands_are_no_decimals_and_no_end_of_the_number() {
        for (text, decimal, value) in [
            ("1 222", Decimal::Comma, 1222.0),
            ("1 332 ppm", Decimal::Comma, 1332.0),
            ("1\u{a0}200,5", Decimal::Comma, 1200.5),
            ("1\u{202f}200", Decimal::Point, 1200.0),
            ("1'200", Decimal::Point, 1200.0),
            ("1\u{2019}200.25", Decimal::Point, 1200.25),
            ("1.200", Decimal::Comma, 1200.0),
            ("1,200", Decimal::Point, 1200.0),
            ("-12,345,678", Decimal::Point, -12_345_678.0),
            ("1,200", Decimal::Comma, 1.2),
            ("\u{2212}12.3", Decimal::Point, -12.3),
            ("- 12.3", Decimal::Point, -12.3),
            ("12.5 °C", Decimal::Point, 12.5),
            ("7.5 g/m3", Decimal::Point, 7.5),
            ("7.5*", Decimal::Point, 7.5),
        ] {
            assert_eq!(cell(text, decimal), Cell::Number(value), "{text}");
        }
        for text in [
            "1 22",
            "1 2222",
            "7.6 ±0.3",
            "12,34",
            "12 °C / 54 °F",
            "1'2",
            "20.01.2026",
        ] {
            assert_eq!(cell(text, Decimal::Point), Cell::Other, "{text}");
        }
        for text in ["1.#QNAN", "-1.#IND", "1.#INF00", "n.a.", "N/A", "--", " "] {
            assert_eq!(cell(text, Decimal::Point), Cell::Missing, "{text}");
        }
    }

    #[test]
    fn what_stands_beside_a_number_is_told() {
        for (text, behind, is_grouped) in [
            ("12.5", "", false),
            ("-3", "", false),
            ("12.5 °C", "°C", false),
            ("70.3F", "F", false),
            ("1,200 ppm", "ppm", true),
            ("\u{2212}5%", "%", false),
        ] {
            match written(text, Decimal::Point) {
                Written::Number {
                    behind: found,
                    is_grouped: grouped,
                    ..
                } => assert_eq!((found, grouped), (behind, is_grouped), "{text}"),
                other => panic!("{text}: {other:?}"),
            }
        }
    }
}
