//! Safety ventilation against the minimum free areas of a code of practice.
//!
//! Refrigerator grilles open to a compartment that must be sealed from the living space \[S\]:
//! they count nothing here.

pub mod asked;
mod by_space;
pub mod words;

use by_space::Ways;

use super::answer::{Answer, NotKnown, Safety, SafetyRequirement, SafetyVerdict};
use super::law::{GapLaw, free_area};
use crate::survey::gap::{Behind, Facing, Gap, LeadsTo, Purpose};
use crate::survey::{Field, Finding, Item, Place, SetUp, Severity, Survey, WorkState};

/// A low opening lies at most this far above the floor, m \[R\].
const LOW_ABOVE_FLOOR: f64 = 0.1;

/// Square metres in a square millimetre.
const MM2: f64 = 1e-6;

/// Where a ventilator counts.
enum Level {
    HighInRoof,
    HighElsewhere,
    Low,
    Neither,
}

/// At which level a ventilator counts: in the roof; low, where its upper edge is at most 100 mm
/// above the floor \[R\] or it faces the underfloor; high, where its middle is in the upper half of
/// the body \[A\]; otherwise at neither.
///
/// # Errors
/// [`NotKnown`] where a height that decides is not given.
fn level(survey: &Survey, gap: &Gap) -> Answer<Level> {
    if gap.facing == Facing::Roof {
        return Ok(Level::HighInRoof);
    }
    if gap.facing == Facing::Underfloor {
        return Ok(Level::Low);
    }
    let unknown = |what: &str| {
        NotKnown::because(format!(
            "{what} is not given, so whether ventilator {} is high or low is not known",
            gap.id
        ))
    };
    let height = gap.position.height_m.ok_or_else(|| unknown("its height"))?;
    let floor = survey
        .vehicle
        .floor_height_m
        .ok_or_else(|| unknown("the floor height"))?;
    let middle = survey
        .vehicle
        .middle_height_m()
        .ok_or_else(|| unknown("the roof height"))?;
    let top = height + gap.position.rise_m.map_or(0.0, |rise| rise / 2.0);
    Ok(if top - floor <= LOW_ABOVE_FLOOR {
        Level::Low
    } else if height >= middle {
        Level::HighElsewhere
    } else {
        Level::Neither
    })
}

/// Free area of a ventilator that stays open whatever anybody closes, m².
///
/// ```text
/// A = min(n A₁, A_f) · c/100
/// ```
/// where n is how many are alike, A₁ the free area of one, A_f that of the opening in front of
/// them if there is one, and c what passes when closed, % (100 where it does not close). The smaller area counts, not the two in series: free
/// area is asked for, not flow \[A\].
///
/// # Errors
/// [`NotKnown`] where it is not sized, or given by a flow or an equivalent area.
fn lasting_free_area(survey: &Survey, gap: &Gap, law: &GapLaw) -> Answer<f64> {
    match law {
        GapLaw::NotSized(reason) | GapLaw::Impossible(reason) => {
            return Err(NotKnown::because(format!(
                "safety ventilator {}: {reason}",
                gap.id
            )));
        }
        GapLaw::Flows(_) | GapLaw::Compartment => {}
    }
    let own = free_area(&gap.form).ok_or_else(|| {
        NotKnown::because(format!(
            "safety ventilator {} is given by a flow or an equivalent area; its free area is asked for",
            gap.id
        ))
    })?;
    let in_front = match gap.behind {
        None => None,
        Some(Behind::Opening { free_area_mm2 }) => free_area_mm2.map(|area| area * MM2),
        Some(Behind::Gap(outer)) => survey
            .gap(outer)
            .and_then(|outer| free_area(&outer.form).map(|area| area * f64::from(outer.count))),
    };
    let all = own * f64::from(gap.count);
    let all = in_front.map_or(all, |area| all.min(area));
    let closed = gap
        .closing
        .map_or(1.0, |closing| closing.leaves_percent / 100.0);
    Ok(all * closed)
}

