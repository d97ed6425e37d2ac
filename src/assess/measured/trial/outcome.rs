//! One trial worked out: its periods, what each method did, and how long one would have to try.

use super::air::{HourMean, Rows, hourly_means, weather_rows};
use super::balance;
use super::compare::{Day, Effect, days, days_needed, effect};
use super::ground::{Ground, Means, site_pressure};
use super::pairs::{Pair, Paired, Timed, Without, too_few};
use super::predicted::{self, Expected};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::sound::sound;
use crate::physics::counts::seconds_as_f64;
use crate::physics::measurement::daily_means;
use crate::physics::measurement::{Limits, line::LineError};
use crate::survey::{Item, OutsideFrom, Period, PeriodId, Trial};

/// Seconds of a day.
const DAY_S: f64 = 86_400.0;
/// Changes of humidity for which the days needed are told, points of 0 to 1.
const POINTS: [f64; 3] = [0.03, 0.05, 0.10];

/// What came of a period.
#[derive(Clone, Debug, PartialEq)]
pub struct PeriodOutcome {
    /// Which.
    pub id: PeriodId,
    /// How long it was, days.
    pub days_long: f64,
    /// Its days of which enough was read.
    pub days: Vec<Day>,
    /// Their means.
    pub means: Answer<Means>,
    /// The period that it is held against; `None` for one without a method.
    pub against: Option<PeriodId>,
    /// What the method did against that one; `None` for one without a method.
    pub effect: Option<Answer<Effect>>,
    /// What the survey expects of this method in the weather measured; `None` where nothing was said
    /// of what ran.
    pub expected: Option<Answer<Expected>>,
    /// Air changes per hour by the water collected; `None` where none was weighed.
    pub air_change_per_h: Option<Answer<Limits>>,
}

/// What a method did, all its periods together.
#[derive(Clone, Debug, PartialEq)]
pub struct Method {
    /// Its periods.
    pub periods: Vec<PeriodId>,
    /// What it is, in words.
    pub words: String,
    /// What it did.
    pub effect: Answer<Effect>,
    /// The pairs of periods that this rests on.
    pub pairs: Vec<Pair>,
    /// The periods of it that do not count, and why.
    pub left_out: Vec<(PeriodId, NotKnown)>,
}

/// How long each period would have to be for a change of humidity to stand out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foresight {
    /// Change of relative humidity, points of 0 to 1.
    pub points: f64,
    /// Days; `None` where half a year would not do.
    pub days: Option<usize>,
}

/// What came of a trial.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialOutcome {
    /// Where the outside air is from.
    pub outside_from: OutsideFrom,
    /// The inside air by the hour, over all that was read.
    pub inside_hours: Vec<HourMean>,
    /// The outside air by the hour, or why there is none.
    pub outside_hours: Answer<Vec<HourMean>>,
    /// The periods in the order of time.
    pub periods: Vec<PeriodOutcome>,
    /// The methods in the order in which they were first tried.
    pub methods: Vec<Method>,
    /// Told beforehand; empty where days without a method are too few to tell.
    pub foresight: Vec<Foresight>,
}

/// Works out a trial.
pub(super) fn outcome(ground: &Ground<'_>, trial: &Trial) -> Answer<TrialOutcome> {
    ground.outcome(trial)
}

