//! Leakage areas: every gap's own, and the totals by zone, facing and purpose.

use super::answer::{
    Answer, GapAnswer, GapLeakage, Leakage, LeakageFigures, LeakageTotal, NotKnown,
};
use super::law::GapLaw;
use super::possible::{length_and_width, roof_and_floor};
use crate::physics::flow_law::{GapFlow, Gas};
use crate::physics::leakage::{self, LeakageArea};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::{Gap, GapId, LeadsTo, Purpose, Survey, leave};

/// Reference pressure of the effective leakage area, Pa: ASTM E779 **\[R\]**. The exponent is fitted
/// between this and [`HIGH`].
pub(crate) const LOW: f64 = 4.0;
/// Reference pressure of the equivalent leakage area, Pa: CAN/CGSB-149.10 **\[R\]**.
pub(crate) const MIDDLE: f64 = 10.0;
/// Reference pressure of n50 and q50, Pa.
pub(crate) const HIGH: f64 = 50.0;

/// Flows and areas of one gap, all alike together.
///
/// ```text
/// ELA = Q(4 Pa)/(1.0 √(2·4/ρ₀))    EqLA = Q(10 Pa)/(0.611 √(2·10/ρ₀))
/// ```
/// where Q is the gap's own flow law in m³/s at reference air (20 °C, ρ₀ 1.2041 kg/m³) and the
/// areas are in m²; conventions and marks stand at [`AreaConvention`].
fn figures(flow: &GapFlow) -> LeakageFigures {
    let curve = flow.at(&Gas::REFERENCE);
    let flow_4pa = curve.flow(LOW);
    let flow_10pa = curve.flow(MIDDLE);
    LeakageFigures {
        flow_4pa,
        flow_10pa,
        flow_50pa: curve.flow(HIGH),
        ela: LeakageArea::Ela4Pa.area(flow_4pa),
        eqla: LeakageArea::Eqla10Pa.area(flow_10pa),
    }
}

/// One answer for each gap.
pub(crate) fn gaps(survey: &Survey, laws: &[GapLaw]) -> Vec<GapAnswer> {
    survey
        .gaps
        .iter()
        .zip(laws)
        .map(|(gap, law)| GapAnswer {
            id: gap.id,
            leakage: match law {
                GapLaw::Flows(flow) => GapLeakage::Known(figures(flow)),
                GapLaw::NotSized(reason) => GapLeakage::NotSized {
                    reason: reason.clone(),
                },
                GapLaw::Impossible(reason) => GapLeakage::Impossible {
                    reason: reason.clone(),
                },
                GapLaw::Compartment => GapLeakage::Compartment,
            },
        })
        .collect()
}

/// Adds up flows and areas of those gaps that the choice takes, gap by gap at reference air:
/// areas of one convention add, since all are taken at the same pressure.
///
/// `gaps` are the answers for this very survey. Gaps that are not sized, and those left out because
/// something recorded of them is impossible, are counted, and the total is then a least one.
///
/// # Errors
/// [`NotKnown`] where all of the gaps are such.
pub fn total(
    survey: &Survey,
    gaps: &[GapAnswer],
    choice: impl Fn(&Gap) -> bool,
) -> Answer<LeakageTotal> {
    let mut total = LeakageTotal {
        gaps: 0,
        not_sized: 0,
        left_out: 0,
        figures: LeakageFigures::default(),
    };
    let chosen = survey.gaps.iter().zip(gaps).filter(|(gap, _)| choice(gap));
    for (_, answer) in chosen {
        match &answer.leakage {
            GapLeakage::Known(figures) => {
                total.gaps += 1;
                total.figures.flow_4pa += figures.flow_4pa;
                total.figures.flow_10pa += figures.flow_10pa;
                total.figures.flow_50pa += figures.flow_50pa;
                total.figures.ela += figures.ela;
                total.figures.eqla += figures.eqla;
            }
            GapLeakage::NotSized { .. } => total.not_sized += 1,
            GapLeakage::Impossible { .. } => total.left_out += 1,
            GapLeakage::Compartment => {}
        }
    }
    total.known()?;
    Ok(total)
}

