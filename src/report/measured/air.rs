//! Tests of the air change: what was recorded, what came of it, and how it stands to the survey.

use super::super::Material;
use super::super::blocks::{Align, Block, Fact, Reasons, Section, Table};
use crate::assess::Answer;
use crate::assess::measured::{AirOutcome, Verdict};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, given};
use crate::physics::measurement::Limits;
use crate::survey::{AirTest, AirTestBy, Survey};

/// All of it; nothing in it where none was made.
#[must_use]
pub fn section(told: &Material<'_>) -> Section {
    let mut section = Section::new("Air change measured");
    let (survey, measured) = (told.survey, told.study.measured());
    for test in &survey.air_tests {
        if let Ok(outcome) = measured.air_test(test.id) {
            contradiction(&mut section, test, outcome);
        }
    }
    for test in &survey.air_tests {
        section.heading(capital(&title(test)));
        let mut rows = recorded(test);
        let outcome = match measured.air_test(test.id) {
            Ok(outcome) => outcome,
            Err(unknown) => {
                section.facts(rows, &Reasons::default());
                section.paragraph(format!("Its air change is not known: {}.", unknown.reason));
                continue;
            }
        };
        let mut reasons = Reasons::default();
        rows.extend(results(outcome, &mut reasons));
        section.facts(rows, &reasons);
        section.paragraph(compared(outcome, test.by));
        section.table(readings(survey, test), &Reasons::default());
        section.note(how(test.by));
    }
    section
}

/// What to heed before a test of the air change.
#[must_use]
pub fn before_an_air_test() -> Section {
    let mut section = Section::new("Before a test of the air change");
    section.push(Block::Caution {
        title: "A flame is never a source".to_owned(),
        text: "Not for carbon dioxide and not for water: a flame in a closed vehicle kills. Never let in fuel \
               gas. Let people breathe, or an electric kettle steam, and leave before the readings begin. Fixed vents stay \
               open: nothing is covered for this test."
            .to_owned(),
    });
    section.points(
        [
            "Mix the air with a small fan, and let nobody open a door from the first reading to the last.",
            "Five readings or more, until half or two thirds are gone; the same outside before and after.",
            "Write down the wind: one test in still air and one in wind tell most.",
        ]
        .map(str::to_owned),
    );
    section
}

/// The name of a test in a sentence.
pub(super) fn title(test: &AirTest) -> String {
    match test.name.trim() {
        "" => format!("air test {}", test.id),
        name => format!("air test {} \u{201c}{name}\u{201d}", test.id),
    }
}

fn contradiction(section: &mut Section, test: &AirTest, outcome: &AirOutcome) {
    let words = match outcome.verdict() {
        Ok(Verdict::MoreThanFound) => {
            "shows a higher air change than the survey can explain, even with what surveys usually miss. The \
             survey missed some leakage, something stood open, or the wind was not as written down"
        }
        Ok(Verdict::LessThanFound) => {
            "shows a lower air change than the survey says. A size is too large, something was closed that is \
             not written down, the air was not mixed, or furniture gave water back"
        }
        _ => return,
    };
    section.push(Block::Caution {
        title: "Test and survey contradict each other".to_owned(),
        text: format!("{} {words}.", capital(&title(test))),
    });
}

/// What was written down of it.
fn recorded(test: &AirTest) -> Vec<Fact> {
    let weather: Vec<String> = [
        test.inside_c
            .map(|t| format!("inside {}", Kind::Celsius.typed(t))),
        test.outside_c
            .map(|t| format!("outside {}", Kind::Celsius.typed(t))),
        test.wind_m_s
            .map(|wind| format!("wind {}", Kind::MetresPerSecond.typed(wind))),
    ]
    .into_iter()
    .flatten()
    .collect();
    let litres =
        |value: Option<f64>| value.map_or(String::new(), |l| format!("{}\u{a0}L", given(l)));
    let percent = |value: f64| Kind::RelativeHumidity.typed(value);
    let pair = |one: Option<f64>, other: Option<f64>, between: &str| match (one, other) {
        (Some(one), Some(other)) => format!("{} {between} {}", percent(one), percent(other)),
        _ => String::new(),
    };
    let mut rows = vec![
        ("Day", test.date.trim().to_owned()),
        ("Read with", test.instrument.trim().to_owned()),
        ("Told by", test.by.name().to_owned()),
        (
            "Vehicle tested",
            format!(
                "{}; closable gaps as {}",
                test.tested.name(),
                test.set_up.name()
            ),
        ),
        ("What was open", test.closed.trim().to_owned()),
        ("Air", weather.join(", ")),
    ];
    if !test.by.is_decay() {
        rows.extend([
            (
                "Collected for",
                test.hours
                    .map_or(String::new(), |hours| format!("{}\u{a0}h", given(hours))),
            ),
            ("Water collected", litres(test.collected_l)),
            ("Water given off meanwhile", litres(test.given_off_l)),
            (
                "Mean humidity",
                pair(
                    test.inside_rh_percent,
                    test.outside_rh_percent,
                    "inside, outside",
                ),
            ),
            (
                "Humidity inside",
                pair(
                    test.start_rh_percent,
                    test.end_rh_percent,
                    "at the start, at the end",
                ),
            ),
        ]);
    }
    rows.push(("Note", test.note.trim().to_owned()));
    rows.into_iter()
        .filter(|(_, value)| !value.is_empty())
        .map(|(name, value)| Fact::new(name, value))
        .collect()
}

