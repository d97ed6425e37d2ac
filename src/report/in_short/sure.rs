//! Down to which cold the heater holds, how sure the results are, and what would make them surer.

use super::leak::ends;
use super::page::{Leads, Part};
use super::winter;
use crate::assess::drying::HeaterFor;
use crate::assess::quantity::Kind;
use crate::assess::reach::{COLDEST_C, Reach, reaches, told_watts};
use crate::assess::words::capital;
use crate::report::Material;
use crate::report::drying::NOT_BY_HEAT;
use crate::report::measured::calibrated_sentence;
use crate::report::words::renewed;
use crate::survey::{Field, Item, Place, SetUp};

/// Down to which cold each heater holds, and how sure all of it is.
pub(super) fn part(material: &Material<'_>) -> Part {
    let mut part = Part::new("Frost, and how sure this is");
    frost(&mut part, material);
    how_sure(&mut part, material);
    part
}

fn frost(part: &mut Part, material: &Material<'_>) {
    let survey = material.survey;
    let known = reaches(survey, &material.assessment.cases);
    for heater in &survey.heaters {
        let name = match heater.name.trim() {
            "" => "the heater".to_owned(),
            name => format!("“{name}”"),
        };
        match known.iter().find(|reach| reach.heater == heater.id) {
            // A flame is no frost guard of a vehicle that nobody is in.
            Some(reach) if survey.set_up == SetUp::LaidUp && heater.fuel.is_flame() => part.line(
                format!(
                    "▲ Only while somebody is there to watch the flame: {}",
                    holds(&name, reach)
                ),
                Leads::Place(Place::at(Item::Heater(heater.id), Field::Rating)),
            ),
            Some(reach) => part.line(
                format!("{} {}", sign(reach), capital(&holds(&name, reach))),
                Leads::Place(Place::at(Item::Heater(heater.id), Field::Rating)),
            ),
            None => part.line(
                format!("Down to which cold {name} holds is not known."),
                Leads::Place(Place::whole(Item::Heater(heater.id))),
            ),
        }
    }
    if survey.heaters.is_empty() {
        part.line(no_heater(material), Leads::DryingHeat);
    }
    if let Some(run) = material.study.winter() {
        winter::lines(part, run);
    } else if survey.set_up == SetUp::LaidUp {
        part.line(NOT_BY_HEAT, Leads::DryingHeat);
    }
}

fn sign(reach: &Reach) -> &'static str {
    if reach.holds() { "✔" } else { "▲" }
}

fn holds(name: &str, reach: &Reach) -> String {
    let held = Kind::Celsius.typed(reach.held_c);
    if reach.down_to_c <= COLDEST_C {
        return format!("{name} keeps {held} inside in any cold.");
    }
    let down_to = Kind::Celsius.text(reach.down_to_c);
    if reach.holds() {
        return format!("{name} keeps {held} down to {down_to} outside, in whatever wind.");
    }
    let design = Kind::Celsius.typed(reach.design_c);
    let take = reach.enough_w.map_or_else(String::new, |watts| {
        format!("; a night of {design} takes {}", told_watts(watts))
    });
    format!("{name} keeps {held} down to {down_to} outside{take}.")
}

fn no_heater(material: &Material<'_>) -> String {
    let targets = &material.survey.targets;
    let (guard, design) = (
        Kind::Celsius.typed(targets.frost_guard_c),
        Kind::Celsius.typed(targets.design_outside_c),
    );
    let size = material.comparison.as_ref().ok().and_then(|comparison| {
        let mut heaters = comparison.sizing.heaters.iter();
        let size = heaters.find(|size| size.heater_for == HeaterFor::FrostGuard)?;
        size.rating_w.as_ref().ok().copied()
    });
    match size {
        Some(watts) => format!(
            "No heater is written down. To hold {guard} inside at {design} outside, look for {}.",
            Kind::Watts.text(watts)
        ),
        None => "No heater is written down.".to_owned(),
    }
}

/// Where the air change very likely lies, and the one thing that would make it surer; nothing before
/// that was worked out.
fn how_sure(part: &mut Part, material: &Material<'_>) {
    if let Some(sentence) = calibrated_sentence(material.study) {
        part.line(format!("{sentence}."), Leads::Measurements);
    }
    let Some(found) = material.uncertainty else {
        return;
    };
    let windy = ends(material).pop();
    let interval = windy.and_then(|windy| {
        let mut cases = found.cases.iter();
        let case = cases.find(|case| case.id == windy.id)?;
        Some((windy, case.ach_per_h.as_ref().ok()?))
    });
    if let Some((windy, interval)) = interval {
        part.line(
            format!(
                "How sure: in “{}” the air is very likely new every {} to every {}.",
                windy.name,
                renewed(interval.high),
                renewed(interval.low)
            ),
            Leads::AirChange,
        );
    }
    if found.outweighed.is_some() {
        part.line(
            "Most of the doubt is the wind: a test of the air change makes it surer, measuring gaps does not.",
            Leads::AirChange,
        );
    } else {
        let next = found.measure_next.iter();
        let next = next.filter_map(|next| Some((next.item, next.act.as_ref()?)));
        match next.into_iter().next() {
            Some((item, act)) => part.line(
                format!("To be surer, {act}."),
                Leads::Place(Place::whole(item)),
            ),
            None => part.line(
                "No single size is worth measuring again; a test of the air change would make it surer.",
                Leads::AirChange,
            ),
        }
    }
}
