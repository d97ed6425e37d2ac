//! How each headline came about, and where the formulas come from.

use super::Material;
use crate::assess::{Mark, Topic, Working, working};
use crate::sheet::blocks::{Align, Block, Reasons, Section, Table};
use crate::survey::WeatherId;

/// Cases side by side; more go into a further table.
const SIDE_BY_SIDE: usize = 4;

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

pub(super) fn section(material: &Material<'_>) -> Section {
    let mut section = Section::new("Appendix: workings and sources").on_new_page();
    let marks: Vec<String> = MARKS
        .iter()
        .map(|mark| format!("[{}] {}", mark.letter(), mark.words()))
        .collect();
    section.note(format!("Marks behind a source: {}.", marks.join("; ")));
    for topic in [Topic::Volume, Topic::LeakageArea, Topic::Exponent] {
        one(&mut section, material, topic);
    }
    for (title, topic) in BY_CASE {
        let cases = material.assessment.cases.iter();
        let workings: Vec<(String, Working)> = cases
            .filter_map(|case| {
                let working = of(material, topic(case.id))?;
                Some((case.name.clone(), working))
            })
            .collect();
        print(&mut section, title, &workings);
    }
    one(&mut section, material, Topic::SafetyVentilation);
    gaps(&mut section, material);
    section
}

fn of(material: &Material<'_>, topic: Topic) -> Option<Working> {
    working(material.survey, material.assessment, topic)
}

fn one(section: &mut Section, material: &Material<'_>, topic: Topic) {
    if let Some(working) = of(material, topic) {
        let title = working.title.clone();
        print(section, &title, &[(String::new(), working)]);
    }
}

fn print(section: &mut Section, title: &str, workings: &[(String, Working)]) {
    let Some((_, first)) = workings.first() else {
        return;
    };
    section.heading(title);
    section.paragraph(format!("Formula: {}", first.formula));
    for some in workings.chunks(SIDE_BY_SIDE) {
        section.push(inputs(some));
    }
    let mut points = with_cases(workings, |working| {
        let sources = working.sources.iter();
        sources
            .map(|source| format!("Source: {} [{}]", source.text, source.mark.letter()))
            .collect()
    });
    points.extend(with_cases(workings, |working| working.notes.clone()));
    if !points.is_empty() {
        section.push(Block::Points { points });
    }
}

/// Inputs and results in rows, cases in columns.
fn inputs(workings: &[(String, Working)]) -> Block {
    let mut names: Vec<&str> = Vec::new();
    for (_, working) in workings {
        for (name, _) in &working.inputs {
            if !names.contains(&name.as_str()) {
                names.push(name);
            }
        }
    }
    let mut table = Table::default().wide("", Align::Left, 2);
    for (name, _) in workings {
        table = table.wide(name.clone(), Align::Left, 1);
    }
    for name in names {
        let mut cells = vec![name.to_owned()];
        for (_, working) in workings {
            let values: Vec<&str> = working
                .inputs
                .iter()
                .filter(|(input, _)| input == name)
                .map(|(_, value)| value.as_str())
                .collect();
            // Two inputs of one name may be the same number.
            let mut values = values;
            values.dedup();
            cells.push(minus(&values.join("; ")));
        }
        table.row(cells);
    }
    let mut cells = vec!["Result".to_owned()];
    cells.extend(workings.iter().map(|(_, working)| minus(&working.result)));
    table.total(cells);
    Block::Table { table }
}

/// A real minus sign before a number.
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

/// Every gap in a line, by formula: what was put in and what came out.
fn gaps(section: &mut Section, material: &Material<'_>) {
    let workings: Vec<(String, Working)> = material
        .survey
        .gaps
        .iter()
        .filter_map(|gap| Some((gap.id.to_string(), of(material, Topic::Gap(gap.id))?)))
        .collect();
    if workings.is_empty() {
        return;
    }
    section.heading("Leakage of each gap");
    let mut table = Table::default()
        .column("Gap", Align::Right)
        .wide("Put in", Align::Left, 4)
        .wide("Result", Align::Left, 3);
    let mut formulas: Vec<&str> = Vec::new();
    for (_, working) in &workings {
        if !formulas.contains(&working.formula.as_str()) {
            formulas.push(&working.formula);
        }
    }
    for formula in formulas {
        table.group(formula);
        for (id, working) in workings.iter().filter(|(_, one)| one.formula == formula) {
            let inputs: Vec<String> = working
                .inputs
                .iter()
                .map(|(name, value)| format!("{name} {}", minus(value)))
                .collect();
            table.row([id.clone(), inputs.join("; "), minus(&working.result)]);
        }
    }
    section.table(table, &Reasons::default());
    let sources = with_cases(&workings, |working| {
        let sources = working.sources.iter();
        sources
            .map(|source| format!("{} [{}]", source.text, source.mark.letter()))
            .collect()
    });
    let points = sources.into_iter().map(|line| without_gaps(&line));
    section.push(Block::Points {
        points: points.collect(),
    });
}

/// Sources of gaps go by the line; the list of the gaps in front only lengthens it.
fn without_gaps(line: &str) -> String {
    let is_list = |front: &str| {
        front
            .chars()
            .all(|letter| letter.is_ascii_digit() || matches!(letter, ',' | ' '))
    };
    match line.split_once(": ") {
        Some((front, rest)) if is_list(front) => format!("Source: {rest}"),
        _ => format!("Source: {line}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_note_of_some_cases_names_them() {
        let working = |notes: &[&str]| Working {
            title: String::new(),
            formula: String::new(),
            inputs: Vec::new(),
            result: String::new(),
            sources: Vec::new(),
            notes: notes.iter().map(|&note| note.to_owned()).collect(),
        };
        let workings = [
            ("still".to_owned(), working(&["a", "b"])),
            ("windy".to_owned(), working(&["b"])),
        ];
        let lines = with_cases(&workings, |working| working.notes.clone());
        assert_eq!(lines, ["still: a", "b"]);
    }

    #[test]
    fn sources_lose_the_list_of_gaps_only() {
        assert_eq!(without_gaps("1, 2: BS 5925 [R]"), "Source: BS 5925 [R]");
        assert_eq!(
            without_gaps("Baker: cracks [M]"),
            "Source: Baker: cracks [M]"
        );
    }
}
