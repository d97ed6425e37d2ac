//! The pages that `assess` prints for a person. In short: what is wrong, what to buy, what to seal, what
//! never to close. All of it: alerts first, then the same in short, what the vehicle is, the results,
//! where the leakage is, safety ventilation, and how each result came about.
//!
//! Nothing relies on colour. Where a figure is not known the page says so and gives the reason
//! under the table; where gaps are not sized, totals are marked as *at least*.

mod alerts;
mod layout;
mod print;
mod table;

use crate::assess::shown::Shown;
use crate::assess::{Assessment, Mark, Study};
use crate::headless::asked::Asked;
use crate::report::in_short::Room;
use crate::report::{
    Block, Fact, Material, Section, cases, dependence, drying, findings, in_short, leakage, ledger,
    measured, safety, sealing, summary, uncertainty, vehicle, walk, workings,
};
use crate::survey::{SetUp, Survey};
pub(super) use layout::harmless;
use layout::{Page, WIDTH, pad_left, width};

pub(super) use alerts::blocks;

/// The results in short.
pub(super) fn in_short(study: &Study, shown: Shown) -> String {
    let (survey, assessment) = (study.survey(), study.assessment());
    let told = Material::of(study);
    let within = |room: Room| {
        let mut page = Page::of(shown.clone());
        title(&mut page, survey, assessment);
        let told = in_short::in_short_within(&told, room);
        print::close(&mut page, &told.section(|_| None));
        page.finish()
    };
    let mut text = within(Room::ENOUGH);
    let fewer = (FEWEST_ROWS..MOST_ROWS).rev();
    for rows in std::iter::once(Room::ENOUGH.rows).chain(fewer) {
        if text.lines().count() <= LINES {
            break;
        }
        text = within(Room { rows, tight: true });
    }
    text
}

/// Lines that the results in short have.
const LINES: usize = 60;

/// Rows of a table that are tried where they would have more, from the most to the fewest.
const MOST_ROWS: usize = 9;
const FEWEST_ROWS: usize = 1;

fn short(page: &mut Page, study: &Study) {
    let told = Material::of(study);
    // Dangers stand above, among the findings.
    let in_short = in_short::in_short(&told).without_first_dangers();
    page.heading("In short");
    print::close(page, &in_short.section(|_| None));
}

/// The whole page.
pub(super) fn render(study: &Study, asked: Asked, shown: Shown) -> String {
    let (survey, assessment) = (study.survey(), study.assessment());
    let mut page = Page::of(shown);
    title(&mut page, survey, assessment);
    print::section(
        &mut page,
        &findings::section(&assessment.findings, |_| false),
    );
    short(&mut page, study);
    page.blank();
    page.paragraph(&format!("{}.", Mark::legend()));
    let told = Material::of(study);
    vehicle(&mut page, &told);
    for section in [
        summary::sentences(&told, study.work()),
        cases::section(&told, &cases::Part::ALL),
        dependence::section(&told),
    ] {
        print::section(&mut page, &section);
    }
    if let Some(found) = study.uncertainty() {
        print::section(&mut page, &uncertainty::section(&told, found));
    }
    for section in [drying::section(&told), leakage::section(&told)] {
        print::section(&mut page, &section);
    }
    let ledger = ledger::section(&told, ledger::Order::LeakiestFirst);
    print::section(&mut page, &ledger);
    let walk = walk::section(survey);
    if !walk.blocks.is_empty() {
        print::section(&mut page, &walk);
    }
    if !survey.fan_tests.is_empty() {
        print::section(&mut page, &measured::section(&told));
    }
    for section in [
        measured::air_tests(&told),
        measured::calibration(&told),
        measured::checks_of_loggers(&told),
    ] {
        if !section.blocks.is_empty() {
            print::section(&mut page, &section);
        }
    }
    for section in measured::trial::sections(&told) {
        print::section(&mut page, &section);
    }
    print::section(&mut page, &sealing(study, asked));
    for section in [
        safety::ventilation(&assessment.safety, None),
        safety::before_sealing(survey),
        safety::before_drying(survey),
        workings::section(&told),
    ] {
        print::section(&mut page, &section);
    }
    page.finish()
}

/// Sections one below the other.
pub(super) fn together(sections: &[Section], shown: Shown) -> String {
    let mut page = Page::of(shown);
    for section in sections {
        print::section(&mut page, section);
    }
    page.finish()
}

/// One section by itself.
pub(super) fn alone(section: &Section) -> String {
    let mut page = Page::default();
    print::section(&mut page, section);
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

/// What to seal first, what a plan comes to, and what stays open.
fn sealing(study: &Study, asked: Asked) -> Section {
    let (survey, assessment) = (study.survey(), study.assessment());
    let mut section = sealing::plan(survey, assessment, study.work());
    if let (Ok(ranking), Ok(order)) = (study.ranking(asked.aim), study.order(asked.aim)) {
        section.append(sealing::ranking(survey, asked.aim, &ranking.ranked));
        section.append(sealing::order(survey, asked.aim, order));
    }
    let refused = sealing::refused(survey, &study.planned_work().refused);
    section.blocks.extend(refused);
    if let Some(best) = asked.found_best(study) {
        let sum = (best.aim, best.budget);
        section.append(sealing::best(survey, assessment, sum, &best.plan));
    }
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
