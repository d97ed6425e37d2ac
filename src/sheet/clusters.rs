//! Letters and the marks on them: what one font must show.

use std::borrow::Cow;
use unicode_normalization::UnicodeNormalization;

/// A text with letters and their marks put together where there is one character for them.
pub(super) fn composed(text: &str) -> Cow<'_, str> {
    if text.is_ascii() {
        Cow::Borrowed(text)
    } else {
        Cow::Owned(text.nfc().collect())
    }
}

/// A text in pieces, in order: with `true` a letter and the marks on it, which one font must show,
/// else what stands between those.
pub(super) fn clusters(text: &str) -> Vec<(&str, bool)> {
    let mut pieces = Vec::new();
    let (mut from, mut letter, mut marked) = (0, 0, false);
    let mut cut = |from: usize, to: usize, marked: bool| {
        if let Some(piece) = text.get(from..to).filter(|piece| !piece.is_empty()) {
            pieces.push((piece, marked));
        }
    };
    for (at, character) in text.char_indices() {
        if !goes_on_any_letter(character) {
            if marked {
                cut(from, at, true);
                (from, marked) = (at, false);
            }
            letter = at;
        } else if !marked {
            cut(from, letter, false);
            (from, marked) = (letter, true);
        }
    }
    cut(from, text.len(), marked);
    pieces
}

/// Marks of no script of its own: letters of several fonts may carry them.
fn goes_on_any_letter(character: char) -> bool {
    is_mark(character) && !matches!(character, '\u{591}'..='\u{6ed}')
}

/// Marks that combine with the letter before.
pub(super) fn is_mark(character: char) -> bool {
    matches!(
        character,
        '\u{300}'..='\u{36f}'
            | '\u{483}'..='\u{489}'
            | '\u{591}'..='\u{5c7}'
            | '\u{610}'..='\u{61a}'
            | '\u{64b}'..='\u{65f}'
            | '\u{670}'
            | '\u{6d6}'..='\u{6ed}'
            | '\u{1ab0}'..='\u{1aff}'
            | '\u{1dc0}'..='\u{1dff}'
            | '\u{20d0}'..='\u{20ff}'
            | '\u{fe20}'..='\u{fe2f}'
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_letter_stays_with_its_marks() {
        let all = clusters("ab\u{323}\u{301}cd\u{300}e\u{300}f");
        let expected = [
            ("a", false),
            ("b\u{323}\u{301}", true),
            ("c", false),
            ("d\u{300}", true),
            ("e\u{300}", true),
            ("f", false),
        ];
        assert_eq!(all, expected);
        assert_eq!(clusters("plain"), [("plain", false)]);
        assert_eq!(clusters("\u{301}a"), [("\u{301}", true), ("a", false)]);
        assert!(clusters("").is_empty());
    }
}