/// All totals, and what follows from them.
///
/// ```text
/// n   = ln(Q50/Q4)/ln(50/4)
/// n50 = Q50/V     q50 = Q50/A_E     side = √EqLA
/// ```
/// where Q4 and Q50 are the flows of all gaps together at 4 and 50 Pa (here in m³/h), V the gross
/// volume in m³, A_E the envelope in m² ([`envelope_m2`]), and the side that of the square hole
/// with the EqLA of the unintended gaps, m. n50 and q50 as in ISO 9972 and ASTM E779 **\[R\]**, but
/// worked out from the gaps found, not tested.
///
/// What depends on a missing volume or size carries the reason instead.
pub(crate) fn leakage(survey: &Survey, gaps: &[GapAnswer], volume_m3: &Answer<f64>) -> Leakage {
    let of = |choice: &dyn Fn(&Gap) -> bool| total(survey, gaps, choice);
    let all = some(of(&|_| true), "no gap entered yet");
    let unintended = some(
        of(&|gap| leave::counts_as_leak(survey, gap)),
        if survey.gaps.is_empty() {
            "no gap entered yet"
        } else {
            "no unintended gap entered yet"
        },
    );
    let exponent = all.clone().and_then(|total| {
        leakage::fitted_exponent(total.figures.flow_50pa, total.figures.flow_4pa)
            .ok_or_else(|| NotKnown::because("nothing leaks, so there is no exponent"))
    });
    let n50_per_h = all.clone().and_then(|total| {
        volume_m3
            .clone()
            .map(|volume| total.figures.flow_50pa * SECONDS_PER_HOUR / volume)
    });
    let envelope_m2 = envelope_m2(survey);
    let q50_per_envelope_m3_per_h_m2 = all.clone().and_then(|total| {
        envelope_m2
            .clone()
            .map(|area| total.figures.flow_50pa * SECONDS_PER_HOUR / area)
    });
    let square_side = unintended.clone().map(|total| total.figures.eqla.sqrt());
    let by_zone = survey
        .zones
        .iter()
        .map(|zone| (zone.id, of(&|gap| gap.zone == zone.id)))
        .collect();
    Leakage {
        by_facing: groups(survey, |gap| gap.facing)
            .into_iter()
            .map(|facing| (facing, of(&|gap| gap.facing == facing)))
            .collect(),
        by_purpose: groups(survey, |gap| leave::purpose(survey, gap))
            .into_iter()
            .map(|purpose| (purpose, of(&|gap| leave::purpose(survey, gap) == purpose)))
            .collect(),
        safety_ventilation: of(&|gap| gap.purpose == Purpose::SafetyVentilation),
        not_sized: which(gaps, |leakage| {
            matches!(leakage, GapLeakage::NotSized { .. })
        }),
        left_out: which(gaps, |leakage| {
            matches!(leakage, GapLeakage::Impossible { .. })
        }),
        all,
        unintended,
        by_zone,
        exponent,
        n50_per_h,
        q50_per_envelope_m3_per_h_m2,
        envelope_m2,
        square_side,
    }
}

/// The different keys of all gaps that lead inside, in the order they first appear.
fn groups<K: PartialEq>(survey: &Survey, key: impl Fn(&Gap) -> K) -> Vec<K> {
    let mut keys = Vec::new();
    for gap in survey
        .gaps
        .iter()
        .filter(|gap| gap.leads_to == LeadsTo::LivingSpace)
    {
        let key = key(gap);
        if !keys.contains(&key) {
            keys.push(key);
        }
    }
    keys
}

/// A total of no gap at all is not nothing, but not known.
fn some(total: Answer<LeakageTotal>, otherwise: &str) -> Answer<LeakageTotal> {
    match total {
        Ok(total) if total.gaps == 0 => Err(NotKnown::because(otherwise)),
        other => other,
    }
}

/// The gaps whose leakage is such, in the ledger's order.
fn which(gaps: &[GapAnswer], such: impl Fn(&GapLeakage) -> bool) -> Vec<GapId> {
    let such = gaps.iter().filter(|answer| such(&answer.leakage));
    such.map(|answer| answer.id).collect()
}

/// Outside walls, roof and floor of the body as a box, m².
///
/// ```text
/// A_E = 2 (l w + (l + w) (h − h_f))
/// ```
/// where l and w are the outside length and width, h the height of the roof and h_f that of the
/// floor above the ground, all in m **\[A\]**: wheel arches and a sloping front are not taken off.
///
/// # Errors
/// [`NotKnown`] where one of the four is not given or not possible.
fn envelope_m2(survey: &Survey) -> Answer<f64> {
    let vehicle = &survey.vehicle;
    let sizes = [
        vehicle.length_m,
        vehicle.width_m,
        vehicle.height_m,
        vehicle.floor_height_m,
    ];
    if sizes.iter().any(Option::is_none) {
        let why = "an outside size of the vehicle is not given";
        return Err(NotKnown::because(why));
    }
    let (length, width) = length_and_width(survey)?;
    let (roof, floor) = roof_and_floor(survey)?;
    Ok(2.0 * (length * width + (length + width) * (roof - floor)))
}
