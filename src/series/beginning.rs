//! Where the rows of a text begin, and which of its first lines are rows.

use super::cells::{is_moment, is_row};
use super::heading::said;
use super::number::Decimal;

/// The rows among the first lines.
pub(super) struct Beginning {
    /// Lines before the first row.
    pub(super) first: usize,
    /// Columns of most rows.
    pub(super) width: usize,
    /// The rows.
    pub(super) rows: Vec<Vec<String>>,
}

impl Beginning {
    /// `None` where no line holds a time and a number.
    ///
    /// A line of the preamble may hold both: rows are those lines that are as wide as most of such lines
    /// and have the time in the same column, and what stands above the headings is none. A row without
    /// any reading is one too.
    pub(super) fn of(
        lines: &[Vec<String>],
        decimal: Decimal,
        is_time: fn(&str) -> bool,
    ) -> Option<Self> {
        let shape = |line: &Vec<String>| {
            let time_at = line.iter().position(|cell| is_time(cell))?;
            is_row(line, decimal, is_time).then_some((line.len(), time_at))
        };
        let shapes: Vec<_> = lines.iter().map(shape).collect();
        let number = |wanted: &(usize, usize)| {
            let alike = shapes.iter().flatten().filter(|shape| *shape == wanted);
            alike.count()
        };
        // The last of the commonest: what is as rare as a row is of the preamble.
        let (width, time_at) = *shapes.iter().flatten().max_by_key(|shape| number(shape))?;
        let is_common = |at: usize| shapes.get(at) == Some(&Some((width, time_at)));
        let is_timed = |line: &Vec<String>| line.get(time_at).is_some_and(|cell| is_time(cell));
        let commons = || (0..lines.len()).filter(|at| is_common(*at));
        let headings =
            || (0..lines.len()).filter(|at| lines.get(*at).is_some_and(|line| is_heading(line)));
        let mut first = commons().next()?;
        if headings().next().is_some_and(|heading| heading > first)
            && let Some(heading) = headings().next()
            && let Some(behind) = commons().find(|at| *at > heading)
            && commons().filter(|at| *at > heading).count()
                > commons().filter(|at| *at < heading).count()
        {
            first = behind;
        }
        while let Some(above) = first.checked_sub(1)
            && lines
                .get(above)
                .is_some_and(|line| line.len() == width && is_timed(line))
        {
            first = above;
        }
        let rows = lines.iter().skip(first);
        let rows = rows.filter(|line| is_timed(line)).cloned().collect();
        Some(Self { first, width, rows })
    }
}

/// Whether a line is one of headings: some cells, none of them a time, and a quantity among them.
fn is_heading(line: &[String]) -> bool {
    let full = line.iter().filter(|cell| !cell.trim().is_empty()).count();
    full > 1
        && !line.iter().any(|cell| is_moment(cell))
        && line.iter().any(|cell| said(cell).is_some())
}
