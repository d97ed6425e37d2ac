//! How each headline came about: formula, numbers put in, result, sources with their marks.
//!
//! The same result in several weather cases has one formula, so its cases stand side by side.

use super::layout::{Page, WIDTH, width};
use super::old_table::{Set, Table};
use crate::assess::headlines::{Headline, OfCases, headlines, inputs, lines};
use crate::assess::{Assessment, Mark, Source};
use crate::survey::Survey;

/// Cases side by side; more go into a further table.
const SIDE_BY_SIDE: usize = 3;

pub(super) fn print(page: &mut Page, survey: &Survey, assessment: &Assessment) {
    page.heading("Workings");
    page.line("Marks behind a source:");
    for mark in Mark::ALL {
        page.line(format!("  {} {}", mark.bracketed(), mark.words()));
    }
    for headline in headlines(survey, assessment) {
        print_one(page, &headline);
    }
    page.blank();
    page.paragraph(
        "The workings of every gap, fabric element and drying option are in `gapledger assess --json`.",
    );
}

fn print_one(page: &mut Page, Headline { title, workings }: &Headline) {
    let Some((_, first)) = workings.first() else {
        return;
    };
    page.blank();
    page.line(title);
    page.line("╌".repeat(width(title).min(WIDTH)));
    page.hanging("formula  ", &first.formula);
    for some in workings.chunks(SIDE_BY_SIDE) {
        table_of_inputs(page, some);
    }
    for (name, working) in workings {
        let name = if name.is_empty() {
            String::new()
        } else {
            format!("{name}: ")
        };
        page.hanging("result   ", &format!("{name}{}", working.result));
    }
    let sources = lines(workings, |working| {
        working.sources.iter().map(Source::marked).collect()
    });
    for source in sources {
        page.hanging("source   ", &source);
    }
    for note in lines(workings, |working| working.notes.clone()) {
        page.hanging("note     ", &note);
    }
}

/// Inputs in rows, cases in columns.
fn table_of_inputs(page: &mut Page, workings: &OfCases) {
    let rows = inputs(workings);
    if rows.is_empty() {
        return;
    }
    let mut table = Table::default().column("", Set::Words, 42);
    for (name, _) in workings {
        table = table.column(name.clone(), Set::Words, 17.max(56 / workings.len() - 2));
    }
    for (name, values) in rows {
        let mut cells = vec![format!("  {name}")];
        let values = values.into_iter();
        cells.extend(values.map(|value| value.unwrap_or_else(|| "–".to_owned())));
        table.row(cells);
    }
    table.print(page);
}
