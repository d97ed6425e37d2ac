//! How each headline came about: formula, numbers put in, result, sources with their marks.
//!
//! The same result in several weather cases has one formula, so its cases stand side by side.

use super::layout::{Page, WIDTH, width};
use super::table::{Set, Table};
use crate::assess::{Assessment, Mark, Topic, Working, working};
use crate::survey::{Survey, WeatherId};

/// Cases side by side; more go into a further table.
const SIDE_BY_SIDE: usize = 3;

const MARKS: [Mark; 5] = [
    Mark::Read,
    Mark::Relayed,
    Mark::Memory,
    Mark::CommonPractice,
    Mark::Assumption,
];

/// A headline that every weather case has.
type ByCase = (&'static str, fn(WeatherId) -> Topic);

const BY_CASE: [ByCase; 5] = [
    ("Air change", Topic::AirChange),
    ("Cross-check of the air change", Topic::CrossCheck),
    ("Water to remove", Topic::Removal),
    ("Heat to hold the set temperature", Topic::Heat),
    ("Heat for frost guard", Topic::FrostGuard),
];

pub(super) fn print(page: &mut Page, survey: &Survey, assessment: &Assessment) {
    page.heading("Workings");
    page.line("Marks behind a source:");
    for mark in MARKS {
        page.line(format!("  [{}] {}", mark.letter(), mark.words()));
    }
    let one = |page: &mut Page, topic| {
        if let Some(working) = working(survey, assessment, topic) {
            let title = working.title.clone();
            print_one(page, &title, &[(String::new(), working)]);
        }
    };
    for topic in [Topic::Volume, Topic::LeakageArea, Topic::Exponent] {
        one(page, topic);
    }
    for (title, topic) in BY_CASE {
        let workings: Vec<(String, Working)> = assessment
            .cases
            .iter()
            .filter_map(|case| {
                let working = working(survey, assessment, topic(case.id))?;
                Some((case.name.clone(), working))
            })
            .collect();
        print_one(page, title, &workings);
    }
    one(page, Topic::SafetyVentilation);
    page.blank();
    page.paragraph(
        "The workings of every gap, fabric element and drying option are in `gapledger assess --json`.",
    );
}

fn print_one(page: &mut Page, title: &str, workings: &[(String, Working)]) {
    let Some((_, first)) = workings.first() else {
        return;
    };
    page.blank();
    page.line(title);
    page.line("╌".repeat(width(title).min(WIDTH)));
    page.hanging("formula  ", &first.formula);
    for some in workings.chunks(SIDE_BY_SIDE) {
        inputs(page, some);
    }
    for (name, working) in workings {
        let name = if name.is_empty() {
            String::new()
        } else {
            format!("{name}: ")
        };
        page.hanging("result   ", &format!("{name}{}", working.result));
    }
    let sources = with_cases(workings, |working| {
        working
            .sources
            .iter()
            .map(|source| format!("{} [{}]", source.text, source.mark.letter()))
            .collect()
    });
    for source in sources {
        page.hanging("source   ", &source);
    }
    for note in with_cases(workings, |working| working.notes.clone()) {
        page.hanging("note     ", &note);
    }
}

/// Inputs in rows, cases in columns. One that is the same in all cases is still shown for each:
/// the reader checks a column from top to bottom.
fn inputs(page: &mut Page, workings: &[(String, Working)]) {
    let mut names: Vec<&str> = Vec::new();
    for (_, working) in workings {
        for (name, _) in &working.inputs {
            if !names.contains(&name.as_str()) {
                names.push(name);
            }
        }
    }
    if names.is_empty() {
        return;
    }
    let mut table = Table::default().column("", Set::Words, 42);
    for (name, _) in workings {
        table = table.column(name.clone(), Set::Words, 17.max(56 / workings.len() - 2));
    }
    for name in names {
        let mut cells = vec![format!("  {name}")];
        for (_, working) in workings {
            let values: Vec<&str> = working
                .inputs
                .iter()
                .filter(|(input, _)| input == name)
                .map(|(_, value)| value.as_str())
                .collect();
            cells.push(match values.as_slice() {
                [] => "–".to_owned(),
                values => minus(&values.join("; ")),
            });
        }
        table.row(cells);
    }
    table.print(page);
}

/// A real minus sign before a number, as elsewhere on the page.
fn minus(value: &str) -> String {
    match value.strip_prefix('-') {
        Some(rest) if rest.starts_with(|c: char| c.is_ascii_digit()) => format!("−{rest}"),
        _ => value.to_owned(),
    }
}

/// Every line once; one that not all cases share names the cases it is for.
fn with_cases(
    workings: &[(String, Working)],
    lines: impl Fn(&Working) -> Vec<String>,
) -> Vec<String> {
    let mut all: Vec<(String, Vec<&str>)> = Vec::new();
    for (name, working) in workings {
        for line in lines(working) {
            match all.iter_mut().find(|(text, _)| *text == line) {
                Some((_, cases)) => cases.push(name),
                None => all.push((line, vec![name])),
            }
        }
    }
    all.into_iter()
        .map(|(line, cases)| {
            if cases.len() == workings.len() {
                line
            } else {
                format!("{}: {line}", cases.join(", "))
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn working(notes: &[&str]) -> Working {
        Working {
            title: String::new(),
            formula: String::new(),
            inputs: Vec::new(),
            result: String::new(),
            sources: Vec::new(),
            notes: notes.iter().map(|&note| note.to_owned()).collect(),
        }
    }

    #[test]
    fn a_note_of_some_cases_names_them() {
        let workings = [
            ("still".to_owned(), working(&["a", "b"])),
            ("windy".to_owned(), working(&["b"])),
        ];
        let lines = with_cases(&workings, |working| working.notes.clone());
        assert_eq!(lines, ["still: a", "b"]);
    }
}
