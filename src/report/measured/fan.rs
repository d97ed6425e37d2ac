//! Fan tests: what contradicts the survey first, then each test with its readings and results.

use super::super::Material;
use super::super::blocks::{Align, Block, Fact, Reasons, Section, Table};
use crate::assess::Answer;
use crate::assess::measured::{FanOutcome, Fitted, Measured, Verdict, way};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, given, listed};
use crate::physics::leakage::LeakageArea;
use crate::physics::measurement::Limits;
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::{FanTest, Survey};

/// Pressures at which test and survey stand side by side, Pa.
const PRESSURES: [f64; 3] = [4.0, 10.0, 50.0];

/// All of it; without a test, what a fan for this vehicle has to measure.
#[must_use]
pub fn section(told: &Material<'_>) -> Section {
    let (survey, measured) = (told.survey, told.study.measured());
    let mut section = Section::new("Measured with a fan");
    still_covered(&mut section, survey);
    if survey.fan_tests.is_empty() {
        section.paragraph("No fan test is written down yet.");
    }
    contradictions(&mut section, survey, measured);
    for test in &survey.fan_tests {
        one(&mut section, survey, test, measured);
    }
    section
}

/// What has to be done before a test, and which fan it takes.
#[must_use]
pub fn before_a_test(measured: &Measured) -> Section {
    let mut section = Section::new("Before a fan test");
    section.push(Block::Caution {
        title: "Fire and gas first".to_owned(),
        text: "Flames, pilot lights and fuel heaters off and cold, gas shut at the bottle, ash taken out. The \
               fan pulls flue gas and embers into the room. Nobody sleeps or cooks in the vehicle until \
               everything that was covered for the test is uncovered again."
            .to_owned(),
    });
    section.paragraph(match &measured.flow_range {
        Ok(range) => format!(
            "A fan for this vehicle has to measure flows from {} to {} (10 to 60\u{a0}Pa, by the survey as it \
             stands, with room for what nobody found [A]). Look at the fan\u{2019}s smallest ring: most fans \
             for houses cannot measure the lower end; a small fan in a plate does.{}",
            flow(range.least),
            flow(range.most),
            match range.not_sized {
                0 => "",
                _ => " Gaps without a size are not in it: it may be more.",
            }
        ),
        Err(unknown) => format!("Which fan it takes is not known: {}.", unknown.reason),
    });
    section.points(
        [
            "Calm weather: less than 3 m/s at the vehicle [M].",
            "Write down what is closed and what is covered before the fan runs, and tick it off afterwards.",
            "Five pressures or more between 10 and 60\u{a0}Pa, in both directions; with the fan covered before \
             and after.",
        ]
        .map(str::to_owned),
    );
    section
}

/// A flow, m³/s, in words.
fn flow(flow: f64) -> String {
    Kind::CubicMetresPerHour.text(flow * SECONDS_PER_HOUR)
}

/// What is covered still comes before everything.
fn still_covered(section: &mut Section, survey: &Survey) {
    let tests = survey.fan_tests.iter();
    let covered: Vec<String> = tests
        .flat_map(FanTest::still_covered)
        .map(|one| survey.covered_in_words(one))
        .collect();
    if !covered.is_empty() {
        section.push(Block::Caution {
            title: "Danger: still covered".to_owned(),
            text: format!(
                "{}. Uncover it, look that it is free, and tick it; before that nobody burns gas, runs a \
                 heater or sleeps in the vehicle.",
                capital(&covered.join(", "))
            ),
        });
    }
}

/// Tests and survey that cannot both be right.
fn contradictions(section: &mut Section, survey: &Survey, measured: &Measured) {
    for test in &survey.fan_tests {
        let Some(outcome) = measured.fan_test(test.id).ok().filter(|one| one.is_valid()) else {
            continue;
        };
        let words = match outcome.verdict() {
            Ok(Verdict::MoreThanFound) => {
                "shows more leakage at 50\u{a0}Pa than the survey can explain, even with what surveys usually miss. The \
                 survey missed some of it, something stood open, or the test was not of the state named. \
                 Look for it with the fan running before any result is trusted"
            }
            Ok(Verdict::LessThanFound) => {
                "shows less leakage at 50\u{a0}Pa than the survey says. A size is too large, something was covered that \
                 is not written down, or the test was not of the state named. Measure the largest gaps again"
            }
            _ => continue,
        };
        section.push(Block::Caution {
            title: "Test and survey contradict each other".to_owned(),
            text: format!("{} {words}.", capital(&title(test))),
        });
    }
}

/// What stands under the plot of a test.
#[must_use]
pub fn plot_caption(test: &FanTest) -> String {
    format!(
        "{}: flow at 20\u{a0}°C and 1013\u{a0}hPa against pressure, both on logarithmic scales. Lines: the law \
         fitted to the readings; dashed: what the survey expects of the same state.",
        capital(&title(test))
    )
}

