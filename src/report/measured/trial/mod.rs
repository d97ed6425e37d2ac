//! Trials: what each method did first, then the periods, and how far all of it is to be trusted.

mod besides;
mod picture;
mod tables;
#[cfg(test)]
mod tests;
mod verdict;

pub use picture::rows;
pub use verdict::{brief, verdict};

use super::super::Material;
use super::super::blocks::{Block, Fact, Reasons, Section};
use crate::assess::NotKnown;
use crate::assess::measured::trial::{CHANCES, TrialOutcome};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, counted, listed};
use crate::survey::{LoggerSeries, OffsetFrom, OutsideFrom, SeriesId, Survey, Trial};

/// All trials of a survey, each in a section of its own; none where there is none.
#[must_use]
pub fn sections(told: &Material<'_>) -> Vec<Section> {
    let trials = told.survey.trials.iter();
    trials.map(|trial| section(told, trial)).collect()
}

/// One trial.
#[must_use]
pub fn section(told: &Material<'_>, trial: &Trial) -> Section {
    let survey = told.survey;
    let mut section = Section::new(capital(&title(trial)));
    let outcome = match told.study.tried() {
        Some(tried) => tried.trial(trial.id),
        None => Err(NotKnown::because("the files of its loggers were not read")),
    };
    let outcome = match outcome {
        Ok(outcome) => outcome,
        Err(unknown) => {
            section.facts(recorded(survey, trial), &Reasons::default());
            section.paragraph(format!("What came of it is not known: {}.", unknown.reason));
            return section;
        }
    };
    verdicts(&mut section, trial, outcome);
    foresight(&mut section, outcome);
    section.facts(recorded(survey, trial), &Reasons::default());
    // A head without a row under it says nothing.
    if !outcome.methods.is_empty() {
        let mut reasons = Reasons::default();
        section.table(tables::methods(outcome, &mut reasons), &reasons);
    }
    if !outcome.periods.is_empty() {
        let mut reasons = Reasons::default();
        section.table(
            tables::periods(survey, trial, outcome, &mut reasons),
            &reasons,
        );
    }
    if let Some((table, reasons)) = tables::against_the_survey(survey, trial, outcome) {
        section.table(table, &reasons);
        section.note(
            "What the survey expects: its steady state with the outside air of the period, without sun, \
             from the least to the most wind of its weather cases, since no logger reads the wind.",
        );
    }
    section.points(air_changes(survey, trial, outcome));
    trust(&mut section, survey, trial);
    section
}

/// What each method of a trial did, for the owner of the vehicle; nothing in it where nothing is known of
/// any.
#[must_use]
pub fn for_owners(told: &Material<'_>, trial: &Trial) -> Section {
    let mut section = Section::new(capital(&title(trial)));
    let outcome = told.study.tried().map(|tried| tried.trial(trial.id));
    let Some(Ok(outcome)) = outcome else {
        return section;
    };
    if outcome.methods.is_empty() {
        return section;
    }
    verdicts(&mut section, trial, outcome);
    let days = trial.periods.iter().filter_map(|period| period.span_s());
    let days = days.reduce(|(from, to), (first, last)| (from.min(first), to.max(last)));
    let days = days.map(|(from, to)| {
        Fact::new(
            "Read",
            format!(
                "{} to {}",
                crate::series::moment(from),
                crate::series::moment(to)
            ),
        )
    });
    let mut rows: Vec<Fact> = days.into_iter().collect();
    rows.extend(recorded(told.survey, trial));
    section.facts(rows, &Reasons::default());
    section
}

/// The name of a trial within a sentence.
pub(crate) fn title(trial: &Trial) -> String {
    match trial.name.trim() {
        "" => format!("trial {}", trial.id),
        name => format!("trial \u{201c}{name}\u{201d}"),
    }
}

/// The verdict of every method, and what it takes to be surer.
fn verdicts(section: &mut Section, trial: &Trial, outcome: &TrialOutcome) {
    if outcome.methods.is_empty() {
        section.paragraph("No method has been tried yet: mark a period in which something ran.");
        return;
    }
    section.points(outcome.methods.iter().map(verdict));
    let mut besides: Vec<String> = outcome
        .methods
        .iter()
        .filter_map(|method| besides::besides(trial, method))
        .collect();
    if !besides.is_empty() {
        besides.push(
            "The verdict is of all of that together: to know what the method did, repeat it with \
             nothing else changed."
                .to_owned(),
        );
        section.push(Block::Caution {
            title: "Not the method alone changed".to_owned(),
            text: besides.join(" "),
        });
    }
    section.push(Block::Caution {
        title: "What a trial cannot show".to_owned(),
        text: "Weather drifts, and whatever else changed with the method is mixed up with it. These are \
               differences that went along with a method; they do not prove what they came of."
            .to_owned(),
    });
    let single = outcome.methods.iter().any(|method| {
        let effect = method.effect.as_ref();
        effect.is_ok_and(|effect| effect.pairs < 2)
    });
    if single {
        section.paragraph(
            "To be surer, repeat it on\u{2013}off\u{2013}on\u{2013}off: each period with the method is then held \
             against one of its own without it, and weather that drifts falls out.",
        );
    }
}

