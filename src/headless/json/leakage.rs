//! Leakage areas and their totals.

use super::object::Object;
use crate::assess::{Answer, Assessment, LeakageFigures, LeakageTotal};
use crate::physics::units::{MM_PER_M, MM2_PER_M2, SECONDS_PER_HOUR};
use crate::survey::Survey;
use crate::survey::word::Word;

pub(super) fn leakage(survey: &Survey, assessment: &Assessment) -> Object {
    let leakage = &assessment.leakage;
    Object::new()
        .found("all", &leakage.all, total)
        .found("unintended", &leakage.unintended, total)
        .found("safety_ventilation", &leakage.safety_ventilation, total)
        .found("square_side_mm", &leakage.square_side, |side| {
            side * MM_PER_M
        })
        .with("exponent", &leakage.exponent)
        .with("n50_per_h", &leakage.n50_per_h)
        .with(
            "q50_per_envelope_m3_per_h_m2",
            &leakage.q50_per_envelope_m3_per_h_m2,
        )
        .with("envelope_m2", &leakage.envelope_m2)
        .list("not_sized_gaps", &leakage.not_sized, |id| id.0)
        .list("left_out_gaps", &leakage.left_out, |id| id.0)
        .list("by_zone", &leakage.by_zone, |(id, answer)| {
            let name = survey.zone(*id).map(|zone| &zone.name);
            let zone = Object::new().with("zone", id.0).recorded("name", name);
            zone.found("total", answer, total)
        })
        .list("by_facing", &leakage.by_facing, |(facing, answer)| {
            let facing = Object::new().with("facing", facing.word());
            facing.found("total", answer, total)
        })
        .list("by_purpose", &leakage.by_purpose, |(purpose, answer)| {
            let purpose = Object::new().with("purpose", purpose.word());
            purpose.found("total", answer, total)
        })
}

/// A total; one of nothing but unsized gaps is not known.
fn total(total: &LeakageTotal) -> Object {
    let counts = Object::new()
        .with("gaps", total.gaps)
        .with("not_sized", total.not_sized)
        .with("left_out", total.left_out)
        .with("at_least", total.lacks_some());
    with_figures(counts, total.known())
}

pub(super) fn with_figures(object: Object, figures: Answer<&LeakageFigures>) -> Object {
    let area = |of: fn(&LeakageFigures) -> f64| figures.clone().map(|all| of(all) * MM2_PER_M2);
    let flow =
        |of: fn(&LeakageFigures) -> f64| figures.clone().map(|all| of(all) * SECONDS_PER_HOUR);
    object
        .with("eqla_10pa_mm2", area(|all| all.eqla))
        .with("ela_4pa_mm2", area(|all| all.ela))
        .with("flow_4pa_m3_per_h", flow(|all| all.flow_4pa))
        .with("flow_10pa_m3_per_h", flow(|all| all.flow_10pa))
        .with("flow_50pa_m3_per_h", flow(|all| all.flow_50pa))
}
