//! Text that can be printed: every character has a glyph, and every word can be broken.
//!
//! A page for the archive may not show a character without a glyph, nor control and private-use
//! characters. They are shown as □, and the sheet says which.
//!
//! A letter and its marks may be written as one character or as several. They are put together
//! where there is one for them; else letter and marks must lie in the same font.

use super::clusters::{composed, is_mark};
use super::world;
use std::collections::{BTreeSet, HashSet};
use std::sync::LazyLock;

/// What stands for a character that cannot be printed.
const BOX: char = '□';

/// Letters in a row from which on a word is given places to break.
const LONG_WORD: usize = 22;
/// A place to break comes after so many letters.
const PIECE: usize = 12;
/// A place to break that takes no room.
const BREAK: char = '\u{200b}';

/// Makes texts printable, and keeps what had to be replaced.
#[derive(Debug, Default)]
pub(super) struct Printable {
    replaced: BTreeSet<char>,
}

impl Printable {
    /// A text with □ for each character that no bundled font holds, and with places to break in
    /// long words.
    pub(super) fn text(&mut self, text: &str) -> String {
        broken(&self.characters(&composed(text)))
    }

    /// The same without places to break and nothing put together: for drawings, whose texts are
    /// composed before marks of the drawing stand beside them.
    pub(super) fn characters(&mut self, text: &str) -> String {
        let text = text.replace("\r\n", "\n");
        let shown = all_printed(&text).filter_map(|(character, printed)| match printed {
            Printed::As(shown) => Some(shown),
            Printed::Nothing => None,
            Printed::Box => {
                self.replaced.insert(character);
                Some(BOX)
            }
        });
        shown.collect()
    }

    /// A sentence about what was replaced, if anything was.
    pub(super) fn sentence(&self) -> Option<String> {
        /// More are only counted.
        const NAMED: usize = 12;
        if self.replaced.is_empty() {
            return None;
        }
        let names: Vec<String> = self
            .replaced
            .iter()
            .take(NAMED)
            .map(|character| format!("U+{:04X}", u32::from(*character)))
            .collect();
        let more = match self.replaced.len().saturating_sub(NAMED) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        Some(format!(
            "{BOX} stands for characters that the fonts of this program do not hold: {}{more}. The \
             findings of the survey say where they stand",
            names.join(", ")
        ))
    }
}

/// What becomes of a character on paper.
enum Printed {
    /// It, or what it stands for.
    As(char),
    /// Nothing: it shows nothing anyway.
    Nothing,
    /// A box.
    Box,
}

/// What becomes of each character of a composed text.
fn all_printed(text: &str) -> impl Iterator<Item = (char, Printed)> {
    let mut letter = None;
    text.chars().map(move |character| {
        if !is_mark(character) {
            letter = Some(character);
            return (character, printed(character));
        }
        let shown = letter.is_none_or(|letter| one_font_holds(letter, character));
        let mark = if shown {
            printed(character)
        } else {
            Printed::Box
        };
        (character, mark)
    })
}

fn printed(character: char) -> Printed {
    match character {
        ' '..='~' | '\n' => Printed::As(character),
        '\t' => Printed::As(' '),
        '\r' | '\u{2028}' | '\u{2029}' | '\u{85}' | '\u{b}' | '\u{c}' => Printed::As('\n'),
        _ if is_unseen(character) => Printed::Nothing,
        _ if character.is_control() || is_private(character) || !has_glyph(character) => {
            Printed::Box
        }
        _ => Printed::As(character),
    }
}

/// The characters of a text that would be printed as boxes, each once.
pub(super) fn boxed(text: &str) -> BTreeSet<char> {
    let text = composed(text);
    let each = all_printed(&text).filter(|(_, printed)| matches!(printed, Printed::Box));
    each.map(|(character, _)| character).collect()
}