/// How long one would have to try.
fn foresight(section: &mut Section, outcome: &TrialOutcome) {
    if outcome.foresight.is_empty() {
        return;
    }
    let each = outcome.foresight.iter().map(|one| {
        let points = format!("{} points", Kind::RelativeHumidity.number(one.points));
        match one.days {
            Some(days) => format!("{} for a change of {points}", counted(days, "day", "days")),
            None => format!("more than half a year for one of {points}"),
        }
    });
    section.paragraph(format!(
        "In weather like that of the days without a method, each period must last about {} of humidity \
         before it stands out.",
        listed(each)
    ));
}

/// What was written down of it.
fn recorded(survey: &Survey, trial: &Trial) -> Vec<Fact> {
    let outside = match trial.outside_from {
        OutsideFrom::Logger => format!(
            "{}: {}",
            OutsideFrom::Logger.name(),
            logger(survey, trial.outside)
        ),
        OutsideFrom::WeatherFile => format!(
            "{} {}, which is of another place: its humidity and clouds were not those at the vehicle",
            OutsideFrom::WeatherFile.name(),
            survey.stay.weather_name()
        ),
        OutsideFrom::Cases => format!(
            "{}, which are the same every day: no verdict follows",
            OutsideFrom::Cases.name()
        ),
    };
    [
        ("Logger inside", logger(survey, trial.inside)),
        ("Outside air", outside),
        ("Note", trial.note.trim().to_owned()),
    ]
    .into_iter()
    .filter(|(_, value)| !value.is_empty())
    .map(|(name, value)| Fact::new(name, value))
    .collect()
}

/// A logger in words, with what was taken off its readings.
fn logger(survey: &Survey, id: Option<SeriesId>) -> String {
    let Some(id) = id else {
        return "not chosen".to_owned();
    };
    let Some(logger) = survey.logger(id) else {
        return format!("logger {id}, which is not in the survey");
    };
    let name = logger.in_words();
    let place = Some(logger.place.trim().to_owned()).filter(|place| !place.is_empty());
    let left_out = match logger.left_out.len() {
        0 => None,
        number => Some(format!(
            "{} left out",
            counted(number, "stretch", "stretches")
        )),
    };
    let parts = [place, Some(offsets(logger)), left_out]
        .into_iter()
        .flatten();
    format!("{name} ({})", parts.collect::<Vec<_>>().join(", "))
}

/// What was taken off a logger's readings, and how that is known.
pub(super) fn offsets(logger: &LoggerSeries) -> String {
    let off = [
        logger.too_warm_k.map(|kelvin| Kind::Kelvin.typed(kelvin)),
        logger
            .too_damp_percent
            .map(|points| format!("{} of humidity", Kind::RelativeHumidity.typed(points))),
    ];
    let off: Vec<String> = off.into_iter().flatten().collect();
    match (off.is_empty(), logger.offset_from) {
        (true, OffsetFrom::NotChecked) => "nobody has checked how far it is off".to_owned(),
        (true, from) => format!("nothing taken off, {}", from.name()),
        (false, OffsetFrom::NotChecked) => format!("{} taken off", listed(off)),
        (false, from) => format!("{} taken off, {}", listed(off), from.name()),
    }
}

/// Air changes by the water collected.
fn air_changes(survey: &Survey, trial: &Trial, outcome: &TrialOutcome) -> Vec<String> {
    let periods = outcome.periods.iter().filter_map(|period| {
        let words = tables::words(survey, trial, period);
        Some(match period.air_change_per_h.as_ref()? {
            Ok(limits) => format!(
                "{words}: by the water collected {} to {} air changes an hour, most likely {}.",
                Kind::AirChanges.number(limits.low),
                Kind::AirChanges.number(limits.high),
                Kind::AirChanges.number(limits.value)
            ),
            Err(unknown) => format!(
                "{words}: no air change by the water collected: {}.",
                unknown.reason
            ),
        })
    });
    periods.collect()
}

/// How far all of it is to be trusted.
fn trust(section: &mut Section, survey: &Survey, trial: &Trial) {
    let share = Kind::WholePercent;
    let counted = CHANCES.iter().map(|chances| {
        let kind = match chances.pairs {
            1 => "single periods",
            _ => "on\u{2013}off\u{2013}on\u{2013}off",
        };
        format!(
            "{kind} of {}\u{a0}days: {} right, {} false effects on humidity, {} on warmth",
            chances.days,
            share.text(chances.covered),
            share.text(chances.false_effects),
            share.text(chances.false_warmth)
        )
    });
    section.note(
        "Humidity ratio and temperature are compared, by means of whole days; limits are 95 % by \
         Welch\u{2019}s t on the days that count as independent. Humidity is restated at the outside air of \
         the days with the method. Fewer than four days give no limits.",
    );
    section.note(format!(
        "How often such limits were right, and how often a thing that does next to nothing seemed to do \
         something, in 200 invented trials each [N]: {}. Real weather drifts more: among neighbouring \
         periods of 5 to 14 days in readings of buildings, 7 to 17 of 100 showed a false effect [N].",
        listed(counted)
    ));
    let unchecked = [trial.inside, trial.outside]
        .into_iter()
        .flatten()
        .any(|id| {
            let logger = survey.logger(id);
            logger.is_some_and(|logger| logger.offset_from == OffsetFrom::NotChecked)
        });
    if unchecked {
        section.note(
            "A logger that reads wrong by the same amount all along does not change what a method did, but \
             the air change and the means: let both loggers lie side by side for a night.",
        );
    }
}
