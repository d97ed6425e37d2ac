//! The page that `assess` prints for a person: alerts first, then what the vehicle is, the
//! results, where the leakage is, safety ventilation, and how each result came about.
//!
//! Nothing relies on colour. Where a figure is not known the page says so and gives the reason
//! under the table; where gaps are not sized, totals are marked as *at least*.

mod alerts;
mod gaps;
mod layout;
mod leakage;
mod old_table;
mod print;
mod results;
mod safety;
mod sealing;
mod table;
mod uncertainty;
mod understood;
mod vehicle;

use crate::assess::words::{self, total_figure};
use crate::assess::{Answer, Assessment, Comparison, Mark, NotKnown};
use crate::headless::decisions::Decisions;
use crate::report;
use crate::survey::Survey;
use layout::{Page, WIDTH, pad_left, width};

pub(super) use alerts::blocks;

/// The whole page.
pub(super) fn render(
    survey: &Survey,
    assessment: &Assessment,
    comparison: &Answer<Comparison>,
    decisions: &Decisions,
) -> String {
    let material = report::Material {
        survey,
        assessment,
        comparison,
        uncertainty: decisions.uncertainty.as_ref().ok(),
        uncertainty_before: None,
    };
    let mut page = Page::default();
    title(&mut page, survey, assessment);
    alerts::print(&mut page, assessment);
    page.blank();
    page.paragraph(&format!("{}.", Mark::legend()));
    vehicle::print(&mut page, survey, assessment);
    results::print(&mut page, survey, assessment);
    understood::print(&mut page, survey, decisions);
    uncertainty::print(&mut page, assessment, decisions);
    print::section(&mut page, &report::drying::section(&material));
    leakage::print(&mut page, survey, assessment);
    gaps::print(&mut page, survey, assessment);
    sealing::print(&mut page, survey, decisions);
    safety::print(&mut page, assessment);
    print::section(&mut page, &report::workings::section(&material));
    page.finish()
}

fn title(page: &mut Page, survey: &Survey, assessment: &Assessment) {
    let title = if survey.header.title.trim().is_empty() {
        "Survey without a title"
    } else {
        survey.header.title.trim()
    };
    let set_up = format!("set-up: {}", assessment.set_up.name());
    let lines = layout::wrap(title, WIDTH.saturating_sub(width(&set_up) + 2));
    for (at, line) in lines.iter().enumerate() {
        if at == 0 {
            let room = WIDTH.saturating_sub(width(line));
            page.line(format!("{line}{}", pad_left(&set_up, room)));
        } else {
            page.line(line);
        }
    }
    page.line("━".repeat(WIDTH));
}

/// Reasons for what is not known, numbered in the order they come up under one table.
#[derive(Debug, Default)]
struct Unknowns {
    reasons: Vec<String>,
}

impl Unknowns {
    /// `not known (2)`, with the reason kept for [`Unknowns::print`].
    fn mark(&mut self, unknown: &NotKnown) -> String {
        let at = self
            .reasons
            .iter()
            .position(|reason| *reason == unknown.reason)
            .unwrap_or_else(|| {
                self.reasons.push(unknown.reason.clone());
                self.reasons.len() - 1
            });
        format!("not known ({})", at + 1)
    }

    /// The words for a known value, or the mark.
    fn or<T>(&mut self, answer: &Answer<T>, words: impl FnOnce(&T) -> String) -> String {
        match answer {
            Ok(value) => words(value),
            Err(unknown) => self.mark(unknown),
        }
    }

    fn print(&self, page: &mut Page) {
        for (reason, number) in self.reasons.iter().zip(1..) {
            page.hanging(&format!("({number}) not known: "), reason);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reason_that_comes_twice_is_printed_once() {
        let mut unknowns = Unknowns::default();
        assert_eq!(unknowns.mark(&NotKnown::because("a")), "not known (1)");
        assert_eq!(unknowns.mark(&NotKnown::because("b")), "not known (2)");
        assert_eq!(unknowns.mark(&NotKnown::because("a")), "not known (1)");
        let mut page = Page::default();
        unknowns.print(&mut page);
        assert_eq!(page.finish(), "(1) not known: a\n(2) not known: b\n");
    }
}
