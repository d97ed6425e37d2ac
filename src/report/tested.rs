//! What fan tests before and after the work show, in their owner's words.

use super::Material;
use super::blocks::{Align, Reasons, Section, Table};
use crate::assess::Answer;
use crate::assess::measured::FanOutcome;
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, listed};
use crate::physics::measurement::Limits;
use crate::physics::units::SECONDS_PER_HOUR;
use crate::report::words::renewed;
use crate::survey::{FanTest, GapId, Survey, Tested};
use std::collections::BTreeSet;

/// Pressure at which tests are compared, Pa.
const PULL: f64 = 50.0;

/// The tests beside each other; nothing where none was made.
pub(crate) fn section(material: &Material<'_>) -> Section {
    let survey = material.survey;
    let mut section = Section::new("Tested with a fan");
    let last = |when: Tested| {
        let mut tests = survey.fan_tests.iter().rev();
        tests.find(|test| test.tested == when)
    };
    let outcome = |test: &FanTest| material.study.measured().fan_test(test.id).cloned();
    match (last(Tested::AsFound), last(Tested::AfterWork)) {
        (None, None) => return Section::new(""),
        (Some(before), Some(after)) => {
            both(
                &mut section,
                [&outcome(before), &outcome(after)],
                [before, after],
            );
            if !is_same_state(before, after) {
                section.paragraph(
                    "▲ The vehicle was not closed and covered alike for both tests: their difference is not \
                     the work\u{2019}s alone.",
                );
            }
        }
        (Some(only), None) => {
            one(&mut section, &outcome(only), only);
            section.paragraph(
                "It was not tested after the work: no measurement shows what the work did.",
            );
        }
        (None, Some(only)) => {
            one(&mut section, &outcome(only), only);
            section.paragraph(
                "It was not tested before the work: no measurement shows what the work did.",
            );
        }
    }
    section.notes(
        ["before", "after"]
            .into_iter()
            .zip([last(Tested::AsFound), last(Tested::AfterWork)])
            .filter_map(|(when, test)| with_what(when, test?)),
    );
    uncovered(&mut section, survey);
    section
}

/// The instrument of a test and the weather it was made in, as far as they are written down.
fn with_what(when: &str, test: &FanTest) -> Option<String> {
    let weather = air([test.inside_c, test.outside_c], test.wind_m_s);
    let parts = [test.instrument.trim().to_owned(), weather];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    (!parts.is_empty()).then(|| format!("The test {when} the work: {}.", parts.join("; ")))
}

