//! What a person says of a column of a logger's file on the command line.

use super::page::harmless;
use crate::series::{Column, Guess, Mapping, Unit, What};

/// What a column holds, as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ColumnWord {
    /// Its heading, or its number counted from 1.
    of: String,
    /// What it holds; a sensor is found by the heading.
    holds: Column,
}

/// Why a column cannot be read so.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub(super) enum ColumnRefused {
    #[error(
        "there is no column \u{201c}{0}\u{201d}; its number counted from 1, or its heading as it stands \
         in the file, says which is meant"
    )]
    None(String),
    #[error("column {0} is told twice; say once what it holds")]
    Twice(usize),
    #[error("more than one column has the heading \u{201c}{0}\u{201d}; say which by its number")]
    Several(String),
}

/// Words for what a column may hold besides readings.
const OTHERS: [(&str, Column); 4] = [
    ("left-out", Column::LeftOut),
    ("date-and-time", Column::Moment),
    ("date", Column::Date),
    ("time-of-day", Column::TimeOfDay),
];

/// Short words for quantities beside their names.
const SHORT: [(&str, What); 2] = [("rh", What::RelativeHumidity), ("co2", What::CarbonDioxide)];

/// A column as typed: its heading or number, an equals sign, and what it holds, with a unit behind where
/// it is not the usual one.
pub(super) fn column(text: &str) -> Result<ColumnWord, String> {
    let (of, holds) = text
        .rsplit_once('=')
        .filter(|(of, _)| !of.trim().is_empty())
        .ok_or_else(|| String::from("write it as COLUMN=WHAT, such as \"Hum in=rh\""))?;
    let holds = holds.trim().to_lowercase();
    let (word, unit) = holds.split_once(' ').unwrap_or((&holds, ""));
    let holds = match OTHERS.into_iter().find(|(name, _)| *name == word) {
        Some((_, column)) if unit.is_empty() => column,
        _ => readings(word, unit)?,
    };
    Ok(ColumnWord {
        of: of.trim().to_owned(),
        holds,
    })
}

fn readings(word: &str, unit: &str) -> Result<Column, String> {
    let names = || What::ALL.into_iter().map(|what| (name(what), what));
    let short = SHORT.iter().find(|(name, _)| *name == word);
    let what = short
        .map(|(_, what)| *what)
        .or_else(|| names().find(|(name, _)| name == word).map(|(_, what)| what))
        .ok_or_else(|| {
            let others = OTHERS.iter().map(|(name, _)| String::from(*name));
            let all: Vec<String> = names().map(|(name, _)| name).chain(others).collect();
            format!("a column may hold: {}", all.join(", "))
        })?;
    let bare = |unit: &str| unit.to_lowercase().replace(['\u{b0}', ' '], "");
    let known = what.units();
    let unit = if unit.is_empty() {
        Some(what.held_in())
    } else {
        let fits = |known: &&Unit| bare(known.sign()) == bare(unit);
        known.iter().find(fits).copied()
    };
    let unit = unit.ok_or_else(|| {
        let signs: Vec<&str> = known.iter().map(|unit| unit.sign()).collect();
        format!("the {} may be in: {}", what.name(), signs.join(", "))
    })?;
    Ok(Column::Readings {
        what,
        unit,
        sensor: String::new(),
    })
}

/// The name of a quantity as one word.
fn name(what: What) -> String {
    what.name().replace(' ', "-")
}

impl ColumnWord {
    /// Puts it into a mapping, and gives the place of the column.
    ///
    /// # Errors
    /// No such column, or more than one.
    pub(super) fn put(&self, guess: &Guess, mapping: &mut Mapping) -> Result<usize, ColumnRefused> {
        let at = self.place(&guess.headings, mapping.columns.len())?;
        let sensor = sensor(
            guess.headings.get(at).map_or("", String::as_str),
            at,
            mapping,
        );
        let Some(column) = mapping.columns.get_mut(at) else {
            return Err(ColumnRefused::None(short(&self.of)));
        };
        let mut holds = self.holds.clone();
        let mut is_time = is_of_time(&holds) || is_of_time(column);
        if let Column::Readings { sensor: of, .. } = &mut holds {
            *of = sensor;
        }
        is_time &= *column != holds;
        *column = holds;
        if is_time {
            // Which order its dates have was found of another column.
            mapping.order = None;
        }
        if self.holds == Column::Moment {
            let mut others = mapping.columns.iter_mut().enumerate();
            others
                .by_ref()
                .filter(|(other, column)| *other != at && is_of_time(column))
                .for_each(|(_, column)| *column = Column::LeftOut);
        }
        Ok(at)
    }

