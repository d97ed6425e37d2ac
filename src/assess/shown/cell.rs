//! Headings that end in a unit, and the numbers under them.

use super::digits::{converted, least};
use super::text::{number_at, symbol_at};
use crate::survey::unit::Unit;
use std::borrow::Cow;

/// Where a metric unit stands in a heading as a word of its own, with no number before it.
pub(super) fn unit_in(head: &str) -> Option<(usize, &'static Unit)> {
    let mut found = None;
    let mut before = ' ';
    for (at, sign) in head.char_indices() {
        if matches!(before, ' ' | '\u{a0}' | ',' | '(' | '\n') {
            let ahead = head.get(at..).and_then(symbol_at);
            let behind_number = head.get(..at).is_some_and(|text| {
                text.trim_end()
                    .ends_with(|sign: char| sign.is_ascii_digit())
            });
            if let (Some((unit, _)), false) = (ahead, behind_number) {
                found = Some((at, unit));
            }
        }
        before = sign;
    }
    found
}

/// A cell with every number in it changed from one unit to another; numbers in brackets behind
/// words are those of notes.
pub(super) fn numbers<'a>(cell: &'a str, from: &'static Unit, to: &'static Unit) -> Cow<'a, str> {
    if from.symbol == to.symbol {
        return Cow::Borrowed(cell);
    }
    let ranged = cell.contains(" to ");
    let digits = if ranged { 2 } else { least(from) };
    let mut out = String::with_capacity(cell.len());
    let (mut rest, mut before) = (cell, ' ');
    let mut in_note = false;
    while let Some(sign) = rest.chars().next() {
        in_note = match sign {
            '(' => before == ' ' && out.contains(char::is_alphabetic),
            ')' => false,
            _ => in_note,
        };
        let number = number_at(rest, before).filter(|_| !in_note);
        let length = number.unwrap_or(sign.len_utf8());
        let (taken, after) = rest.split_at_checked(length).unwrap_or((rest, ""));
        if number.is_some() {
            out.push_str(&converted(taken, from, to, digits));
        } else {
            out.push_str(taken);
        }
        before = taken.chars().last().unwrap_or(' ');
        rest = after;
    }
    Cow::Owned(out)
}
