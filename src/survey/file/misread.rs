//! What the reader of the text says, in plain sentences with line and column.

use super::error::ParseError;
use ron::error::{Error, SpannedError};
use std::borrow::Cow;

/// The error of a file whose format number was looked for.
pub(super) fn header_error(text: &str, error: &SpannedError) -> ParseError {
    match &error.code {
        Error::MissingStructField {
            field: "format", ..
        }
        | Error::ExpectedStructLike
        | Error::ExpectedNamedStructLike(_)
        | Error::ExpectedDifferentStructName { .. } => ParseError::NoFormat,
        _ => parse_error(text, error),
    }
}

/// The error of a file that was being read.
pub(super) fn parse_error(text: &str, error: &SpannedError) -> ParseError {
    let place = misspelt_word(&error.code)
        .and_then(|word| place_of_word(text, word, error.span.end.line, error.span.end.col));
    let (line, column) = place.unwrap_or((error.span.end.line, error.span.end.col));
    let stopped = at(text, error.span.end.line, error.span.end.col);
    ParseError::Wrong {
        line,
        column,
        what: match stopped {
            Some(stopped) if is_cut(text, stopped, &error.code) => {
                format!("{CUT_SHORT}; or else {}", in_words(&error.code))
            }
            Some(stopped) if is_part_of_a_number(text, stopped, &error.code) => {
                String::from("a whole number must stand here, without decimals")
            }
            _ => in_words(&error.code),
        },
    }
}

/// What is said of the commonest damage.
const CUT_SHORT: &str = "the file ends too early: it was cut short, so look for its .bak file";

/// Whether the reader came to the end of the file and wanted more.
fn is_cut(text: &str, stopped: usize, code: &Error) -> bool {
    // What is not closed was looked for as far as the end.
    if matches!(code, Error::ExpectedStringEnd | Error::UnclosedBlockComment) {
        return true;
    }
    let rest = text.get(stopped..).unwrap_or_default();
    let unclosed = matches!(
        code,
        Error::ExpectedComma
            | Error::ExpectedArrayEnd
            | Error::ExpectedStructLikeEnd
            | Error::ExpectedOptionEnd
            | Error::ExpectedMapEnd
    );
    // What is whole and wrong in its last place ends as a survey does.
    let whole = text.trim_end().ends_with(')') && !unclosed;
    rest.trim().is_empty() && !whole && !matches!(code, Error::Eof)
}

/// Whether the reader took the whole part of a number and met its decimals.
fn is_part_of_a_number(text: &str, stopped: usize, code: &Error) -> bool {
    let (before, rest) = text.split_at_checked(stopped).unwrap_or_default();
    let digit = |letter: char| letter.is_ascii_digit();
    matches!(code, Error::ExpectedComma) && before.ends_with(digit) && rest.starts_with('.')
}

/// Byte at a line and a column, both from 1.
fn at(text: &str, line: usize, column: usize) -> Option<usize> {
    let lines = text.split_inclusive('\n').take(line.checked_sub(1)?);
    let start: usize = lines.map(str::len).sum();
    let letters = text.get(start..)?.chars().take(column.checked_sub(1)?);
    Some(start + letters.map(char::len_utf8).sum::<usize>())
}

/// The word that is not known, where that is the error.
fn misspelt_word(code: &Error) -> Option<&str> {
    match code {
        Error::NoSuchStructField { found, .. } | Error::NoSuchEnumVariant { found, .. } => {
            Some(found)
        }
        Error::DuplicateStructField { field, .. } => Some(field),
        _ => None,
    }
}

/// Where the word stands that the reader has just passed: the last one at or before the place
/// where it stopped.
fn place_of_word(text: &str, word: &str, line: usize, column: usize) -> Option<(usize, usize)> {
    if word.is_empty() {
        return None;
    }
    let read = text.get(..at(text, line, column)?)?;
    let start = read.rfind(word)?;
    let before = read.get(..start)?;
    Some((
        1 + before.matches('\n').count(),
        1 + before.chars().rev().take_while(|&c| c != '\n').count(),
    ))
}

fn in_words(code: &Error) -> String {
    match code {
        Error::NoSuchStructField {
            expected,
            found,
            outer,
        } => format!(
            "there is no field `{}`{}: {}",
            shortened(found),
            of(outer.as_deref()),
            choose(found, expected)
        ),
        Error::NoSuchEnumVariant {
            expected, found, ..
        } => format!(
            "`{}` is none of the words allowed here: {}",
            shortened(found),
            choose(found, expected)
        ),
        Error::MissingStructField { field, outer } => format!(
            "the field `{field}`{} is missing before this place: add it",
            of(outer.as_deref())
        ),
        Error::DuplicateStructField { field, outer } => format!(
            "the field `{}`{} stands twice: remove one of them",
            shortened(field),
            of(outer.as_deref())
        ),
        Error::Eof => String::from(CUT_SHORT),
        Error::ExpectedFloat => String::from("a number must stand here"),
        Error::ExpectedInteger => String::from("a whole number, zero or more, must stand here"),
        Error::IntegerOutOfBounds => {
            String::from("this must be a whole number from 0 to 4294967295")
        }
        Error::ExpectedBoolean => String::from("`true` or `false` must stand here"),
        Error::ExpectedString => String::from("a text in double quotes must stand here"),
        Error::ExpectedArray => String::from("a list in square brackets must stand here"),
        Error::ExpectedComma => String::from("a comma is missing before this place"),
        Error::TrailingCharacters => {
            String::from("something stands here after the end of the survey: remove it")
        }
        Error::ExceededRecursionLimit => {
            String::from("brackets are nested deeper than in any survey")
        }
        Error::Message(message) => words_shortened(message),
        other => punctuation(other).to_owned(),
    }
}

