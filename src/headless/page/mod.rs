//! The page that `assess` prints for a person: alerts first, then what the vehicle is, the
//! results, where the leakage is, safety ventilation, and how each result came about.
//!
//! Nothing relies on colour. Where a figure is not known the page says so and gives the reason
//! under the table; where gaps are not sized, totals are marked as *at least*.

mod alerts;
mod layout;
mod old_table;
mod print;
mod safety;
mod sealing;
mod table;

use crate::assess::sealing::Work;
use crate::assess::words;
use crate::assess::{Answer, Assessment, Comparison, Mark, NotKnown};
use crate::headless::decisions::Decisions;
use crate::report::{
    Block, Fact, Material, Section, cases, dependence, drying, leakage, ledger, summary,
    uncertainty, vehicle, workings,
};
use crate::survey::{SetUp, Survey};
use layout::{Page, WIDTH, pad_left, width};

pub(super) use alerts::blocks;

/// The whole page.
pub(super) fn render(
    survey: &Survey,
    assessment: &Assessment,
    comparison: &Answer<Comparison>,
    decisions: &Decisions,
) -> String {
    let mut page = Page::default();
    title(&mut page, survey, assessment);
    alerts::print(&mut page, assessment);
    page.blank();
    page.paragraph(&format!("{}.", Mark::legend()));
    let told = Material {
        survey,
        assessment,
        comparison,
        uncertainty: decisions.uncertainty.as_ref().ok(),
        uncertainty_before: None,
    };
    vehicle(&mut page, &told);
    for section in [
        summary::sentences(&told, &Work::of(survey)),
        cases::section(&told, &cases::Part::ALL),
        what_it_depends_on(&told, decisions),
        uncertainty::section(&told, &decisions.uncertainty),
    ] {
        print::section(&mut page, &section);
    }
    for section in [drying::section(&told), leakage::section(&told)] {
        print::section(&mut page, &section);
    }
    let ledger = ledger::section(&told, ledger::Order::LeakiestFirst);
    print::section(&mut page, &ledger);
    sealing::print(&mut page, survey, decisions);
    safety::print(&mut page, assessment);
    print::section(&mut page, &workings::section(&told));
    page.finish()
}

/// What was surveyed, where it stands, and which set-up the results are for.
fn vehicle(page: &mut Page, told: &Material<'_>) {
    let mut section = Section::new("Vehicle and place");
    let head = vehicle::facts_at_head(told).into_iter();
    section.push(Block::Facts {
        rows: head.map(|(name, value)| Fact::new(name, value)).collect(),
    });
    let other = match told.assessment.set_up {
        SetUp::LaidUp => "in-use",
        SetUp::InUse => "laid-up",
    };
    section.note(format!(
        "All results are for closable gaps, fans and moisture sources as they are then; `--set-up \
         {other}` shows the other set-up."
    ));
    section.blocks.extend(vehicle::section(told).blocks);
    print::section(page, &section);
}

fn what_it_depends_on(told: &Material<'_>, decisions: &Decisions) -> Section {
    let survey = told.survey;
    let mut section = Section::new("What the air change depends on");
    section
        .append(dependence::by_direction(told))
        .append(dependence::by_warmth(&decisions.against_temperature))
        .append(dependence::pressure_sets(survey, &decisions.pressure_sets))
        .append(dependence::parked(&decisions.parking))
        .append(dependence::doors_inside(survey, &decisions.closing));
    section
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
