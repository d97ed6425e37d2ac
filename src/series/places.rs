//! Where in a row what stands.

use super::date::DateOrder;
use super::mapping::{Column, Mapping, Unit};
use super::refused::ReadError;

/// Where the times stand.
#[derive(Clone, Copy)]
pub(super) enum Times {
    Moment(usize),
    Apart { date: usize, of_day: usize },
}

/// The columns of a mapping by what they are used for.
pub(super) struct Places {
    pub(super) times: Times,
    pub(super) order: DateOrder,
    /// Columns of readings with their units.
    pub(super) readings: Vec<(usize, Unit)>,
    /// Cells that a row has at the least: up to the last column of readings.
    pub(super) needed: usize,
    /// Columns that are not used.
    pub(super) left_out: Vec<usize>,
}

impl Places {
    pub(super) fn of(mapping: &Mapping) -> Result<Self, ReadError> {
        let find = |wanted: &Column| mapping.columns.iter().position(|column| column == wanted);
        let times = match (
            find(&Column::Moment),
            find(&Column::Date),
            find(&Column::TimeOfDay),
        ) {
            (Some(at), ..) => Times::Moment(at),
            (None, Some(date), Some(of_day)) => Times::Apart { date, of_day },
            (None, Some(_), None) => return Err(ReadError::NoColumn("the time of day")),
            _ => return Err(ReadError::NoColumn("date and time")),
        };
        let columns = || mapping.columns.iter().enumerate();
        let readings: Vec<(usize, Unit)> = columns()
            .filter_map(|(at, column)| match column {
                Column::Readings { unit, .. } => Some((at, *unit)),
                _ => None,
            })
            .collect();
        if readings.is_empty() {
            return Err(ReadError::NoColumn("readings"));
        }
        Ok(Self {
            times,
            order: mapping.order.ok_or(ReadError::OrderNotSaid)?,
            needed: readings.iter().map(|(at, _)| at + 1).max().unwrap_or(0),
            readings,
            left_out: columns()
                .filter(|(_, column)| **column == Column::LeftOut)
                .map(|(at, _)| at)
                .collect(),
        })
    }
}
