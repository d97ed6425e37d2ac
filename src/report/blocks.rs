//! Sections and what they are made of: plain data that every surface shows.

use crate::assess::quantity::Quantity;
use crate::assess::{Answer, NotKnown, Topic};
use crate::survey::{Finding, Item};
use serde::Serialize;

/// A section with its heading.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Section {
    /// Heading.
    pub title: String,
    /// Whether it begins on a new page.
    pub new_page: bool,
    /// What stands in it.
    pub blocks: Vec<Block>,
    /// The working of what it tells.
    #[serde(skip)]
    pub topic: Option<Topic>,
    /// Whether its numbers stay metric in whatever units others are shown: those of formulas.
    #[serde(skip)]
    pub stays_metric: bool,
}

impl Section {
    /// An empty section.
    #[must_use]
    pub fn new(title: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            new_page: false,
            blocks: Vec::new(),
            topic: None,
            stays_metric: false,
        }
    }

    /// The same with formulas in it, whose numbers stay metric.
    #[must_use]
    pub fn with_formulas(mut self) -> Self {
        self.stays_metric = true;
        self
    }

    /// The same, on a new page.
    #[must_use]
    pub fn on_new_page(mut self) -> Self {
        self.new_page = true;
        self
    }

    /// Adds a block.
    pub fn push(&mut self, block: Block) -> &mut Self {
        self.blocks.push(block);
        self
    }

    /// Adds a paragraph.
    pub fn paragraph(&mut self, text: impl Into<String>) -> &mut Self {
        self.push(Block::Paragraph { text: text.into() })
    }

    /// Adds a heading of the second order.
    pub fn heading(&mut self, text: impl Into<String>) -> &mut Self {
        self.push(Block::Heading { text: text.into() })
    }

    /// Adds small print.
    pub fn note(&mut self, text: impl Into<String>) -> &mut Self {
        self.push(Block::Note { text: text.into() })
    }

    /// Adds names and values in two columns, with the reasons for what is not known.
    pub fn facts(&mut self, rows: Vec<Fact>, reasons: &Reasons) -> &mut Self {
        self.push(Block::Facts { rows }).notes(reasons.notes())
    }

    /// Adds small print where there is any, a paragraph of its own each.
    pub fn notes(&mut self, texts: impl IntoIterator<Item = String>) -> &mut Self {
        let texts = texts.into_iter().map(|text| Block::Note { text });
        self.blocks.extend(texts);
        self
    }

    /// Adds points below one another; nothing where there are none.
    pub fn points(&mut self, points: impl IntoIterator<Item = String>) -> &mut Self {
        let points: Vec<String> = points.into_iter().collect();
        let some = (!points.is_empty()).then_some(Block::Points { points });
        self.blocks.extend(some);
        self
    }

    /// The section with a last paragraph.
    #[must_use]
    pub fn ending(mut self, text: impl Into<String>) -> Self {
        self.paragraph(text);
        self
    }

    /// Adds all that stands in another section, under its title.
    pub fn append(&mut self, other: Self) -> &mut Self {
        if !other.blocks.is_empty() {
            self.heading(other.title);
            self.blocks.extend(other.blocks);
        }
        self
    }

    /// Adds a table with the reasons for what it does not know.
    pub fn table(&mut self, table: Table, reasons: &Reasons) -> &mut Self {
        self.push(Block::Table { table }).notes(reasons.notes())
    }
}

