//! Results in plain words, then as a table.

use super::blocks::{Align, Block, Reasons, Section, Table};
use super::drying::held;
use super::plan::material_alone;
use super::safety::{danger, is_closed};
use super::words::{CM2, L_PER_DAY, interval, price};
use super::{Material, spaces};
use crate::assess::sealing::{Chosen, Work};
use crate::assess::uncertainty::CaseUncertainty;
use crate::assess::words::{self, capital, given, total_figure};
use crate::assess::{Answer, CaseAnswer, NotKnown, SafetyVerdict};
use crate::survey::{Finding, Severity};

/// Warnings printed before the rest is only counted.
const MOST_WARNINGS: usize = 12;

pub(crate) fn section(material: &Material<'_>, work: &Answer<Work>) -> Section {
    let mut section = Section::new("Results in plain words");
    let mut sentences = vec![leakage(material)];
    let empty = material.survey.gaps.is_empty();
    if !empty {
        sentences.extend(air(material));
        sentences.extend(water_and_heat(material));
        sentences.extend(sealing(material, work));
        sentences.push(drying(material));
    }
    sentences.push(safety(material));
    section.push(Block::Plain { sentences });
    findings(&mut section, &material.assessment.findings);
    if empty {
        return section;
    }
    section.heading("Results by weather");
    let mut reasons = Reasons::default();
    let table = by_weather(material, &mut reasons);
    section.table(table, &reasons);
    section.note(small_print(material));
    spaces::add(&mut section, material);
    section
}

/// ` (very likely 30 to 80 cm²)`, where the doubt was worked out.
fn likely(words: Option<String>, unit: &str) -> String {
    words.map_or_else(String::new, |words| {
        let about = if words.contains(" to ") { "" } else { "about " };
        format!(" (very likely {about}{words}{unit})")
    })
}

fn leakage(material: &Material<'_>) -> String {
    let gaps = &material.survey.gaps;
    if gaps.is_empty() {
        return "No gaps are written down yet: how leaky the vehicle is, is not known.".to_owned();
    }
    if gaps.iter().all(|gap| gap.purpose.must_stay_open()) {
        return "No gaps that nobody wanted are written down yet: how leaky the vehicle is, is not known."
            .to_owned();
    }
    let leakage = &material.assessment.leakage;
    let area = leakage.unintended.as_ref().map_err(Clone::clone);
    let lacks = area.as_ref().is_ok_and(|total| total.not_sized > 0);
    let at_least = if lacks { "at least " } else { "" };
    let area = area.and_then(|total| total_figure(total, total.figures.eqla * CM2, 3));
    let uncertainty = material
        .uncertainty
        .map(|uncertainty| interval(&uncertainty.eqla_unintended, CM2));
    match (&area, &leakage.square_side) {
        (Ok(area), Ok(side)) => format!(
            "Gaps that nobody wanted let in as much air as {at_least}a square hole with sides of \
             {}\u{a0}mm: leakage area EqLA {area}\u{a0}cm²{}.",
            words::side_mm(*side),
            likely(uncertainty, "\u{a0}cm²")
        ),
        (Ok(area), Err(_)) => format!(
            "Leakage area of the gaps that nobody wanted (EqLA): {area}\u{a0}cm²{}.",
            likely(uncertainty, "\u{a0}cm²")
        ),
        (Err(unknown), _) => format!(
            "The leakage area of the gaps that nobody wanted is not known: {}.",
            unknown.reason
        ),
    }
}

/// The calmest and the windiest case, one where they are the same.
fn both<'a>(material: &Material<'a>) -> Vec<(&'a CaseAnswer, Option<&'a CaseUncertainty>)> {
    let Some((calmest, windiest)) = material.assessment.calmest_and_windiest else {
        return Vec::new();
    };
    let mut places = vec![calmest, windiest];
    places.dedup();
    let cases = &material.assessment.cases;
    places
        .into_iter()
        .filter_map(|at| {
            let case = cases.get(at)?;
            Some((case, uncertainty(material, case)))
        })
        .collect()
}

fn uncertainty<'a>(material: &Material<'a>, case: &CaseAnswer) -> Option<&'a CaseUncertainty> {
    let cases = &material.uncertainty?.cases;
    cases.iter().find(|one| one.id == case.id)
}

