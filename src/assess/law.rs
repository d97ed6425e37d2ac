//! From what was written down about a gap to the law of its flow.

use crate::physics::Underside;
use crate::physics::flow_law::{FlowLaw, GapFlow, Gas, OpeningError};
use crate::physics::leakage::{self, DEFAULT_EXPONENT};
use crate::physics::units::{MM, MM2, SECONDS_PER_HOUR};
use crate::survey::gap::{
    AreaConvention, Behind, Closing, Facing, Form, Gap, GrilleMaterial, LeadsTo, WorkState,
};
use crate::survey::{Finding, GapId, Item, SetUp, Severity, Survey};
use std::collections::HashMap;

const PER_HOUR: f64 = 1.0 / SECONDS_PER_HOUR;

/// How a gap takes part.
#[derive(Clone, Debug)]
pub(crate) enum GapLaw {
    /// It leaks like this, all of its count together, in the set-up shown.
    Flows(GapFlow),
    /// Something was left out.
    NotSized(String),
    /// Something is impossible.
    Impossible(String),
    /// It is the outer opening of a compartment.
    Compartment,
}

/// Geometric free area of one, m²; `None` for forms that state a flow or another area.
pub(crate) fn free_area(form: &Form) -> Option<f64> {
    match *form {
        Form::NarrowGap {
            length_mm,
            width_mm,
            ..
        } => Some(length_mm? * width_mm? * MM2),
        Form::RoundHole { diameter_mm } => Some(disc(diameter_mm? * MM)),
        Form::RectangularHole {
            width_mm,
            height_mm,
        } => Some(width_mm? * height_mm? * MM2),
        Form::RingGap { hole_mm, pipe_mm } => Some(disc(hole_mm? * MM) - disc(pipe_mm? * MM)),
        Form::Grille {
            width_mm,
            height_mm,
            material,
            free_percent,
        } => {
            let usual = match material {
                GrilleMaterial::Metal => leakage::GrilleMaterial::Metal.free_share(),
                GrilleMaterial::Wood => leakage::GrilleMaterial::Wood.free_share(),
            };
            let share = free_percent.map_or(usual, |percent| percent / 100.0);
            Some(width_mm? * height_mm? * MM2 * share)
        }
        Form::StatedArea {
            area_mm2,
            convention: AreaConvention::Free,
            ..
        } => Some(area_mm2? * MM2),
        Form::StatedArea { .. } | Form::FlowTest { .. } => None,
    }
}

fn disc(diameter: f64) -> f64 {
    std::f64::consts::FRAC_PI_4 * diameter * diameter
}

/// The law of one, by itself; `None` where a size is missing.
pub(crate) fn own_law(form: &Form) -> Option<FlowLaw> {
    match *form {
        Form::NarrowGap {
            length_mm,
            width_mm,
            depth_mm,
            bends,
        } => Some(FlowLaw::Crack {
            length: length_mm? * MM,
            width: width_mm? * MM,
            depth: depth_mm? * MM,
            bends,
        }),
        Form::StatedArea {
            area_mm2,
            convention: AreaConvention::EquivalentAt1Pa,
            ..
        } => Some(leakage::from_equivalent_area(area_mm2? * MM2)),
        Form::StatedArea {
            area_mm2,
            convention: AreaConvention::EffectiveAt4Pa,
            exponent,
        } => Some(leakage::from_leakage_area(
            area_mm2? * MM2,
            leakage::LeakageArea::Ela4Pa,
            exponent.unwrap_or(DEFAULT_EXPONENT),
        )),
        Form::FlowTest {
            flow_m3_per_h,
            at_pa,
            exponent,
        } => Some(leakage::from_flow(
            flow_m3_per_h? * PER_HOUR,
            at_pa?,
            exponent.unwrap_or(DEFAULT_EXPONENT),
        )),
        _ => Some(leakage::from_free_area(free_area(form)?)),
    }
}

/// Share of the flow that passes as the gap stands in the set-up, 0…1.
pub(crate) fn share_open(gap: &Gap, set_up: SetUp) -> f64 {
    share_when_closing(gap.closing, set_up)
}

/// The same of anything that closes, or does not.
pub(crate) fn share_when_closing(closing: Option<Closing>, set_up: SetUp) -> f64 {
    closing.map_or(1.0, |closing| {
        if closing.is_open(set_up) {
            1.0
        } else {
            closing.leaves_percent / 100.0
        }
    })
}

/// Share of the leak that work on the gap has left, 0…1; `None` where it is sealed and nobody
/// said how much remains.
pub(crate) fn share_left_by_work(gap: &Gap) -> Option<f64> {
    match gap.state {
        WorkState::Sealed => Some(gap.remedy.as_ref()?.leak_left_percent? / 100.0),
        WorkState::Open | WorkState::Planned | WorkState::Deferred => Some(1.0),
    }
}

/// Area by which gaps behind one opening share it, m²: the free area, or for a stated flow the
/// sharp opening with the same flow at 10 Pa.
fn sharing_area(form: &Form) -> Option<f64> {
    free_area(form).or_else(|| Some(sharp_area(&GapFlow::new(own_law(form)?).ok()?)))
}

/// The sharp opening that passes as much at 10 Pa, m².
pub(crate) fn sharp_area(flow: &GapFlow) -> f64 {
    let convention = leakage::LeakageArea::Eqla10Pa;
    let curve = flow.at(&Gas::REFERENCE);
    convention.area(curve.flow(convention.reference_pressure()))
}

