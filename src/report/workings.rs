//! How each result came about: formula, numbers put in, result, sources with their marks.
//!
//! The same result in several weather cases has one formula, so its cases stand side by side.

use super::Material;
use super::blocks::{Align, Block, Fact, Reasons, Section, Table};
use super::headlines::{Headline, OfCases, headlines, inputs, lines};
use crate::assess::{Mark, Source, Topic, Working, working};

/// Cases side by side; more go into a further table.
const SIDE_BY_SIDE: usize = 3;

/// The workings of all headlines, then of every gap.
#[must_use]
pub fn section(material: &Material<'_>) -> Section {
    let mut section = Section::new("Appendix: workings and sources")
        .on_new_page()
        .with_formulas();
    section.note(format!("{}.", Mark::legend()));
    for Headline { title, workings } in headlines(material.survey, material.assessment) {
        of_cases(&mut section, &title, &workings);
    }
    gaps(&mut section, material);
    section
}

/// The working of one result, for a reader who asked for it.
#[must_use]
pub fn one(working: &Working) -> Section {
    let mut section = Section::new(working.title.clone()).with_formulas();
    section.heading("Formula");
    for line in working.formula.split(";  ") {
        section.paragraph(line);
    }
    if !working.inputs.is_empty() {
        section.heading("Put in");
        let rows = working.inputs.iter();
        section.push(Block::Facts {
            rows: rows.map(|(name, value)| Fact::new(name, value)).collect(),
        });
    }
    section.heading("Result").paragraph(&working.result);
    if !working.sources.is_empty() {
        section.heading("Sources");
        for source in &working.sources {
            section.paragraph(source.marked());
            section.note(format!(
                "{} {}",
                source.mark.bracketed(),
                source.mark.words()
            ));
        }
    }
    if !working.notes.is_empty() {
        section
            .heading("To keep in mind")
            .points(working.notes.clone());
    }
    section
}

fn of_cases(section: &mut Section, title: &str, workings: &OfCases) {
    let Some((_, first)) = workings.first() else {
        return;
    };
    section.heading(title);
    section.paragraph(format!("Formula: {}", first.formula));
    for some in workings.chunks(SIDE_BY_SIDE) {
        section.push(inputs_and_results(some));
    }
    let mut points = lines(workings, |working| {
        let sources = working.sources.iter();
        sources
            .map(|source| format!("Source: {}", source.marked()))
            .collect()
    });
    points.extend(lines(workings, |working| working.notes.clone()));
    section.points(points);
}

/// Inputs and results in rows, cases in columns.
fn inputs_and_results(workings: &OfCases) -> Block {
    let mut table = Table::default().wide("", Align::Left, 2);
    for (name, _) in workings {
        table = table.wide(name.clone(), Align::Left, 1);
    }
    for (name, values) in inputs(workings) {
        let values = values.into_iter();
        let values = values.map(|value| value.unwrap_or_else(|| "–".to_owned()));
        table.row(std::iter::once(name.to_owned()).chain(values));
    }
    let results = workings.iter().map(|(_, working)| working.result.clone());
    table.total(std::iter::once("Result".to_owned()).chain(results));
    Block::Table { table }
}

/// Every gap in a line, by formula: what was put in and what came out.
fn gaps(section: &mut Section, material: &Material<'_>) {
    let gaps = material.survey.gaps.iter();
    let workings: Vec<(String, Working)> = gaps
        .filter_map(|gap| {
            let topic = Topic::Gap(gap.id);
            let working = working(material.survey, material.assessment, topic)?;
            Some((gap.id.to_string(), working))
        })
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
            let inputs = working.inputs.iter();
            let inputs: Vec<String> = inputs
                .map(|(name, value)| format!("{name} {value}"))
                .collect();
            table.row([id.clone(), inputs.join("; "), working.result.clone()]);
        }
    }
    section.table(table, &Reasons::default());
    let sources = lines(&workings, |working| {
        working.sources.iter().map(Source::marked).collect()
    });
    let points = sources.into_iter().map(|line| without_gaps(&line));
    section.points(points);
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
    fn sources_lose_the_list_of_gaps_only() {
        assert_eq!(without_gaps("1, 2: BS 5925 [R]"), "Source: BS 5925 [R]");
        assert_eq!(
            without_gaps("Baker: cracks [R]"),
            "Source: Baker: cracks [R]"
        );
    }
}
