//! Prints sections of the report as lines of text.

use super::layout::{Page, pad_right, width};
use super::table;
use crate::report::{Block, Fact, Section};
use crate::survey::Finding;

/// Prints a section with its heading.
pub(super) fn section(page: &mut Page, section: &Section) {
    let shown = page.shown.clone();
    let section = section.shown(&shown);
    page.heading(&section.title);
    blocks(page, &section);
}

/// Prints what stands in a section without its heading, as close as it can be read: an empty line
/// before each heading of the second order alone.
pub(super) fn close(page: &mut Page, section: &Section) {
    let shown = page.shown.clone();
    let section = section.shown(&shown);
    for block in &section.blocks {
        if matches!(block, Block::Heading { .. }) {
            page.blank();
        }
        print(page, block);
    }
}

/// Prints what stands in a section; what only paper can hold (drawings, photos, room to sign) is left out.
pub(super) fn blocks(page: &mut Page, section: &Section) {
    let mut last = None;
    for block in &section.blocks {
        if last.is_some_and(|last| stand_apart(last, block)) {
            page.blank();
        }
        print(page, block);
        last = Some(block);
    }
}

/// Whether an empty line stands between two blocks: notes stay with what they explain.
fn stand_apart(before: &Block, block: &Block) -> bool {
    !(is_left_out(before)
        || is_left_out(block)
        || matches!(block, Block::Note { .. })
        || matches!(before, Block::Heading { .. }))
}

fn is_left_out(block: &Block) -> bool {
    matches!(
        block,
        Block::Figure { .. } | Block::Photos { .. } | Block::Signature { .. }
    )
}

fn print(page: &mut Page, block: &Block) {
    match block {
        Block::Plain { sentences } => points(page, "• ", sentences),
        Block::Points { points: some } => points(page, "– ", some),
        Block::Paragraph { text } => lines(page, "", text),
        Block::Heading { text } => page.line(text.to_uppercase()),
        Block::Note { text } => lines(page, "  ", text),
        Block::Facts { rows } => facts(page, rows),
        Block::Caution { title, text } => page.hanging("⚠ ", &format!("{title}: {text}")),
        Block::Finding { finding, .. } => self::finding(page, finding, None),
        Block::Table { table } => table::print(page, table),
        Block::Figure { .. } | Block::Photos { .. } | Block::Signature { .. } => {}
    }
}

/// Severity, place if asked for, sentence, and what to do under it.
pub(super) fn finding(page: &mut Page, finding: &Finding, place: Option<&str>) {
    let head = pad_right(&finding.severity.name().to_uppercase(), 9);
    match place {
        None => page.hanging(&head, &finding.sentence),
        Some(place) => {
            page.hanging(&head, place);
            page.hanging("         ", &finding.sentence);
        }
    }
    if !finding.advice.is_empty() {
        page.hanging("       → ", &finding.advice);
    }
}

fn points(page: &mut Page, sign: &str, points: &[String]) {
    for point in points {
        page.hanging(sign, point);
    }
}

fn lines(page: &mut Page, indent: &str, text: &str) {
    for line in text.split('\n') {
        page.hanging(indent, line);
    }
}

fn facts(page: &mut Page, rows: &[Fact]) {
    let widest = rows.iter().map(|fact| width(&fact.name)).max().unwrap_or(0);
    for fact in rows {
        lines_behind(page, &pad_right(&fact.name, widest + 2), &fact.value);
    }
}

/// Lines behind a name, the later ones as far in as the first.
fn lines_behind(page: &mut Page, name: &str, text: &str) {
    let mut first = name.to_owned();
    for line in text.split('\n') {
        page.hanging(&first, line);
        first = " ".repeat(width(name));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_section_is_printed_block_by_block() {
        let mut some = Section::new("Air");
        some.push(Block::Facts {
            rows: vec![Fact::new("still", "1.2 /h"), Fact::new("in wind", "3\n4")],
        });
        some.note("At inside density.");
        some.push(Block::Points {
            points: vec!["one".to_owned()],
        });
        let mut page = Page::default();
        section(&mut page, &some);
        let text = page.finish();
        assert!(
            text.ends_with(
                "\nstill    1.2 /h\nin wind  3\n         4\n  At inside density.\n\n– one\n"
            ),
            "{text}"
        );
    }
}
