//! The words of a heading.

use super::folded::{folded, plain};
use super::units::{self, Sign};
use super::words::{self, Word};
use crate::series::mapping::{Unit, What};

/// A word of a heading with what it tells.
#[derive(Clone, Debug, Default)]
pub(super) struct Part {
    /// As it stands.
    pub(super) text: String,
    /// Folded.
    pub(super) low: String,
    /// The sign before it, other than a blank.
    before: Option<char>,
    /// Whether it stands alone in brackets.
    bracketed: bool,
    /// Whether it is the first word of a unit of two.
    pub(super) is_first_of_two: bool,
    /// The unit it is.
    pub(super) unit: Option<Sign>,
    /// What it tells beside a unit.
    pub(super) told: Vec<Word>,
    /// What is left of it as a name: the number in `T1`.
    pub(super) name: Option<String>,
}

/// Letters of a heading that are looked at; no name of a sensor is so long.
const LETTERS: usize = 200;

/// The words of a heading, units among them found.
pub(super) fn of(heading: &str) -> Vec<Part> {
    let mut parts = Vec::new();
    let start = heading
        .char_indices()
        .nth(LETTERS)
        .map_or(heading, |(at, _)| heading.get(..at).unwrap_or(heading));
    split(&plain(start), &mut parts);
    let mut parts: Vec<Part> = parts.into_iter().flat_map(of_one).collect();
    mark_pairs(&mut parts);
    mark_units(&mut parts);
    parts
}

/// Splits at blanks, brackets, commas and low strokes, before `°`, and on both sides of `%`.
fn split(text: &str, parts: &mut Vec<Part>) {
    let (mut word, mut before) = (String::new(), None);
    let mut bracket_began = 0;
    let mut last = ' ';
    for sign in text.chars() {
        // Thousandths of a degree are no degrees: `m` stays with its sign.
        let breaks_before = sign == '%' || (sign == '°' && word != "m");
        let is_between = sign.is_whitespace()
            || matches!(
                sign,
                '(' | ')' | '[' | ']' | '{' | '}' | ',' | ';' | '_' | ':' | '|'
            );
        if is_between || breaks_before || last == '%' {
            push(&mut word, &mut before, parts);
        }
        match sign {
            '(' | '[' | '{' => bracket_began = parts.len(),
            ')' | ']' | '}' => {
                if parts.len() == bracket_began + 1
                    && let Some(only) = parts.last_mut()
                {
                    only.bracketed = true;
                }
            }
            _ => {}
        }
        if is_between {
            before = (!sign.is_whitespace()).then_some(sign).or(before);
        } else {
            word.push(sign);
        }
        last = sign;
    }
    push(&mut word, &mut before, parts);
}

fn push(word: &mut String, before: &mut Option<char>, parts: &mut Vec<Part>) {
    let text = std::mem::take(word);
    let text = text.trim_matches('/');
    if !text.is_empty() {
        parts.push(Part {
            text: text.to_owned(),
            low: folded(text),
            before: before.take(),
            ..Part::default()
        });
    }
}

/// A word taken apart further: at a stroke that belongs to no unit, at `Temp|F`, before the number in `T1`.
fn of_one(part: Part) -> Vec<Part> {
    if units::anywhere(&part.low).is_some() {
        return vec![part];
    }
    if let Some((front, behind)) = part.text.split_once('/') {
        let half = |text: &str, before| Part {
            text: text.to_owned(),
            low: folded(text),
            before,
            ..Part::default()
        };
        let mut both = of_one(half(front, part.before));
        both.extend(of_one(half(behind, Some('/'))));
        return both;
    }
    let low = part.low.trim_matches('.').to_owned();
    let told = words::told(&low);
    if !told.is_empty() {
        return vec![Part { told, low, ..part }];
    }
    dotted(&part)
        .or_else(|| by_capital(&part))
        .or_else(|| glued(&part))
        .unwrap_or_else(|| vec![numbered(part)])
}

