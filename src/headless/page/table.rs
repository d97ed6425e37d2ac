//! Tables of the report as text: columns that fit their contents, wrapped words, numbers set on
//! their decimal point.

use super::layout::{Page, WIDTH, pad_left, pad_right, width, wrap};
use crate::report::{Align, Row, RowKind, Table};

/// Blank columns between two columns of a table.
const BETWEEN: usize = 2;
/// A column of words is never squeezed below this.
const NARROWEST: usize = 8;
/// Numbers, and the words between them, are wrapped at this width.
const WIDEST_NUMBER: usize = 16;

/// A column ready to print: its heading and its cells as lines.
struct Column {
    words: bool,
    head: Vec<String>,
    cells: Vec<Vec<String>>,
    width: usize,
}

/// Prints a table; boxes to tick are for paper and left out.
pub(super) fn print(page: &mut Page, table: &Table) {
    let columns = columns(table);
    print_head(page, &columns);
    for (at, row) in table.rows.iter().enumerate() {
        if row.kind == RowKind::Group {
            if at > 0 {
                page.blank();
            }
            page.hanging("", row.cells.first().map_or("", String::as_str));
            continue;
        }
        let cells: Vec<&[String]> = columns
            .iter()
            .map(|column| column.cells.get(at).map_or(&[] as &[String], Vec::as_slice))
            .collect();
        print_cells(page, &columns, &cells);
    }
}

fn columns(table: &Table) -> Vec<Column> {
    let shown = || {
        let columns = table.columns.iter().enumerate();
        columns.filter(|(_, column)| column.align != Align::Tick)
    };
    let room: Vec<Room> = shown()
        .map(|(at, column)| room(table, at, &column.head, column.align == Align::Left))
        .collect();
    let limits = fitted(&room);
    shown()
        .zip(limits)
        .map(|((at, column), limit)| {
            let words = column.align == Align::Left;
            let cells: Vec<&str> = table.rows.iter().map(|row| cell(row, at)).collect();
            let cells: Vec<Vec<String>> = if words {
                cells.iter().map(|cell| wrapped(cell, limit)).collect()
            } else {
                let cells = on_the_point(&cells, limit);
                let lines = |cell: &String| {
                    // Wrapping would take the blanks away that set a number on its point.
                    if width(cell) <= limit && !cell.contains('\n') {
                        vec![cell.clone()]
                    } else {
                        wrapped(cell, limit)
                    }
                };
                cells.iter().map(lines).collect()
            };
            let head = wrapped(&column.head, limit);
            let lines = cells.iter().flatten().chain(&head);
            let width = lines.map(|line| width(line)).max().unwrap_or(0);
            Column {
                words,
                head,
                cells,
                width,
            }
        })
        .collect()
}

/// The words of a cell; headings over rows stand in no column.
fn cell(row: &Row, at: usize) -> &str {
    if row.kind == RowKind::Group {
        return "";
    }
    row.cells.get(at).map_or("", String::as_str)
}

/// How wide a column would be, and how narrow it may become.
struct Room {
    words: bool,
    natural: usize,
    least: usize,
}

fn room(table: &Table, at: usize, head: &str, words: bool) -> Room {
    let cells: Vec<&str> = table.rows.iter().map(|row| cell(row, at)).collect();
    let aligned = if words {
        cells.iter().map(|&cell| cell.to_owned()).collect()
    } else {
        on_the_point(&cells, WIDEST_NUMBER)
    };
    let widest = |texts: &mut dyn Iterator<Item = &str>| texts.map(width).max().unwrap_or(0);
    let cells = widest(&mut aligned.iter().flat_map(|cell| cell.split('\n')));
    let heading = widest(&mut head.split('\n')).min(WIDEST_NUMBER);
    if words {
        let natural = cells.max(heading);
        let least = natural.min(NARROWEST);
        return Room {
            words,
            natural,
            least,
        };
    }
    let cells = cells.min(WIDEST_NUMBER);
    Room {
        words,
        natural: cells.max(heading),
        least: cells.max(widest(&mut head.split([' ', '\n'])).min(WIDEST_NUMBER)),
    }
}

