//! In which orders the dates of a file can be read.

use super::date::{self, DateOrder, written};
use super::mapping::{Column, Mapping};
use super::read::skip_lines;

/// How the dates of a file would read in one order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrderReading {
    /// The order.
    pub order: DateOrder,
    /// The first time by it.
    pub first: String,
    /// The last time by it.
    pub last: String,
}

/// Rows looked at to find the order of day and month: where none of so many has a day above 12, the
/// rest of the file is looked at too.
const ROWS: usize = 2_000;

/// The orders that every date of a file allows, with its first and last time in each.
pub(super) fn orders(text: &str, mapping: &Mapping) -> Vec<OrderReading> {
    let place = |wanted: &Column| mapping.columns.iter().position(|column| column == wanted);
    let Some(at) = place(&Column::Moment).or_else(|| place(&Column::Date)) else {
        return Vec::new();
    };
    let of_day = place(&Column::TimeOfDay);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(mapping.separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(skip_lines(text, mapping.lines_before).as_bytes());
    let mut allowed: Option<Vec<DateOrder>> = None;
    let (mut first, mut last) = (None, None);
    let mut longest = Longest::default();
    for (row, record) in reader.records().flatten().enumerate() {
        let Some(cell) = record.get(at) else {
            continue;
        };
        let by_cell = date::orders(cell);
        if by_cell.is_empty() {
            continue;
        }
        let stamp = (
            cell.to_owned(),
            of_day.and_then(|at| record.get(at)).map(str::to_owned),
        );
        first.get_or_insert_with(|| stamp.clone());
        last = Some(stamp);
        let before = allowed.take().unwrap_or_else(|| by_cell.clone());
        let mut both: Vec<DateOrder> = before
            .into_iter()
            .filter(|order| by_cell.contains(order))
            .collect();
        if row <= ROWS {
            longest.take(&both, cell);
        }
        if row == ROWS {
            both = longest.without_leaps(both);
        }
        let settled = date::without_rare(&both, cell).len() <= 1;
        allowed = Some(both);
        if settled && row > ROWS {
            break;
        }
    }
    let reading = |order: DateOrder, stamp: &Option<(String, Option<String>)>| {
        let (day, time) = stamp.as_ref()?;
        let moment = date::moment(day, order)?.seconds;
        let of_day = time.as_deref().and_then(date::of_day).unwrap_or(0);
        Some(written(moment + of_day))
    };
    let allowed = longest.without_leaps(allowed.unwrap_or_default());
    let cell = first.as_ref().map_or("", |(cell, _)| cell.as_str());
    date::without_rare(&allowed, cell)
        .into_iter()
        .filter_map(|order| {
            Some(OrderReading {
                order,
                first: reading(order, &first)?,
                last: reading(order, &last)?,
            })
        })
        .collect()
}

/// The longest step between dates in each order, s.
#[derive(Default)]
struct Longest(Vec<(DateOrder, i64, i64)>);

impl Longest {
    /// Takes a date, where its year may stand at either end.
    fn take(&mut self, orders: &[DateOrder], cell: &str) {
        if orders.len() < 2 || !orders.contains(&DateOrder::YearMonthDay) {
            return;
        }
        for order in orders {
            let Some(clock) = date::moment(cell, *order) else {
                continue;
            };
            match self.0.iter_mut().find(|(known, ..)| known == order) {
                Some((_, last, longest)) => {
                    *longest = (*longest).max((clock.seconds - *last).abs());
                    *last = clock.seconds;
                }
                None => self.0.push((*order, clock.seconds, 0)),
            }
        }
    }

    /// The orders in which no year passes from one date to the next, where there are such: the day taken
    /// for the year leaps from year to year.
    fn without_leaps(&self, orders: Vec<DateOrder>) -> Vec<DateOrder> {
        const YEAR: i64 = 360 * 86_400;
        let leaps = |order: &DateOrder| {
            let mut all = self.0.iter();
            all.any(|(known, _, longest)| known == order && *longest >= YEAR)
        };
        if orders.iter().all(leaps) {
            return orders;
        }
        orders.into_iter().filter(|order| !leaps(order)).collect()
    }
}