fn piece(text: &str, before: Option<char>) -> Part {
    let low = folded(text);
    Part {
        told: words::told(&low),
        text: text.to_owned(),
        low,
        before,
        ..Part::default()
    }
}

/// `rel.F`, `r.h.`, `Temp.in`: letters with dots between, where one of them is known.
fn dotted(part: &Part) -> Option<Vec<Part>> {
    let words: Vec<&str> = part.text.split('.').filter(|one| !one.is_empty()).collect();
    if words.len() < 2 {
        return None;
    }
    let joined = folded(&words.concat());
    if ["rh", "rf", "hr", "relf", "relh", "relhum"].contains(&joined.as_str()) {
        return Some(vec![Part {
            told: vec![Word::Plain(What::RelativeHumidity)],
            ..part.clone()
        }]);
    }
    let starts = |word: &&str| word.starts_with(char::is_alphabetic);
    let pieces: Vec<Part> = words
        .iter()
        .map(|word| numbered(piece(word, part.before)))
        .collect();
    let is_known = pieces.iter().any(|one| !one.told.is_empty());
    (words.iter().all(starts) && is_known).then_some(pieces)
}

/// `BaroTemp`, `AirT`, `TempF`: a capital behind small letters, where one of the halves is known.
fn by_capital(part: &Part) -> Option<Vec<Part>> {
    let signs: Vec<(usize, char)> = part.text.char_indices().collect();
    let at = signs.windows(2).rev().find_map(|pair| match pair {
        [(_, low), (at, capital)] if low.is_lowercase() && capital.is_uppercase() => Some(*at),
        _ => None,
    })?;
    let (front, behind) = (part.text.get(..at)?, part.text.get(at..)?);
    if front.chars().count() < 3 {
        return None;
    }
    let (mut front, mut behind) = (
        numbered(piece(front, part.before)),
        numbered(piece(behind, None)),
    );
    let is_temperature = |one: &Part| one.told.contains(&Word::Plain(What::Temperature));
    if matches!(behind.low.as_str(), "c" | "f") {
        if !is_temperature(&front) {
            return None;
        }
        behind.unit = units::alone(&behind.low);
    } else if front.told.is_empty() && behind.told.is_empty() {
        return None;
    }
    if front.told.is_empty()
        && let Some(mut more) = by_capital(&front).filter(|more| more.iter().any(is_temperature))
    {
        more.push(behind);
        return Some(more);
    }
    front.name = front.name.filter(|_| !front.told.is_empty());
    Some(vec![front, behind])
}

/// `tempf`, `roomtemp`: small letters in one.
fn glued(part: &Part) -> Option<Vec<Part>> {
    let temperature = |text: &str| Part {
        told: vec![Word::Plain(What::Temperature)],
        ..piece(text, part.before)
    };
    if let Some(unit) = part
        .low
        .strip_prefix("temp")
        .filter(|one| matches!(*one, "c" | "f"))
    {
        let mut behind = piece(unit, None);
        behind.unit = units::alone(unit);
        return Some(vec![temperature("temp"), behind]);
    }
    let name = part.low.strip_suffix("temp").filter(|one| one.len() > 1)?;
    let name = part.text.get(..name.len())?;
    Some(vec![piece(name, part.before), temperature("temp")])
}

/// `T1`, `RH2`: a word that is known with a number behind it.
fn numbered(part: Part) -> Part {
    let letters = part
        .low
        .trim_end_matches(|sign: char| sign.is_ascii_digit());
    if letters.is_empty() || letters.len() == part.low.len() || !part.told.is_empty() {
        return part;
    }
    let told = words::told(letters);
    let is_quantity = |word: &Word| matches!(word, Word::Plain(_) | Word::Short(_) | Word::Damp);
    if !told.iter().any(is_quantity) {
        return part;
    }
    let name = part.low.get(letters.len()..).map(str::to_owned);
    Part { told, name, ..part }
}

