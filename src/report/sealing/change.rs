//! What sealing changes: each figure before and after it.

use super::in_currency;
use crate::assess::quantity::{Kind, Quantity};
use crate::assess::sealing::{AirPerSleeper, Figures};
use crate::assess::uncertainty::{CaseUncertainty, Interval, Uncertainty};
use crate::assess::{Answer, Assessment, CaseAnswer, LeakageTotal, NotKnown};
use crate::report::results::{ach, litres, watts};
use crate::report::{Align, Reasons, Section, Table};

/// One side of the work: the vehicle before it or after it.
pub(crate) struct Side<'a> {
    /// The unintended gaps together.
    pub(crate) leakage: &'a Answer<LeakageTotal>,
    /// The figures that sealing changes.
    pub(crate) figures: Answer<&'a Figures>,
    /// Outside air for each sleeper.
    pub(crate) sleepers: Answer<AirPerSleeper>,
    /// Everything else, where it was worked out.
    pub(crate) assessment: Option<&'a Assessment>,
    /// How sure it is, where that was worked out.
    pub(crate) uncertainty: Option<&'a Uncertainty>,
}

/// A row: its name, and its figure on a side; `None` where that side does not go into it.
type Line = (&'static str, fn(&Side<'_>) -> Option<Quantity>);

const LINES: [Line; 13] = [
    ("Leakage area of unintended gaps", |side| {
        let interval = side.uncertainty.map(|found| &found.eqla_unintended);
        let area = Quantity::of_total(Kind::LeakageCm2, side.leakage, |all| all.figures.eqla);
        Some(area.within(interval))
    }),
    ("Air changes with least wind", |side| {
        let of_case = side.case(LEAST, Kind::AirChanges, ach, |case| &case.ach_per_h);
        of_case.or_else(|| side.figure(Kind::AirChanges, |of| of.ach_calm_per_h.clone()))
    }),
    ("Air changes with most wind", |side| {
        let of_case = side.case(MOST, Kind::AirChanges, ach, |case| &case.ach_per_h);
        of_case.or_else(|| side.figure(Kind::AirChanges, |of| of.ach_windy_per_h.clone()))
    }),
    ("Air changes, season", |side| {
        side.figure(Kind::AirChanges, |of| of.ach_season_per_h.clone())
    }),
    ("Water to remove with least wind", |side| {
        side.case(LEAST, Kind::LitresPerDay, litres, |case| {
            &case.removal_l_per_day
        })
    }),
    ("Water to remove with most wind", |side| {
        side.case(MOST, Kind::LitresPerDay, litres, |case| {
            &case.removal_l_per_day
        })
    }),
    ("Water to remove, season", |side| {
        side.figure(Kind::LitresPerDay, |of| of.removal_l_per_day.clone())
    }),
    ("Heat with least wind", |side| {
        side.case(LEAST, Kind::Watts, watts, |case| &case.heat_w)
    }),
    ("Heat with most wind", |side| {
        side.case(MOST, Kind::Watts, watts, |case| &case.heat_w)
    }),
    ("Heat with the air, season", |side| {
        side.figure(Kind::Watts, |of| Ok(of.air_heat_w))
    }),
    ("Heat with the air, a winter by electricity", |side| {
        side.figure(Kind::MoneyAbout, |of| of.winter_cost.clone())
    }),
    ("Outside air for each sleeper with least wind", |side| {
        Some(side.sleeper(|air| air.calm_m3_per_h))
    }),
    ("Outside air for each sleeper with most wind", |side| {
        Some(side.sleeper(|air| air.windy_m3_per_h))
    }),
];

/// Which of the calmest and the windiest case.
pub(crate) type Which = fn((usize, usize)) -> usize;
/// The calmest.
pub(crate) const LEAST: Which = |(calmest, _)| calmest;
/// The windiest.
pub(crate) const MOST: Which = |(_, windiest)| windiest;

