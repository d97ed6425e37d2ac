//! What to seal first, what a plan comes to, and what stays open.

use super::layout::Page;
use super::print;
use crate::assess::Study;
use crate::headless::decisions::Decisions;
use crate::report::sealing;

pub(super) fn print(page: &mut Page, study: &Study, decisions: &Decisions) {
    let (survey, assessment, asked) = (study.survey(), study.assessment(), decisions.asked);
    let mut section = sealing::plan(survey, assessment, study.work());
    if let Ok(found) = &decisions.sealing {
        section.append(sealing::ranking(survey, asked.aim, &found.ranked));
        section.append(sealing::order(survey, asked.aim, &found.order));
    }
    let refused = sealing::refused(survey, &decisions.refused);
    section.blocks.extend(refused);
    if let (Some(budget), Some(best)) = (asked.budget, &decisions.best) {
        let best = sealing::best(survey, assessment, (asked.aim, budget), best);
        section.append(best);
    }
    print::section(page, &section);
}
