//! A section in the units that a person reads.

use super::blocks::{Block, Fact, Row, RowKind, Section, Table};
use crate::assess::shown::Shown;
use crate::survey::Finding;
use crate::survey::unit::Unit;
use std::borrow::Cow;

/// A row under this name belongs to the row above it, and has its unit.
const LIKELY: &str = "very likely";

/// Stands over formulas where other numbers are not metric.
const FORMULAS: &str = "Formulas, and the numbers put into them, are in metric units.";

impl Section {
    /// The section in the units chosen.
    #[must_use]
    pub fn shown<'a>(&'a self, shown: &Shown) -> Cow<'a, Self> {
        if shown.changes_nothing() {
            return Cow::Borrowed(self);
        }
        let mut section = self.clone();
        if self.stays_metric {
            let text = FORMULAS.to_owned();
            section.blocks.insert(0, Block::Note { text });
        } else {
            section.title = shown.text(&self.title).into_owned();
            for block in &mut section.blocks {
                block.show(shown);
            }
        }
        Cow::Owned(section)
    }
}

fn show(text: &mut String, shown: &Shown) {
    if let Cow::Owned(other) = shown.text(text) {
        *text = other;
    }
}

impl Block {
    /// The block in the units chosen.
    #[must_use]
    pub fn shown<'a>(&'a self, shown: &Shown) -> Cow<'a, Self> {
        if shown.changes_nothing() {
            return Cow::Borrowed(self);
        }
        let mut block = self.clone();
        block.show(shown);
        Cow::Owned(block)
    }

    fn show(&mut self, shown: &Shown) {
        match self {
            Self::Plain { sentences: texts } | Self::Points { points: texts } => {
                texts.iter_mut().for_each(|text| show(text, shown));
            }
            Self::Paragraph { text } | Self::Heading { text } | Self::Note { text } => {
                show(text, shown);
            }
            Self::Facts { rows } => rows.iter_mut().for_each(|fact| fact.show(shown)),
            Self::Caution { title, text } => {
                show(title, shown);
                show(text, shown);
            }
            Self::Finding {
                title,
                text,
                finding,
                ..
            } => {
                show(title, shown);
                show(text, shown);
                *finding = self::finding(finding, shown);
            }
            Self::Table { table } => table.show(shown),
            Self::Figure { alt, caption, .. } => {
                show(alt, shown);
                show(caption, shown);
            }
            Self::Photos { rows } => rows
                .iter_mut()
                .flatten()
                .for_each(|photo| show(&mut photo.caption, shown)),
            Self::Signature { labels } => labels.iter_mut().for_each(|text| show(text, shown)),
        }
    }
}

/// A finding in the units chosen.
#[must_use]
pub fn finding(finding: &Finding, shown: &Shown) -> Finding {
    Finding {
        sentence: shown.text(&finding.sentence).into_owned(),
        advice: shown.text(&finding.advice).into_owned(),
        ..finding.clone()
    }
}

impl Fact {
    fn show(&mut self, shown: &Shown) {
        let (name, unit) = shown.head(&self.name);
        let value = shown.cell(&self.value, unit).into_owned();
        (self.name, self.value) = (name.into_owned(), value);
    }
}

/// Which unit the numbers of a column have.
#[derive(Clone, Copy, PartialEq)]
enum UnitOfColumn {
    /// The one in the heading.
    Own(&'static Unit),
    /// The one in the words in front of the row.
    OfRow,
    /// Percent.
    Share,
}

impl Table {
    /// The table in the units chosen.
    #[must_use]
    pub fn shown<'a>(&'a self, shown: &Shown) -> Cow<'a, Self> {
        if shown.changes_nothing() {
            return Cow::Borrowed(self);
        }
        let mut table = self.clone();
        table.show(shown);
        Cow::Owned(table)
    }

    /// Numbers have the unit of the heading over them, or of the words in front of their row.
    fn show(&mut self, shown: &Shown) {
        let mut units: Vec<UnitOfColumn> = Vec::new();
        for column in &mut self.columns {
            let (head, unit) = shown.head(&column.head);
            units.push(match (column.head.as_str(), unit) {
                (LIKELY, _) => units.last().copied().unwrap_or(UnitOfColumn::OfRow),
                (_, Some(unit)) => UnitOfColumn::Own(unit),
                (head, None) if head.ends_with(", %") => UnitOfColumn::Share,
                _ => UnitOfColumn::OfRow,
            });
            column.head = head.into_owned();
        }
        let mut above = None;
        for row in &mut self.rows {
            above = row.show(shown, &units, above);
        }
    }
}

impl Row {
    fn show(
        &mut self,
        shown: &Shown,
        units: &[UnitOfColumn],
        above: Option<&'static Unit>,
    ) -> Option<&'static Unit> {
        let mut of_row = None;
        for (at, cell) in self.cells.iter_mut().enumerate() {
            let column = units.get(at).copied().unwrap_or(UnitOfColumn::OfRow);
            if at == 0 && column == UnitOfColumn::OfRow {
                let is_likely = cell == LIKELY;
                let (head, unit) = shown.head(cell);
                of_row = if is_likely { above } else { unit };
                *cell = head.into_owned();
                continue;
            }
            let unit = match column {
                UnitOfColumn::Own(unit) => Some(unit),
                UnitOfColumn::OfRow => of_row,
                UnitOfColumn::Share => None,
            };
            *cell = shown.cell(cell, unit).into_owned();
        }
        match self.kind {
            RowKind::Group => None,
            _ => of_row,
        }
    }
}
