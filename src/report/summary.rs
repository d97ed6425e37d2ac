//! Results in plain words.

use super::blocks::{Block, Section};
use super::drying::held;
use super::leakage::{square_side, unintended};
use super::measured::calibrated_sentence;
use super::results::{air_change, heat, water};
use super::safety::is_closed;
use super::sealing::material_alone;
use super::{Material, findings};
use crate::assess::quantity::{Kind, Quantity, price_round};
use crate::assess::sealing::{Chosen, Work};
use crate::assess::words::{counted, given};
use crate::assess::{Answer, CaseAnswer};
use crate::survey::{GapId, leave};

/// The results in plain words, and the findings worth knowing.
pub(crate) fn section(material: &Material<'_>, work: &Answer<Work>) -> Section {
    let mut section = sentences(material, work);
    section.append(findings::section(&material.assessment.findings, is_closed));
    section
}

/// The results in plain words alone.
pub(crate) fn sentences(material: &Material<'_>, work: &Answer<Work>) -> Section {
    let mut section = Section::new("Results in plain words");
    let calibrated = calibrated_sentence(material.study);
    let mut sentences: Vec<String> = calibrated
        .map(|one| format!("{one}."))
        .into_iter()
        .collect();
    sentences.push(leakage(material));
    if !material.survey.gaps.is_empty() {
        sentences.extend(not_sized(material));
        sentences.extend(left_out(material));
        sentences.extend(air(material));
        sentences.extend(water_and_heat(material));
        sentences.extend(sealing(material, work));
        sentences.push(drying(material));
    }
    sentences.push(safety(material));
    section.push(Block::Plain { sentences });
    section
}

/// ` (very likely 30 to 80 cm²)`, where the draws were made.
fn likely(quantity: &Quantity, unit: &str) -> String {
    quantity.range().map_or_else(String::new, |range| {
        let about = if range.contains(" to ") { "" } else { "about " };
        format!(" (very likely {about}{range}{unit})")
    })
}

fn leakage(material: &Material<'_>) -> String {
    let gaps = &material.survey.gaps;
    if gaps.is_empty() {
        return "No gaps are written down yet: how leaky the vehicle is, is not known.".to_owned();
    }
    let survey = material.survey;
    if !gaps.iter().any(|gap| leave::counts_as_leak(survey, gap)) {
        return "No unintended gaps are written down yet: how leaky the vehicle is, is not known."
            .to_owned();
    }
    let area = unintended(material);
    let likely = likely(&area, "\u{a0}cm²");
    match (area.text(), square_side(material).text()) {
        (Ok(area), Ok(side)) => format!(
            "Unintended gaps let in as much air as a square hole with sides of {side}: \
             leakage area EqLA {area}{likely}."
        ),
        (Ok(area), Err(_)) => {
            format!("Leakage area of the unintended gaps (EqLA): {area}{likely}.")
        }
        (Err(unknown), _) => format!(
            "The leakage area of the unintended gaps is not known: {}.",
            unknown.reason
        ),
    }
}

fn not_sized(material: &Material<'_>) -> Option<String> {
    lacking(&material.assessment.leakage.not_sized, |gaps, ids| {
        format!(
            "{gaps} not sized ({ids}): in no total, so that air, water and heat lack them, and totals are at \
             least so much (≥)."
        )
    })
}

fn left_out(material: &Material<'_>) -> Option<String> {
    lacking(&material.assessment.leakage.left_out, |gaps, ids| {
        format!(
            "{gaps} left out ({ids}), since what is recorded of them cannot be: the findings say what to \
             mend. All results go without them, and totals are at least so much (≥)."
        )
    })
}

/// Words about gaps that totals lack, of how many they are and of their numbers.
fn lacking(gaps: &[GapId], words: impl FnOnce(&str, &str) -> String) -> Option<String> {
    let ids: Vec<String> = gaps.iter().map(GapId::to_string).collect();
    let how_many = counted(ids.len(), "gap is", "gaps are");
    (!ids.is_empty()).then(|| words(&how_many, &ids.join(", ")))
}