/// The sharp opening that an outer opening amounts to, as it stands, m².
fn outer_area(gap: &Gap, set_up: SetUp) -> Option<f64> {
    let one = match gap.form {
        Form::StatedArea {
            convention: AreaConvention::EquivalentAt1Pa,
            area_mm2,
            ..
        } => Some(area_mm2? * MM2),
        _ => sharing_area(&gap.form),
    };
    Some(one? * f64::from(gap.count) * share_open(gap, set_up) * share_left_by_work(gap)?)
}

/// The law of every gap, in the ledger's order.
///
/// A gap with an error among the findings is *impossible*; the findings are thus the one place
/// where limits are judged.
pub(crate) fn laws(survey: &Survey, findings: &[Finding]) -> Vec<GapLaw> {
    let mut errors: HashMap<GapId, &str> = HashMap::new();
    for finding in findings
        .iter()
        .filter(|finding| finding.severity == Severity::Error)
    {
        if let Item::Gap(id) = finding.place.item {
            errors.entry(id).or_insert(&finding.sentence);
        }
    }
    let mut behind: HashMap<GapId, f64> = HashMap::new();
    let mut behind_skirt = 0.0;
    for gap in &survey.gaps {
        if errors.contains_key(&gap.id) {
            continue;
        }
        let Some(area) = sharing_area(&gap.form) else {
            continue;
        };
        if let Some(Behind::Gap(outer)) = gap.behind {
            *behind.entry(outer).or_insert(0.0) += area * f64::from(gap.count);
        }
        if is_behind_skirt(survey, gap) {
            behind_skirt += area * f64::from(gap.count);
        }
    }
    let law = |gap: &Gap| match errors.get(&gap.id) {
        Some(sentence) => GapLaw::Impossible((*sentence).to_owned()),
        None => gap_law(survey, gap, &errors, &behind, behind_skirt),
    };
    survey.gaps.iter().map(law).collect()
}

/// Whether a tight skirt closes off the outside that a gap opens to.
fn is_behind_skirt(survey: &Survey, gap: &Gap) -> bool {
    survey.vehicle.underside == Underside::SkirtedTight
        && gap.leads_to == LeadsTo::LivingSpace
        && outermost(survey, gap).facing == Facing::Underfloor
}

/// The opening that meets the outside: the gap itself, or the one in the ledger it lies behind.
pub(super) fn outermost<'a>(survey: &'a Survey, gap: &'a Gap) -> &'a Gap {
    let outer = match gap.behind {
        Some(Behind::Gap(outer)) => survey.gap(outer),
        _ => None,
    };
    outer.unwrap_or(gap)
}

/// The sharp opening that two amount to, one behind the other, m²: `1/A² = 1/A₁² + 1/A₂²`.
fn in_series(first: f64, second: f64) -> f64 {
    (1.0 / (first * first) + 1.0 / (second * second))
        .sqrt()
        .recip()
}

/// Why the size of a sealed gap is not known.
pub(super) const NO_SHARE_LEFT: &str = "sealed, but the share that remains is not given";

fn gap_law(
    survey: &Survey,
    gap: &Gap,
    errors: &HashMap<GapId, &str>,
    behind: &HashMap<GapId, f64>,
    behind_skirt: f64,
) -> GapLaw {
    if gap.leads_to == LeadsTo::Compartment {
        return GapLaw::Compartment;
    }
    let Some(law) = own_law(&gap.form) else {
        return GapLaw::NotSized(missing_words(gap));
    };
    let Some(left) = share_left_by_work(gap) else {
        return GapLaw::NotSized(NO_SHARE_LEFT.to_owned());
    };
    let in_front = match gap.behind {
        None => None,
        Some(Behind::Opening {
            free_area_mm2: Some(area),
        }) => Some(area * MM2),
        Some(Behind::Opening {
            free_area_mm2: None,
        }) => {
            return GapLaw::NotSized("the opening in front of it is not sized".to_owned());
        }
        Some(Behind::Gap(outer)) => {
            if let Some(sentence) = errors.get(&outer) {
                return GapLaw::Impossible(format!("the opening in front of it: {sentence}"));
            }
            let share = (|| {
                let outer_area = outer_area(survey.gap(outer)?, survey.set_up)?;
                Some(outer_area * sharing_area(&gap.form)? / behind.get(&outer)?)
            })();
            let Some(share) = share else {
                return GapLaw::NotSized("the opening in front of it is not sized".to_owned());
            };
            Some(share)
        }
    };
    let in_front = if is_behind_skirt(survey, gap) {
        let share = (|| {
            let skirt = survey.vehicle.skirt_free_area_mm2? * MM2;
            Some(skirt * sharing_area(&gap.form)? / behind_skirt)
        })();
        let Some(share) = share else {
            return GapLaw::NotSized(
                "the gaps of the skirt in front of it are not given".to_owned(),
            );
        };
        Some(in_front.map_or(share, |nearer| in_series(nearer, share)))
    } else {
        in_front
    };
    let multiplier = f64::from(gap.count) * share_open(gap, survey.set_up) * left;
    // An outer opening that is shut and leaves nothing lets nothing through.
    let (in_front, multiplier) = match in_front {
        Some(area) if area <= 0.0 => (None, 0.0),
        other => (other, multiplier),
    };
    match arrangement(law, in_front, multiplier) {
        Ok(flow) => GapLaw::Flows(flow),
        Err(error) => GapLaw::Impossible(error.to_string()),
    }
}

/// A law behind what stands in front of it, as many times as there are of it.
fn arrangement(
    law: FlowLaw,
    in_front: Option<f64>,
    multiplier: f64,
) -> Result<GapFlow, OpeningError> {
    let one = GapFlow::new(law)?;
    in_front
        .map_or(Ok(one), |area| one.behind(area))?
        .times(multiplier)
}

fn missing_words(gap: &Gap) -> String {
    gap.form
        .missing()
        .map_or_else(String::new, |(_, words)| words)
}
