//! How files of one shape were read before, so that the next one is read alike without being asked.

use crate::series::{Guess, Mapping, Separator};
use crate::survey::file::{parse_mapping, print_mapping};

/// Most shapes that are kept; the oldest gives way.
const MOST: usize = 24;

/// How files were read, by their shape.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct KnownShapes {
    /// Shape and mapping, the newest last.
    shapes: Vec<(String, Mapping)>,
}

/// What files of one instrument and one way of writing have in common: their headings, and where
/// those stand.
fn shape(guess: &Guess) -> String {
    let mapping = &guess.mapping;
    let separator: &str = match guess.sheets.is_empty() {
        true => Separator::name(mapping.separator),
        false => "sheet",
    };
    format!(
        "{separator} {} {}",
        guess.headings.len(),
        guess.headings.join("\u{1f}")
    )
    .replace(['\r', '\n'], " ")
}

/// Where they are kept between runs.
const KEY: &str = "loggers";

impl KnownShapes {
    /// As they were kept in an earlier run; what cannot be read is not known.
    #[must_use]
    pub fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        let text = storage.and_then(|storage| storage.get_string(KEY));
        let text = text.unwrap_or_default();
        let mut lines = text.lines();
        let mut shapes = Vec::new();
        while let (Some(shape), Some(mapping)) = (lines.next(), lines.next()) {
            shapes.extend(parse_mapping(mapping).map(|mapping| (shape.to_owned(), mapping)));
        }
        shapes.truncate(MOST);
        Self { shapes }
    }

    /// Keeps them for the next run, a line for each shape and one for each mapping.
    pub fn store(&self, storage: &mut dyn eframe::Storage) {
        let mut text = String::new();
        for (shape, mapping) in &self.shapes {
            text.push_str(&format!("{shape}\n{}\n", print_mapping(mapping)));
        }
        storage.set_string(KEY, text);
    }

    /// How a file of this shape was read last. What belongs to the one file alone is not taken over:
    /// where its readings begin, and by how much its clock was wrong; and an order of dates only
    /// where this file allows it.
    #[must_use]
    pub fn mapping(&self, guess: &Guess) -> Option<Mapping> {
        let shape = shape(guess);
        let (_, before) = self.shapes.iter().find(|(known, _)| *known == shape)?;
        if before.columns.len() != guess.mapping.columns.len() {
            return None;
        }
        let allowed = |order: &_| guess.orders.iter().any(|reading| reading.order == *order);
        Some(Mapping {
            lines_before: guess.mapping.lines_before,
            encoding: guess.mapping.encoding,
            sheet: guess.mapping.sheet.clone(),
            clock_ahead_s: 0,
            order: before.order.filter(allowed).or(guess.mapping.order),
            ..before.clone()
        })
    }

    /// Keeps how a file was read.
    pub fn keep(&mut self, guess: &Guess, mapping: &Mapping) {
        let shape = shape(guess);
        self.shapes.retain(|(known, _)| *known != shape);
        self.shapes.push((shape, mapping.clone()));
        let over = self.shapes.len().saturating_sub(MOST);
        self.shapes.drain(..over);
    }
}

#[cfg(test)]
mod tests {
    use super::super::chosen::tests::either;
    use super::*;
    use crate::series::{Column, DateOrder, Unit, What, guess};
    use crate::window::preferences::tests::Stored;

    #[test]
    fn the_next_file_of_a_shape_is_read_as_the_last_was_but_for_its_clock() {
        let file = either();
        let guessed = guess(&file.bytes).unwrap();
        let mut known = KnownShapes::default();
        assert_eq!(known.mapping(&guessed), None);
        let mut mapping = guessed.mapping.clone();
        mapping.order = Some(DateOrder::MonthDayYear);
        mapping.clock_ahead_s = 300;
        mapping.columns[3] = Column::Readings {
            what: What::Temperature,
            unit: Unit::Fahrenheit,
            sensor: "Shed".to_owned(),
        };
        known.keep(&guessed, &mapping);
        let next = known.mapping(&guessed).unwrap();
        assert_eq!(next.order, Some(DateOrder::MonthDayYear));
        assert_eq!(next.columns, mapping.columns);
        assert_eq!(next.clock_ahead_s, 0);
        // The next run knows it too.
        let mut stored = Stored::default();
        known.store(&mut stored);
        assert_eq!(KnownShapes::stored(Some(&stored)), known);
        // A file whose dates cannot be so is asked about again.
        let text = String::from_utf8(file.bytes.clone()).unwrap();
        let other = guess(text.replace("03/04", "23/04").as_bytes()).unwrap();
        assert_eq!(
            known.mapping(&other).unwrap().order,
            Some(DateOrder::DayMonthYear)
        );
        // Another heading is another shape.
        let other = guess(text.replace("Shed", "Loft").as_bytes()).unwrap();
        assert_eq!(known.mapping(&other), None);
    }
}