pub(crate) fn ach(case: &CaseAnswer) -> Answer<f64> {
    case.air
        .as_ref()
        .map_err(Clone::clone)?
        .mean_ach_per_h
        .clone()
}

pub(crate) fn removal(case: &CaseAnswer) -> Answer<f64> {
    let drying = case.drying.as_ref().map_err(Clone::clone)?;
    Ok(drying.at_set_temperature.l_per_day())
}

pub(crate) fn heat(case: &CaseAnswer) -> Answer<f64> {
    let heat = case.heat.as_ref().map_err(Clone::clone)?;
    heat.set_temperature.total_w()
}

fn air(material: &Material<'_>) -> Vec<String> {
    both(material)
        .into_iter()
        .map(|(case, uncertainty)| match ach(case) {
            Ok(ach) => {
                let uncertainty =
                    uncertainty.and_then(|uncertainty| uncertainty.ach_per_h.as_ref().ok());
                format!(
                    "In the weather case “{}” the air inside is replaced {} times an hour{}.",
                    case.name,
                    words::air_changes(ach),
                    likely(
                        uncertainty.map(|uncertainty| interval(uncertainty, 1.0)),
                        ""
                    )
                )
            }
            Err(unknown) => format!(
                "How often the air is replaced in the weather case “{}” is not known: {}.",
                case.name, unknown.reason
            ),
        })
        .collect()
}