/// Temperatures inside and outside, and the wind, of a test.
fn air([inside, outside]: [Option<f64>; 2], wind: Option<f64>) -> String {
    let parts = [
        inside.map(|t| format!("inside {}", Kind::Celsius.typed(t))),
        outside.map(|t| format!("outside {}", Kind::Celsius.typed(t))),
        wind.map(|wind| format!("wind {}", Kind::MetresPerSecond.typed(wind))),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The tests of the air change, a line each; nothing where none was made.
pub(crate) fn air_change(material: &Material<'_>) -> Section {
    let mut section = Section::new("Air change tested");
    let survey = material.survey;
    if survey.air_tests.is_empty() {
        return section;
    }
    let mut table = Table::default()
        .wide("Test", Align::Left, 3)
        .column("Day", Align::Left)
        .wide("Read with", Align::Left, 2)
        .wide("Weather", Align::Left, 3)
        .column("The air is new every", Align::Left);
    let mut reasons = Reasons::default();
    for test in &survey.air_tests {
        let outcome = material.study.measured().air_test(test.id);
        let ach = outcome.and_then(|outcome| outcome.ach_per_h.as_ref().map_err(Clone::clone));
        let name = match test.name.trim() {
            "" => capital(test.by.name()),
            name => format!("{name}: {}", test.by.name()),
        };
        table.row([
            format!("{name}, {}", test.tested.name()),
            test.date.trim().to_owned(),
            test.instrument.trim().to_owned(),
            air([test.inside_c, test.outside_c], test.wind_m_s),
            reasons.or(&ach, |ach| {
                let [slow, likely, fast] = [ach.low, ach.value, ach.high].map(renewed);
                format!("{likely} ({fast} to {slow})")
            }),
        ]);
    }
    section.table(table, &reasons);
    section.note("In brackets: where it lies in 95 of 100 such tests, in the weather of the test.");
    section
}

/// Whether both tests were made with the same openings closed and covered.
fn is_same_state(before: &FanTest, after: &FanTest) -> bool {
    let covered = |test: &FanTest| -> BTreeSet<(Option<GapId>, String)> {
        let all = test.covered.iter();
        all.map(|one| {
            let words = one
                .gap
                .map_or_else(|| one.what.trim().to_owned(), |_| String::new());
            (one.gap, words)
        })
        .collect()
    };
    before.set_up == after.set_up && covered(before) == covered(after)
}

/// Two tests in a table.
fn both(section: &mut Section, outcomes: [&Answer<FanOutcome>; 2], tests: [&FanTest; 2]) {
    let flows = outcomes.map(flow);
    if let [Ok(before), Ok(after)] = &flows {
        let less = 1.0 - after.value / before.value;
        let words = if less >= 0.0 {
            format!("{} less air", Kind::WholePercent.text(less))
        } else {
            format!("{} more air", Kind::WholePercent.text(-less))
        };
        section.paragraph(format!(
            "A fan in a door pulled air through the vehicle and pushed it in, before the work and after it. \
             Under the same pull {words} came through afterwards.",
        ));
    }
    let dated = |words: &str, test: &FanTest| match test.date.trim() {
        "" => words.to_owned(),
        date => format!("{words},\n{date}"),
    };
    let mut table = Table::default()
        .wide("What was measured", Align::Left, 1)
        .column(dated("Before", tests[0]), Align::Right)
        .column(dated("After", tests[1]), Align::Right);
    let mut reasons = Reasons::default();
    for (what, of) in ROWS {
        let cells =
            outcomes.map(|outcome| reasons.or(&of(outcome), |limits| within(what.1, *limits)));
        let [before, after] = cells;
        table.row([what.0.to_owned(), before, after]);
    }
    section.table(table, &reasons);
    section.note(
        "In brackets: where the figure lies in 95 of 100 such tests. The fan pulled far harder than wind does, so \
         that wind and warmth did not count.",
    );
}

/// The only test.
fn one(section: &mut Section, outcome: &Answer<FanOutcome>, test: &FanTest) {
    let date = match test.date.trim() {
        "" => String::new(),
        date => format!(", on {date}"),
    };
    let words = match hole(outcome) {
        Ok(side) => format!(
            "Tested {}{date}: the vehicle lets in as much air as a square hole with sides of {}.",
            test.tested.name(),
            Kind::SideMm.text(side.value)
        ),
        Err(unknown) => format!(
            "What the test {}{date} shows is not known: {}.",
            test.tested.name(),
            unknown.reason
        ),
    };
    section.paragraph(words);
}

/// A name with the kind of its numbers, and where they come from.
type Figure = (
    (&'static str, Kind),
    fn(&Answer<FanOutcome>) -> Answer<Limits>,
);

const ROWS: [Figure; 2] = [
    (
        ("Air under the same pull, m³/h", Kind::CubicMetresPerHour),
        |outcome| flow(outcome).map(|flow| flow.map(|flow| flow * SECONDS_PER_HOUR)),
    ),
    (
        (
            "Side of a square hole that lets in as much, mm",
            Kind::SideMm,
        ),
        hole,
    ),
];

fn flow(outcome: &Answer<FanOutcome>) -> Answer<Limits> {
    outcome.as_ref().map_err(Clone::clone)?.flow_at(PULL)
}

fn hole(outcome: &Answer<FanOutcome>) -> Answer<Limits> {
    let outcome = outcome.as_ref().map_err(Clone::clone)?;
    Ok(outcome.eqla.map(f64::sqrt))
}

fn within(kind: Kind, limits: Limits) -> String {
    let [low, value, high] = [limits.low, limits.value, limits.high].map(|one| kind.number(one));
    format!("{value} ({low} to {high})")
}

/// What was covered for the tests: no sheet is made before somebody has said that it is clear again.
fn uncovered(section: &mut Section, survey: &Survey) {
    let covered: BTreeSet<String> = survey
        .fan_tests
        .iter()
        .flat_map(|test| &test.covered)
        .filter(|one| one.uncovered)
        .map(|one| survey.covered_in_words(one))
        .collect();
    if !covered.is_empty() {
        section.paragraph(format!(
            "Covered for the tests and uncovered again: {}.",
            listed(covered)
        ));
    }
}