/// The name of a test at the head of a sentence.
pub(super) fn title(test: &FanTest) -> String {
    match test.name.trim() {
        "" => format!("fan test {}", test.id),
        name => format!("fan test {} \u{201c}{name}\u{201d}", test.id),
    }
}

fn one(section: &mut Section, survey: &Survey, test: &FanTest, measured: &Measured) {
    section.heading(capital(&title(test)));
    let mut rows = recorded(survey, test);
    let outcome = match measured.fan_test(test.id) {
        Ok(outcome) => outcome,
        Err(unknown) => {
            section.facts(rows, &Reasons::default());
            section.paragraph(format!("What it leaks is not known: {}.", unknown.reason));
            return;
        }
    };
    let mut reasons = Reasons::default();
    rows.extend(results(outcome, &mut reasons));
    section.facts(rows, &reasons);
    section.points(doubts(outcome));
    section.table(beside(outcome), &Reasons::default());
    section.paragraph(compared(outcome));
    section.table(readings(outcome), &Reasons::default());
    section.note(
        "Limits are 95 % (Student\u{2019}s t). Flows at 20\u{a0}°C and 1013\u{a0}hPa (ISO 9972, ASTM E779 [R]), the \
         pressure with the fan covered taken off; the mean of both directions where both were tested.",
    );
}

/// What was written down of it.
fn recorded(survey: &Survey, test: &FanTest) -> Vec<Fact> {
    let covered: Vec<String> = test
        .covered
        .iter()
        .map(|one| {
            let now = if one.uncovered {
                "uncovered again"
            } else {
                "still covered"
            };
            format!("{} ({now})", survey.covered_in_words(one))
        })
        .collect();
    let weather: Vec<String> = [
        test.inside_c
            .map(|t| format!("inside {}", Kind::Celsius.typed(t))),
        test.outside_c
            .map(|t| format!("outside {}", Kind::Celsius.typed(t))),
        test.wind_m_s
            .map(|wind| format!("wind {}", Kind::MetresPerSecond.typed(wind))),
        test.barometer_hpa
            .map(|hpa| format!("{}\u{a0}hPa", given(hpa))),
    ]
    .into_iter()
    .flatten()
    .collect();
    let state = format!(
        "{}; closable gaps as {}",
        test.tested.name(),
        test.set_up.name()
    );
    [
        ("Day", test.date.trim().to_owned()),
        ("Fan and gauges", test.instrument.trim().to_owned()),
        ("Vehicle tested", state),
        ("Closed", test.closed.trim().to_owned()),
        ("Covered for the test", covered.join(", ")),
        ("Air", weather.join(", ")),
        ("Note", test.note.trim().to_owned()),
    ]
    .into_iter()
    .filter(|(_, value)| !value.is_empty())
    .map(|(name, value)| Fact::new(name, value))
    .collect()
}

/// What came of it.
fn results(outcome: &FanOutcome, reasons: &mut Reasons) -> Vec<Fact> {
    let valid = if outcome.is_valid() {
        "by the standard"
    } else {
        "not by the standard: see below"
    };
    let fits: Vec<String> = outcome
        .fits
        .iter()
        .map(|fitted| format!("{:.3} {}", fitted.fit.r_squared(), way(fitted.direction)))
        .collect();
    let n50 = reasons.or(&outcome.n50_per_h, |n50| {
        limited(Kind::AirChangesAt50Pa, *n50)
    });
    vec![
        Fact::new("Air changes at 50\u{a0}Pa (n50)", n50),
        Fact::new("EqLA (10\u{a0}Pa)", limited(Kind::LeakageCm2, outcome.eqla)),
        Fact::new("ELA (4\u{a0}Pa)", limited(Kind::LeakageCm2, outcome.ela)),
        Fact::new("Flow exponent", limited(Kind::Plain, outcome.exponent)),
        Fact::new("Fit (r²)", fits.join(", ")),
        Fact::new("Valid", valid),
    ]
}

/// A value with its limits.
fn limited(kind: Kind, limits: Limits) -> String {
    format!(
        "{} to {}, most likely {}",
        kind.number(limits.low),
        kind.text(limits.high),
        kind.text(limits.value)
    )
}

fn doubts(outcome: &FanOutcome) -> Vec<String> {
    let doubts = outcome.doubts().into_iter();
    let doubts = doubts.map(|(direction, doubt)| capital(&format!("{}: {doubt}.", way(direction))));
    let differ = outcome.directions_differ().then(|| {
        let each = outcome.fits.iter().map(|fitted| {
            let eqla = fitted.fit.area(LeakageArea::Eqla10Pa).value;
            format!("{} {}", way(fitted.direction), Kind::LeakageCm2.text(eqla))
        });
        format!(
            "{} (EqLA): further apart than the readings explain. A seal or a flap moves with the pressure, or \
             something was changed in between; the mean, which the standard asks for, is that of neither.",
            capital(&listed(each))
        )
    });
    doubts.chain(differ).collect()
}

