//! What to heed before the first gap of a plan is sealed.

use super::cost::not_priced;
use super::sealable::Sealable;
use crate::assess::answer::{Assessment, Safety, SafetyVerdict};
use crate::assess::factors::Factors;
use crate::assess::flues;
use crate::assess::safety;
use crate::survey::findings::is_damp;
use crate::survey::{Field, Finding, Item, Place, SetUp, Severity, Survey};

/// All of it, the gravest first; of the survey as it stands and with the plan's gaps sealed.
pub(super) fn heed(
    (survey, was): (&Survey, &Assessment),
    (done, will_be): (&Survey, &Assessment),
    sealables: &[Sealable],
    minutes_not_priced: f64,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    if minutes_not_priced > 0.0 {
        findings.push(Finding {
            severity: Severity::Warning,
            place: Place::at(Item::Tariffs, Field::Workshop),
            sentence: format!(
                "the cost is the material alone: {}",
                not_priced(minutes_not_priced).reason
            ),
            advice: "give the workshop's hourly rate, or 0 if the work is to count nothing"
                .to_owned(),
        });
    }
    findings.extend(damp(survey, sealables));
    if !sealables.is_empty() {
        findings.extend(short_of_ventilation(&will_be.safety));
        findings.extend(for_people((survey, was), (done, will_be)));
    }
    findings.sort_by_key(|finding| finding.severity);
    findings
}

/// Gaps that are sealed in beside a damp reading.
fn damp(survey: &Survey, sealables: &[Sealable]) -> Vec<Finding> {
    let gaps = sealables.iter().filter_map(|one| survey.gap(one.gap()));
    gaps.filter(|gap| is_damp(&gap.damp))
        .map(|gap| Finding {
            severity: Severity::Warning,
            place: Place::at(Item::Gap(gap.id), Field::Damp),
            sentence: format!(
                "gap {} is in the plan and there is a damp reading beside it ({})",
                gap.id, gap.damp
            ),
            advice: "find and mend the water leak before sealing it in".to_owned(),
        })
        .collect()
}

/// Fixed ventilation that does not suffice, or of which that is not known.
fn short_of_ventilation(after: &Safety) -> Option<Finding> {
    let (severity, sentence) = match &after.verdict {
        SafetyVerdict::Meets => return None,
        SafetyVerdict::Below { .. } => (
            Severity::Danger,
            format!(
                "sealing would take away air that now makes up for missing safety ventilation: what is surveyed lies below the minimum of {} [R]",
                after.code.name()
            ),
        ),
        SafetyVerdict::NotKnown(reason) => (
            Severity::Warning,
            format!(
                "whether safety ventilation suffices once this is sealed is not known: {}",
                reason.reason
            ),
        ),
    };
    Some(Finding {
        severity,
        place: Place::whole(Item::SafetyVentilation),
        sentence,
        advice: safety::DEFER.to_owned(),
    })
}

/// Stale air of sleepers and flue gas drawn back with the plan's gaps sealed, in use, whatever the
/// set-up shown: the work stays when people come back. A danger is told even where it stands already,
/// since sealing adds to it; a warning where it is not the same as before.
fn for_people(
    (survey, was): (&Survey, &Assessment),
    (done, will_be): (&Survey, &Assessment),
) -> Vec<Finding> {
    let factors = |of: &Assessment| Factors::of(of.calibrated.iter().copied());
    let mut then = flues::in_use(done, &factors(will_be));
    if then.iter().any(|one| one.severity != Severity::Danger) {
        let now = flues::in_use(survey, &factors(was));
        then.retain(|one| one.severity == Severity::Danger || !now.contains(one));
    }
    let once = match survey.set_up {
        SetUp::InUse => "once this is sealed, ",
        SetUp::LaidUp => "once this is sealed and it is in use again, ",
    };
    for finding in &mut then {
        finding.sentence.insert_str(0, once);
        if finding.place.item == Item::Vehicle {
            finding.advice = "make ventilation that cannot be shut first, then seal; until then sleep with a ventilator or window open".to_owned();
        }
    }
    then
}