/// Units of two words, `deg C`, `° F`, `mm Hg`, `g m-3`, `wind_m_s`: the second tells, the first is part
/// of it.
fn mark_pairs(parts: &mut [Part]) {
    for at in 1..parts.len() {
        let unit = match (parts.get(at - 1), parts.get(at)) {
            (Some(one), Some(next)) => match (one.low.trim_end_matches('.'), next.low.as_str()) {
                ("deg" | "°" | "degrees" | "grad", "c") => Unit::Celsius,
                ("deg" | "°" | "degrees" | "grad", "f") => Unit::Fahrenheit,
                ("mm", "hg") => Unit::MmOfMercury,
                ("g", "m-3") => Unit::GramsPerM3,
                ("m", "s") if next.before == Some('_') => Unit::MetresPerSecond,
                _ => continue,
            },
            _ => continue,
        };
        if let Some(first) = parts.get_mut(at - 1) {
            first.told = vec![Word::Idle];
            first.unit = None;
            first.is_first_of_two = true;
        }
        if let Some(second) = parts.get_mut(at) {
            second.unit = Some(Sign::Ours(unit));
        }
    }
}

fn mark_units(parts: &mut [Part]) {
    let mut is_last = true;
    for at in (0..parts.len()).rev() {
        let (before, rest) = parts.split_at_mut(at);
        let Some(part) = rest.first_mut() else {
            continue;
        };
        if part.unit.is_none() {
            part.unit = unit_of(part, before, is_last);
        }
        if part.unit.is_some()
            && let Some(scale) = before.last().filter(|one| is_scale(&one.low))
        {
            part.unit = Some(Sign::Strange(format!("{} {}", scale.low, part.text)));
        }
        if part.unit.is_none() && !part.told.contains(&Word::Statistic) {
            is_last = false;
        }
    }
}

/// The unit that a word is by where it stands.
fn unit_of(part: &Part, before: &[Part], is_last: bool) -> Option<Sign> {
    if matches!(part.low.as_str(), "°" | "deg" | "degree" | "degrees") {
        return (!part.is_first_of_two).then_some(Sign::Ours(Unit::Degrees));
    }
    let is_temperature = |one: &Part| {
        let of =
            |what| one.told.contains(&Word::Plain(what)) || one.told.contains(&Word::Short(what));
        of(What::Temperature) || of(What::DewPoint)
    };
    let is_written_apart = matches!(part.before, Some('/' | ',')) && is_last;
    let is_unit = if part.bracketed {
        // The least of a quantity that is named, otherwise minutes.
        let names = |word: &Word| matches!(word, Word::Plain(_) | Word::Damp);
        part.low != "min" || !before.iter().any(|one| one.told.iter().any(names))
    } else if matches!(part.low.as_str(), "c" | "f" | "k") {
        // A letter is also the name of a sensor, or half of `A/C`.
        let is_behind_a_name = before.last().is_none_or(|one| {
            one.told.contains(&Word::Sensor)
                || (one.low != "t"
                    && matches!(one.low.as_bytes(), [letter] if letter.is_ascii_alphabetic()))
        });
        let is_behind_temperature = before.last().is_some_and(is_temperature);
        let may_be = is_behind_temperature
            || part.before == Some('_')
            || (is_written_apart && before.iter().any(is_temperature));
        is_last && !is_behind_a_name && may_be
    } else {
        is_written_apart
    };
    if is_unit {
        units::alone(&part.low)
    } else {
        units::anywhere(&part.low)
    }
}

/// Whether a word makes a unit a tenth or a multiple of itself.
fn is_scale(word: &str) -> bool {
    matches!(
        word,
        "0.1" | "0,1" | "0.01" | "0,01" | "x10" | "x100" | "*10" | "*100" | "10x" | "1/10"
    )
}
