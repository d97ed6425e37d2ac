//! The dates of a text as they are written where the reader lives.

use crate::survey::date::{self, DateWay};
use std::borrow::Cow;

/// Characters of a date as the survey holds it.
const LENGTH: usize = "2026-01-31".len();

/// The text with every date in it written so.
pub(super) fn written(text: &str, way: DateWay) -> Cow<'_, str> {
    if way == DateWay::YearMonthDay {
        return Cow::Borrowed(text);
    }
    let mut out = String::new();
    let mut from = 0;
    while let Some(at) = next(text, from) {
        out.push_str(text.get(from..at).unwrap_or_default());
        let date = text.get(at..at + LENGTH).unwrap_or_default();
        out.push_str(&way.written(date));
        from = at + LENGTH;
    }
    if from == 0 {
        return Cow::Borrowed(text);
    }
    out.push_str(text.get(from..).unwrap_or_default());
    Cow::Owned(out)
}

/// Whether there is a date in the text.
pub(super) fn any(text: &str) -> bool {
    next(text, 0).is_some()
}

/// Where the next date begins that is no part of a longer word or number.
fn next(text: &str, from: usize) -> Option<usize> {
    let signs = text.get(from..)?.match_indices('-');
    let starts = signs.filter_map(|(at, _)| (from + at).checked_sub(4));
    starts.filter(|at| *at >= from).find(|at| {
        let joined = |sign: char| sign.is_alphanumeric() || matches!(sign, '-' | '_' | '.' | '/');
        let dated = text.get(*at..at + LENGTH).and_then(date::parse);
        let before = text.get(..*at).and_then(|text| text.chars().last());
        let after = text.get(at + LENGTH..).and_then(|text| text.chars().next());
        let goes_on = after.is_some_and(|sign| sign.is_alphanumeric() || sign == '-');
        dated.is_some() && !before.is_some_and(joined) && !goes_on
    })
}
