//! Leakage areas, their totals, and the gaps one by one.

use super::object::{Object, Value};
use crate::assess::words::{NONE_SIZED, NOT_ASSESSED, OUTER_OPENING};
use crate::assess::{
    Answer, Assessment, GapAnswer, GapLeakage, LeakageFigures, LeakageTotal, NotKnown,
};
use crate::survey::gap::{Behind, Form};
use crate::survey::word::Word;
use crate::survey::word::sizes;
use crate::survey::{Gap, SetUp, Survey};

const MM2: f64 = 1e6;
const MM: f64 = 1e3;
const PER_H: f64 = 3600.0;

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
            leakage.square_side.clone().map(|side| side * MM),
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
        Ok(total.figures)
    };
    Ok(with_figures(counts, &figures))
}

fn with_figures(object: Object, figures: &Answer<LeakageFigures>) -> Object {
    let of = |value: fn(&LeakageFigures) -> f64| figures.as_ref().map(value).map_err(Clone::clone);
    object
        .answer("eqla_10pa_mm2", of(|figures| figures.eqla * MM2))
        .answer("ela_4pa_mm2", of(|figures| figures.ela * MM2))
        .answer("flow_4pa_m3_per_h", of(|figures| figures.flow_4pa * PER_H))
        .answer(
            "flow_10pa_m3_per_h",
            of(|figures| figures.flow_10pa * PER_H),
        )
        .answer(
            "flow_50pa_m3_per_h",
            of(|figures| figures.flow_50pa * PER_H),
        )
}

pub(super) fn gaps(survey: &Survey, assessment: &Assessment) -> Vec<Object> {
    survey
        .gaps
        .iter()
        .map(|gap| {
            let answer = assessment.gaps.iter().find(|answer| answer.id == gap.id);
            gap_object(survey, gap, answer)
        })
        .collect()
}

fn gap_object(survey: &Survey, gap: &Gap, answer: Option<&GapAnswer>) -> Object {
    let zone = survey.zone(gap.zone).map(|zone| zone.name.as_str());
    let (behind_gap, behind_opening) = match gap.behind {
        None => (Value::Null, Value::Null),
        Some(Behind::Gap(outer)) => (Value::from(outer.0), Value::Null),
        Some(Behind::Opening { free_area_mm2 }) => {
            let opening = Object::new().recorded("free_area_mm2", free_area_mm2);
            (Value::Null, Value::from(opening))
        }
    };
    let object = Object::new()
        .with("id", gap.id.0)
        .with("name", gap.name.as_str())
        .with("zone", gap.zone.0)
        .recorded("zone_name", zone)
        .with("facing", gap.facing.word())
        .with("form", gap.form.word())
        .with("sizes", form_sizes(&gap.form))
        .with("count", gap.count)
        .recorded("height_m", gap.position.height_m)
        .recorded("rise_m", gap.position.rise_m)
        .with("purpose", gap.purpose.word())
        .with("closable", gap.closing.is_some())
        .with("open", stands_open(gap, survey.set_up))
        .with("leads_to", gap.leads_to.word())
        .with("behind_gap", behind_gap)
        .with("behind_opening", behind_opening)
        .with("certainty", gap.certainty.word())
        .with("state", gap.state.word())
        .with("leakage_is", leakage_word(answer));
    with_figures(object, &figures(answer))
}

fn form_sizes(form: &Form) -> Object {
    let mut object = Object::new();
    for (name, value) in sizes(form) {
        object = object.recorded(name, value);
    }
    match form {
        Form::Grille { material, .. } => object.with("material", material.word()),
        Form::StatedArea { convention, .. } => object.with("convention", convention.word()),
        _ => object,
    }
}

fn stands_open(gap: &Gap, set_up: SetUp) -> bool {
    gap.closing.is_none_or(|closing| match set_up {
        SetUp::LaidUp => closing.open_laid_up,
        SetUp::InUse => closing.open_in_use,
    })
}

fn leakage_word(answer: Option<&GapAnswer>) -> &'static str {
    match answer.map(|answer| &answer.leakage) {
        Some(GapLeakage::Known(_)) => "known",
        Some(GapLeakage::NotSized { .. }) => "not_sized",
        Some(GapLeakage::Impossible { .. }) => "impossible",
        Some(GapLeakage::Compartment) => "outer_opening",
        None => "not_assessed",
    }
}

/// The figures of a gap, or why it has none.
pub(super) fn figures(answer: Option<&GapAnswer>) -> Answer<LeakageFigures> {
    match answer.map(|answer| &answer.leakage) {
        Some(GapLeakage::Known(figures)) => Ok(*figures),
        Some(GapLeakage::NotSized { reason } | GapLeakage::Impossible { reason }) => {
            Err(NotKnown::because(reason.clone()))
        }
        Some(GapLeakage::Compartment) => Err(NotKnown::because(OUTER_OPENING)),
        None => Err(NotKnown::because(NOT_ASSESSED)),
    }
}
