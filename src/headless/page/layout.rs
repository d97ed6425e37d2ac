//! Lines of a fixed width: measuring, wrapping, headings.

/// Columns of a terminal that the page uses.
pub(super) const WIDTH: usize = 100;

/// A page of text that grows line by line.
#[derive(Debug, Default)]
pub(super) struct Page {
    text: String,
}

impl Page {
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
        let text = text.to_uppercase();
        let rest = WIDTH.saturating_sub(width(&text) + 1);
        self.blank();
        self.line(format!("{text} {}", "─".repeat(rest)));
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
        || matches!(character, '\u{a0}' | '\u{2028}' | '\u{2029}' | '\u{feff}')
    {
        ' '
    } else {
        character
    }
}

/// Columns that a text takes in a terminal: accents set on a letter take none, East Asian
/// letters and pictures two. The ranges cover the blocks in use, not every rare sign.
pub(super) fn width(text: &str) -> usize {
    text.chars().map(columns).sum()
}

fn columns(character: char) -> usize {
    match u32::from(character) {
        0x0300..=0x036f
        | 0x0591..=0x05bd
        | 0x064b..=0x065f
        | 0x1ab0..=0x1aff
        | 0x1dc0..=0x1dff
        | 0x200b..=0x200d
        | 0x20d0..=0x20ff
        | 0xfe00..=0xfe0f
        | 0xfe20..=0xfe2f => 0,
        0x1100..=0x115f
        | 0x2e80..=0x303e
        | 0x3041..=0xa4cf
        | 0xac00..=0xd7a3
        | 0xf900..=0xfaff
        | 0xfe30..=0xfe6f
        | 0xff00..=0xff60
        | 0xffe0..=0xffe6
        | 0x1f300..=0x1faff
        | 0x2_0000..=0x3_fffd => 2,
        _ => 1,
    }
}

/// Breaks a text between words into lines of at most so many columns; a longer word is cut.
/// Never empty: a text without words gives one empty line.
pub(super) fn wrap(text: &str, columns_wide: usize) -> Vec<String> {
    let limit = columns_wide.max(4);
    let mut lines = Vec::new();
    let mut line = String::new();
    // Not at a no-break space: that one keeps a number and its unit together.
    let words = text.split(|c: char| c.is_whitespace() && c != '\u{a0}');
    for word in words.filter(|word| !word.is_empty()) {
        for piece in cut(word, limit) {
            let needed = width(&line) + usize::from(!line.is_empty()) + width(&piece);
            if needed > limit && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(&piece);
        }
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

fn cut(word: &str, limit: usize) -> Vec<String> {
    let mut pieces = Vec::new();
    let mut piece = String::new();
    for character in word.chars() {
        if width(&piece) + columns(character) > limit {
            pieces.push(std::mem::take(&mut piece));
        }
        piece.push(character);
    }
    pieces.push(piece);
    pieces
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
    }

    #[test]
    fn nothing_steers_the_terminal() {
        let mut page = Page::default();
        page.line("a\u{1b}[2Jb\r\nc\u{202e}d\u{9b}e");
        assert_eq!(page.finish(), "a [2Jb  c d e\n");
    }
}
