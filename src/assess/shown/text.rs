//! A text in which every metric size is found and written anew.

use super::digits::{NOT_TAKEN, converted, least};
use crate::survey::unit::{ALL, Dimension, Unit, customary};
use std::borrow::Cow;

/// What stands between the numbers that share a unit.
const BETWEEN: [&str; 9] = [
    " to ",
    " → ",
    " × ",
    "\u{a0}×\u{a0}",
    " ×\u{a0}",
    "\u{a0}× ",
    "×",
    "–",
    " or ",
];

/// The text with its sizes in customary units.
pub(super) fn rewritten(text: &str) -> Cow<'_, str> {
    let has_numbers = text.contains(|sign: char| sign.is_ascii_digit() || sign == NOT_TAKEN);
    if !has_numbers {
        return Cow::Borrowed(text);
    }
    let (mut out, mut changed) = (String::with_capacity(text.len()), false);
    let (mut rest, mut before) = (text, ' ');
    while let Some(sign) = rest.chars().next() {
        let length = match number_at(rest, before) {
            Some(length) => {
                if let Some((size, after)) = size_at(rest, length) {
                    out.push_str(&size);
                    (rest, before, changed) = (after, 'x', true);
                    continue;
                }
                length
            }
            None => sign.len_utf8(),
        };
        let (taken, after) = rest.split_at_checked(length).unwrap_or((rest, ""));
        before = taken.chars().last().unwrap_or(' ');
        out.push_str(taken);
        rest = after;
    }
    if changed {
        Cow::Owned(out)
    } else {
        Cow::Borrowed(text)
    }
}

/// How long the number is that begins here, behind the sign before it.
pub(super) fn number_at(text: &str, before: char) -> Option<usize> {
    if before.is_alphanumeric() || matches!(before, '.' | ',' | '-' | '_' | NOT_TAKEN) {
        return None;
    }
    number_length(text)
}

/// How long a number is at the head of the text: sign, digits, decimals, power of ten.
fn number_length(text: &str) -> Option<usize> {
    if text.starts_with(NOT_TAKEN) {
        return Some(NOT_TAKEN.len_utf8());
    }
    let unsigned = text.strip_prefix(['−', '-']).unwrap_or(text);
    let mut length = text.len() - unsigned.len();
    let whole = digits(unsigned);
    if whole == 0 {
        return None;
    }
    length += whole;
    let after = text.get(length..)?;
    let decimals = after.strip_prefix('.').map_or(0, digits);
    if decimals > 0 {
        length += 1 + decimals;
    }
    let power = text.get(length..).and_then(|after| after.strip_prefix('e'));
    if let Some(power) = power {
        let unsigned = power.strip_prefix(['−', '-']).unwrap_or(power);
        if digits(unsigned) > 0 {
            length += 1 + (power.len() - unsigned.len()) + digits(unsigned);
        }
    }
    Some(length)
}

fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

/// The size that begins with a number of this length, written anew, and what follows it. Several
/// numbers may share the unit: `900 × 3 mm`, `2 to 5 K`.
fn size_at(text: &str, first: usize) -> Option<(String, &str)> {
    let mut numbers = vec![("", text.get(..first)?)];
    let mut rest = text.get(first..)?;
    loop {
        if let Some((space, unit, after)) = unit_at(rest) {
            return Some((written(&numbers, space, unit), after));
        }
        let between = BETWEEN.iter().find(|between| rest.starts_with(**between))?;
        let after = rest.get(between.len()..)?;
        let length = number_length(after)?;
        numbers.push((between, after.get(..length)?));
        rest = after.get(length..)?;
    }
}

fn written(numbers: &[(&str, &str)], space: &str, unit: &'static Unit) -> String {
    let shown = customary(unit).unwrap_or(unit);
    // Times anything but a length, a number in front is a count.
    let counts = if unit.dimension == Dimension::Length {
        0
    } else {
        let times = |(between, _): &(&str, &str)| between.contains('×');
        numbers.iter().rposition(times).unwrap_or(0)
    };
    let ranged = numbers.iter().any(|(between, _)| *between == " to ");
    let digits = if ranged { 2 } else { least(unit) };
    let mut out = String::new();
    for (at, (between, number)) in numbers.iter().enumerate() {
        out.push_str(between);
        if at < counts {
            out.push_str(number);
        } else {
            out.push_str(&converted(number, unit, shown, digits));
        }
    }
    out.push_str(space);
    out.push_str(shown.symbol);
    out
}

/// The metric unit that stands here, with the space before it and what follows it.
fn unit_at(text: &str) -> Option<(&str, &'static Unit, &str)> {
    let bare = text
        .strip_prefix([' ', '\u{a0}', '\u{202f}'])
        .unwrap_or(text);
    let space = text.get(..text.len() - bare.len())?;
    let (unit, after) = symbol_at(bare)?;
    Some((space, unit, after))
}

/// The longest symbol of a metric unit at the head of the text, where no letter goes on.
pub(super) fn symbol_at(text: &str) -> Option<(&'static Unit, &str)> {
    let mut best: Option<(&'static Unit, &str)> = None;
    for unit in ALL.iter().filter(|unit| customary(unit).is_some()) {
        let Some(after) = strip(text, unit.symbol) else {
            continue;
        };
        if best.is_none_or(|(_, found)| after.len() < found.len()) {
            best = Some((unit, after));
        }
    }
    best.filter(|(_, after)| !goes_on(after))
}

fn goes_on(after: &str) -> bool {
    let mut signs = after.chars();
    match signs.next() {
        Some('/') => signs.next().is_some_and(char::is_alphanumeric),
        Some(sign) => sign.is_alphanumeric() || matches!(sign, '·' | '°'),
        None => false,
    }
}

/// What follows a symbol; a space that does not break is as good as another.
fn strip<'a>(text: &'a str, symbol: &str) -> Option<&'a str> {
    let mut rest = text.chars();
    for wanted in symbol.chars() {
        let sign = rest.next()?;
        if sign != wanted && !(wanted == ' ' && sign == '\u{a0}') {
            return None;
        }
    }
    Some(rest.as_str())
}