/// One block of a section.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "block", rename_all = "snake_case")]
pub enum Block {
    /// Sentences in larger letters, each with its sign.
    Plain {
        /// The sentences.
        sentences: Vec<String>,
    },
    /// A paragraph.
    Paragraph {
        /// The text.
        text: String,
    },
    /// A heading of the second order.
    Heading {
        /// The text.
        text: String,
    },
    /// Small print.
    Note {
        /// The text.
        text: String,
    },
    /// Points, one below the other.
    Points {
        /// The points.
        points: Vec<String>,
    },
    /// Names and values in two columns.
    Facts {
        /// The rows.
        rows: Vec<Fact>,
    },
    /// Something to beware of.
    Caution {
        /// What it is about.
        title: String,
        /// What to do and what not.
        text: String,
    },
    /// Something the program noticed.
    Finding {
        /// How bad it is, with a capital.
        title: String,
        /// What is the matter and what to do, as sentences.
        text: String,
        /// Whether it stands in a box: a danger or an error.
        grave: bool,
        /// The finding itself.
        #[serde(skip)]
        finding: Finding,
    },
    /// A table.
    Table {
        /// The table.
        table: Table,
    },
    /// A drawing.
    Figure {
        /// Name of its file.
        file: String,
        /// Width on paper, mm.
        width_mm: String,
        /// What it shows, for those who cannot see it.
        alt: String,
        /// What stands under it.
        caption: String,
    },
    /// Photos side by side, all of one row equally high.
    Photos {
        /// The rows.
        rows: Vec<Vec<Photo>>,
    },
    /// Lines to sign on.
    Signature {
        /// What each line is for.
        labels: Vec<String>,
    },
}

/// A name and its value.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// What it is.
    pub name: String,
    /// What it comes to.
    pub value: String,
    /// Its working, where it has one.
    #[serde(skip)]
    pub topic: Option<Topic>,
}

impl Fact {
    /// A name and its value.
    #[must_use]
    pub fn new(name: impl Into<String>, value: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            value: value.into(),
            topic: None,
        }
    }

    /// The same with the way to its working.
    #[must_use]
    pub fn worked_out(mut self, topic: Topic) -> Self {
        self.topic = Some(topic);
        self
    }
}

/// A photo in a row.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Photo {
    /// Name of its file.
    pub file: String,
    /// Width on paper, mm.
    pub width_mm: String,
    /// Height on paper, mm.
    pub height_mm: String,
    /// What stands under it.
    pub caption: String,
    /// Name of the drawing with the marks on it, if there are any.
    pub marks: Option<String>,
}

/// How the cells of a column stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Align {
    /// Words, from the left.
    Left,
    /// From the right.
    Right,
    /// Numbers with their decimal points in one line.
    Decimal,
    /// A box to tick; the cell's text is not shown.
    Tick,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Column {
    /// Heading.
    pub head: String,
    /// How its cells stand.
    pub align: Align,
    /// Parts of the width that is left; 0 is as wide as its cells.
    pub width: u8,
}

/// What a row of a table is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RowKind {
    /// A plain row.
    Plain,
    /// A heading over the rows that follow; its first cell goes over the whole width.
    Group,
    /// A sum.
    Total,
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Row {
    /// What it is.
    pub kind: RowKind,
    /// One text for each column.
    pub cells: Vec<String>,
    /// What the row is about, so that a window can lead there.
    #[serde(skip)]
    pub item: Option<Item>,
    /// The working of the row's result.
    #[serde(skip)]
    pub topic: Option<Topic>,
    /// Cells that have a working each, by their column.
    #[serde(skip)]
    pub workings: Vec<(usize, Topic)>,
}

impl Row {
    /// Says what the row is about.
    pub fn about(&mut self, item: Item) -> &mut Self {
        self.item = Some(item);
        self
    }

    /// Says where the row's result is worked out.
    pub fn worked_out(&mut self, topic: Topic) -> &mut Self {
        self.topic = Some(topic);
        self
    }

    /// The working of one cell.
    #[must_use]
    pub fn working_of(&self, column: usize) -> Option<Topic> {
        let mut workings = self.workings.iter();
        let (_, topic) = workings.find(|(at, _)| *at == column)?;
        Some(*topic)
    }
}

/// A table; its header is printed anew on each page.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Table {
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows.
    pub rows: Vec<Row>,
}

impl Table {
    /// Adds a column as wide as its cells.
    #[must_use]
    pub fn column(self, head: impl Into<String>, align: Align) -> Self {
        self.wide(head, align, 0)
    }

    /// Adds a column that takes so many parts of the width that is left.
    #[must_use]
    pub fn wide(mut self, head: impl Into<String>, align: Align, parts: u8) -> Self {
        self.columns.push(Column {
            head: head.into(),
            align,
            width: parts,
        });
        self
    }

