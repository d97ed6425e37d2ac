//! Checks of loggers: by how much each is off, in plain words, and whether that is taken off.

use super::super::Material;
use super::super::blocks::Section;
use super::trial::offsets;
use crate::assess::Answer;
use crate::assess::measured::trial::{OffBy, Salt};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, counted};
use crate::physics::measurement::Limits;
use crate::survey::{Against, LoggerCheck, LoggerSeries, OffsetFrom, Survey};

/// All checks of a survey's loggers; empty where there is none.
#[must_use]
pub fn section(told: &Material<'_>) -> Section {
    let mut section = Section::new("Checks of loggers");
    let checked = told
        .survey
        .series
        .iter()
        .filter_map(|logger| Some((logger, logger.check?)));
    section.points(checked.map(|(logger, check)| {
        let found = told.study.tried().and_then(|tried| tried.check(logger.id));
        let name = capital(&logger.in_words());
        let sentences = sentences(told.survey, (logger, check), found);
        format!("{name}: {}", sentences.join(" "))
    }));
    section
}

/// What came of the check of one logger, in sentences; `found` is `None` while its file was not read.
#[must_use]
pub fn sentences(
    survey: &Survey,
    (logger, check): (&LoggerSeries, LoggerCheck),
    found: Option<&Answer<OffBy>>,
) -> Vec<String> {
    let off_by = match found {
        None => return vec!["its file was not read.".to_owned()],
        Some(Err(unknown)) => {
            return vec![format!(
                "how far it is off is not known: {}.",
                unknown.reason
            )];
        }
        Some(Ok(off_by)) => off_by,
    };
    let mut sentences = vec![format!(
        "{} of {} that count, {}.",
        against(survey, check),
        counted(off_by.hours, "hour", "hours"),
        difference(off_by)
    )];
    match off_by.offset() {
        Err(unknown) => sentences.push(format!("{}.", capital(&unknown.reason))),
        Ok(_) if is_taken_off(logger, check, off_by) => {
            sentences.push("This is taken off its readings.".to_owned());
        }
        Ok(_) => sentences.push(format!("Not taken off yet; so far: {}.", offsets(logger))),
    }
    sentences.extend(caution(survey, check));
    sentences
}

/// Whether what the check found is what the record takes off.
#[must_use]
pub fn is_taken_off(logger: &LoggerSeries, check: LoggerCheck, off_by: &OffBy) -> bool {
    let same = |one: Option<f64>, other: f64| one.is_some_and(|one| (one - other).abs() < 0.001);
    off_by.offset().is_ok_and(|offset| {
        let warm = offset
            .too_warm_k
            .is_none_or(|kelvin| same(logger.too_warm_k, kelvin));
        warm && same(logger.too_damp_percent, offset.too_damp_percent)
            && logger.offset_from == check.against.offset_from()
    })
}

/// What it was held against, as the beginning of a sentence.
fn against(survey: &Survey, check: LoggerCheck) -> String {
    let other = check.beside.and_then(|id| survey.logger(id));
    match (check.against, other) {
        (Against::Logger, Some(other)) => format!("beside {}, by the means", other.in_words()),
        (Against::Logger, None) => "beside another, by the means".to_owned(),
        (salt, _) => match Salt::of(salt) {
            Some(held) => format!(
                "over {}, which holds {}, by the means",
                salt.name(),
                Kind::Share.text(held.holds())
            ),
            None => format!("over {}, by the means", salt.name()),
        },
    }
}

/// By how much it is off, with limits.
fn difference(off_by: &OffBy) -> String {
    let warm = off_by.too_warm_k.map(|limits| {
        let interval = between(Kind::Kelvin, limits);
        if off_by.shows_warmth() {
            let way = if limits.value > 0.0 { "warm" } else { "cold" };
            let much = Kind::Kelvin.text(limits.value.abs());
            let interval = between(Kind::Kelvin, sizes(limits));
            format!("it reads {much} too {way} ({interval})")
        } else {
            format!("it is off in warmth by nothing that they can show ({interval})")
        }
    });
    let interval = points(off_by.too_damp);
    let damp = if off_by.shows_damp() {
        let way = if off_by.too_damp.value > 0.0 {
            "damp"
        } else {
            "dry"
        };
        let much = Kind::Share.number(off_by.too_damp.value.abs());
        let interval = points(sizes(off_by.too_damp));
        format!("it reads {much} points of humidity too {way} ({interval})")
    } else {
        format!("it is off in humidity by nothing that they can show ({interval})")
    };
    match warm {
        Some(warm) => format!("{warm} and {damp}"),
        None => damp,
    }
}

/// Limits on one side of nothing without their sign: *too dry* says it.
fn sizes(limits: Limits) -> Limits {
    let (one, other) = (limits.low.abs(), limits.high.abs());
    Limits {
        value: limits.value.abs(),
        low: one.min(other),
        high: one.max(other),
    }
}

/// The interval: less than nothing is too cold or too dry.
fn between(kind: Kind, limits: Limits) -> String {
    format!("{} to {}", kind.number(limits.low), kind.text(limits.high))
}

/// The same of humidity, in points.
fn points(limits: Limits) -> String {
    let number = |value| Kind::Share.number(value);
    format!("{} to {} points", number(limits.low), number(limits.high))
}

/// What the check cannot show.
fn caution(survey: &Survey, check: LoggerCheck) -> Option<String> {
    match check.against {
        Against::Logger => {
            let other = check.beside.and_then(|id| survey.logger(id))?;
            (other.offset_from == OffsetFrom::NotChecked).then(|| {
                "Which of the two is right is not known: taken off, both read alike, and that is enough \
                 to hold inside against outside."
                    .to_owned()
            })
        }
        _ => Some(
            "This holds near the humidity over the salt: in much damper or drier air the logger may be off by \
             another amount."
                .to_owned(),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Hung, SeriesId};

    #[test]
    fn over_salt_what_it_holds_is_told_and_humidity_is_in_points() {
        let survey = Survey::new(crate::survey::VehicleKind::PanelVan);
        let file = "Time,Temperature °C\n2026-01-01 00:00,5.0\n2026-01-01 01:00,5.0\n";
        let mapping = crate::series::guess(file.as_bytes()).unwrap().mapping;
        let logger = LoggerSeries::new(SeriesId(1), Hung::Inside, "one.csv".to_owned(), mapping);
        let check = LoggerCheck {
            against: Against::SodiumChloride,
            ..LoggerCheck::default()
        };
        let off_by = OffBy {
            hours: 36,
            too_warm_k: None,
            too_damp: Limits::around(0.033, 0.001),
        };
        let words = sentences(&survey, (&logger, check), Some(&Ok(off_by))).join(" ");
        // 75.3 %: ASTM E104 at 20 to 25 °C.
        assert!(words.contains("which holds 75\u{a0}%"), "{words}");
        assert!(
            words.contains("3.3 points of humidity too damp (3.2 to 3.4 points)"),
            "{words}"
        );
    }
}
