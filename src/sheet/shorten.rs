//! Texts that are longer than paper takes: cut, with a sign, before the typesetter sees them.
//!
//! Time and memory of the typesetter grow with the letters it breaks into lines, in narrow columns
//! above all: a survey with 4 000 letters in each of its fields once took 14 GB. So each text has a
//! most, by where it stands, and all of a sheet together have one too.

use super::blocks::SheetText;
use crate::report::{Block, Photo, RowKind, Section, Table};

/// Letters of a title or a heading.
const TITLE: usize = 200;
/// Letters of the head of a column, or of what goes over a whole row.
const HEAD: usize = 160;
/// Letters of a cell of a table: a name, a place and the beginning of a note.
const CELL: usize = 1_200;
/// Letters of what stands under a picture.
const CAPTION: usize = 600;
/// Letters of a value beside its name.
const VALUE: usize = 1_500;
/// Letters of a paragraph, a point, or small print.
pub(super) const PARAGRAPH: usize = 6_000;
/// Letters of all of a sheet. A report of 1 000 gaps has some 700 000.
pub(super) const SHEET: usize = 1_500_000;

/// What stands where something was cut.
const CUT: &str = " … (longer than is printed)";

/// Cuts what is too long, and counts the letters that are left.
pub(super) fn shorten(text: &mut SheetText) -> usize {
    let mut cutter = Cutter { letters: 0 };
    cutter.text(&mut text.title, TITLE);
    cutter.text(&mut text.author, TITLE);
    cutter.text(&mut text.foot, 2 * TITLE);
    cutter.text(&mut text.workshop, TITLE);
    cutter.text(&mut text.address, CAPTION);
    for (name, value) in &mut text.facts {
        cutter.text(name, HEAD);
        cutter.text(value, VALUE);
    }
    if let Some((_, alt)) = &mut text.cover {
        cutter.text(alt, CAPTION);
    }
    for section in &mut text.sections {
        cutter.section(section);
    }
    cutter.letters
}

struct Cutter {
    letters: usize,
}

impl Cutter {
    fn text(&mut self, text: &mut String, most: usize) {
        // As many bytes as letters at most: no need to count them.
        if text.len() > most
            && let Some((end, _)) = text.char_indices().nth(most)
        {
            text.truncate(end);
            text.push_str(CUT);
        }
        self.letters += text.chars().count();
    }

    fn section(&mut self, section: &mut Section) {
        self.text(&mut section.title, TITLE);
        for block in &mut section.blocks {
            self.block(block);
        }
    }

    fn block(&mut self, block: &mut Block) {
        match block {
            Block::Plain { sentences } => self.each(sentences, PARAGRAPH),
            Block::Points { points } => self.each(points, PARAGRAPH),
            Block::Paragraph { text } | Block::Note { text } => self.text(text, PARAGRAPH),
            Block::Heading { text } => self.text(text, TITLE),
            Block::Caution { title, text } | Block::Finding { title, text, .. } => {
                self.text(title, TITLE);
                self.text(text, PARAGRAPH);
            }
            Block::Facts { rows } => {
                for row in rows {
                    self.text(&mut row.name, HEAD);
                    self.text(&mut row.value, VALUE);
                }
            }
            Block::Table { table } => self.table(table),
            Block::Figure { alt, caption, .. } => {
                // Read out, never broken into lines.
                self.text(alt, PARAGRAPH);
                self.text(caption, 2 * CAPTION);
            }
            Block::Photos { rows } => {
                for Photo { caption, .. } in rows.iter_mut().flatten() {
                    self.text(caption, CAPTION);
                }
            }
            Block::Signature { labels } => self.each(labels, HEAD),
        }
    }

    fn table(&mut self, table: &mut Table) {
        for column in &mut table.columns {
            self.text(&mut column.head, HEAD);
        }
        for row in &mut table.rows {
            let most = if row.kind == RowKind::Group {
                HEAD
            } else {
                CELL
            };
            self.each(&mut row.cells, most);
        }
    }

    fn each(&mut self, texts: &mut [String], most: usize) {
        for text in texts {
            self.text(text, most);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::contents::tests::sheet;
    use crate::sheet::{Choices, Kind};
    use crate::survey::file;

    #[test]
    fn a_cut_falls_between_letters_and_says_so() {
        let mut cutter = Cutter { letters: 0 };
        let mut text = "ö".repeat(12);
        cutter.text(&mut text, 12);
        assert_eq!((text.chars().count(), cutter.letters), (12, 12));
        cutter.text(&mut text, 5);
        assert_eq!(text, format!("ööööö{CUT}"));
    }

    /// Nothing of the samples is cut: the bounds are far above what people write.
    #[test]
    fn no_sample_is_too_long_for_paper() {
        let text = include_str!("../../sample-surveys/coastal-coachbuilt.ron");
        let survey = file::parse(text).expect("a sample");
        for kind in Kind::ALL {
            let mut text = sheet(&survey, &Choices::new(kind)).text;
            let before = text.clone();
            assert!(shorten(&mut text) < SHEET / 4);
            assert_eq!(text, before, "{kind:?}");
        }
    }
}
