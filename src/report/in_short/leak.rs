//! How leaky the vehicle is, and what that does to damp and heat.

use super::page::{Leads, Line, Part, Picture};
use crate::assess::drying::{Comparison, OptionKind, Shares};
use crate::assess::in_short::{Pick, pick};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, counted, given, listed, sentence};
use crate::assess::{Answer, CaseAnswer, Mark};
use crate::report::Material;
use crate::report::drying::target;
use crate::report::results::{ach, litres, watts};
use crate::report::words::{nothing_done, renewed};
use crate::survey::{
    Field, Item, Place, Purpose, SetUp, Severity, Survey, VehicleKind, findings, leave,
};

/// Side of the square hole in centimetres, with *at least* where gaps are missing from it.
pub(super) fn hole(material: &Material<'_>) -> Answer<String> {
    let leakage = &material.assessment.leakage;
    let side = leakage.square_side.clone()?;
    let total = leakage.unintended.as_ref().map_err(Clone::clone)?;
    total.known()?;
    let least = if total.lacks_some() { "at least " } else { "" };
    Ok(format!(
        "{least}{} × {}",
        Kind::SideCm.number(side),
        Kind::SideCm.text(side)
    ))
}

/// What the vehicle is called in a sentence.
fn vehicle(kind: VehicleKind) -> &'static str {
    match kind {
        VehicleKind::Other => "vehicle",
        kind => kind.name(),
    }
}

fn no_leak(material: &Material<'_>) -> bool {
    let survey = material.survey;
    let mut gaps = survey.gaps.iter();
    !gaps.any(|gap| leave::counts_as_leak(survey, gap))
}

/// How leaky it is, in a sentence.
pub(super) fn headline(material: &Material<'_>) -> Line {
    let words = if no_leak(material) {
        no_leak_words(material.survey)
    } else {
        match hole(material) {
            Ok(hole) => format!(
                "This {} leaks as if a hole of {hole} stood open.",
                vehicle(material.survey.vehicle.kind)
            ),
            Err(unknown) => format!("How leaky it is, is not known: {}.", unknown.reason),
        }
    };
    Line::new(words, Leads::Gaps)
}

/// Why nothing can be said of leaks where no gap counts as one.
fn no_leak_words(survey: &Survey) -> String {
    let gaps = &survey.gaps;
    let mut not_said = gaps.iter().map(|gap| leave::purpose(survey, gap));
    match gaps.len() {
        0 => "No gap is written down yet, so nothing can be said of its leaks.".to_owned(),
        1 if not_said.any(|purpose| purpose == Purpose::NotSaid) => {
            "The one gap written down counts as a leak only once it is said what it is there for."
                .to_owned()
        }
        count if not_said.any(|purpose| purpose == Purpose::NotSaid) => format!(
            "None of the {count} gaps counts as a leak yet: say what each of them is there for."
        ),
        _ => "No leak is written down yet, only openings that protect people.".to_owned(),
    }
}

/// What the walk round has left out, before anything is advised: a vehicle of which one seam was looked
/// at needs next to nothing to keep it dry, by that seam.
pub(super) fn not_looked(material: &Material<'_>) -> Option<Line> {
    let survey = material.survey;
    let progress = survey.progress();
    let left = progress.places - progress.looked();
    if !survey.has_walked() || left == 0 || survey.gaps.is_empty() {
        return None;
    }
    let was = if left == 1 { "was" } else { "were" };
    let first = if progress.open() > 0 {
        " Look there before you buy anything."
    } else {
        ""
    };
    let words = format!(
        "▲ {} of {} {was} not looked at: what leaks there is not in these answers.{first}",
        counted(left, "usual place", "usual places"),
        progress.places,
    );
    Some(Line::new(words, Leads::Gaps))
}

/// The weather cases with least and with most wind, one where they are the same.
pub(super) fn ends<'a>(material: &Material<'a>) -> Vec<&'a CaseAnswer> {
    let Some((calm, windy)) = material.assessment.calmest_and_windiest else {
        return Vec::new();
    };
    let mut places = vec![calm, windy];
    places.dedup();
    let cases = &material.assessment.cases;
    places.into_iter().filter_map(|at| cases.get(at)).collect()
}

