//! The tables of a trial: its methods, its periods, and the water and power of each against the
//! survey.

use super::super::super::blocks::{Align, Reasons, Table};
use super::verdict::points;
use crate::assess::Answer;
use crate::assess::measured::trial::{Change, Expected, PeriodOutcome, Span, TrialOutcome};
use crate::assess::quantity::Kind;
use crate::assess::words::capital;
use crate::survey::{Period, Survey, Trial};

/// A change with its limits, in a unit.
fn limited(kind: Kind, change: &Change) -> String {
    let signed = |value: f64| {
        let number = kind.number(value);
        if value > 0.0 {
            format!("+{number}")
        } else {
            number
        }
    };
    match change.limits {
        Some(limits) => format!(
            "{} ({} to {})",
            signed(change.value),
            signed(limits.low),
            signed(limits.high)
        ),
        None => format!("{} (too few days)", signed(change.value)),
    }
}

/// What each method did.
pub(super) fn methods(outcome: &TrialOutcome, reasons: &mut Reasons) -> Table {
    let mut table = Table::default()
        .wide("Method", Align::Left, 2)
        .wide("Warmth, K", Align::Left, 2)
        .wide("Water in the air, g/kg", Align::Left, 2)
        .wide("Humidity at the same outside, points", Align::Left, 2);
    for method in &outcome.methods {
        let cells = match &method.effect {
            Ok(effect) => [
                limited(Kind::Kelvin, &effect.warmth_k),
                limited(Kind::GramsPerKilogram, &effect.water),
                limited(Kind::RelativeHumidity, &effect.rh),
            ],
            Err(unknown) => [
                reasons.mark(unknown),
                reasons.mark(unknown),
                reasons.mark(unknown),
            ],
        };
        table.row([capital(&method.words)].into_iter().chain(cells));
    }
    table
}

/// The period as it was written down.
fn written<'a>(trial: &'a Trial, period: &PeriodOutcome) -> Option<&'a Period> {
    trial.periods.iter().find(|one| one.id == period.id)
}

/// A period in a few words: its number and what ran.
pub(super) fn words(survey: &Survey, trial: &Trial, period: &PeriodOutcome) -> String {
    match written(trial, period) {
        Some(written) => format!("{} {}", period.id, survey.ran_in_words(written)),
        None => period.id.to_string(),
    }
}

/// The periods in the order of time.
pub(super) fn periods(
    survey: &Survey,
    trial: &Trial,
    outcome: &TrialOutcome,
    reasons: &mut Reasons,
) -> Table {
    let mut table = Table::default()
        .wide("Period", Align::Left, 2)
        .wide("From, to", Align::Left, 2)
        .column("Days", Align::Decimal)
        .column("Inside, °C", Align::Decimal)
        .column("Outside, °C", Align::Decimal)
        .column("Inside, %", Align::Decimal)
        .column("Outside, %", Align::Decimal)
        .wide("Against without, points", Align::Left, 1);
    for period in &outcome.periods {
        let when = written(trial, period).map_or_else(String::new, |written| {
            let moment = |moment: Option<crate::survey::Moment>| {
                moment.map_or_else(String::new, |moment| moment.to_string())
            };
            format!("{} to {}", moment(written.from), moment(written.to))
        });
        let of =
            |reasons: &mut Reasons,
             value: &dyn Fn(&crate::assess::measured::trial::Means) -> String| {
                reasons.or(&period.means, value)
            };
        let cells = [
            period.days.len().to_string(),
            of(reasons, &|means| Kind::Celsius.number(means.t_in_c)),
            of(reasons, &|means| Kind::Celsius.number(means.t_out_c)),
            of(reasons, &|means| Kind::RelativeHumidity.number(means.rh_in)),
            of(reasons, &|means| {
                Kind::RelativeHumidity.number(means.rh_out)
            }),
        ];
        let against = match &period.effect {
            None => String::new(),
            Some(effect) => reasons.or(effect, |effect| points(effect.rh.value)),
        };
        table.row(
            [words(survey, trial, period), when]
                .into_iter()
                .chain(cells)
                .chain([against]),
        );
    }
    table
}

/// Water and power of each period against what the survey expects; `None` where nothing was weighed
/// or read.
pub(super) fn against_the_survey(
    survey: &Survey,
    trial: &Trial,
    outcome: &TrialOutcome,
) -> Option<(Table, Reasons)> {
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .wide("Period", Align::Left, 2)
        .column("Water, L", Align::Right)
        .column("By the survey, L", Align::Right)
        .column("Electricity, kWh", Align::Right)
        .column("By the survey, kWh", Align::Right)
        .column("Inside by the survey, %", Align::Right);
    for period in &outcome.periods {
        let Some(written) = written(trial, period) else {
            continue;
        };
        let Some(expected) = &period.expected else {
            continue;
        };
        let measured = |value: Option<f64>, kind: Kind| {
            value.map_or_else(|| "not taken".to_owned(), |value| kind.number(value))
        };
        let span = |reasons: &mut Reasons, kind: Kind, of: fn(&Expected) -> Span| {
            let found: Answer<Span> = expected.as_ref().map(of).map_err(Clone::clone);
            reasons.or(&found, |span| kind.span(span.low, span.high))
        };
        table.row([
            words(survey, trial, period),
            measured(written.water_kg, Kind::Litres),
            span(&mut reasons, Kind::Litres, |expected| expected.water_kg),
            measured(written.used_kwh, Kind::KilowattHours),
            span(&mut reasons, Kind::KilowattHours, |expected| {
                expected.used_kwh
            }),
            span(&mut reasons, Kind::RelativeHumidity, |expected| expected.rh),
        ]);
    }
    (!table.rows.is_empty()).then_some((table, reasons))
}
