//! Before and after the work.

use super::Material;
use super::blocks::{Align, Block, Reasons, Section, Table};
use super::findings;
use super::ledger::remedy;
use super::measured::is_by_test;
use super::results::ach;
use super::sealing::{LEAST, MOST, Side, case, changes};
use super::words::{name, place};
use crate::assess::flues::once_in_use;
use crate::assess::quantity::Kind;
use crate::assess::sealing::{Prospect, air_per_sleeper};
use crate::assess::uncertainty::Uncertainty;
use crate::assess::words::{self, counted};
use crate::assess::{Assessment, LeakageTotal, Study};
use crate::survey::{Form, Gap, GapId, Survey, Tested, WorkState, leave};

/// The gaps that are sealed and may be.
pub(crate) fn sealed(survey: &Survey) -> Vec<GapId> {
    done(survey).map(|gap| gap.id).collect()
}

fn done(survey: &Survey) -> impl Iterator<Item = &Gap> {
    let gaps = survey.gaps.iter();
    gaps.filter(|gap| gap.state == WorkState::Sealed && !leave::never(survey, gap))
}

/// Openings that protect people and were sealed nevertheless.
fn wrongly_sealed(survey: &Survey) -> Vec<String> {
    let gaps = survey.gaps.iter();
    gaps.filter(|gap| gap.state == WorkState::Sealed && leave::never(survey, gap))
        .map(|gap| format!("gap {} “{}”", gap.id, name(gap)))
        .collect()
}

pub(crate) fn section(material: &Material<'_>) -> Section {
    let survey = material.survey;
    let mut section = Section::new("What was done");
    let wrong = wrongly_sealed(survey);
    if survey.gaps.is_empty() {
        return section.ending("No gaps are written down yet.");
    }
    if done(survey).next().is_none() {
        let text = if wrong.is_empty() {
            "No gap is marked as sealed yet: there is nothing to compare. Mark as sealed, with the date, what \
             was done; then print this sheet."
        } else {
            "No gap that may be sealed is marked as sealed yet: there is nothing to compare."
        };
        section.push(Block::Caution {
            title: "Nothing to hand over".to_owned(),
            text: text.to_owned(),
        });
        return section;
    }
    let (before, after) = (material.study.before_work(), material.study.after_work());
    section.push(Block::Plain {
        sentences: in_plain_words(survey, [before.assessment(), after.assessment()]),
    });
    for finding in once_in_use(after.survey(), after.assessment()) {
        section.push(findings::block(&finding));
    }
    section.heading("Before and after");
    let uncertainty = [material.uncertainty_before, material.uncertainty];
    changes(
        &mut section,
        (&side(before, uncertainty[0]), &side(after, uncertainty[1])),
        (before.assessment(), &survey.tariffs.currency),
    );
    let with_intervals = uncertainty.iter().any(Option::is_some);
    section.note(small_print(survey, with_intervals, &wrong));
    section.heading("Gaps that were sealed");
    section.table(gaps(survey), &Reasons::default());
    section.notes(tested(survey));
    remaining(&mut section, survey);
    section
}

fn gaps(survey: &Survey) -> Table {
    let mut table = Table::default()
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("As found", Align::Left, 3)
        .wide("How it was sealed", Align::Left, 3)
        .column("Date", Align::Left);
    for gap in done(survey) {
        let how = gap.remedy.as_ref().map_or_else(String::new, remedy);
        table.row([
            gap.id.to_string(),
            format!("{}\n{}", name(gap), place(gap)),
            as_found(gap),
            how,
            gap.state_date.trim().to_owned(),
        ]);
    }
    table
}

/// Which of the gaps were measured by a test, by their names.
fn tested(survey: &Survey) -> Option<String> {
    let gaps = done(survey).filter(|gap| is_by_test(gap));
    let names: Vec<String> = gaps
        .map(|gap| format!("gap {}, {}", gap.id, name(gap)))
        .collect();
    (!names.is_empty()).then(|| {
        format!(
            "Measured by a flow test, as found: {}. All other gaps are worked out from sizes and stated areas.",
            names.join("; ")
        )
    })
}