impl Ground<'_> {
    fn outcome(&self, trial: &Trial) -> Answer<TrialOutcome> {
        let items = [Some(Item::Trial(trial.id))]
            .into_iter()
            .chain([trial.inside, trial.outside].map(|id| id.map(Item::Series)))
            .flatten()
            .collect::<Vec<_>>();
        sound(&self.prepared.findings, |place| {
            items.contains(&place.item) || place.item == Item::Site
        })?;
        let id = trial
            .inside
            .ok_or_else(|| NotKnown::because("no logger inside is chosen"))?;
        let inside = self.loggers.air(self.survey, id, trial)?;
        let outside = self.outside(trial);
        let timed = timed(trial, &inside, outside.as_ref());
        let without = Without::of(&timed, |period| is_reference(trial, period));
        let periods = timed
            .iter()
            .map(|one| self.period(trial, one, &inside, &without))
            .collect();
        Ok(TrialOutcome {
            outside_from: trial.outside_from,
            inside_hours: all_hours(&inside),
            outside_hours: outside.map(|outside| all_hours(&outside)),
            periods,
            methods: self.methods(trial, &timed, &without),
            foresight: self.foresight(&without),
        })
    }

    fn outside(&self, trial: &Trial) -> Answer<Rows> {
        match trial.outside_from {
            OutsideFrom::Logger => {
                let id = trial
                    .outside
                    .ok_or_else(|| NotKnown::because("no logger outside is chosen"))?;
                self.loggers.air(self.survey, id, trial)
            }
            OutsideFrom::WeatherFile => match &self.loggers.weather {
                Some(Ok(weather)) => Ok(weather_rows(weather)),
                Some(Err(unknown)) => Err(unknown.clone()),
                None => Err(NotKnown::because("no weather file is chosen")),
            },
            OutsideFrom::Cases => Err(NotKnown::because(
                "the weather cases are the same every day, so what the weather did and what a method \
                 did cannot be told apart: hang a logger outside, or choose a weather file of these days",
            )),
        }
    }

    fn period(
        &self,
        trial: &Trial,
        one: &Timed<'_>,
        inside: &Rows,
        without: &Without<'_, '_>,
    ) -> PeriodOutcome {
        let pressure = site_pressure(self.survey);
        let days = one.days.clone();
        let means = days.clone().and_then(|days| means(&days, pressure));
        let off = (!is_reference(trial, one.period)).then(|| without.nearest(one, &[]));
        let against = off
            .as_ref()
            .and_then(|off| off.as_ref().ok())
            .map(|off| off.0);
        let effect = off.map(|off| {
            let days = one.days.as_deref().map_err(Clone::clone)?;
            effect(&[(off?.1, days)], pressure).ok_or_else(too_few)
        });
        let seconds = seconds_as_f64(one.to_s - one.from_s);
        let expected = predicted::expected(self, one.period, means.as_ref(), seconds / DAY_S);
        let span = (one.period, one.from_s, one.to_s);
        let air_change_per_h = balance::air_change(self, span, inside, &days);
        PeriodOutcome {
            id: one.period.id,
            days_long: seconds / DAY_S,
            days: days.unwrap_or_default(),
            means,
            against,
            effect,
            expected,
            air_change_per_h,
        }
    }

    fn methods(
        &self,
        trial: &Trial,
        timed: &[Timed<'_>],
        without: &Without<'_, '_>,
    ) -> Vec<Method> {
        let pressure = site_pressure(self.survey);
        let mut methods: Vec<Method> = Vec::new();
        let mut done: Vec<PeriodId> = Vec::new();
        for first in timed {
            if is_reference(trial, first.period) || done.contains(&first.period.id) {
                continue;
            }
            let same: Vec<&Timed<'_>> = timed
                .iter()
                .filter(|one| {
                    one.period.id == first.period.id || one.period.ran_the_same(first.period)
                })
                .collect();
            done.extend(same.iter().map(|one| one.period.id));
            let paired = Paired::of(&same, without, pressure);
            methods.push(Method {
                periods: same.iter().map(|one| one.period.id).collect(),
                words: self.survey.ran_in_words(first.period),
                effect: paired.effect,
                pairs: paired.pairs,
                left_out: paired.left_out,
            });
        }
        methods
    }

    /// Told from the longest stretch without a method.
    fn foresight(&self, without: &Without<'_, '_>) -> Vec<Foresight> {
        let pressure = site_pressure(self.survey);
        let Some(longest) = without.days().max_by_key(|days| days.len()) else {
            return Vec::new();
        };
        if longest.len() < daily_means::FEWEST_DAYS {
            return Vec::new();
        }
        POINTS
            .map(|points| Foresight {
                points,
                days: days_needed(longest, points, pressure),
            })
            .into()
    }
}

/// Whether a period is one that others are held against.
fn is_reference(trial: &Trial, period: &Period) -> bool {
    trial
        .reference_period()
        .is_some_and(|reference| reference.id == period.id || reference.ran_the_same(period))
}

/// Periods with their times, in order, and their days.
fn timed<'a>(trial: &'a Trial, inside: &Rows, outside: Result<&Rows, &NotKnown>) -> Vec<Timed<'a>> {
    let mut timed: Vec<Timed<'_>> = trial
        .periods
        .iter()
        .filter_map(|period| {
            let (from_s, to_s) = period.span_s()?;
            let days = outside.map_err(Clone::clone).and_then(|outside| {
                let within = |rows: &Rows| hourly_means(rows, from_s, to_s);
                let found = days(&within(inside), &within(outside), from_s, to_s);
                match found.is_empty() {
                    true => Err(NotKnown::because(
                        "on no day were eighteen hours or more read both inside and outside",
                    )),
                    false => Ok(found),
                }
            });
            Some(Timed {
                period,
                from_s,
                to_s,
                days,
            })
        })
        .collect();
    timed.sort_by_key(|one| one.from_s);
    timed
}

/// All hours of what was read.
fn all_hours(rows: &Rows) -> Vec<HourMean> {
    let Some(first) = rows.times_s.first() else {
        return Vec::new();
    };
    let start = first - first.rem_euclid(super::air::HOUR_S);
    hourly_means(rows, start, i64::MAX)
}

/// The means of days.
fn means(days: &[Day], pressure: f64) -> Answer<Means> {
    let of = |value: fn(&Day) -> f64| {
        let values: Vec<f64> = days.iter().map(value).collect();
        let number = crate::physics::counts::count(values.len());
        (values.iter().sum::<f64>() / number, values)
    };
    let limits = |values: &[f64]| -> Result<(Option<Limits>, f64), LineError> {
        let period = daily_means::Period::of_days(values)?;
        Ok((period.limits(), period.effective_days))
    };
    let ((t_in_c, _), (w_in, _)) = (of(|day| day.t_in_c), of(|day| day.w_in));
    let ((t_out_c, _), (w_out, _)) = (of(|day| day.t_out_c), of(|day| day.w_out));
    let rh = |t_c, w| {
        crate::physics::measurement::logger::restated(w, t_c, pressure).ok_or_else(too_few)
    };
    let warmer_k = limits(&of(Day::warmer).1)
        .ok()
        .and_then(|(limits, _)| limits);
    let damper = limits(&of(Day::damper).1).ok();
    Ok(Means {
        t_in_c,
        w_in,
        t_out_c,
        w_out,
        warmer_k,
        damper: damper.and_then(|(limits, _)| limits),
        rh_in: rh(t_in_c, w_in)?,
        rh_out: rh(t_out_c, w_out)?,
        effective_days: damper.map_or(1.0, |(_, days)| days),
    })
}