/// The hole, how soon the air is new, and what that does to damp and heat.
pub(super) fn part(material: &Material<'_>) -> Part {
    let mut part = Part::new("How leaky, and what that does");
    if material.survey.gaps.is_empty() {
        part.line(
            "No gap is written down yet: begin with those that can be seen or felt.",
            Leads::Gaps,
        );
    } else {
        let drawn = !no_leak(material) && hole(material).is_ok();
        part.picture = drawn.then_some(Picture::Hole);
        air(&mut part, material);
        stale(&mut part, material);
    }
    if !material.survey.gaps.is_empty() {
        does(&mut part, material);
    }
    part
}

fn air(part: &mut Part, material: &Material<'_>) {
    let cases = ends(material);
    let every: Answer<Vec<String>> = cases.iter().map(|case| Ok(renewed(ach(case)?))).collect();
    match (cases.as_slice(), every.as_deref()) {
        ([], _) => part.line("No weather is written down.", weather()),
        (_, Err(unknown)) => part.line(
            format!("How soon the air inside is new is not known: {}.", unknown.reason),
            volume(),
        ),
        ([only], Ok([every])) => part.line(
            format!("The air inside is new every {every} in “{}”.", only.name),
            Leads::AirChange,
        ),
        ([calm, windy], Ok([in_calm, in_wind])) => part.line(
            format!(
                "The air inside is new every {in_calm} in “{}”, every {in_wind} in the most wind, “{}”.",
                calm.name, windy.name
            ),
            Leads::AirChange,
        ),
        _ => {}
    }
}

/// Where the weather is entered.
fn weather() -> Leads {
    Leads::Place(Place::whole(Item::Site))
}

/// Where the volume is entered.
fn volume() -> Leads {
    Leads::Place(Place::at(Item::Vehicle, Field::Volume))
}

/// Names told of surfaces that become too damp.
const SURFACES: usize = 2;

/// What the leaks do to damp and heat.
fn does(part: &mut Part, material: &Material<'_>) {
    if let Ok(comparison) = material.comparison
        // A winter that was run says of mould what comes of all its weather.
        && comparison.shares == Shares::WeatherCases
    {
        surfaces(part, comparison);
    }
    // In use it is kept at comfort: what that costs stands with the options.
    if material.survey.set_up == SetUp::InUse {
        return;
    }
    match material.comparison.as_ref().ok().and_then(needs_heat) {
        Some(words) => part.line(words, Leads::DryingHeat),
        None => takes(part, material),
    }
}

/// Whether what is advised needs heat, in a sentence; nothing where nothing suffices.
fn needs_heat(comparison: &Comparison) -> Option<String> {
    let at = match pick(comparison) {
        Pick::NothingNeeded => {
            return Some("It is dry enough without heat and without a machine.".to_owned());
        }
        Pick::Take(at) => at,
        Pick::NoneSuffices(_) => return None,
    };
    let option = comparison.options.get(at)?;
    let name = format!("“{}”", option.name);
    Some(match option.kind {
        OptionKind::Machine(_) => {
            format!("In this weather {name} needs no heat beside it.")
        }
        OptionKind::HeatAndMachine => format!("It takes heat and a machine at once: {name}."),
        OptionKind::BackgroundHeat => format!("Heat alone keeps it dry: {name}."),
        _ => format!("It takes neither heat nor a machine: {name}."),
    })
}

/// How much water has to come out, and heat to go in.
fn takes(part: &mut Part, material: &Material<'_>) {
    let targets = &material.survey.targets;
    // No heat brings it to less than it is outside.
    let warmer = |case: &&CaseAnswer| {
        let mut weather = material.survey.weather.iter();
        let own = weather.find(|weather| weather.id == case.id);
        own.is_some_and(|own| own.outside_c > targets.set_temperature_c)
    };
    if ends(material).iter().any(warmer) {
        return;
    }
    let (rh, set) = (
        Kind::RelativeHumidity.typed(targets.rh_percent),
        Kind::Celsius.with_unit(&given(targets.set_temperature_c)),
    );
    let water = span(material, Kind::Litres, litres);
    let heat = span(material, Kind::Watts, watts);
    match (water, heat) {
        (Ok(water), Ok(heat)) => part.line(
            format!(
                "To keep {rh} at {set}, {water} of water a day must come out and {heat} of heat go in."
            ),
            Leads::DryingHeat,
        ),
        (water, heat) => {
            let why = water.err().or(heat.err());
            let why = why.map_or_else(String::new, |unknown| format!(": {}", unknown.reason));
            part.line(
                format!("How much water has to come out and heat to go in is not known{why}."),
                Leads::to_lacking(material.survey),
            );
        }
    }
}