/// Measured and expected flows side by side.
fn beside(outcome: &FanOutcome) -> Table {
    let mut table = Table::default()
        .wide("Pressure", Align::Left, 1)
        .column("Measured, m³/h", Align::Right)
        .column("By the survey, m³/h", Align::Right);
    for pressure in PRESSURES {
        let Ok(measured) = outcome.flow_at(pressure) else {
            continue;
        };
        let survey = match &outcome.predicted {
            Ok(predicted) => spread(predicted.limits_at(pressure)),
            Err(_) => "not known".to_owned(),
        };
        table.row([Kind::Pascals.text(pressure), spread(measured), survey]);
    }
    table
}

/// A flow, m³/s, with its limits, without a unit.
fn spread(limits: Limits) -> String {
    let kind = Kind::CubicMetresPerHour;
    let hour = SECONDS_PER_HOUR;
    format!(
        "{} ({} to {})",
        kind.number(limits.value * hour),
        kind.number(limits.low * hour),
        kind.number(limits.high * hour)
    )
}

/// What test and survey say of each other.
pub(super) fn compared(outcome: &FanOutcome) -> String {
    let not_found: Answer<Limits> = outcome.not_found();
    let unknown = |reason: &str| format!("It cannot be held against the survey: {reason}.");
    if !outcome.is_valid() {
        return unknown("it is not valid by the standard");
    }
    let (not_found, verdict) = match (not_found, outcome.verdict()) {
        (Ok(not_found), Ok(verdict)) => (not_found, verdict),
        (Err(why), _) | (_, Err(why)) => return unknown(&why.reason),
    };
    let lacks = match &outcome.predicted {
        Ok(predicted) if predicted.not_sized > 0 => {
            " Gaps without a size are not in what the survey says."
        }
        _ => "",
    };
    format!(
        "{} {}{lacks}",
        difference(not_found),
        stand(verdict, not_found)
    )
}

/// By how much the leakage area of the test is larger or smaller than the survey's. Areas are
/// written without signs: which of the two is larger stands in words.
fn difference(test_less_survey: Limits) -> String {
    let Limits { low, value, high } = test_less_survey;
    let kind = Kind::LeakageCm2;
    if low > 0.0 {
        format!(
            "The test shows {} to {} more leakage area (EqLA) than the survey, most likely {} more.",
            kind.number(low),
            kind.text(high),
            kind.text(value)
        )
    } else if high < 0.0 {
        format!(
            "The test shows {} to {} less leakage area (EqLA) than the survey, most likely {} less.",
            kind.number(-high),
            kind.text(-low),
            kind.text(-value)
        )
    } else {
        let likely = if value < 0.0 { "less" } else { "more" };
        format!(
            "The test shows between {} less and {} more leakage area (EqLA) than the survey, most \
             likely {} {likely}.",
            kind.text(-low),
            kind.text(high),
            kind.text(value.abs())
        )
    }
}

/// Where test and survey change places between the two pressures.
const ANOTHER_KIND: &str = "At 50\u{a0}Pa it is the other way round: the flow exponents differ, so the gaps are \
                            of another kind than they were written down as. Look at their forms: cracks \
                            and holes, narrow and wide. See the contradiction above.";

/// Whether both can be right. What a contradiction may come of stands at the head.
fn stand(verdict: Verdict, test_less_survey: Limits) -> &'static str {
    match verdict {
        Verdict::MoreThanFound if test_less_survey.high < 0.0 => ANOTHER_KIND,
        Verdict::LessThanFound if test_less_survey.low > 0.0 => ANOTHER_KIND,
        Verdict::MoreThanFound | Verdict::LessThanFound => {
            "Both cannot be right: see the contradiction above."
        }
        Verdict::Agrees if test_less_survey.low > 0.0 => {
            "Surveys often miss as much: the two do not contradict each other."
        }
        Verdict::Agrees if test_less_survey.high < 0.0 => {
            "That is not yet a contradiction, but more than sizes and readings explain: look again at the \
             largest sizes, and whether anything was covered or closed that is not written down."
        }
        Verdict::Agrees => "They agree within their uncertainty.",
    }
}

/// The readings as they were fitted.
fn readings(outcome: &FanOutcome) -> Table {
    let mut table = Table::default()
        .wide("Reading", Align::Left, 1)
        .column("Pressure, Pa", Align::Decimal)
        .column("Flow, m³/h", Align::Decimal);
    for Fitted { direction, fit } in &outcome.fits {
        for point in &fit.fitted {
            table.row([
                way(*direction).to_owned(),
                Kind::Pascals.number(point.pressure_pa),
                Kind::CubicMetresPerHour.number(point.flow * SECONDS_PER_HOUR),
            ]);
        }
    }
    table
}