    /// Adds a row; cells that are missing are empty.
    pub fn row(&mut self, cells: impl IntoIterator<Item = String>) -> &mut Row {
        self.add(RowKind::Plain, cells)
    }

    /// Adds a sum.
    pub fn total(&mut self, cells: impl IntoIterator<Item = String>) -> &mut Row {
        self.add(RowKind::Total, cells)
    }

    /// Adds a heading over rows.
    pub fn group(&mut self, text: impl Into<String>) {
        self.add(RowKind::Group, [text.into()]);
    }

    #[expect(
        clippy::indexing_slicing,
        reason = "the row was put there in the line above"
    )]
    fn add(&mut self, kind: RowKind, cells: impl IntoIterator<Item = String>) -> &mut Row {
        let mut cells: Vec<String> = cells.into_iter().collect();
        cells.resize(self.columns.len().max(1), String::new());
        let at = self.rows.len();
        self.rows.push(Row {
            kind,
            cells,
            item: None,
            topic: None,
            workings: Vec::new(),
        });
        &mut self.rows[at]
    }
}

/// Reasons for what is not known, numbered in the order they come up.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reasons {
    reasons: Vec<String>,
}

impl Reasons {
    /// The words for a known value, or `not known (1)` with the reason kept for the notes.
    pub fn or<T>(&mut self, answer: &Answer<T>, words: impl FnOnce(&T) -> String) -> String {
        match answer {
            Ok(value) => words(value),
            Err(unknown) => self.mark(unknown),
        }
    }

    /// The number of a quantity without its unit, or the mark.
    pub fn number(&mut self, quantity: &Quantity) -> String {
        self.or(&quantity.number(), String::clone)
    }

    /// `not known (1)`, with the reason kept for the notes.
    pub fn mark(&mut self, unknown: &NotKnown) -> String {
        let known = self
            .reasons
            .iter()
            .position(|reason| *reason == unknown.reason);
        let at = known.unwrap_or_else(|| {
            self.reasons.push(unknown.reason.clone());
            self.reasons.len() - 1
        });
        format!("not known ({})", at + 1)
    }

    /// The sign of a reason that the notes name: `(1)`.
    #[must_use]
    pub fn sign(&self, unknown: &NotKnown) -> Option<String> {
        let mut reasons = self.reasons.iter();
        let at = reasons.position(|reason| *reason == unknown.reason)?;
        Some(format!("({})", at + 1))
    }

    /// One note for each reason.
    #[must_use]
    pub fn notes(&self) -> Vec<String> {
        let numbered = self.reasons.iter().zip(1..);
        numbered
            .map(|(reason, number)| format!("({number}) Not known: {reason}."))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reason_that_comes_twice_is_noted_once() {
        let mut reasons = Reasons::default();
        let unknown = |reason: &str| Err::<f64, _>(NotKnown::because(reason));
        assert_eq!(reasons.or(&unknown("a"), f64::to_string), "not known (1)");
        assert_eq!(reasons.or(&unknown("b"), f64::to_string), "not known (2)");
        assert_eq!(reasons.or(&unknown("a"), f64::to_string), "not known (1)");
        assert_eq!(reasons.or(&Ok(2.5), f64::to_string), "2.5");
        assert_eq!(reasons.notes(), ["(1) Not known: a.", "(2) Not known: b."]);
        let sign = |reason: &str| reasons.sign(&NotKnown::because(reason));
        assert_eq!(sign("b").as_deref(), Some("(2)"));
        assert_eq!(sign("c"), None);
    }

    #[test]
    fn every_row_has_a_cell_for_each_column() {
        let mut table = Table::default()
            .column("gap", Align::Right)
            .wide("what", Align::Left, 1);
        table.row(["1".to_owned()]);
        table.total(["a".to_owned(), "b".to_owned(), "c".to_owned()]);
        for row in &table.rows {
            assert_eq!(row.cells.len(), 2);
        }
    }
}