/// Adds up the surveyed safety ventilation and holds it against the code of practice.
///
/// Only gaps with that purpose that lead into the living space count; of several spaces inside only
/// what lets air into the first, where people sleep. One whose level is not
/// known may be low or high, so it leaves both sums *not known*. One that is marked sealed counts
/// nothing, whatever its remedy leaves. Until the surveyor has confirmed the list of appliances,
/// what is asked for and the verdict are *not known*.
pub(crate) fn safety(survey: &Survey, laws: &[GapLaw]) -> Safety {
    let mut safety = as_listed(survey, laws, |gap| gap.state == WorkState::Sealed);
    if !survey.appliances_confirmed {
        let why = || NotKnown::because(NOT_CONFIRMED);
        safety.required = safety.required.and_then(|_| Err(why()));
        safety.verdict = SafetyVerdict::NotKnown(why());
    }
    safety
}

/// Why what is asked for is not known before the appliances are.
const NOT_CONFIRMED: &str =
    "which appliances burn in the vehicle is not confirmed, and what must stay open hangs on them";

/// Plan area of the vehicle, m².
///
/// # Errors
/// [`NotKnown`] where its length or width is not given, or cannot be: no row goes by that.
fn plan_area_m2(survey: &Survey) -> Answer<f64> {
    let vehicle = &survey.vehicle;
    let area = vehicle.plan_area_m2().ok_or_else(|| {
        NotKnown::because("the outside length or width of the vehicle is not given")
    })?;
    let sizes = [
        (Field::Length, vehicle.length_m),
        (Field::Width, vehicle.width_m),
    ];
    let mut sizes = sizes.into_iter();
    if sizes.all(|(field, size)| size.is_none_or(|size| field.allows(size))) {
        Ok(area)
    } else {
        Err(NotKnown::because(
            "the outside length or width of the vehicle is not possible",
        ))
    }
}

/// The same for the appliances listed so far, with some ventilators closed.
fn as_listed(survey: &Survey, laws: &[GapLaw], closed: impl Fn(&Gap) -> bool) -> Safety {
    let plan_area_m2 = plan_area_m2(survey);
    let required = asked::asked(survey, &plan_area_m2);
    let mut sums = [Ok(0.0), Ok(0.0), Ok(0.0)];
    let mut ways = Ways::new(survey);
    for (gap, law) in survey.gaps.iter().zip(laws) {
        if gap.purpose != Purpose::SafetyVentilation || gap.leads_to == LeadsTo::Compartment {
            continue;
        }
        let level = level(survey, gap);
        let area = if closed(gap) {
            Ok(0.0)
        } else {
            lasting_free_area(survey, gap, law).map(|area| ways.pass(gap, area))
        };
        let targets: &[usize] = match &level {
            Ok(Level::HighInRoof) => &[0],
            Ok(Level::HighElsewhere) => &[1],
            Ok(Level::Low) => &[2],
            Ok(Level::Neither) => &[],
            Err(_) => &[1, 2],
        };
        let area = level.and(area);
        for (at, sum) in sums.iter_mut().enumerate() {
            if targets.contains(&at) {
                *sum = match (sum.clone(), area.clone()) {
                    (Ok(sum), Ok(area)) => Ok(sum + area),
                    (Err(reason), _) | (_, Err(reason)) => Err(reason),
                };
            }
        }
    }
    let [high_in_roof, high_elsewhere, low] = sums;
    let verdict = verdict(&required, &high_in_roof, &high_elsewhere, &low);
    Safety {
        code: survey.vehicle.code_of_practice,
        plan_area_m2,
        required,
        high_in_roof,
        high_elsewhere,
        low,
        verdict,
    }
}

/// Whether the sums meet the minimum.
///
/// ```text
/// A_roof/R + A_other/O ≥ 1   and   A_low/L ≥ 1
/// ```
/// where R, O and L are the areas asked for high in the roof, high elsewhere and low, m². Roof and
/// other high openings make up for each other pro rata \[A\].
fn verdict(
    required: &Answer<SafetyRequirement>,
    roof: &Answer<f64>,
    elsewhere: &Answer<f64>,
    low: &Answer<f64>,
) -> SafetyVerdict {
    let shares = (|| {
        let required = required.clone()?;
        let high =
            roof.clone()? / required.high_in_roof + elsewhere.clone()? / required.high_elsewhere;
        Ok::<_, NotKnown>((high, low.clone()? / required.low))
    })();
    match shares {
        // A ventilator of exactly the size asked for must not fail by the last bit of a sum.
        Ok((high, low)) if high >= 1.0 - 1e-9 && low >= 1.0 - 1e-9 => SafetyVerdict::Meets,
        Ok((high_share, low_share)) => SafetyVerdict::Below {
            high_share,
            low_share,
        },
        Err(reason) => SafetyVerdict::NotKnown(reason),
    }
}

