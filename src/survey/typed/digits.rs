//! Digits with decimal signs and signs between thousands: one reading, or refused with both.

use std::iter::Peekable;
use std::str::Chars;

/// A number as it stands in the text, its digits in groups with the sign before each.
pub(super) struct Digits {
    first: String,
    groups: Vec<(char, String)>,
    /// As it was typed.
    text: String,
}

/// An apostrophe in one spelling.
const APOSTROPHE: char = '\'';

fn as_separator(sign: char) -> Option<char> {
    match sign {
        '.' | ',' | ' ' => Some(sign),
        '\'' | '\u{2019}' | '\u{2bc}' | '\u{2032}' => Some(APOSTROPHE),
        _ => None,
    }
}

/// How many digits stand at the head of the text.
fn digits_ahead(mut rest: Chars<'_>) -> usize {
    let mut count = 0;
    while rest.next().is_some_and(|sign| sign.is_ascii_digit()) {
        count += 1;
    }
    count
}

fn take_digits(rest: &mut Peekable<Chars<'_>>, into: &mut String) -> String {
    let mut digits = String::new();
    while let Some(digit) = rest.next_if(char::is_ascii_digit) {
        digits.push(digit);
    }
    into.push_str(&digits);
    digits
}

impl Digits {
    /// Takes the number at the head of the text, and gives what follows it.
    pub(super) fn take(text: &str) -> (Self, &str) {
        let mut rest = text.chars().peekable();
        let mut taken = String::new();
        let first = take_digits(&mut rest, &mut taken);
        let mut groups = Vec::new();
        while let Some(after) = text.get(taken.len()..) {
            let mut ahead = after.chars();
            let Some(sign) = ahead.next() else { break };
            let Some(separator) = as_separator(sign) else {
                break;
            };
            let follow = digits_ahead(ahead);
            let is_decimal = matches!(separator, '.' | ',');
            // A space or an apostrophe belongs to the number only before a group of three.
            if !is_decimal && follow != 3 {
                break;
            }
            taken.push(sign);
            rest.next();
            groups.push((separator, take_digits(&mut rest, &mut taken)));
        }
        let after = text.get(taken.len()..).unwrap_or_default();
        let digits = Self {
            first,
            groups,
            text: taken,
        };
        (digits, after)
    }

    /// Whether a space stands between its thousands.
    pub(super) fn is_spaced(&self) -> bool {
        self.groups.iter().any(|(sign, _)| *sign == ' ')
    }

    /// As it was typed.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    /// The number. Among lengths an apostrophe may also mean feet.
    pub(super) fn value(&self, is_length: bool) -> Result<f64, String> {
        let Some(((last, end), thousands)) = self.groups.split_last() else {
            return self.parsed(&self.first);
        };
        if thousands.is_empty() {
            return self.with_one_sign(*last, end, is_length);
        }
        let alike =
            |(sign, _): &(char, String)| thousands.first().is_some_and(|(one, _)| one == sign);
        if !thousands.iter().all(alike) {
            return Err(self.jumbled());
        }
        let apart = thousands.first().map_or('.', |(sign, _)| *sign);
        let whole = self.joined(thousands);
        if *last == apart {
            if !self.are_thousands(&self.groups) {
                return Err(self.jumbled());
            }
            return self.parsed(&format!("{whole}{end}"));
        }
        if !matches!(last, '.' | ',') || !self.are_thousands(thousands) {
            return Err(self.jumbled());
        }
        let number = self.parsed(&format!("{whole}.{end}"))?;
        if apart == APOSTROPHE && is_length && thousands.len() == 1 {
            let inches = self.joined_after_feet(end);
            return Err(self.two(&number.to_string(), &inches));
        }
        Ok(number)
    }

    fn with_one_sign(&self, sign: char, end: &str, is_length: bool) -> Result<f64, String> {
        let whole = format!("{}{end}", self.first);
        let decimal = format!("{}.{end}", self.first);
        let grouped = self.are_thousands(&self.groups);
        match sign {
            ',' if grouped => Err(self.two(&decimal, &whole)),
            '.' | ',' => self.parsed(&decimal),
            _ if !grouped => Err(self.jumbled()),
            APOSTROPHE if is_length => {
                let inches = format!("{} feet {end} inches", self.first);
                Err(self.two(&whole, &inches))
            }
            _ => self.parsed(&whole),
        }
    }

    /// Whether groups of three digits follow one to three that do not begin with a zero.
    fn are_thousands(&self, groups: &[(char, String)]) -> bool {
        (1..=3).contains(&self.first.len())
            && !self.first.starts_with('0')
            && groups.iter().all(|(_, digits)| digits.len() == 3)
    }

    fn joined(&self, groups: &[(char, String)]) -> String {
        let digits = groups.iter().map(|(_, digits)| digits.as_str());
        std::iter::once(self.first.as_str()).chain(digits).collect()
    }

    fn joined_after_feet(&self, end: &str) -> String {
        let inches = self.groups.first().map_or("", |(_, digits)| digits);
        format!("{} feet {inches}.{end} inches", self.first)
    }

    fn parsed(&self, number: &str) -> Result<f64, String> {
        let bare = number.trim_matches('.').is_empty();
        let parsed = number.parse().ok().filter(|_| !bare);
        parsed.ok_or_else(|| format!("\u{201c}{}\u{201d} is no number", self.text))
    }

    fn two(&self, one: &str, other: &str) -> String {
        format!(
            "\u{201c}{}\u{201d} can be read as {one} or as {other}: write it so that only one is meant",
            self.text
        )
    }

    fn jumbled(&self) -> String {
        format!(
            "\u{201c}{}\u{201d} is no number: it has one decimal comma or point, and three digits in each group of \
             thousands",
            self.text
        )
    }
}