/// The calmest and the windiest case, one where they are the same.
fn both<'a>(material: &Material<'a>) -> Vec<&'a CaseAnswer> {
    let Some((calmest, windiest)) = material.assessment.calmest_and_windiest else {
        return Vec::new();
    };
    let mut places = vec![calmest, windiest];
    places.dedup();
    let cases = &material.assessment.cases;
    places.into_iter().filter_map(|at| cases.get(at)).collect()
}

fn air(material: &Material<'_>) -> Vec<String> {
    let sentence = |case: &CaseAnswer| {
        let changes = air_change(material, case);
        match changes.number() {
            Ok(number) => format!(
                "In the weather case “{}” the air inside is replaced {number} times an hour{}.",
                case.name,
                likely(&changes, "")
            ),
            Err(unknown) => format!(
                "How often the air is replaced in the weather case “{}” is not known: {}.",
                case.name, unknown.reason
            ),
        }
    };
    both(material).into_iter().map(sentence).collect()
}

fn water_and_heat(material: &Material<'_>) -> Vec<String> {
    let targets = &material.survey.targets;
    let (set, rh) = (given(targets.set_temperature_c), given(targets.rh_percent));
    let sentence = |case: &CaseAnswer| {
        let parts = [
            ("water", water_words(&water(material, case))),
            ("heat", heat_words(&heat(material, case))),
        ];
        let (known, unknown): (Vec<_>, Vec<_>) =
            parts.into_iter().partition(|(_, answer)| answer.is_ok());
        let words: Vec<String> = known
            .into_iter()
            .chain(unknown)
            .map(|(what, answer)| {
                answer.unwrap_or_else(|unknown| {
                    format!("the {what} is not known: {}", unknown.reason)
                })
            })
            .collect();
        format!(
            "To hold {rh}\u{a0}% relative humidity at {set}\u{a0}°C in “{}”: {}.",
            case.name,
            words.join("; ")
        )
    };
    both(material).into_iter().map(sentence).collect()
}

fn water_words(water: &Quantity) -> Answer<String> {
    let litres = water.value()?;
    if litres > 0.0 {
        return Ok(format!(
            "{}\u{a0}L of water{} must be removed a day",
            water.number()?,
            likely(water, "\u{a0}L")
        ));
    }
    let most = water.interval().map_or(0.0, |interval| interval.high);
    Ok(if most > 0.0 {
        format!(
            "no water need be removed (very likely at most {} a day)",
            Kind::Litres.text(most)
        )
    } else {
        "no water need be removed".to_owned()
    })
}

fn heat_words(heat: &Quantity) -> Answer<String> {
    if heat.value()? < 0.5 {
        return Ok("no heat is needed".to_owned());
    }
    Ok(format!(
        "{} of heat{} are needed",
        heat.text()?,
        likely(heat, "\u{a0}W")
    ))
}

fn sealing(material: &Material<'_>, work: &Answer<Work>) -> Option<String> {
    let work = work.as_ref().ok()?;
    let (before, after) = (&work.plan.before, &work.plan.after);
    let (before, after) = (
        before.ach_windy_per_h.as_ref().ok()?,
        after.ach_windy_per_h.as_ref().ok()?,
    );
    if work.steps.is_empty() {
        return None;
    }
    let which = match work.chosen {
        Chosen::Planned => "Sealing the gaps that are planned",
        Chosen::Proposed => "No gap is marked as planned. Sealing those that save most",
        Chosen::Within => "Sealing the best set for the money named",
    };
    Some(format!(
        "{which} ({}) costs about {}{} and brings the air change with most wind from {} to {} an hour.",
        work.steps.len(),
        price_round(work.plan.cost, &material.survey.tariffs.currency),
        material_alone(&work.plan),
        Kind::AirChanges.number(*before),
        Kind::AirChanges.number(*after)
    ))
}

fn drying(material: &Material<'_>) -> String {
    match material.comparison {
        Ok(comparison) => held(comparison),
        Err(unknown) => format!(
            "What drying and heating would achieve is not known: {}.",
            unknown.reason
        ),
    }
}

fn safety(material: &Material<'_>) -> String {
    let verdict = &material.assessment.safety.verdict;
    format!("Fixed safety ventilation: {}.", verdict.sentence())
}