/// Its sizes as the owner may measure them; the pressures of a test are the report's.
fn as_found(gap: &Gap) -> String {
    match gap.form {
        Form::FlowTest { .. } => "measured by a flow test".to_owned(),
        _ => words::form(gap),
    }
}

fn small_print(survey: &Survey, with_intervals: bool, wrong: &[String]) -> String {
    let mut words =
        "Worked out from the gaps as surveyed and from what their remedies leave".to_owned();
    let mut tests = survey.fan_tests.iter();
    words.push_str(if tests.any(|test| test.tested == Tested::AfterWork) {
        "; what was measured after the work stands below."
    } else {
        "; nothing here was measured after the work. Measure again to be sure."
    });
    if with_intervals {
        words.push_str(
            " 95 %: the middle 95 % of 10 000 draws of what is uncertain. Both columns share most of \
             that uncertainty, so their difference is more certain than either.",
        );
    }
    if !wrong.is_empty() {
        words.push_str(&format!(
            " Counted as open before and after, because it must be opened again at once: {}.",
            wrong.join(", ")
        ));
    }
    words
}

/// One side of the work.
fn side<'a>(study: &'a Study, uncertainty: Option<&'a Uncertainty>) -> Side<'a> {
    let assessment = study.assessment();
    Side {
        leakage: &assessment.leakage.unintended,
        figures: study.prospect().map(Prospect::before),
        sleepers: air_per_sleeper(study.survey(), assessment),
        assessment: Some(assessment),
        uncertainty,
    }
}

fn in_plain_words(survey: &Survey, sides: [&Assessment; 2]) -> Vec<String> {
    let sealed = done(survey).count();
    let all = counted(survey.gaps.len(), "gap", "gaps");
    let are = if sealed == 1 { "is" } else { "are" };
    let mut sentences = vec![format!("Of {all}, {sealed} {are} sealed.")];
    if let [Ok(before), Ok(after)] = sides.map(|side| side.leakage.square_side.clone()) {
        let lacks = |side: &Assessment| {
            let total = side.leakage.unintended.as_ref();
            total.is_ok_and(LeakageTotal::lacks_some)
        };
        let at_least = if sides.into_iter().any(lacks) {
            "at least "
        } else {
            ""
        };
        sentences.push(format!(
            "Unintended gaps let in as much air as {at_least}a square hole with sides of {} \
             before, and of {} now.",
            Kind::SideMm.text(before),
            Kind::SideMm.text(after)
        ));
    }
    for (wind, which) in [("least", LEAST), ("most", MOST)] {
        if let [Ok(before), Ok(after)] = sides.map(|side| case(side, which).and_then(ach)) {
            sentences.push(format!(
                "With {wind} wind the air inside is replaced {} times an hour; before, it was {}.",
                Kind::AirChanges.number(after),
                Kind::AirChanges.number(before)
            ));
        }
    }
    sentences
}

/// What is still open.
fn remaining(section: &mut Section, survey: &Survey) {
    let open = |state: WorkState| {
        let gaps = survey.gaps.iter();
        gaps.filter(move |gap| gap.state == state && leave::leave(survey, gap).is_ok())
            .map(|gap| format!("{}\u{a0}\u{201c}{}\u{201d}", gap.id, name(gap)))
            .collect::<Vec<String>>()
    };
    let states = WorkState::ALL.into_iter();
    let points: Vec<String> = states
        .filter(|state| *state != WorkState::Sealed)
        .map(|state| (state, open(state)))
        .filter(|(_, gaps)| !gaps.is_empty())
        .map(|(state, gaps)| format!("{}: {}.", words::capital(state.name()), words::listed(gaps)))
        .collect();
    if !points.is_empty() {
        section
            .heading("Gaps that may be sealed and are not")
            .points(points);
    }
}
