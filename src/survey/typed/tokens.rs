//! The text in pieces: numbers, units, and signs of a sum.

use super::super::unit::{ALL, Unit};
use super::digits::Digits;
use super::wanted::Wanted;

/// A piece of what was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Token {
    /// A number, and whether it is one of digits alone.
    Number { value: f64, whole: bool },
    /// A unit of what is wanted.
    Unit(&'static Unit),
    /// One of `+ - * / ( )`.
    Sign(char),
}

/// Halves, quarters and eighths that have a sign of their own.
const FRACTIONS: [(char, f64); 7] = [
    ('½', 0.5),
    ('¼', 0.25),
    ('¾', 0.75),
    ('⅛', 0.125),
    ('⅜', 0.375),
    ('⅝', 0.625),
    ('⅞', 0.875),
];

/// Takes the text to pieces; one sign that is not understood refuses all of it.
pub(super) fn of(text: &str, wanted: Wanted) -> Result<Vec<Token>, String> {
    let mut tokens = Vec::new();
    let mut rest = text;
    while let Some(sign) = rest.chars().next() {
        let behind = rest.get(sign.len_utf8()..).unwrap_or_default();
        if sign == ' ' {
            rest = behind;
            continue;
        }
        if sign.is_ascii_digit() || (matches!(sign, '.' | ',') && starts_with_digit(behind)) {
            let (digits, after) = Digits::take(rest);
            refuse_two_fractions(&digits, after)?;
            refuse_dot_between(after)?;
            let value = digits.value(wanted.is_length())?;
            let whole = digits.text().chars().all(|sign| sign.is_ascii_digit());
            tokens.push(Token::Number { value, whole });
            rest = after;
            continue;
        }
        if let Some((_, part)) = FRACTIONS.iter().find(|(known, _)| *known == sign) {
            add_part(&mut tokens, *part, text)?;
            rest = behind;
            continue;
        }
        // A price is for a unit: what follows the stroke belongs to it.
        let price = (sign == '/').then(|| unit_at(rest, wanted).ok()).flatten();
        if let Some(operator) = operator(sign).filter(|_| price.is_none()) {
            tokens.push(Token::Sign(operator));
            rest = behind;
            continue;
        }
        let (unit, after) = unit_at(rest, wanted)?;
        tokens.push(Token::Unit(unit));
        rest = after;
    }
    Ok(tokens)
}

fn starts_with_digit(text: &str) -> bool {
    text.starts_with(|sign: char| sign.is_ascii_digit())
}

fn operator(sign: char) -> Option<char> {
    match sign {
        '+' | '*' | '/' | '(' | ')' => Some(sign),
        '-' | '−' | '–' => Some('-'),
        '×' | '·' => Some('*'),
        '÷' | ':' => Some('/'),
        _ => None,
    }
}

/// A half behind a whole number adds to it.
fn add_part(tokens: &mut Vec<Token>, part: f64, text: &str) -> Result<(), String> {
    match tokens.last_mut() {
        Some(Token::Number { value, whole }) if *whole => {
            *value += part;
            *whole = false;
        }
        Some(Token::Number { .. }) => {
            return Err(format!(
                "\u{201c}{text}\u{201d}: a fraction follows a whole number only"
            ));
        }
        _ => tokens.push(Token::Number {
            value: part,
            whole: false,
        }),
    }
    Ok(())
}

/// `1 125/128` is 1125 by 128, or one and 125 parts of 128.
fn refuse_two_fractions(digits: &Digits, after: &str) -> Result<(), String> {
    if digits.is_spaced() && after.trim_start().starts_with('/') {
        let first = digits.text();
        return Err(format!(
            "\u{201c}{first}/\u{2026}\u{201d} can be read as {} divided, or as a whole number and a fraction: write \
             it so that only one is meant",
            first.replace(' ', "")
        ));
    }
    Ok(())
}

/// `1·5` is 1.5 to some and 5 to others.
fn refuse_dot_between(after: &str) -> Result<(), String> {
    match after.strip_prefix('·') {
        Some(digits) if starts_with_digit(digits) => Err(
            "the dot in the middle can be read as a decimal point or as times: write . or *"
                .to_owned(),
        ),
        _ => Ok(()),
    }
}

/// The longest unit that stands at the head of the text.
fn unit_at(text: &str, wanted: Wanted) -> Result<(&'static Unit, &str), String> {
    let mut found: Option<(&'static Unit, &str)> = None;
    for unit in ALL
        .iter()
        .filter(|unit| Some(unit.dimension) == wanted.dimension())
    {
        for spelling in std::iter::once(&unit.symbol).chain(unit.spellings) {
            let Some(after) = stripped(text, spelling) else {
                continue;
            };
            if found.is_none_or(|(_, best)| after.len() < best.len()) {
                found = Some((unit, after));
            }
        }
    }
    found.ok_or_else(|| unknown(text, wanted))
}

/// What follows a spelling, where the text begins with it and no letter goes on; capitals as good
/// as small letters.
fn stripped<'a>(text: &'a str, spelling: &str) -> Option<&'a str> {
    let mut rest = text.chars();
    for wanted in spelling.chars() {
        let sign = rest.next()?;
        if !sign.to_lowercase().eq(wanted.to_lowercase()) {
            return None;
        }
    }
    let after = rest.as_str();
    let ends_in_letter = spelling.ends_with(char::is_alphanumeric);
    let goes_on = |sign: char| sign.is_alphabetic() || matches!(sign, '²' | '³' | '^' | '°');
    let digit_goes_on = starts_with_digit(after) && ends_in_letter;
    (!(ends_in_letter && (after.starts_with(goes_on)) || digit_goes_on && !is_feet(spelling)))
        .then_some(after)
}

/// `1ft6in` has no spaces.
fn is_feet(spelling: &str) -> bool {
    matches!(spelling, "ft" | "foot" | "feet")
}

fn unknown(text: &str, wanted: Wanted) -> String {
    let goes_on = |sign: &char| sign.is_alphabetic() || matches!(sign, '²' | '³' | '°' | '^');
    let word: String = text.chars().take_while(goes_on).collect();
    let word = match text.chars().next() {
        Some(first) if word.is_empty() => first.to_string(),
        _ => word,
    };
    let Some(dimension) = wanted.dimension() else {
        return format!("\u{201c}{word}\u{201d} is not part of a number");
    };
    let known: Vec<&str> = ALL
        .iter()
        .filter(|unit| unit.dimension == dimension)
        .map(|unit| unit.symbol)
        .take(5)
        .collect();
    format!(
        "\u{201c}{word}\u{201d} is not part of a number; units that are read here: {}",
        known.join(", ")
    )
}