/// Signs that are missing or too many.
fn punctuation(code: &Error) -> &'static str {
    match code {
        Error::ExpectedMapColon => "a colon must stand here, between a name and its value",
        Error::ExpectedStructLike
        | Error::ExpectedNamedStructLike(_)
        | Error::ExpectedMap
        | Error::ExpectedOption => "an opening bracket ( must stand here",
        Error::ExpectedStructLikeEnd | Error::ExpectedOptionEnd | Error::ExpectedMapEnd => {
            "a closing bracket or a comma must stand here"
        }
        Error::ExpectedArrayEnd => "a closing bracket ] or a comma must stand here",
        Error::ExpectedStringEnd => "a text is not closed: a double quote is missing",
        Error::ExpectedIdentifier
        | Error::InvalidIdentifier(_)
        | Error::SuggestRawIdentifier(_) => {
            "a name must stand here: small letters and underscores, no digit in front"
        }
        Error::InvalidEscape(_) => {
            "a backslash in a text means something else here: write two of them for one"
        }
        Error::UnclosedBlockComment => "a remark that begins with /* is not closed by */",
        Error::UnexpectedChar(_) => "this sign has no business here: remove it",
        Error::FloatUnderscore
        | Error::UnderscoreAtBeginning
        | Error::InvalidIntegerDigit { .. } => {
            "this is not how a number is written: digits, with a point for decimals"
        }
        _ => {
            "this cannot be read: look at the commas, colons, quotes and brackets before this place"
        }
    }
}

/// Letters of a text from a file that a message repeats.
const MOST_LETTERS: usize = 60;

/// A text as a message repeats it: cut where no person would have written so much.
pub(super) fn shortened(text: &str) -> Cow<'_, str> {
    match text.char_indices().nth(MOST_LETTERS) {
        Some((end, _)) => {
            let start = text.get(..end).unwrap_or_default();
            Cow::Owned(format!("{start}\u{2026}"))
        }
        None => Cow::Borrowed(text),
    }
}

fn of(outer: Option<&str>) -> String {
    outer.map_or_else(String::new, |outer| format!(" in {outer}"))
}

/// The nearest word if one is near, otherwise all that are allowed.
fn choose(found: &str, expected: &[&str]) -> String {
    let nearest = expected
        .iter()
        .map(|word| {
            let other_start = !word.starts_with(|first| found.starts_with(first));
            (edits(found, word), other_start, *word)
        })
        .min()
        .filter(|(edits, _, word)| edits * 3 <= word.len());
    match nearest {
        Some((_, _, word)) => format!("is `{word}` meant?"),
        None if expected.is_empty() => String::from("nothing is allowed here"),
        None => format!("allowed are {}", expected.join(", ")),
    }
}

/// How many letters to put in, take out or change to make one word of the other.
fn edits(from: &str, to: &str) -> usize {
    // Names are short; a longer word is no near miss and not worth the work.
    if from.len() > 64 {
        return usize::MAX / 4;
    }
    let to: Vec<char> = to.chars().collect();
    let mut row: Vec<usize> = (0..=to.len()).collect();
    for (at, letter) in from.chars().enumerate() {
        let mut diagonal = at;
        let mut left = at + 1;
        if let Some(first) = row.first_mut() {
            *first = left;
        }
        for (other, cell) in to.iter().zip(row.iter_mut().skip(1)) {
            let changed = diagonal + usize::from(*other != letter);
            diagonal = *cell;
            left = changed.min(left + 1).min(*cell + 1);
            *cell = left;
        }
    }
    row.last().copied().unwrap_or(usize::MAX / 4)
}

/// A sentence whose words from a file are each cut where no person would have written so much.
fn words_shortened(sentence: &str) -> String {
    let words = sentence.split(' ').map(shortened);
    words.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edits_are_counted() {
        for (from, to, count) in [
            ("lenght_m", "length_m", 2),
            ("width_m", "width_m", 0),
            ("", "abc", 3),
            ("abc", "", 3),
            ("kitten", "sitting", 3),
        ] {
            assert_eq!(edits(from, to), count, "{from} {to}");
        }
    }
}
