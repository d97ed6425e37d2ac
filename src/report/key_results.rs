//! The few results that are always in sight.

use super::Material;
use super::leakage::{square_side, unintended};
use super::measured::calibrated_by_number;
use super::results::{air_change, heat, season, water};
use crate::assess::quantity::{Kind, NO_BREAK, Quantity};
use crate::assess::shown::Shown;
use crate::assess::uncertainty::Interval;
use crate::assess::words::{capital, given};
use crate::assess::{Answer, CaseAnswer, NotKnown, Topic};
use crate::survey::WeatherId;
use crate::survey::unit::named;

/// One of them.
#[derive(Clone, Debug, PartialEq)]
pub struct KeyResult {
    /// What it is.
    pub title: String,
    /// Its working.
    pub topic: Option<Topic>,
    /// Figure with unit.
    pub figure: Answer<String>,
    /// Where it very likely lies, without the unit, as far as that was worked out.
    pub range: Option<String>,
    /// Small print.
    pub small: String,
}

/// The key results: leakage area, air changes with least and with most wind, water, heat.
#[must_use]
pub fn key_results(told: &Material<'_>) -> [KeyResult; 5] {
    let cases = &told.assessment.cases;
    let ends = told.assessment.calmest_and_windiest;
    let calm = ends.and_then(|(calm, _)| cases.get(calm));
    let windy = ends.and_then(|(_, windy)| cases.get(windy));
    let targets = &told.survey.targets;
    let set = Kind::Celsius.with_unit(&given(targets.set_temperature_c));
    let rh = Kind::RelativeHumidity.with_unit(&given(targets.rh_percent));
    let both = Both { told, calm, windy };
    [
        leakage(told),
        air("least wind", told, calm),
        air("most wind", told, windy),
        both.of("Water to remove", Topic::Removal, water)
            .with(format!("to hold {rh} at {set}")),
        both.of("Heat", Topic::Heat, heat)
            .with(format!("to hold {set}")),
    ]
}

/// What all of them are calibrated by, once for all; `None` where no measurement weighs.
#[must_use]
pub fn calibrated(told: &Material<'_>) -> Option<String> {
    calibrated_by_number(told.study).map(|by| capital(&by))
}

/// Air changes with least wind, over the season, and with most wind.
#[must_use]
pub fn air_changes(told: &Material<'_>) -> [KeyResult; 3] {
    let cases = &told.assessment.cases;
    let ends = told.assessment.calmest_and_windiest;
    let calm = ends.and_then(|(calm, _)| cases.get(calm));
    let windy = ends.and_then(|(_, windy)| cases.get(windy));
    let mean = KeyResult::new("Air changes, mean of the season", None, &season(told));
    [
        air("least wind", told, calm),
        mean.with("weather cases by their weights".to_owned()),
        air("most wind", told, windy),
    ]
}

impl KeyResult {
    fn new(title: impl Into<String>, topic: Option<Topic>, quantity: &Quantity) -> Self {
        Self {
            title: title.into(),
            topic,
            figure: quantity.text(),
            range: quantity.range(),
            small: String::new(),
        }
    }

    /// The same in the units chosen.
    #[must_use]
    pub fn shown(self, shown: &Shown) -> Self {
        if shown.changes_nothing() {
            return self;
        }
        // The range has the unit of the figure.
        let unit = self.figure.as_ref().ok().and_then(|figure| {
            let unit = figure.rsplit(NO_BREAK).next()?;
            named(unit)
        });
        Self {
            title: shown.text(&self.title).into_owned(),
            figure: self
                .figure
                .map(|figure| shown.text(&figure).into_owned())
                .map_err(|why| NotKnown::because(shown.text(&why.reason))),
            range: self
                .range
                .map(|range| shown.cell(&range, unit).into_owned()),
            small: shown.text(&self.small).into_owned(),
            topic: self.topic,
        }
    }

    /// The same with small print.
    fn with(mut self, small: String) -> Self {
        self.small = small;
        self
    }
}

fn leakage(told: &Material<'_>) -> KeyResult {
    let total = told.assessment.leakage.unintended.as_ref();
    let small = match total {
        Ok(total) => {
            let side = square_side(told).text();
            let side = side.map(|side| format!("one square hole, {side} wide"));
            let parts: Vec<String> = side.ok().into_iter().chain(total.lacking()).collect();
            parts.join("; ")
        }
        Err(_) => String::new(),
    };
    let topic = Some(Topic::LeakageArea);
    KeyResult::new("EqLA, unintended", topic, &unintended(told)).with(small)
}

fn air(which: &str, told: &Material<'_>, case: Option<&CaseAnswer>) -> KeyResult {
    let title = format!("Air changes, {}", case.map_or(which, |case| &case.name));
    let Some(case) = case else {
        return KeyResult::new(title, None, &Kind::AirChanges.of(Err(no_case())));
    };
    let at = |index: usize| {
        let direction = case.air.as_ref().ok()?.directions.get(index)?;
        direction.ach_per_h.as_ref().ok().copied()
    };
    let ends = case.air.as_ref().ok();
    let span = ends.and_then(|air| at(air.lowest).zip(at(air.highest)));
    let span = span.map_or_else(String::new, |(low, high)| {
        format!("{} by direction, ", Kind::AirChanges.span(low, high))
    });
    let topic = Some(Topic::AirChange(case.id));
    KeyResult::new(title, topic, &air_change(told, case))
        .with(format!("{span}{}", told.assessment.set_up.name()))
}

fn no_case() -> NotKnown {
    NotKnown::because("there is no weather case")
}

/// The cases with least and with most wind.
struct Both<'a> {
    told: &'a Material<'a>,
    calm: Option<&'a CaseAnswer>,
    windy: Option<&'a CaseAnswer>,
}

impl Both<'_> {
    /// A result from the one case to the other; its interval from the least of the one to the
    /// most of the other.
    fn of(
        &self,
        title: &str,
        topic: fn(WeatherId) -> Topic,
        of: fn(&Material<'_>, &CaseAnswer) -> Quantity,
    ) -> KeyResult {
        let ends = self.calm.zip(self.windy).ok_or_else(no_case);
        let both = ends.map(|(calm, windy)| (of(self.told, calm), of(self.told, windy)));
        let figure = both.as_ref().map_err(Clone::clone).and_then(|both| {
            let kind = both.0.kind();
            let span = kind.span(both.0.value()?, both.1.value()?);
            Ok(kind.with_unit(&span))
        });
        let range = both.ok().and_then(|(calm, windy)| {
            let (one, other): (Interval, Interval) = (calm.interval()?, windy.interval()?);
            let (low, high) = (one.low.min(other.low), one.high.max(other.high));
            Some(calm.kind().span(low, high))
        });
        KeyResult {
            title: title.to_owned(),
            topic: self.windy.map(|case| topic(case.id)),
            figure,
            range,
            small: String::new(),
        }
    }
}