/// Characters that show nothing by themselves: marks of direction, joiners, variants, marks of
/// encoding. Without them the text still reads in its own direction.
fn is_unseen(character: char) -> bool {
    matches!(
        character,
        '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{115f}'
            | '\u{1160}'
            | '\u{17b4}'
            | '\u{17b5}'
            | '\u{180b}'..='\u{180f}'
            | '\u{200b}'..='\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{3164}'
            | '\u{fe00}'..='\u{fe0f}'
            | '\u{feff}'
            | '\u{ffa0}'
            | '\u{fff0}'..='\u{fff8}'
            | '\u{1bca0}'..='\u{1bca3}'
            | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}

pub(super) fn is_private(character: char) -> bool {
    matches!(
        character,
        '\u{e000}'..='\u{f8ff}' | '\u{f0000}'..='\u{ffffd}' | '\u{100000}'..='\u{10fffd}'
    )
}

/// Whether a bundled font holds the character.
fn has_glyph(character: char) -> bool {
    HELD.iter().any(|held| held.contains(&character))
}

/// Whether a letter and a mark on it can be shown by one font.
fn one_font_holds(letter: char, mark: char) -> bool {
    let both = |held: &HashSet<char>| held.contains(&letter) && held.contains(&mark);
    HELD.iter().any(both)
}

/// Every character that has a glyph, font by font: looked up once, since texts are looked through at
/// every edit.
static HELD: LazyLock<Vec<HashSet<char>>> = LazyLock::new(|| {
    let of_face = |face: &typst::text::FontInstance| {
        let mut held = HashSet::new();
        let tables = face.ttf().tables().cmap.into_iter();
        for subtable in tables.flat_map(|table| table.subtables) {
            subtable.codepoints(|code| {
                let character = char::from_u32(code).filter(|_| subtable.is_unicode());
                // A font's list of characters may name some without a glyph, so the glyph itself
                // is asked for.
                let glyph = |character: &char| face.ttf().glyph_index(*character);
                held.extend(character.filter(|one| glyph(one).is_some_and(|glyph| glyph.0 != 0)));
            });
        }
        held
    };
    world::faces().iter().map(of_face).collect()
});

/// Long words with places to break.
fn broken(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for word in text.split_inclusive([' ', '\n', '\u{a0}']) {
        if word.chars().count() <= LONG_WORD {
            out.push_str(word);
            continue;
        }
        for (at, character) in word.chars().enumerate() {
            // A mark stays with the letter that it is on.
            if at > 0 && at % PIECE == 0 && !is_mark(character) {
                out.push(BREAK);
            }
            out.push(character);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_no_font_holds_becomes_a_box_and_is_named() {
        let mut printable = Printable::default();
        assert_eq!(printable.text("door 🚪 \u{1}ok\u{e000}"), "door □ □ok□");
        let sentence = printable.sentence().expect("something was replaced");
        assert!(sentence.contains("U+0001, U+E000, U+1F6AA"), "{sentence}");
        let mut printable = Printable::default();
        let kept = "dörr – Ωé ⌀ ² → ≥ שלום العربية Дверь □";
        assert_eq!(printable.text(kept), kept);
        assert_eq!(printable.sentence(), None);
        // DejaVu Sans lists this letter, but has no glyph for it.
        assert_eq!(printable.text("a\u{e89}"), "a□");
    }

    /// The Unicode Standard, chapter 3: e + U+0301 is é, a + U+0323 is ạ; there is no single x with a
    /// dot below.
    #[test]
    fn letters_and_marks_are_put_together_or_shown_by_one_font() {
        let mut printable = Printable::default();
        let apart = "Gio\u{301} ma\u{323}nh";
        assert_eq!(printable.text(apart), "Gió mạnh");
        assert_eq!(printable.text("x\u{323}"), "x\u{323}");
        assert_eq!(printable.sentence(), None);
        assert!(boxed(apart).is_empty());
        // No bundled font has this mark together with any letter.
        let lonely = "x\u{1ab0}";
        assert_eq!(printable.text(lonely), "x□");
        assert_eq!(boxed(lonely), BTreeSet::from(['\u{1ab0}']));
    }

    #[test]
    fn lines_stay_and_unseen_marks_go() {
        let mut printable = Printable::default();
        assert_eq!(
            printable.text("a\r\nb\rc\u{2028}d\te\u{feff}f\u{202e}g"),
            "a\nb\nc\nd efg"
        );
        assert_eq!(printable.sentence(), None);
    }

    #[test]
    fn long_words_can_be_broken_and_lose_no_letter() {
        let word = "x".repeat(100);
        let out = Printable::default().text(&format!("short {word} short"));
        assert_eq!(out.replace(BREAK, ""), format!("short {word} short"));
        let longest = out
            .split([' ', BREAK])
            .map(|piece| piece.chars().count())
            .max();
        assert_eq!(longest, Some(PIECE));
    }
}