fn water_and_heat(material: &Material<'_>) -> Vec<String> {
    let targets = &material.survey.targets;
    let (set, rh) = (given(targets.set_temperature_c), given(targets.rh_percent));
    let mut sentences = Vec::new();
    for (case, uncertainty) in both(material) {
        let water = removal(case).map(|litres| {
            let uncertainty =
                uncertainty.and_then(|uncertainty| uncertainty.removal_l_per_day.as_ref().ok());
            if litres <= 0.0 {
                let most = uncertainty.map_or(0.0, |uncertainty| uncertainty.high);
                return if most > 0.0 {
                    format!(
                        "no water need be removed (very likely at most {}\u{a0}L a day)",
                        words::litres(most)
                    )
                } else {
                    "no water need be removed".to_owned()
                };
            }
            format!(
                "{}\u{a0}L of water{} must be removed a day",
                words::litres(litres),
                likely(
                    uncertainty.map(|uncertainty| interval(uncertainty, 1.0)),
                    "\u{a0}L"
                )
            )
        });
        let warmth = heat(case).map(|watts| {
            let uncertainty = uncertainty.and_then(|uncertainty| uncertainty.heat_w.as_ref().ok());
            if watts < 0.5 {
                return "no heat is needed".to_owned();
            }
            format!(
                "{}\u{a0}W of heat{} are needed",
                words::watts(watts),
                likely(
                    uncertainty.map(|uncertainty| interval(uncertainty, 1.0)),
                    "\u{a0}W"
                )
            )
        });
        let mut known: Vec<String> = Vec::new();
        let mut unknown: Vec<String> = Vec::new();
        for (what, answer) in [("water", water), ("heat", warmth)] {
            match answer {
                Ok(words) => known.push(words),
                Err(NotKnown { reason }) => {
                    unknown.push(format!("the {what} is not known: {reason}"))
                }
            }
        }
        known.extend(unknown);
        sentences.push(format!(
            "To hold {rh}\u{a0}% relative humidity at {set}\u{a0}°C in “{}”: {}.",
            case.name,
            known.join("; ")
        ));
    }
    sentences
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
    };
    Some(format!(
        "{which} ({}) costs about {}{} and brings the air change with most wind from {} to {} an hour.",
        work.steps.len(),
        price(material.survey, work.plan.cost),
        material_alone(&work.plan),
        words::air_changes(*before),
        words::air_changes(*after)
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
    match &material.assessment.safety.verdict {
        SafetyVerdict::Meets => {
            "Fixed safety ventilation meets the table, as far as free areas say.".to_owned()
        }
        SafetyVerdict::Below { .. } => {
            "Fixed safety ventilation is below the table: see the caution below.".to_owned()
        }
        SafetyVerdict::NotKnown(unknown) => format!(
            "Whether fixed safety ventilation suffices is not known: {}.",
            unknown.reason
        ),
    }
}

/// Dangers and errors in boxes, warnings as points. What stands at the top of the sheet is left
/// out.
fn findings(section: &mut Section, findings: &[Finding]) {
    for severity in [Severity::Danger, Severity::Error] {
        let of_it = findings.iter().filter(|one| one.severity == severity);
        for finding in of_it.filter(|one| !is_closed(one)) {
            section.push(danger(finding));
        }
    }
    let warnings = || {
        findings
            .iter()
            .filter(|one| one.severity == Severity::Warning)
    };
    let mut points: Vec<String> = warnings()
        .take(MOST_WARNINGS)
        .map(|finding| format!("{}; {}.", capital(&finding.sentence), finding.advice))
        .collect();
    if points.is_empty() {
        return;
    }
    let more = warnings().count().saturating_sub(MOST_WARNINGS);
    if more > 0 {
        points.push(format!("And {more} more, which the survey file holds."));
    }
    section.heading("What to keep in mind");
    section.push(Block::Points { points });
}

fn by_weather(material: &Material<'_>, reasons: &mut Reasons) -> Table {
    let with_intervals = material.uncertainty.is_some();
    let mut table = Table::default().wide("Weather case", Align::Left, 1);
    for head in ["Air changes, /h", "Water, L/day", "Heat, W"] {
        table = table.column(head, Align::Decimal);
        if with_intervals {
            table = table.column("95 %", Align::Left);
        }
    }
    table = table.column("ACH lowest and highest", Align::Left);
    for case in &material.assessment.cases {
        let uncertainty = uncertainty(material, case);
        let mut cells = vec![case.name.clone()];
        let mut add = |value: String, interval: Option<String>| {
            cells.push(value);
            if with_intervals {
                cells.push(interval.unwrap_or_default());
            }
        };
        add(
            reasons.or(&ach(case), |ach| words::air_changes(*ach)),
            uncertainty
                .and_then(|uncertainty| uncertainty.ach_per_h.as_ref().ok())
                .map(|uncertainty| interval(uncertainty, 1.0)),
        );
        add(
            reasons.or(&removal(case), |litres| words::litres(*litres)),
            uncertainty
                .and_then(|uncertainty| uncertainty.removal_l_per_day.as_ref().ok())
                .map(|uncertainty| interval(uncertainty, 1.0)),
        );
        add(
            reasons.or(&heat(case), |watts| words::watts(*watts)),
            uncertainty
                .and_then(|uncertainty| uncertainty.heat_w.as_ref().ok())
                .map(|uncertainty| interval(uncertainty, 1.0)),
        );
        cells.push(reasons.or(&extremes(case), String::clone));
        table.row(cells);
    }
    table
}

fn extremes(case: &CaseAnswer) -> Answer<String> {
    let air = case.air.as_ref().map_err(Clone::clone)?;
    let of = |at: usize| {
        let direction = air.directions.get(at);
        let direction =
            direction.ok_or_else(|| NotKnown::because("no wind direction was worked out"))?;
        direction.ach_per_h.clone()
    };
    Ok(format!(
        "{} to {}",
        words::air_changes(of(air.lowest)?),
        words::air_changes(of(air.highest)?)
    ))
}

fn small_print(material: &Material<'_>) -> String {
    let targets = &material.survey.targets;
    let source = material.assessment.cases.iter().find_map(|case| {
        let drying = case.drying.as_ref().ok()?;
        Some(words::litres(drying.source_kg_s * L_PER_DAY))
    });
    let source = source.map_or_else(String::new, |litres| {
        format!(" Of the water, {litres}\u{a0}L a day are given off inside.")
    });
    let uncertainty = material.uncertainty.map_or("", |_| {
        " “Very likely” and “95 %” give the middle 95 % of 10 000 draws of what is in doubt: sizes \
         as measured, estimated or guessed, pressure coefficients, wind."
    });
    format!(
        "Air changes: means over 16 wind directions. Water to remove and heat: to hold {}\u{a0}% \
         relative humidity at {}\u{a0}°C inside.{source}{uncertainty}",
        given(targets.rh_percent),
        given(targets.set_temperature_c)
    )
}