/// Whose word goes before this program's, in every finding on safety ventilation.
pub(crate) const DEFER: &str = "follow the local code and have a licensed fitter check ventilation and gas before anybody sleeps in it or lights an appliance";

/// What the verdict means for the people inside.
pub(crate) fn findings(survey: &Survey, laws: &[GapLaw], safety: &Safety) -> Vec<Finding> {
    let finding = |severity, sentence: String| Finding {
        severity,
        place: Place::whole(Item::SafetyVentilation),
        sentence,
        advice: DEFER.to_owned(),
    };
    let mut findings = Vec::new();
    match &safety.verdict {
        SafetyVerdict::Meets => {}
        SafetyVerdict::Below {
            high_share,
            low_share,
        } => findings.push(finding(
            Severity::Danger,
            if *high_share > 0.0 || *low_share > 0.0 {
                format!(
                    "surveyed safety ventilation is below the minimum of {} [R]: {}",
                    safety.code.name(),
                    words::below(*high_share, *low_share)
                )
            } else {
                format!(
                    "no fixed ventilation that counts is written down: {} [R] asks for free area high up and \
                     low down",
                    safety.code.name()
                )
            },
        )),
        SafetyVerdict::NotKnown(reason) => findings.push(finding(
            Severity::Warning,
            format!(
                "whether safety ventilation suffices is not known: {}",
                reason.reason
            ),
        )),
    }
    findings.extend(
        worse(survey, laws, &safety.verdict).map(|sentence| finding(Severity::Danger, sentence)),
    );
    findings.extend(by_space::findings(survey, laws));
    for gap in &survey.gaps {
        let counted = gap.purpose == Purpose::SafetyVentilation
            && gap.leads_to == LeadsTo::LivingSpace
            && matches!(level(survey, gap), Ok(Level::Neither));
        if counted {
            findings.push(Finding {
                severity: Severity::Warning,
                place: Place::at(Item::Gap(gap.id), Field::MiddleHeight),
                sentence: format!(
                    "safety ventilator {} is neither within 100 mm of the floor [R] nor in the upper half of the body [A]: it counts neither as low nor as high",
                    gap.id
                ),
                advice: "check its height; openings are asked for high and low".to_owned(),
            });
        }
    }
    if asked::takes_air(survey) && survey.set_up == SetUp::InUse {
        findings.push(finding(
            Severity::Note,
            format!(
                "an appliance takes its air from the room: fit a carbon monoxide alarm ({})",
                words::ALARM
            ),
        ));
    }
    findings
}

/// What is worse than the verdict says: below the minimum for the appliances listed so far, while the
/// list is not confirmed; and what is left once ventilators that are marked planned are closed.
fn worse(survey: &Survey, laws: &[GapLaw], verdict: &SafetyVerdict) -> Option<String> {
    let planned =
        |gap: &Gap| gap.purpose == Purpose::SafetyVentilation && gap.state == WorkState::Planned;
    let closes = survey.gaps.iter().any(planned);
    let sealed = |gap: &Gap| gap.state == WorkState::Sealed;
    let listed = as_listed(survey, laws, |gap| sealed(gap) || planned(gap)).verdict;
    let SafetyVerdict::Below {
        high_share,
        low_share,
    } = listed
    else {
        return None;
    };
    let shares = words::below(high_share, low_share);
    if closes {
        return Some(format!(
            "closing the ventilators that are marked planned would leave {shares}"
        ));
    }
    matches!(verdict, SafetyVerdict::NotKnown(_)).then(|| {
        format!(
            "surveyed safety ventilation is below the minimum of {} [R], even for the \
             appliances listed so far: {shares}",
            survey.vehicle.code_of_practice.name()
        )
    })
}
