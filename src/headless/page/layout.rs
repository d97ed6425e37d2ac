//! Lines of a fixed width: measuring, wrapping, headings.

use crate::assess::shown::Shown;
use std::borrow::Cow;
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};
use unicode_width::UnicodeWidthChar;

/// Columns of a terminal that the page uses.
pub(super) const WIDTH: usize = 100;

/// A page of text that grows line by line.
#[derive(Debug, Default)]
pub(super) struct Page {
    text: String,
    /// How sizes are shown on it.
    pub(super) shown: Shown,
}

impl Page {
    /// An empty page with sizes shown so.
    pub(super) fn of(shown: Shown) -> Self {
        Self {
            text: String::new(),
            shown,
        }
    }

    pub(super) fn finish(self) -> String {
        self.text
    }

    /// One line. Whatever a terminal would obey instead of showing is made harmless.
    pub(super) fn line(&mut self, text: impl AsRef<str>) {
        let cleaned: String = text.as_ref().chars().map(shown).collect();
        self.text.push_str(cleaned.trim_end());
        self.text.push('\n');
    }

    pub(super) fn blank(&mut self) {
        self.text.push('\n');
    }

    /// A heading with a rule that runs to the right margin.
    pub(super) fn heading(&mut self, text: &str) {
        // A person may have named what it is about: with what a terminal would obey, or at length.
        let text: String = text.to_uppercase().chars().map(shown).collect();
        self.blank();
        let mut lines = wrap(&text, WIDTH - 2);
        let last = lines.pop().unwrap_or_default();
        for line in &lines {
            self.line(line);
        }
        let rest = WIDTH.saturating_sub(width(&last) + 1);
        self.line(format!("{last} {}", "─".repeat(rest)));
        self.blank();
    }

    /// Wrapped text behind `first` on its first line, and as far in on the lines after it.
    pub(super) fn hanging(&mut self, first: &str, text: &str) {
        let indent = width(first);
        for (at, line) in wrap(text, WIDTH.saturating_sub(indent))
            .into_iter()
            .enumerate()
        {
            if at == 0 {
                self.line(format!("{first}{line}"));
            } else {
                self.line(format!("{}{line}", " ".repeat(indent)));
            }
        }
    }

    pub(super) fn paragraph(&mut self, text: &str) {
        self.hanging("", text);
    }
}

/// The character itself, or a space in place of one that steers the terminal or turns the
/// direction of the text around: names come from files that anybody may have written. A no-break
/// space has done its work once lines are broken, and would only hinder a search.
fn shown(character: char) -> char {
    let turns = matches!(
        character,
        '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
    );
    if turns
        || character.is_control()
        || keeps_together(character)
        || matches!(character, '\u{2028}' | '\u{2029}' | '\u{feff}')
    {
        ' '
    } else {
        character
    }
}

/// A text in which nothing steers the terminal.
pub(in crate::headless) fn harmless(text: &str) -> String {
    text.chars().map(shown).collect()
}

/// Columns that a text takes in a terminal: accents set on a letter take none, East Asian
/// letters and pictures two. Measured letter by letter, as the wrapping does.
pub(super) fn width(text: &str) -> usize {
    text.chars().filter_map(UnicodeWidthChar::width).sum()
}

/// Breaks a text between words into lines of at most so many columns; a longer word is cut.
/// Never empty: a text without words gives one empty line.
///
/// A no-break space is no end of a word: it keeps a number and its unit together.
pub(super) fn wrap(text: &str, columns_wide: usize) -> Vec<String> {
    // What would be made harmless later would be measured wrongly now.
    let harmless: String = text
        .chars()
        .map(|letter| {
            if keeps_together(letter) {
                letter
            } else {
                shown(letter)
            }
        })
        .collect();
    let words: Vec<&str> = harmless
        .split(|letter: char| letter.is_whitespace() && !keeps_together(letter))
        .filter(|word| !word.is_empty())
        .collect();
    let options = Options::new(columns_wide.max(4))
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit);
    textwrap::wrap(&words.join(" "), options)
        .into_iter()
        .map(Cow::into_owned)
        .collect()
}

/// Whether it is one of the spaces at which no line is broken.
fn keeps_together(letter: char) -> bool {
    matches!(letter, '\u{a0}' | '\u{2007}' | '\u{202f}')
}

/// The text with blanks behind it up to a width.
pub(super) fn pad_right(text: &str, to: usize) -> String {
    format!("{text}{}", " ".repeat(to.saturating_sub(width(text))))
}

/// The text with blanks before it up to a width.
pub(super) fn pad_left(text: &str, to: usize) -> String {
    format!("{}{text}", " ".repeat(to.saturating_sub(width(text))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_between_words_and_long_words_are_cut() {
        assert_eq!(wrap("one two three", 7), ["one two", "three"]);
        assert_eq!(wrap("abcdefghij k", 4), ["abcd", "efgh", "ij k"]);
        assert_eq!(wrap("  \n ", 10), [""]);
        assert_eq!(wrap("12\u{a0}mm wide", 6), ["12\u{a0}mm", "wide"]);
        assert_eq!(wrap("well-made seal", 6), ["well-m", "ade", "seal"]);
        assert_eq!(
            wrap("1\u{202f}234\u{a0}mm² of it", 9),
            ["1\u{202f}234\u{a0}mm²", "of it"]
        );
    }

    #[test]
    fn a_word_of_ten_thousand_letters_stays_inside_the_margins() {
        let mut page = Page::default();
        page.hanging("    ", &"x".repeat(10_000));
        let text = page.finish();
        assert!(text.lines().all(|line| width(line) <= WIDTH));
        assert_eq!(text.matches('x').count(), 10_000);
    }

    #[test]
    fn wide_and_combining_letters_are_measured() {
        assert_eq!(width("e\u{301}"), 1);
        assert_eq!(width("雨"), 2);
        assert_eq!(width("m³"), 2);
        assert_eq!(
            wrap("雨雨雨 e\u{301}e\u{301}e\u{301}e\u{301}", 4),
            ["雨雨", "雨", "e\u{301}e\u{301}e\u{301}e\u{301}"]
        );
    }

    /// A sequence that steers the terminal is shown as letters, and so it takes columns.
    #[test]
    fn what_is_made_harmless_is_measured_as_shown() {
        let mut page = Page::default();
        page.hanging("", &"\u{1b}[31mred ".repeat(60));
        assert!(page.finish().lines().all(|line| width(line) <= WIDTH));
    }

    #[test]
    fn nothing_steers_the_terminal() {
        let mut page = Page::default();
        page.line("a\u{1b}[2Jb\r\nc\u{202e}d\u{9b}e");
        assert_eq!(page.finish(), "a [2Jb  c d e\n");
    }
}
