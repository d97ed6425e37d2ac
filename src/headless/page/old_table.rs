//! Tables: columns that fit their contents, wrapped words, numbers set on their decimal point.

use super::layout::{Page, WIDTH, pad_left, pad_right, width, wrap};

/// How a column is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Set {
    /// Words: from the left, wrapped.
    Words,
    /// Numbers: under one another by the decimal point; anything else from the right.
    Numbers,
}

#[derive(Debug)]
struct Column {
    heading: String,
    set: Set,
    widest: usize,
}

/// A table under construction.
#[derive(Debug, Default)]
pub(super) struct Table {
    columns: Vec<Column>,
    rows: Vec<Vec<String>>,
}

/// Blank columns between two columns of a table.
const BETWEEN: usize = 2;

impl Table {
    /// Adds a column that is at most so wide.
    pub(super) fn column(mut self, heading: impl Into<String>, set: Set, widest: usize) -> Self {
        self.columns.push(Column {
            heading: heading.into(),
            set,
            widest,
        });
        self
    }

    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows.push(cells.into_iter().collect());
    }

    /// Writes the table.
    pub(super) fn print(&self, page: &mut Page) {
        let set: Vec<Vec<Vec<String>>> = self.set_columns();
        let widths: Vec<usize> = self
            .columns
            .iter()
            .zip(&set)
            .map(|(column, cells)| {
                let heading = wrap(&column.heading, column.widest);
                cells
                    .iter()
                    .flatten()
                    .chain(&heading)
                    .map(|line| width(line))
                    .max()
                    .unwrap_or(0)
            })
            .collect();
        self.print_headings(page, &widths);
        for at in 0..self.rows.len() {
            let cells: Vec<&[String]> = set
                .iter()
                .map(|column| column.get(at).map_or(&[] as &[String], Vec::as_slice))
                .collect();
            self.print_cells(page, &widths, &cells);
        }
    }

    /// Every column's cells as lines, numbers already set on their point.
    fn set_columns(&self) -> Vec<Vec<Vec<String>>> {
        self.columns
            .iter()
            .enumerate()
            .map(|(at, column)| {
                let cells: Vec<&str> = self
                    .rows
                    .iter()
                    .map(|cells| cells.get(at).map_or("", String::as_str))
                    .collect();
                match column.set {
                    Set::Words => cells
                        .iter()
                        .map(|cell| wrap_keeping_indent(cell, column.widest))
                        .collect(),
                    Set::Numbers => on_the_point(&cells, column.widest)
                        .into_iter()
                        .map(|cell| vec![cell])
                        .collect(),
                }
            })
            .collect()
    }

    fn print_headings(&self, page: &mut Page, widths: &[usize]) {
        if self.columns.iter().all(|column| column.heading.is_empty()) {
            return;
        }
        let headings: Vec<Vec<String>> = self
            .columns
            .iter()
            .map(|column| wrap(&column.heading, column.widest))
            .collect();
        let tallest = headings.iter().map(Vec::len).max().unwrap_or(0);
        // Headings stand on the rule: short ones are pushed down.
        let headings: Vec<Vec<String>> = headings
            .into_iter()
            .map(|lines| {
                let mut pushed = vec![String::new(); tallest.saturating_sub(lines.len())];
                pushed.extend(lines);
                pushed
            })
            .collect();
        let cells: Vec<&[String]> = headings.iter().map(Vec::as_slice).collect();
        self.print_cells(page, widths, &cells);
        let all: usize = widths.iter().sum::<usize>() + BETWEEN * widths.len().saturating_sub(1);
        page.line("╌".repeat(all.min(WIDTH)));
    }

    fn print_cells(&self, page: &mut Page, widths: &[usize], cells: &[&[String]]) {
        let tallest = cells.iter().map(|lines| lines.len()).max().unwrap_or(0);
        for at in 0..tallest {
            let line: Vec<String> = self
                .columns
                .iter()
                .zip(widths)
                .zip(cells)
                .map(|((column, &wide), lines)| {
                    let text = lines.get(at).map_or("", String::as_str);
                    match column.set {
                        Set::Words => pad_right(text, wide),
                        Set::Numbers => pad_left(text, wide),
                    }
                })
                .collect();
            page.line(line.join(&" ".repeat(BETWEEN)));
        }
    }
}

/// Wraps, and sets later lines as far in as the first.
fn wrap_keeping_indent(cell: &str, widest: usize) -> Vec<String> {
    let indent = cell.chars().take_while(|&c| c == ' ').count();
    wrap(cell, widest.saturating_sub(indent))
        .into_iter()
        .map(|line| format!("{}{line}", " ".repeat(indent)))
        .collect()
}

/// Pads numbers behind, so that their decimal points stand under one another once all are set
/// from the right, as long as they then fit.
fn on_the_point(cells: &[&str], widest: usize) -> Vec<String> {
    let behind = |cell: &str| {
        cell.find('.')
            .map_or(0, |point| width(cell.get(point..).unwrap_or("")))
    };
    let is_number = |cell: &str| {
        cell.trim_start_matches(['≥', '−', '<', ' '])
            .starts_with(|c: char| c.is_ascii_digit())
            && !cell.ends_with(|c: char| !c.is_ascii_digit())
    };
    let most = cells
        .iter()
        .filter(|cell| is_number(cell))
        .map(|cell| behind(cell))
        .max()
        .unwrap_or(0);
    let set = |cell: &&str| {
        if is_number(cell) {
            pad_right(cell, width(cell) + most - behind(cell))
        } else {
            (*cell).to_owned()
        }
    };
    let aligned: Vec<String> = cells.iter().map(set).collect();
    // Numbers that have nothing in common would need more room than there is.
    if aligned
        .iter()
        .any(|cell| is_number(cell.trim_end()) && width(cell) > widest)
    {
        cells.iter().map(|&cell| cell.to_owned()).collect()
    } else {
        aligned
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_stand_on_their_point_and_words_from_the_right() {
        let mut table =
            Table::default()
                .column("what", Set::Words, 8)
                .column("cm²", Set::Numbers, 12);
        for (what, value) in [
            ("long words here", "412"),
            ("b", "38.5"),
            ("c", "≥ 0.051"),
            ("d", "–"),
        ] {
            table.row([what.to_owned(), value.to_owned()]);
        }
        let mut page = Page::default();
        table.print(&mut page);
        let expected = "\
what       cm²
╌╌╌╌╌╌╌╌╌╌╌╌╌╌
long   412
words
here
b       38.5
c      ≥ 0.051
d            –
";
        assert_eq!(page.finish(), expected);
    }
}
