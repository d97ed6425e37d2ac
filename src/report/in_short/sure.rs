//! Down to which cold the heater holds, how sure the results are, and what would make them surer.

use super::leak::ends;
use super::page::{Leads, Part, Room};
use super::winter;
use crate::assess::calibration::MeasurementId;
use crate::assess::drying::HeaterFor;
use crate::assess::quantity::Kind;
use crate::assess::reach::{COLDEST_C, Reach, guard_reaches, reaches, told_watts};
use crate::assess::words::capital;
use crate::report::Material;
use crate::report::drying::NOT_BY_HEAT;
use crate::report::measured::calibrated_by;
use crate::report::words::renewed;
use crate::survey::{ApplianceKind, Field, Heater, HeaterFuel, Item, Place, SetUp, number};

/// Down to which cold each heater holds, and how sure all of it is.
pub(super) fn part(material: &Material<'_>, room: Room) -> Part {
    let mut part = Part::new("Frost, and how sure this is");
    frost(&mut part, material, room);
    how_sure(&mut part, material);
    part
}

fn frost(part: &mut Part, material: &Material<'_>, room: Room) {
    let survey = material.survey;
    let known = reaches(survey, &material.assessment.cases);
    let guards = guard_reaches(survey, &material.assessment.cases);
    let forbidden = |heater: &Heater| {
        let fuel = heater.fuel;
        fuel == HeaterFuel::UnfluedGas || (survey.set_up == SetUp::LaidUp && fuel.is_flame())
    };
    let mut heaters: Vec<&Heater> = survey.heaters.iter().collect();
    if room.tight {
        heaters.retain(|heater| !forbidden(heater));
    }
    for heater in heaters {
        let name = match heater.name.trim() {
            "" => "the heater".to_owned(),
            name => format!("“{name}”"),
        };
        let flame = heater.fuel.is_flame();
        let of = |all: &[Reach]| all.iter().find(|reach| reach.heater == heater.id).cloned();
        let guard = of(&guards).filter(|_| !flame);
        let rating = Leads::Place(Place::at(Item::Heater(heater.id), Field::Rating));
        let unflued = heater.fuel == HeaterFuel::UnfluedGas;
        match guard.or_else(|| of(&known)) {
            Some(reach) if unflued => {
                part.line(format!("▲ {NOT_UNFLUED}: {}", holds(&name, &reach)), rating)
            }
            // A flame is no frost guard of a vehicle that nobody is in.
            Some(reach) if survey.set_up == SetUp::LaidUp && flame => part.line(
                format!(
                    "▲ Only while somebody is there to watch the flame: {}",
                    holds(&name, &reach)
                ),
                rating,
            ),
            Some(reach) => part.line(
                format!("{} {}", sign(&reach), capital(&holds(&name, &reach))),
                rating,
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
    if survey.set_up == SetUp::InUse && known.iter().any(|reach| !reach.holds()) {
        part.line(
            "On a colder night than that it is neither as warm nor as dry as is said here.",
            Leads::DryingHeat,
        );
    }
    if let Some(run) = material.study.winter() {
        winter::lines(part, run, survey);
    } else if survey.set_up == SetUp::LaidUp {
        let mut heaters = survey.heaters.iter();
        let to_buy = heaters.any(|heater| !heater.owned && !heater.fuel.is_flame());
        let then = if to_buy {
            "Against frost no heater need be bought then."
        } else {
            NOT_BY_HEAT
        };
        part.line(
            format!("Drain the water whatever else you do. {then}"),
            Leads::DryingHeat,
        );
    }
}

/// What stands before the reach of a heater without a flue.
const NOT_UNFLUED: &str = "Not to be used in a closed vehicle, having no flue";

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
    let set_up = material.survey.set_up;
    let (wanted, held_c) = match set_up {
        SetUp::LaidUp => (HeaterFor::FrostGuard, targets.frost_guard_c),
        SetUp::InUse => (HeaterFor::Comfort, targets.comfort_c),
    };
    let (held, design) = (
        Kind::Celsius.typed(held_c),
        Kind::Celsius.typed(targets.design_outside_c),
    );
    let comparison = material.comparison.as_ref().ok();
    let mut appliances = material.survey.appliances.iter();
    let none = if appliances.any(|one| one.kind == ApplianceKind::SpaceHeater) {
        "How strong the heater is, is not written down"
    } else {
        "No heater is written down"
    };
    match comparison.and_then(|comparison| comparison.sizing.look_for_w(wanted)) {
        Some(watts) => format!(
            "{none}. To hold {held} inside at {design} outside, look for {}.",
            Kind::Watts.text(watts)
        ),
        None => format!("{none}."),
    }
}

/// Where the air change very likely lies, and the one thing that would make it surer; nothing before
/// that was worked out.
fn how_sure(part: &mut Part, material: &Material<'_>) {
    // What contradicts stands first on the page.
    if let Some(sentence) = calibrated_by(material.study) {
        part.line(format!("{sentence}."), Leads::Measurements);
    }
    let unsized_first = not_sized(part, material);
    let Some(found) = material.uncertainty else {
        return;
    };
    let mut ends = ends(material);
    let most_wind = if ends.len() > 1 {
        "in the most wind, "
    } else {
        "in "
    };
    let windy = ends.pop();
    let interval = windy.and_then(|windy| {
        let mut cases = found.cases.iter();
        let case = cases.find(|case| case.id == windy.id)?;
        Some((windy, case.ach_per_h.as_ref().ok()?))
    });
    if let Some((windy, interval)) = interval {
        part.line(
            format!(
                "How sure: {most_wind}“{}”, the air is very likely new every {}.",
                windy.name,
                from_to(&renewed(interval.high), &renewed(interval.low))
            ),
            Leads::AirChange,
        );
    }
    if unsized_first {
        return;
    }
    if found.outweighed.is_some() {
        part.line(
            format!("Most of the doubt is the wind: {}.", tested(material)),
            Leads::Measurements,
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

/// Gaps that are in no figure yet come before any test; whether there are any.
fn not_sized(part: &mut Part, material: &Material<'_>) -> bool {
    let missing = &material.assessment.leakage.not_sized;
    let ids: Vec<String> = missing.iter().map(ToString::to_string).collect();
    let Some(first) = missing.first() else {
        return false;
    };
    let (are, them) = match ids.len() {
        1 => ("is", "it"),
        _ => ("are", "them"),
    };
    part.line(
        format!(
            "{} {are} not sized yet, so it leaks more than is said here: size {them} first to be surer.",
            capital(&number::gaps(&ids))
        ),
        Leads::Place(Place::whole(Item::Gap(*first))),
    );
    true
}

/// Two times with their unit once, where it is the same.
fn from_to(low: &str, high: &str) -> String {
    let (low_number, high_number) = (low.split_once('\u{a0}'), high.split_once('\u{a0}'));
    match (low_number, high_number) {
        (Some((number, unit)), Some((_, other))) if unit == other => format!("{number} to {high}"),
        _ => format!("{low} to every {high}"),
    }
}

/// What a test of the air change would bring beside those there are.
fn tested(material: &Material<'_>) -> &'static str {
    let by = &material.study.calibration().by;
    let mut airs = by.iter().map(|one| one.of);
    if airs.any(|of| matches!(of, MeasurementId::AirTest(_))) {
        "another test of the air change, on a windy day, makes it surer, measuring gaps does not"
    } else if by.is_empty() {
        "a test of the air change makes it surer, measuring gaps does not"
    } else {
        "a fan test says nothing of it, a test of the air change on a windy day would"
    }
}
