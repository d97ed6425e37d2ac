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

/// Words that instruments write for a reading they do not have.
const NO_READING: [&str; 10] = [
    "-", "--", "---", "na", "n/a", "nan", "null", "none", "err", "error",
];

/// Takes a cell by one decimal sign. Unit signs behind the number are let stand: `12.5 °C`, `63%`.
pub(super) fn cell(text: &str, decimal: Decimal) -> Cell {
    let text = text.trim();
    if text.is_empty() {
        return Cell::Missing;
    }
    let end = text
        .bytes()
        .position(|byte| {
            !(byte.is_ascii_digit()
                || byte == decimal.sign()
                || matches!(byte, b'+' | b'-' | b'e' | b'E'))
        })
        .unwrap_or(text.len());
    let (digits, unit) = text.split_at(end);
    if !digits.bytes().any(|byte| byte.is_ascii_digit()) || !is_unit(unit) {
        return word(text);
    }
    let parsed = match decimal {
        Decimal::Point => digits.parse::<f64>(),
        Decimal::Comma => digits.replace(',', ".").parse::<f64>(),
    };
    match parsed {
        Ok(number) if number.is_finite() => Cell::Number(number),
        _ => Cell::Other,
    }
}

fn word(text: &str) -> Cell {
    if NO_READING
        .iter()
        .any(|word| text.eq_ignore_ascii_case(word))
    {
        Cell::Missing
    } else {
        Cell::Other
    }
}

/// Whether what follows a number may be its unit: a blank or a sign or letters, no further digit.
fn is_unit(rest: &str) -> bool {
    rest.is_empty()
        || (rest.chars().count() <= 8
            && !rest
                .chars()
                .any(|sign| sign.is_ascii_digit() && sign != '3' && sign != '2')
            && !rest.starts_with([',', '.', ':', '/']))
}
