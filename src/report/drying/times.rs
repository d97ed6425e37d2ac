//! How long drying out damp contents and warming up take.

use super::names::name;
use crate::assess::drying::{Comparison, DryOut, WarmUp};
use crate::assess::quantity::Kind;
use crate::assess::words::figure;
use crate::assess::{DryingTopic, Topic};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::report::blocks::{Align, Block, Fact, Reasons, Section, Table};

const HOURS_PER_DAY: f64 = 24.0;

/// Drying out damp contents: a row for each option that can be told.
pub(crate) fn drying_out(comparison: &Comparison) -> Section {
    let mut section = Section::new("Drying out damp contents");
    let mut told = vec![comparison.calmest, comparison.windiest];
    told.dedup();
    let mut table = Table::default()
        .wide("Option", Align::Left, 1)
        .column("To give off, L", Align::Decimal);
    for case in &told {
        let head = format!("{}, days", comparison.case_name(*case));
        table = table.column(head, Align::Decimal);
    }
    for (at, option) in comparison.options.iter().enumerate() {
        let of = |case: &usize| comparison.state(at, *case).ok()?.dry_out;
        let found: Vec<Option<DryOut>> = told.iter().map(of).collect();
        let Some(water) = found.iter().flatten().next() else {
            continue;
        };
        let mut cells = vec![
            name(at, option),
            if water.water_kg > 0.0 {
                Kind::Litres.number(water.water_kg)
            } else {
                "nothing".to_owned()
            },
        ];
        cells.extend(found.iter().map(|found| days(found.as_ref())));
        let row = table.row(cells);
        if let Some(case) = comparison.cases.get(comparison.calmest) {
            row.worked_out(Topic::Drying(DryingTopic::DryOut(at, case.id)));
        }
    }
    if table.rows.is_empty() {
        return section
            .ending("Not known: it needs the dry mass of the contents and their moisture.");
    }
    section.table(table, &Reasons::default());
    section.note(
        "Water on top of the steady load, until the contents are in balance with the target; days at \
         least, for the last of it comes slowly.",
    );
    section
}

/// How long it takes in one weather.
fn days(found: Option<&DryOut>) -> String {
    match found {
        None => "not known".to_owned(),
        Some(found) if found.water_kg <= 0.0 => "dry already".to_owned(),
        Some(found) => found.days.map_or_else(
            || "never".to_owned(),
            |days| {
                if days < 1.0 {
                    "under 1".to_owned()
                } else {
                    Kind::Days.number(days)
                }
            },
        ),
    }
}

/// Power and time to warm up, weather by weather.
pub(crate) fn warming_up(comparison: &Comparison) -> Section {
    let mut section = Section::new("Warming up to comfort");
    let rows = comparison.warm_up.iter().enumerate().map(|(at, one)| {
        let case = comparison.case_index(one.id);
        let name = format!(
            "{}, {} to {}",
            case.map_or("", |case| comparison.case_name(case)),
            Kind::Celsius.typed(one.from_c),
            Kind::Celsius.typed(one.to_c)
        );
        Fact::new(name, told(one)).worked_out(Topic::Drying(DryingTopic::WarmUp(at)))
    });
    section.push(Block::Facts {
        rows: rows.collect(),
    });
    let assumed = comparison.warm_up.iter().any(|one| {
        let capacity = one.heat_capacity.as_ref();
        capacity.is_ok_and(|(_, assumed)| *assumed)
    });
    if assumed {
        section.note("Heat capacity taken as 30\u{a0}kJ/K for each 1\u{a0}m³ of inside [A].");
    }
    section
}

fn told(one: &WarmUp) -> String {
    let power = match &one.power_for_an_hour_w {
        Ok(watts) => format!("{} within an hour", Kind::Watts.text(*watts)),
        Err(unknown) => unknown.to_string(),
    };
    let heaters = one.heaters.iter().map(|(name, takes)| match takes {
        Ok(Some(seconds)) => format!("; {name}: {}", time(seconds / SECONDS_PER_HOUR)),
        Ok(None) => format!("; {name}: never gets there"),
        Err(unknown) => format!("; {name}: {unknown}"),
    });
    std::iter::once(power).chain(heaters).collect()
}

/// A time in the unit that suits it.
fn time(hours: f64) -> String {
    if hours < 1.0 {
        format!("{:.0}\u{a0}min", (hours * 60.0).max(1.0))
    } else if hours < 2.0 * HOURS_PER_DAY {
        format!("{}\u{a0}h", figure(hours, 2))
    } else {
        Kind::Days.text(hours / HOURS_PER_DAY)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_told_and_never_is_not_zero() {
        let found = |water_kg: f64, days: Option<f64>| DryOut {
            balance_moisture: 0.1,
            water_kg,
            spare_kg_s: 0.0,
            days,
        };
        assert_eq!(days(None), "not known");
        assert_eq!(days(Some(&found(0.0, None))), "dry already");
        assert_eq!(days(Some(&found(20.0, None))), "never");
        assert_eq!(days(Some(&found(20.0, Some(0.4)))), "under 1");
        assert_eq!(days(Some(&found(20.0, Some(12.34)))), "12");
    }

    #[test]
    fn short_times_are_minutes_and_long_ones_days() {
        assert_eq!(time(0.55), "33\u{a0}min");
        assert_eq!(time(7.26), "7.3\u{a0}h");
        assert_eq!(time(120.0), "5.0\u{a0}days");
    }
}
