//! What a step changed, in words: for undo, which names what it takes back.

use super::Survey;
use super::gap::Gap;

/// What differs between a survey and what became of it, in a few words: *gap 3 “hatch” added*.
#[must_use]
pub fn step_in_words(before: &Survey, after: &Survey) -> String {
    usual(before, after)
        .or_else(|| gaps(before, after))
        .or_else(|| records(before, after))
        .unwrap_or_else(|| part(before, after).to_owned())
}

/// What is usual for the vehicle, filled in, or the mark taken from it.
fn usual(before: &Survey, after: &Survey) -> Option<String> {
    let marks = |survey: &Survey| {
        let usual = &survey.usual;
        let alone = usize::from(usual.design_outside) + usize::from(usual.altitude);
        usual.fabric.len() + usual.appliances.len() + usual.weather.len() + alone
    };
    let filled = marks(after) > marks(before) || before.usual.winter != after.usual.winter;
    if filled && before.vehicle.kind == after.vehicle.kind {
        return Some(format!("usual {}", after.vehicle.kind.name()));
    }
    // Everything else stayed as it is.
    let mut looked_at = before.clone();
    looked_at.usual = after.usual.clone();
    (before.usual != after.usual && looked_at == *after).then(|| "mark of what is usual".to_owned())
}

fn gaps(before: &Survey, after: &Survey) -> Option<String> {
    let changed = after.gaps.iter().filter(|gap| {
        let old = before.gap(gap.id);
        old.is_some_and(|old| old != *gap)
    });
    let kinds = [
        (missing(after, before), "added"),
        (missing(before, after), "deleted"),
        (changed.collect(), "changed"),
    ];
    let told = kinds.iter().filter(|(gaps, _)| !gaps.is_empty());
    let told: Vec<String> = told.map(|(gaps, verb)| named(gaps, verb)).collect();
    match told.is_empty() {
        true if before.gaps == after.gaps => None,
        true => Some("order of the gaps".to_owned()),
        false => Some(told.join(", ")),
    }
}

/// The gaps of one survey that the other does not have.
fn missing<'a>(of: &'a Survey, other: &Survey) -> Vec<&'a Gap> {
    let all = of.gaps.iter();
    all.filter(|gap| other.gap(gap.id).is_none()).collect()
}

fn named(gaps: &[&Gap], verb: &str) -> String {
    match gaps {
        [gap] if gap.name.trim().is_empty() => format!("gap {} {verb}", gap.id),
        [gap] => format!(
            "gap {} \u{201c}{}\u{201d} {verb}",
            gap.id,
            gap.name_in_a_line()
        ),
        gaps => format!("{} gaps {verb}", gaps.len()),
    }
}

/// The list that grew, shrank or changed.
fn records(before: &Survey, after: &Survey) -> Option<String> {
    fn list<T: PartialEq>(one: &str, before: &[T], after: &[T]) -> Option<String> {
        let verb = match after.len().cmp(&before.len()) {
            std::cmp::Ordering::Greater => "added",
            std::cmp::Ordering::Less => "deleted",
            std::cmp::Ordering::Equal => "changed",
        };
        (before != after).then(|| format!("{one} {verb}"))
    }
    list("zone", &before.zones, &after.zones)
        .or_else(|| list("weather case", &before.weather, &after.weather))
        .or_else(|| list("part of the fabric", &before.fabric, &after.fabric))
        .or_else(|| list("appliance", &before.appliances, &after.appliances))
        .or_else(|| list("drying machine", &before.machines, &after.machines))
        .or_else(|| list("heater", &before.heaters, &after.heaters))
        .or_else(|| list("fan", &before.fans, &after.fans))
        .or_else(|| list("source of moisture", &before.sources, &after.sources))
        .or_else(|| list("space", &before.spaces, &after.spaces))
        .or_else(|| {
            let (before, after) = (&before.inner_openings, &after.inner_openings);
            list("opening between spaces", before, after)
        })
        .or_else(|| list("fan test", &before.fan_tests, &after.fan_tests))
        .or_else(|| list("air test", &before.air_tests, &after.air_tests))
        .or_else(|| list("logger", &before.series, &after.series))
        .or_else(|| list("trial", &before.trials, &after.trials))
}

fn part(before: &Survey, after: &Survey) -> &'static str {
    let differs = [
        (before.set_up != after.set_up, "set-up"),
        (before.header != after.header, "title and surveyor"),
        (before.vehicle != after.vehicle, "vehicle"),
        (
            before.fittings != after.fittings,
            "windows, doors and vents drawn",
        ),
        (before.site != after.site, "place of the vehicle"),
        (before.targets != after.targets, "targets"),
        (before.tariffs != after.tariffs, "prices"),
        (before.job != after.job, "customer and papers"),
        (before.drying != after.drying, "contents and supply"),
        (
            before.appliances_confirmed != after.appliances_confirmed,
            "list of appliances confirmed",
        ),
        (before.walk != after.walk, "walk round"),
        (
            before.calibrated != after.calibrated,
            "calibration by measurements",
        ),
    ];
    let found = differs.into_iter().find(|(differs, _)| *differs);
    found.map_or("leakage not found", |(_, words)| words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Edit, Facing, Form, GapId, Record, RecordId, SetUp, VehicleKind};

    fn gap(survey: &Survey, id: u32, name: &str) -> Gap {
        let form = Form::RoundHole { diameter_mm: None };
        let zone = survey.zones[0].id;
        let mut gap = Gap::new(GapId(id), zone, Facing::Rear, form);
        gap.name = name.to_owned();
        gap
    }

    fn words(before: &Survey, edit: Edit) -> String {
        let mut after = before.clone();
        after.apply(edit).unwrap();
        step_in_words(before, &after)
    }

    #[test]
    fn a_step_is_named_by_what_it_changed() {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        let (one, two) = (gap(&survey, 1, "hatch"), gap(&survey, 2, ""));
        let added = Edit::gap(one.clone());
        assert_eq!(words(&survey, added), "gap 1 \u{201c}hatch\u{201d} added");
        let long = Edit::gap(gap(&survey, 3, &"W".repeat(3000)));
        let cut = words(&survey, long);
        assert!(
            cut.contains("W\u{2026}") && cut.chars().count() < 90,
            "{cut}"
        );
        let both = Edit::Several(vec![Edit::gap(one), Edit::gap(two)]);
        assert_eq!(words(&survey, both.clone()), "2 gaps added");
        survey.apply(both).unwrap();
        let deleted = Edit::Remove(RecordId::Gap(GapId(2)));
        assert_eq!(words(&survey, deleted), "gap 2 deleted");
        let mut changed = gap(&survey, 1, "hatch");
        changed.note = "lid".to_owned();
        assert_eq!(
            words(&survey, Edit::gap(changed)),
            "gap 1 \u{201c}hatch\u{201d} changed"
        );
        assert_eq!(words(&survey, Edit::SetUp(SetUp::InUse)), "set-up");
        let mut zone = survey.zones[0].clone();
        zone.name = "lockers".to_owned();
        let zone = Edit::Put(Record::Zone(zone));
        assert_eq!(words(&survey, zone), "zone changed");
        let not_found = Edit::LeakageNotFound(Some(10.0));
        assert_eq!(words(&survey, not_found), "leakage not found");
    }
}
