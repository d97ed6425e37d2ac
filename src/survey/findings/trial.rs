//! Findings about loggers and trials: what keeps them from being worked out, and what would mislead.

use super::finding::{Finder, Finding, Item, numbered};
use crate::series::Column;
use crate::survey::{
    Against, Field, LoggerCheck, LoggerSeries, Moment, OutsideFrom, Period, Ran, Survey, Trial,
};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    for series in &survey.series {
        let subject = numbered("logger", series.id, &series.name);
        logger(
            &mut Finder::new(findings, Item::Series(series.id), subject),
            series,
        );
        if let Some(checked) = &series.check {
            let subject = numbered("logger", series.id, &series.name);
            let finder = &mut Finder::new(findings, Item::Series(series.id), subject);
            check(finder, survey, (series, checked));
        }
    }
    for trial in &survey.trials {
        let subject = numbered("trial", trial.id, &trial.name);
        let mut finder = Finder::new(findings, Item::Trial(trial.id), subject);
        loggers(&mut finder, survey, trial);
        finder.check(Field::ClockAhead, trial.clock_ahead_h);
        for period in &trial.periods {
            ranges(&mut finder, period);
            equipment(&mut finder, survey, period);
        }
        overlaps(&mut finder, trial);
        reference(&mut finder, trial);
    }
}

fn logger(finder: &mut Finder<'_>, series: &LoggerSeries) {
    finder.check(Field::TooWarm, series.too_warm_k);
    finder.check(Field::TooDamp, series.too_damp_percent);
    if series.mapping.order.is_none() {
        finder.error(
            Field::Mapping,
            "its dates can be read in two ways, and nobody has said which",
            "say whether the day or the month comes first",
        );
    }
    for column in &series.mapping.columns {
        if let Column::Readings { what, unit, .. } = column
            && !what.units().contains(unit)
        {
            finder.error(
                Field::Mapping,
                format!("{} cannot be in {}", what.name(), unit.sign()),
                "choose the unit that the column has",
            );
        }
    }
}

fn check(finder: &mut Finder<'_>, survey: &Survey, (series, check): (&LoggerSeries, &LoggerCheck)) {
    if let (Some(from), Some(to)) = (check.from, check.to)
        && from >= to
    {
        finder.error(
            Field::CheckedTo,
            format!("its check {}", turned(from, to)),
            "enter when the loggers were put together and when they were parted",
        );
    }
    if check.against != Against::Logger {
        return;
    }
    match check.beside {
        Some(id) if id == series.id => finder.error(
            Field::CheckedBeside,
            "it is held against itself",
            "choose the logger that lay beside it",
        ),
        Some(id) if survey.logger(id).is_none() => finder.error(
            Field::CheckedBeside,
            format!("logger {id}, which lay beside it, is not in the survey"),
            "choose the logger that lay beside it",
        ),
        _ => {}
    }
}

fn loggers(finder: &mut Finder<'_>, survey: &Survey, trial: &Trial) {
    match trial.inside {
        None => finder.warn(
            Field::InsideSeries,
            "no logger inside is chosen; nothing can be said of it",
            "take in the logger's file and choose it here",
        ),
        Some(id) if survey.logger(id).is_none() => finder.error(
            Field::InsideSeries,
            format!("logger {id}, which hung inside, is not in the survey"),
            "choose the logger that hung inside",
        ),
        Some(_) => {}
    }
    let missing = trial.outside.filter(|id| survey.logger(*id).is_none());
    match (trial.outside_from, trial.outside) {
        (OutsideFrom::Logger, None) => finder.warn(
            Field::OutsideSeries,
            "no logger outside is chosen; what the weather did and what the method did cannot be told \
             apart",
            "choose the logger that hung outside, or a weather file",
        ),
        (OutsideFrom::Logger, Some(id)) if missing.is_some() => finder.error(
            Field::OutsideSeries,
            format!("logger {id}, which hung outside, is not in the survey"),
            "choose the logger that hung outside",
        ),
        (OutsideFrom::WeatherFile, _) if survey.stay.weather_file.is_empty() => finder.warn(
            Field::OutsideFrom,
            "the outside air is to be that of the weather file, and none is chosen",
            "choose a weather file on the page Winter, or a logger that hung outside",
        ),
        _ => {}
    }
    if trial.outside_from == OutsideFrom::Logger
        && trial.inside.is_some()
        && trial.inside == trial.outside
    {
        finder.error(
            Field::OutsideSeries,
            "the same logger is given for inside and outside",
            "choose the logger that hung outside",
        );
    }
}

fn ranges(finder: &mut Finder<'_>, period: &Period) {
    finder.check(Field::WaterCollected, period.water_kg);
    finder.check(Field::PeriodKwh, period.used_kwh);
    finder.check(Field::PeriodPeople, period.people);
    if let (Some(from), Some(to)) = (period.from, period.to)
        && from >= to
    {
        finder.error(
            Field::PeriodTo,
            format!("period {} {}", period.id, turned(from, to)),
            "enter when it began and when it ended",
        );
    }
}