impl Side<'_> {
    fn figure(&self, kind: Kind, of: fn(&Figures) -> Answer<f64>) -> Option<Quantity> {
        Some(kind.of(self.figures.clone().and_then(of)))
    }

    fn sleeper(&self, of: fn(&AirPerSleeper) -> f64) -> Quantity {
        Kind::AirPerSleeper.of(self.sleepers.as_ref().map(of).map_err(Clone::clone))
    }

    fn case(
        &self,
        which: Which,
        kind: Kind,
        of: fn(&CaseAnswer) -> Answer<f64>,
        interval: fn(&CaseUncertainty) -> &Answer<Interval>,
    ) -> Option<Quantity> {
        let case = case(self.assessment?, which);
        let id = case.as_ref().ok().map(|case| case.id);
        let sure = self.uncertainty.and_then(|all| {
            let mut cases = all.cases.iter();
            cases.find(|one| Some(one.id) == id)
        });
        let sure = sure.and_then(|case| interval(case).as_ref().ok());
        Some(kind.of(case.and_then(of)).within(sure))
    }
}

/// The calmest or the windiest case.
pub(crate) fn case(assessment: &Assessment, which: Which) -> Answer<&CaseAnswer> {
    let both = assessment.calmest_and_windiest;
    both.and_then(|both| assessment.cases.get(which(both)))
        .ok_or_else(|| NotKnown::because("there is no weather case"))
}

/// Adds the table of all figures before and after, with intervals where they were worked out, and
/// says what its words mean.
pub(crate) fn changes(
    section: &mut Section,
    (before, after): (&Side<'_>, &Side<'_>),
    (as_found, currency): (&Assessment, &str),
) {
    let with_intervals = before.uncertainty.is_some() || after.uncertainty.is_some();
    let mut reasons = Reasons::default();
    let mut table = Table::default().wide("", Align::Left, 1);
    for head in ["Before", "After"] {
        table = table.column(head, Align::Decimal);
        if with_intervals {
            table = table.column("95 %", Align::Left);
        }
    }
    table = table.column("Change, %", Align::Decimal);
    for (words, of) in LINES {
        let (Some(before), Some(after)) = (of(before), of(after)) else {
            continue;
        };
        let unit = match before.kind() {
            Kind::MoneyAbout => currency,
            kind => kind.unit(),
        };
        let mut cells = vec![in_currency(words, unit)];
        for side in [&before, &after] {
            cells.push(reasons.number(side));
            if with_intervals {
                cells.push(side.range().unwrap_or_default());
            }
        }
        cells.push(change(&before.value(), &after.value()));
        table.row(cells);
    }
    section.table(table, &reasons);
    section.note(format!(
        "{}Season: mean over the weather cases by their weights. Water and heat at the set temperature. \
         Whether the air is enough to sleep in is judged under safety ventilation.",
        named_cases(as_found)
    ));
}

/// Which weather cases are the ones with least and most wind.
fn named_cases(assessment: &Assessment) -> String {
    let name = |which| case(assessment, which).map(|case| case.name.trim().to_owned());
    match (name(LEAST), name(MOST)) {
        (Ok(least), Ok(most)) => {
            format!("Least wind: the weather case “{least}”; most wind: “{most}”. ")
        }
        _ => String::new(),
    }
}

/// The change as a share: `−23`, `+2.5`; nothing where there is none to tell.
fn change(before: &Answer<f64>, after: &Answer<f64>) -> String {
    let (Ok(before), Ok(after)) = (before, after) else {
        return String::new();
    };
    if before.abs() < 1e-12 {
        return String::new();
    }
    let percent = (after / before - 1.0) * 100.0;
    let size = percent.abs();
    if size < 0.05 {
        return "none".to_owned();
    }
    let sign = if percent < 0.0 { "−" } else { "+" };
    let places = usize::from(size < 9.95);
    format!("{sign}{size:.places$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_is_a_share_with_its_sign() {
        assert_eq!(change(&Ok(2.0), &Ok(1.5)), "−25");
        assert_eq!(change(&Ok(2.0), &Ok(2.05)), "+2.5");
        assert_eq!(change(&Ok(2.0), &Ok(2.0)), "none");
        assert_eq!(change(&Ok(0.0), &Ok(1.0)), "");
        assert_eq!(change(&Err(NotKnown::because("no")), &Ok(1.0)), "");
    }
}