/// Widths that fit the page: headings over numbers are wrapped first, then the widest columns of
/// words give way.
fn fitted(room: &[Room]) -> Vec<usize> {
    let mut widths: Vec<usize> = room.iter().map(|room| room.natural).collect();
    let between = BETWEEN * widths.len().saturating_sub(1);
    while widths.iter().sum::<usize>() + between > WIDTH {
        let spare = |words: bool, (width, room): &(&mut usize, &Room)| {
            room.words == words && **width > room.least
        };
        let mut columns: Vec<(&mut usize, &Room)> = widths.iter_mut().zip(room).collect();
        let words = !columns.iter().any(|column| spare(false, column));
        columns.retain(|column| spare(words, column));
        match columns.into_iter().map(|(width, _)| width).max() {
            Some(widest) => *widest -= 1,
            None => break,
        }
    }
    widths
}

/// The lines of a cell: its own, each wrapped.
fn wrapped(cell: &str, widest: usize) -> Vec<String> {
    let lines = cell.split('\n');
    lines
        .flat_map(|line| wrap_keeping_indent(line, widest))
        .collect()
}

fn print_head(page: &mut Page, columns: &[Column]) {
    if columns
        .iter()
        .all(|column| column.head.iter().all(String::is_empty))
    {
        return;
    }
    let tallest = columns
        .iter()
        .map(|column| column.head.len())
        .max()
        .unwrap_or(0);
    // Headings stand on the rule: short ones are pushed down.
    let heads: Vec<Vec<String>> = columns
        .iter()
        .map(|column| {
            let mut pushed = vec![String::new(); tallest.saturating_sub(column.head.len())];
            pushed.extend(column.head.iter().cloned());
            pushed
        })
        .collect();
    let cells: Vec<&[String]> = heads.iter().map(Vec::as_slice).collect();
    print_cells(page, columns, &cells);
    let all: usize = columns.iter().map(|column| column.width).sum::<usize>()
        + BETWEEN * columns.len().saturating_sub(1);
    page.line("╌".repeat(all.min(WIDTH)));
}

fn print_cells(page: &mut Page, columns: &[Column], cells: &[&[String]]) {
    let tallest = cells.iter().map(|lines| lines.len()).max().unwrap_or(0);
    for at in 0..tallest {
        let line: Vec<String> = columns
            .iter()
            .zip(cells)
            .map(|(column, lines)| {
                let text = lines.get(at).map_or("", String::as_str);
                if column.words {
                    pad_right(text, column.width)
                } else {
                    pad_left(text, column.width)
                }
            })
            .collect();
        page.line(line.join(&" ".repeat(BETWEEN)));
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
        cell.trim_start_matches(['≥', '−', '+', '<', ' ', '\u{a0}'])
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
        let mut table = Table::default()
            .wide("what", Align::Left, 1)
            .column("cm²", Align::Decimal);
        for (what, value) in [
            ("a", "412"),
            ("b", "38.5"),
            ("c", "≥\u{a0}0.051"),
            ("d", "–"),
        ] {
            table.row([what.to_owned(), value.to_owned()]);
        }
        let mut page = Page::default();
        print(&mut page, &table);
        let expected = "\
what      cm²
╌╌╌╌╌╌╌╌╌╌╌╌╌
a     412
b      38.5
c     ≥ 0.051
d           –
";
        assert_eq!(page.finish(), expected);
    }

    #[test]
    fn columns_of_words_give_way_until_the_page_holds_the_table() {
        let mut table = Table::default()
            .wide("what", Align::Left, 1)
            .wide("where", Align::Left, 1)
            .column("L/day", Align::Decimal);
        table.row(["gap ".repeat(60), "door ".repeat(40), "1.25".to_owned()]);
        table.group("the rest");
        let mut page = Page::default();
        print(&mut page, &table);
        let text = page.finish();
        assert!(text.lines().all(|line| width(line) <= WIDTH), "{text}");
        assert_eq!(text.matches("gap").count(), 60);
        assert!(text.ends_with("\n\nthe rest\n"));
    }
}