/// What is said of a stretch of time that does not end after it begins.
fn turned(from: Moment, to: Moment) -> String {
    if from == to {
        format!("ends at the moment it begins, {to}")
    } else {
        format!("ends at {to}, before it begins at {from}")
    }
}

fn equipment(finder: &mut Finder<'_>, survey: &Survey, period: &Period) {
    if period.ran != Ran::Equipment {
        return;
    }
    let (machine, heater) = (period.machine, period.heater);
    if machine.is_none() && heater.is_none() {
        finder.warn(
            Field::RanWhat,
            format!(
                "period {} says that equipment of the survey ran, and names none",
                period.id
            ),
            "choose the machine or the heater, or say in words what ran",
        );
    }
    let gone_machine =
        machine.is_some_and(|id| survey.machines.iter().all(|machine| machine.id != id));
    let gone_heater = heater.is_some_and(|id| survey.heaters.iter().all(|heater| heater.id != id));
    for (gone, field, word) in [
        (gone_machine, Field::RanMachine, "machine"),
        (gone_heater, Field::RanHeater, "heater"),
    ] {
        if gone {
            finder.warn(
                field,
                format!(
                    "the {word} that ran in period {} is no longer in the survey",
                    period.id
                ),
                format!("choose the {word} that it is now, or say in words what ran"),
            );
        }
    }
}

fn overlaps(finder: &mut Finder<'_>, trial: &Trial) {
    let mut spans: Vec<_> = trial
        .periods
        .iter()
        .filter_map(|period| Some((period.span_s()?, period.id)))
        .collect();
    spans.sort_unstable();
    for ((earlier, first), (later, second)) in spans.iter().zip(spans.iter().skip(1)) {
        if later.0 < earlier.1 {
            finder.error(
                Field::PeriodFrom,
                format!("periods {first} and {second} overlap"),
                "let the later one begin when the earlier one has ended",
            );
        }
    }
}

fn reference(finder: &mut Finder<'_>, trial: &Trial) {
    if trial.periods.len() > 1 && trial.reference_period().is_none() {
        finder.warn(
            Field::ReferencePeriod,
            "there is no period with nothing running, which the others could be held against",
            "say in which period nothing ran, or choose what to hold the others against",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Severity, find};
    use crate::survey::{
        Edit, Field, Moment, Period, PeriodId, Ran, Record, Survey, Trial, TrialId, VehicleKind,
    };

    fn trial(spans: &[(&str, &str)]) -> Trial {
        let mut trial = Trial::new(TrialId(1));
        trial.periods = (1..)
            .zip(spans)
            .map(|(id, (from, to))| {
                let mut period = Period::new(PeriodId(id), Moment::parse(from), Moment::parse(to));
                period.ran = Ran::Nothing;
                period
            })
            .collect();
        trial
    }

    fn found(trial: Trial, field: Field) -> Option<Severity> {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey
            .apply(Edit::Put(Record::Trial(Box::new(trial))))
            .unwrap();
        let mut found = find(&survey).into_iter();
        found
            .find(|one| one.place.is_at(field))
            .map(|one| one.severity)
    }

    #[test]
    fn periods_that_overlap_are_an_error_and_neighbours_are_none() {
        let apart = trial(&[("2026-11-01", "2026-11-05"), ("2026-11-05", "2026-11-09")]);
        assert_eq!(found(apart, Field::PeriodFrom), None);
        let over = trial(&[("2026-11-04", "2026-11-09"), ("2026-11-01", "2026-11-05")]);
        assert_eq!(found(over, Field::PeriodFrom), Some(Severity::Error));
    }

    #[test]
    fn a_period_that_ends_before_it_begins_is_an_error() {
        let turned = trial(&[("2026-11-05", "2026-11-01")]);
        assert_eq!(found(turned, Field::PeriodTo), Some(Severity::Error));
        let right = trial(&[("2026-11-01", "2026-11-05")]);
        assert_eq!(found(right, Field::PeriodTo), None);
    }

    #[test]
    fn a_period_that_ends_when_it_begins_is_not_said_to_end_before() {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        let empty = trial(&[("2031-11-02", "2031-11-02")]);
        survey
            .apply(Edit::Put(Record::Trial(Box::new(empty))))
            .unwrap();
        let found = find(&survey);
        let of_end = found.iter().find(|one| one.place.is_at(Field::PeriodTo));
        let words = &of_end.unwrap().sentence;
        assert!(words.contains("ends at the moment it begins"), "{words}");
        assert!(!words.contains("before"), "{words}");
    }

    #[test]
    fn equipment_that_nobody_named_is_asked_for() {
        let mut unnamed = trial(&[("2026-11-01", "2026-11-05")]);
        unnamed.periods[0].ran = Ran::Equipment;
        assert_eq!(found(unnamed, Field::RanWhat), Some(Severity::Warning));
    }
}
