//! How each headline came about, and where the formulas come from.

use super::Material;
use super::blocks::{Align, Block, Reasons, Section, Table};
use crate::assess::headlines::{Headline, OfCases, headlines, inputs, lines, minus};
use crate::assess::{Mark, Source, Topic, Working, working};

/// Cases side by side; more go into a further table.
const SIDE_BY_SIDE: usize = 4;

pub(crate) fn section(material: &Material<'_>) -> Section {
    let mut section = Section::new("Appendix: workings and sources").on_new_page();
    section.note(format!("{}.", Mark::legend()));
    for headline in headlines(material.survey, material.assessment) {
        print(&mut section, &headline);
    }
    gaps(&mut section, material);
    section
}

fn print(section: &mut Section, Headline { title, workings }: &Headline) {
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
    if !points.is_empty() {
        section.push(Block::Points { points });
    }
}

/// Inputs and results in rows, cases in columns.
fn inputs_and_results(workings: &OfCases) -> Block {
    let mut table = Table::default().wide("", Align::Left, 2);
    for (name, _) in workings {
        table = table.wide(name.clone(), Align::Left, 1);
    }
    for (name, values) in inputs(workings) {
        let mut cells = vec![name.to_owned()];
        cells.extend(values.into_iter().map(Option::unwrap_or_default));
        table.row(cells);
    }
    let mut cells = vec!["Result".to_owned()];
    cells.extend(workings.iter().map(|(_, working)| minus(&working.result)));
    table.total(cells);
    Block::Table { table }
}

/// Every gap in a line, by formula: what was put in and what came out.
fn gaps(section: &mut Section, material: &Material<'_>) {
    let workings: Vec<(String, Working)> = material
        .survey
        .gaps
        .iter()
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
            let inputs: Vec<String> = working
                .inputs
                .iter()
                .map(|(name, value)| format!("{name} {}", minus(value)))
                .collect();
            table.row([id.clone(), inputs.join("; "), minus(&working.result)]);
        }
    }
    section.table(table, &Reasons::default());
    let sources = lines(&workings, |working| {
        working.sources.iter().map(Source::marked).collect()
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
    fn sources_lose_the_list_of_gaps_only() {
        assert_eq!(without_gaps("1, 2: BS 5925 [R]"), "Source: BS 5925 [R]");
        assert_eq!(
            without_gaps("Baker: cracks [M]"),
            "Source: Baker: cracks [M]"
        );
    }
}