/// What came of it, beside what the survey leads one to expect.
fn results(outcome: &AirOutcome, reasons: &mut Reasons) -> Vec<Fact> {
    let measured = reasons.or(&outcome.ach_per_h, |ach| limited(*ach));
    let expected = expected(outcome);
    let mut rows = vec![
        Fact::new("Air changes measured", measured),
        Fact::new(
            "By the survey, in the same weather",
            reasons.or(&expected, |ach| limited(*ach)),
        ),
    ];
    if let Ok(r_squared) = outcome.r_squared {
        rows.push(Fact::new("Fit (r²)", format!("{r_squared:.3}")));
    }
    rows
}

/// The air changes that the survey leads one to expect, with their limits.
fn expected(outcome: &AirOutcome) -> Answer<Limits> {
    let expected = outcome.expected.as_ref().map_err(Clone::clone)?;
    let ach = expected.ach_per_h.clone()?;
    let wide = (1.96 * expected.sigma).exp();
    Ok(Limits {
        low: ach / wide,
        value: ach,
        high: ach * wide,
    })
}

/// A value with its limits.
fn limited(limits: Limits) -> String {
    let kind = Kind::AirChanges;
    format!(
        "{} to {}, most likely {}",
        kind.number(limits.low),
        kind.text(limits.high),
        kind.text(limits.value)
    )
}

/// What test and survey say of each other.
pub(super) fn compared(outcome: &AirOutcome, by: AirTestBy) -> String {
    match outcome.verdict() {
        Ok(Verdict::Agrees) => agreed(&outcome.ach_per_h, &expected(outcome), by),
        Ok(Verdict::MoreThanFound | Verdict::LessThanFound) => {
            "Both cannot be right: see the contradiction above.".to_owned()
        }
        Err(why) => format!("It cannot be held against the survey: {}.", why.reason),
    }
}

/// That both can be right; where the ranges told do not meet, what they leave out.
pub(super) fn agreed(
    measured: &Answer<Limits>,
    expected: &Answer<Limits>,
    by: AirTestBy,
) -> String {
    let apart = match (measured, expected) {
        (Ok(measured), Ok(expected)) => {
            (measured.low > expected.high, measured.high < expected.low)
        }
        _ => (false, false),
    };
    let air = match by {
        AirTestBy::Moisture => "the water that furniture gives back",
        AirTestBy::PeopleLeft | AirTestBy::Gas | AirTestBy::WaterCollected => {
            "air that was not well mixed"
        }
    };
    let left_out = match apart {
        (true, _) => format!("what surveys usually miss, and {air}"),
        (_, true) => air.to_owned(),
        _ => return "Test and survey agree within their uncertainty.".to_owned(),
    };
    format!(
        "The two ranges do not meet, but test and survey do not contradict each other: the ranges \
         leave out {left_out}."
    )
}

/// The readings of a decay.
fn readings(survey: &Survey, test: &AirTest) -> Table {
    // A gas from a bottle may have been read in anything.
    let unit = match test.by.unit() {
        "" => String::new(),
        unit => format!(", {unit}"),
    };
    let mut table = Table::default()
        .wide("Reading", Align::Left, 1)
        .column("Minutes", Align::Decimal)
        .column(format!("Inside{unit}"), Align::Decimal)
        .column(format!("Outside{unit}"), Align::Decimal);
    let known = survey.air_test(test.id).filter(|test| test.by.is_decay());
    let rows = known.into_iter().flat_map(|test| &test.readings).zip(1..);
    for (reading, number) in rows {
        if let (Some(minutes), Some(value)) = (reading.minutes, reading.value) {
            let outside = test.background.map_or(String::new(), given);
            table.row([number.to_string(), given(minutes), given(value), outside]);
        }
    }
    table
}

/// How it was worked out.
fn how(by: AirTestBy) -> &'static str {
    match by {
        AirTestBy::PeopleLeft | AirTestBy::Gas => {
            "Limits are 95 % by the readings (Student\u{2019}s t; ASTM E741 [S], whose scope names vehicles). Where it \
             weighs in the results, air that is not well mixed adds a factor of 1.2 [A]."
        }
        AirTestBy::Moisture => {
            "Limits are 95 % by the readings (Student\u{2019}s t; the decay of ASTM E741 [S]). Furniture gives water \
             back, so that the air change comes out too small rather than too large; where it weighs in the \
             results, that adds a factor of 1.3 [S, abstract]."
        }
        AirTestBy::WaterCollected => {
            "Water collected, less what was given off and what furniture gave back, over the difference in \
             humidity between outside and inside. Limits are 95 %, from the errors of loggers (2 points, \
             0.3\u{a0}K) and scales, and from what furniture stores, which nobody knows within a factor of two [A]."
        }
    }
}
