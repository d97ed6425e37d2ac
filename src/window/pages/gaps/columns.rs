//! The columns of the ledger, and which of them are shown.

use crate::survey::Field;

/// A column of the ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Column {
    /// Number of the gap.
    Number,
    /// The shape of its purpose, as on the unfolded body, and whether it is sealed.
    Mark,
    /// The sign of its worst finding.
    Noticed,
    /// What it is.
    Name,
    /// Its zone.
    Zone,
    /// The outside it opens to.
    Facing,
    /// Form and sizes.
    Form,
    /// How many alike.
    Count,
    /// Equivalent leakage area.
    Area,
    /// Share of all gaps' flow at 10 Pa.
    Share,
    /// How its size was found.
    Certainty,
    /// What it is there for.
    Purpose,
    /// Where the work stands.
    State,
    /// How it would be sealed.
    Remedy,
    /// Height of its middle.
    Height,
    /// Free notes.
    Note,
}

/// What Enter does in a cell of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Editing {
    /// Words are typed in the cell.
    Words(Field),
    /// A number is typed in the cell.
    Number(Field),
    /// One of several is chosen in the cell.
    Choice,
    /// The first size's field of the form takes the focus.
    Sizes,
    /// The form takes the focus.
    Form,
}

/// How a column looks.
pub(super) struct Look {
    /// Its word where choices are stored.
    key: &'static str,
    /// Heading of the column.
    pub(super) heading: &'static str,
    /// Words for it, for choosing and sorting.
    pub(super) words: &'static str,
    /// Least width, points.
    pub(super) width: f32,
    /// It takes its part of what is left over.
    pub(super) grows: bool,
    /// Numbers stand at the right.
    pub(super) right: bool,
}

const fn look(key: &'static str, heading: &'static str, words: &'static str, width: f32) -> Look {
    Look {
        key,
        heading,
        words,
        width,
        grows: false,
        right: false,
    }
}

impl Look {
    const fn number(mut self) -> Self {
        self.right = true;
        self
    }

    const fn growing(mut self) -> Self {
        self.grows = true;
        self
    }
}

impl Column {
    /// Every column, from left to right: the area beside the name, so that it is in sight in a
    /// narrow ledger too.
    pub const ALL: [Self; 16] = [
        Self::Number,
        Self::Mark,
        Self::Noticed,
        Self::Name,
        Self::Area,
        Self::Form,
        Self::Count,
        Self::Zone,
        Self::Facing,
        Self::Share,
        Self::Certainty,
        Self::Purpose,
        Self::State,
        Self::Remedy,
        Self::Height,
        Self::Note,
    ];

    /// Its heading, words and width.
    pub(super) fn look(self) -> Look {
        match self {
            Self::Number => look("number", "no.", "number", 34.0).number(),
            Self::Mark => look("mark", "", "mark", 24.0),
            Self::Noticed => look("noticed", "", "noticed", 24.0),
            Self::Name => look("name", "name", "name", 130.0).growing(),
            Self::Zone => look("zone", "zone", "zone", 76.0).growing(),
            Self::Facing => look("facing", "facing", "facing", 104.0),
            Self::Form => look("form", "form & sizes", "form and sizes", 158.0).growing(),
            Self::Count => look("count", "count", "count", 46.0).number(),
            Self::Area => look("area", "EqLA cm²", "leakage area", 72.0).number(),
            Self::Share => look("share", "share", "share of the leakage", 50.0).number(),
            Self::Certainty => look("certainty", "certainty", "certainty", 72.0),
            Self::Purpose => look("purpose", "purpose", "purpose", 114.0),
            Self::State => look("state", "state", "state", 62.0),
            Self::Remedy => look("remedy", "remedy", "remedy", 84.0),
            Self::Height => look("height", "height m", "height", 62.0).number(),
            Self::Note => look("note", "note", "note", 140.0).growing(),
        }
    }

    /// What Enter does in its cells.
    pub(super) fn editing(self) -> Editing {
        match self {
            Self::Name => Editing::Words(Field::GapName),
            Self::Note => Editing::Words(Field::GapNote),
            Self::Count => Editing::Number(Field::GapCount),
            Self::Height => Editing::Number(Field::MiddleHeight),
            Self::Mark
            | Self::Zone
            | Self::Facing
            | Self::Certainty
            | Self::Purpose
            | Self::State
            | Self::Remedy => Editing::Choice,
            Self::Form | Self::Area | Self::Share => Editing::Sizes,
            Self::Number | Self::Noticed => Editing::Form,
        }
    }

    /// Whether its largest values are what one looks for first.
    pub(super) fn largest_first(self) -> bool {
        matches!(self, Self::Area | Self::Share)
    }
}

/// Which columns are shown. What a gap is always is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Columns(Vec<Column>);

const KEY: &str = "ledger columns";

impl Default for Columns {
    fn default() -> Self {
        let kept_back = [Column::Remedy, Column::Height, Column::Note];
        let shown = |column: &Column| !kept_back.contains(column);
        Self(Column::ALL.into_iter().filter(shown).collect())
    }
}

impl Columns {
    /// Those shown, from left to right.
    #[must_use]
    pub fn shown(&self) -> &[Column] {
        &self.0
    }

    /// Whether a column is shown.
    #[must_use]
    pub fn shows(&self, column: Column) -> bool {
        self.0.contains(&column)
    }

    /// Shows a column or puts it away.
    pub fn set(&mut self, column: Column, shown: bool) {
        let old = std::mem::take(&mut self.0);
        let stays = |other: &Column| {
            *other == Column::Name
                || if *other == column {
                    shown
                } else {
                    old.contains(other)
                }
        };
        self.0 = Column::ALL.into_iter().filter(stays).collect();
    }

    /// As they were stored in an earlier run; what cannot be read is as at first.
    #[must_use]
    pub fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        storage
            .and_then(|storage| storage.get_string(KEY))
            .map_or_else(Self::default, |words| Self::read(&words))
    }

    /// Keeps them for the next run.
    pub fn store(&self, storage: &mut dyn eframe::Storage) {
        storage.set_string(KEY, self.words());
    }

    fn words(&self) -> String {
        let keys: Vec<&str> = self.0.iter().map(|column| column.look().key).collect();
        keys.join(" ")
    }

    fn read(words: &str) -> Self {
        let kept: Vec<&str> = words.split_whitespace().collect();
        let stays = |column: &Column| *column == Column::Name || kept.contains(&column.look().key);
        Self(Column::ALL.into_iter().filter(stays).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_choice_of_columns_is_read_back_as_it_was_stored() {
        let mut columns = Columns::default();
        columns.set(Column::Note, true);
        columns.set(Column::Facing, false);
        assert!(columns.shows(Column::Note) && !columns.shows(Column::Facing));
        assert_eq!(Columns::read(&columns.words()), columns);
        assert_eq!(columns.shown().last(), Some(&Column::Note));
    }

    #[test]
    fn what_a_gap_is_is_always_shown() {
        let mut columns = Columns::default();
        columns.set(Column::Name, false);
        assert!(columns.shows(Column::Name));
        assert_eq!(Columns::read("nonsense").shown(), [Column::Name]);
    }

    #[test]
    fn every_column_has_a_key_of_its_own() {
        for (at, column) in Column::ALL.iter().enumerate() {
            assert!(
                Column::ALL[..at]
                    .iter()
                    .all(|other| other.look().key != column.look().key)
            );
            assert!(!column.look().words.is_empty());
        }
    }
}