/// A result from the weather with least wind to that with most.
fn span(material: &Material<'_>, kind: Kind, of: fn(&CaseAnswer) -> Answer<f64>) -> Answer<String> {
    let each: Answer<Vec<f64>> = ends(material).into_iter().map(of).collect();
    let each = each?;
    let (low, high) = each
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(*value), high.max(*value))
        });
    if each.is_empty() {
        return Err(crate::assess::NotKnown::because(
            "no weather is written down",
        ));
    }
    Ok(kind.with_unit(&kind.span(low, high)))
}

/// How damp it is with nothing done, in a sentence; nothing where no gap is written down.
pub(super) fn damp(material: &Material<'_>) -> Option<Line> {
    let comparison = material.comparison.as_ref().ok()?;
    if material.survey.gaps.is_empty() {
        return None;
    }
    let mean = comparison.mean_rh(0).ok()?;
    let (rh, target) = (Kind::RelativeHumidity.text(mean), target(comparison));
    let words = capital(&nothing_done(material.survey));
    let sign = if mean > comparison.target_rh {
        "▲ "
    } else {
        ""
    };
    Some(Line::new(
        format!(
            "{sign}{words} it is {rh} humid inside, on average over the season; at most {target} is wanted."
        ),
        Leads::DryingHeat,
    ))
}

/// That what people give off is in no figure, where they live in it and nobody has written it down.
pub(super) fn without_people(material: &Material<'_>) -> Option<Line> {
    let survey = material.survey;
    let told = findings::lacks_people(survey) && !survey.gaps.is_empty();
    let sources = Leads::Place(Place::whole(Item::Drying));
    told.then(|| Line::new(format!("▲ {}", sentence(findings::NO_PEOPLE)), sources))
}

/// Air that grows stale while everybody sleeps, short of a danger.
fn stale(part: &mut Part, material: &Material<'_>) {
    let berths = Place::at(Item::Vehicle, Field::Berths);
    let findings = material.assessment.findings.iter();
    let mut stale =
        findings.filter(|finding| finding.place == berths && finding.severity == Severity::Warning);
    if let Some(finding) = stale.next() {
        let words = format!(
            "▲ {} {}",
            sentence(&finding.sentence),
            sentence(&finding.advice)
        );
        part.line(Mark::without(&words), Leads::Place(berths));
    }
}

/// Surfaces that become too damp with nothing done.
fn surfaces(part: &mut Part, comparison: &Comparison) {
    let Some(idle) = comparison.options.first() else {
        return;
    };
    let mut names: Vec<&str> = Vec::new();
    let cases = comparison.cases.iter().zip(&idle.cases);
    let season = cases.filter(|(case, _)| case.share > 0.0);
    for surface in season.flat_map(|(_, state)| state.iter().flat_map(|one| &one.surfaces)) {
        let name = surface.name.trim();
        if surface.exceeds && !name.is_empty() && !names.contains(&name) {
            names.push(name);
        }
    }
    if names.is_empty() {
        return;
    }
    let more = names.len().saturating_sub(SURFACES);
    let told = names.iter().take(SURFACES);
    let told = told.map(|name| format!("\u{201c}{name}\u{201d}"));
    let rest = (more > 0).then(|| counted(more, "more", "more"));
    // Else whoever reads that it is dry enough takes the two for a contradiction.
    let dry = comparison
        .mean_rh(0)
        .is_ok_and(|mean| mean <= comparison.target_rh);
    let begins = if dry {
        "Dry enough inside, yet in some weather water, mould or rust can come on cold surfaces:"
    } else {
        "Water, mould or rust can come in some weather on"
    };
    part.line(
        format!("{begins} {}.", listed(told.chain(rest))),
        Leads::DryingHeat,
    );
}
