//! Leakage areas and their totals.

use super::object::Object;
use crate::assess::words::NONE_SIZED;
use crate::assess::{Answer, Assessment, LeakageFigures, LeakageTotal, NotKnown};
use crate::physics::units::{MM_PER_M, MM2_PER_M2, SECONDS_PER_HOUR};
use crate::survey::Survey;
use crate::survey::word::Word;

pub(super) fn leakage(survey: &Survey, assessment: &Assessment) -> Object {
    let leakage = &assessment.leakage;
    let by_zone: Vec<Object> = leakage
        .by_zone
        .iter()
        .map(|(id, answer)| {
            let name = survey.zone(*id).map(|zone| zone.name.as_str());
            Object::new()
                .with("zone", id.0)
                .recorded("name", name)
                .answer("total", total(answer))
        })
        .collect();
    let by_facing: Vec<Object> = leakage
        .by_facing
        .iter()
        .map(|(facing, answer)| {
            Object::new()
                .with("facing", facing.word())
                .answer("total", total(answer))
        })
        .collect();
    let by_purpose: Vec<Object> = leakage
        .by_purpose
        .iter()
        .map(|(purpose, answer)| {
            Object::new()
                .with("purpose", purpose.word())
                .answer("total", total(answer))
        })
        .collect();
    let not_sized: Vec<u32> = leakage.not_sized.iter().map(|id| id.0).collect();
    Object::new()
        .answer("all", total(&leakage.all))
        .answer("unintended", total(&leakage.unintended))
        .answer("safety_ventilation", total(&leakage.safety_ventilation))
        .answer(
            "square_side_mm",
            leakage.square_side.clone().map(|side| side * MM_PER_M),
        )
        .answer("exponent", leakage.exponent.clone())
        .answer("n50_per_h", leakage.n50_per_h.clone())
        .answer(
            "q50_per_envelope_m3_per_h_m2",
            leakage.q50_per_envelope_m3_per_h_m2.clone(),
        )
        .answer("envelope_m2", leakage.envelope_m2.clone())
        .with("not_sized_gaps", not_sized)
        .with("by_zone", by_zone)
        .with("by_facing", by_facing)
        .with("by_purpose", by_purpose)
}

/// A total; one of nothing but unsized gaps is not known.
fn total(answer: &Answer<LeakageTotal>) -> Answer<Object> {
    let total = answer.as_ref().map_err(Clone::clone)?;
    let counts = Object::new()
        .with("gaps", total.gaps)
        .with("not_sized", total.not_sized)
        .with("at_least", total.not_sized > 0);
    let figures = if total.gaps == 0 && total.not_sized > 0 {
        Err(NotKnown::because(NONE_SIZED))
    } else {
        Ok(&total.figures)
    };
    Ok(with_figures(counts, figures))
}

pub(super) fn with_figures(object: Object, figures: Answer<&LeakageFigures>) -> Object {
    let of = |value: fn(&LeakageFigures) -> f64| figures.clone().map(value);
    object
        .answer("eqla_10pa_mm2", of(|figures| figures.eqla * MM2_PER_M2))
        .answer("ela_4pa_mm2", of(|figures| figures.ela * MM2_PER_M2))
        .answer(
            "flow_4pa_m3_per_h",
            of(|figures| figures.flow_4pa * SECONDS_PER_HOUR),
        )
        .answer(
            "flow_10pa_m3_per_h",
            of(|figures| figures.flow_10pa * SECONDS_PER_HOUR),
        )
        .answer(
            "flow_50pa_m3_per_h",
            of(|figures| figures.flow_50pa * SECONDS_PER_HOUR),
        )
}