    fn place(&self, headings: &[String], columns: usize) -> Result<usize, ColumnRefused> {
        let wanted = self.of.to_lowercase();
        let mut found = headings
            .iter()
            .enumerate()
            .filter(|(_, heading)| heading.trim().to_lowercase() == wanted);
        match (found.next(), found.next()) {
            (Some((at, _)), None) => Ok(at),
            (Some(_), Some(_)) => Err(ColumnRefused::Several(short(&self.of))),
            (None, _) => {
                let number: Option<usize> = self.of.parse().ok();
                number
                    .and_then(|number| number.checked_sub(1))
                    .filter(|at| *at < columns)
                    .ok_or_else(|| ColumnRefused::None(short(&self.of)))
            }
        }
    }
}

/// Most letters of what was typed that are repeated.
const MOST_REPEATED: usize = 60;

/// What was typed, as a sentence repeats it: cut short, and nothing in it that steers a terminal.
fn short(typed: &str) -> String {
    let mut short: String = harmless(typed).chars().take(MOST_REPEATED).collect();
    if typed.chars().count() > MOST_REPEATED {
        short.push('\u{2026}');
    }
    short
}

fn is_of_time(column: &Column) -> bool {
    matches!(column, Column::Moment | Column::Date | Column::TimeOfDay)
}

/// The sensor of a column: the one it was taken for, one of the others whose name stands in its heading,
/// or none where the file names none.
fn sensor(heading: &str, at: usize, mapping: &Mapping) -> String {
    let of = |column: &Column| match column {
        Column::Readings { sensor, .. } => Some(sensor.clone()),
        _ => None,
    };
    if let Some(sensor) = mapping.columns.get(at).and_then(of) {
        return sensor;
    }
    let named: Vec<String> = mapping
        .columns
        .iter()
        .filter_map(of)
        .filter(|sensor| !sensor.is_empty())
        .collect();
    match named
        .iter()
        .find(|sensor| heading.contains(sensor.as_str()))
    {
        Some(sensor) => sensor.clone(),
        None if named.is_empty() => String::new(),
        None => heading.trim().to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::series::{guess, read};

    fn word(text: &str) -> ColumnWord {
        column(text).unwrap()
    }

    #[test]
    fn a_column_is_read_as_it_is_said_to_be() {
        let text = "Time,Temp (°C),Damp,Damp,Other\n2026-01-20 08:00,12,61,50,1\n2026-01-20 08:10,13,62,50,1\n";
        let guess = guess(text.as_bytes()).unwrap();
        let mut mapping = guess.mapping.clone();
        word("3=rh").put(&guess, &mut mapping).unwrap();
        word("other=temperature F")
            .put(&guess, &mut mapping)
            .unwrap();
        let series = read(text.as_bytes(), &mapping).unwrap();
        let what: Vec<What> = series.channels.iter().map(|one| one.what).collect();
        let (temperature, humidity) = (What::Temperature, What::RelativeHumidity);
        assert_eq!(what, [temperature, humidity, temperature]);
        assert!(series.channels[2].values.get(0).unwrap() < 0.0);
        let refused = |text| word(text).put(&guess, &mut guess.mapping.clone());
        assert_eq!(
            refused("damp=rh"),
            Err(ColumnRefused::Several("damp".into()))
        );
        assert_eq!(refused("9=rh"), Err(ColumnRefused::None("9".into())));
        // Another column of times: the order of its dates is asked anew.
        word("1=left-out").put(&guess, &mut mapping).unwrap();
        assert_eq!(mapping.order, None);
    }

    #[test]
    fn what_a_column_cannot_hold_is_refused_with_what_it_can() {
        for text in ["rh", "=rh", "3=damp", "3=rh °C", "3=date F"] {
            let error = column(text).unwrap_err();
            assert!(
                error.contains("COLUMN=WHAT") || error.contains("may"),
                "{error}"
            );
        }
    }
}
