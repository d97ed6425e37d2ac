//! The gaps one by one: what was written down about each, and what it lets through.

use super::leakage::with_figures;
use super::object::{Object, list};
use crate::assess::{Assessment, GapAnswer, GapLeakage};
use crate::survey::gap::{Behind, Form};
use crate::survey::leave::leave;
use crate::survey::word::Word;
use crate::survey::{Closing, Field as F, Gap, Photo, PhotoMark, Remedy, SetUp, Survey};

pub(super) fn gaps(survey: &Survey, assessment: &Assessment) -> Vec<Object> {
    list(&survey.gaps, |gap| {
        let answer = assessment.gaps.iter().find(|answer| answer.id == gap.id);
        let object = gap_object(survey, gap, answer);
        with_figures(object, assessment.leakage_of(gap.id))
    })
}

fn gap_object(survey: &Survey, gap: &Gap, answer: Option<&GapAnswer>) -> Object {
    let object = place(survey, gap)
        .with(F::GapPart, gap.part.word())
        .with(F::Purpose, gap.purpose.word())
        .with(F::PurposeConfirmed, gap.purpose_confirmed)
        .with(F::PurposeWas, gap.purpose_was.map(|was| was.word()))
        .with(
            "not_to_be_planned",
            leave(survey, gap).err().map(|why| why.to_string()),
        )
        .with("closable", gap.closing.is_some())
        .with("open", stands_open(gap, survey.set_up))
        .with(F::Closing, gap.closing.map(closing));
    behind(object, gap)
        .with(F::Certainty, gap.certainty.word())
        .list(F::Photos, &gap.photos, photo)
        .with(F::Damp, &gap.damp)
        .with(F::GapNote, &gap.note)
        .with(F::Remedy, gap.remedy.as_ref().map(remedy))
        .with(F::State, gap.state.word())
        .with(F::StateDate, &gap.state_date)
        .with("leakage_is", leakage_word(answer))
}

/// What it is, its form, and where it is.
fn place(survey: &Survey, gap: &Gap) -> Object {
    let zone = survey.zone(gap.zone).map(|zone| &zone.name);
    let space = survey.space_or_first(gap.space);
    let space_name = space.and_then(|id| survey.space(id));
    Object::new()
        .with("id", gap.id.0)
        .with(F::GapName, &gap.name)
        .with(F::Zone, gap.zone.0)
        .recorded("zone_name", zone)
        .with(F::Space, space.map(|id| id.0))
        .with("space_name", space_name.map(|space| &space.name))
        .with(F::Facing, gap.facing.word())
        .recorded(F::CavityPressure, gap.cavity_pressure_coefficient)
        .with(F::Form, gap.form.word())
        .with("sizes", form_sizes(&gap.form))
        .with(F::GapCount, gap.count)
        .recorded(F::Along, gap.position.along_m)
        .recorded(F::Across, gap.position.across_m)
        .recorded(F::MiddleHeight, gap.position.height_m)
        .recorded(F::Rise, gap.position.rise_m)
}

fn behind(object: Object, gap: &Gap) -> Object {
    let (outer, opening) = match gap.behind {
        None => (None, None),
        Some(Behind::Gap(outer)) => (Some(outer.0), None),
        Some(Behind::Opening { free_area_mm2 }) => {
            let opening = Object::new().recorded(F::AreaInFront, free_area_mm2);
            (None, Some(opening))
        }
    };
    object
        .with(F::LeadsTo, gap.leads_to.word())
        .with("behind_gap", outer)
        .with("behind_opening", opening)
}

/// The sizes of a form by their names in the survey file.
pub(super) fn form_sizes(form: &Form) -> Object {
    let mut object = Object::new();
    for (field, value) in form.sizes() {
        object = object.recorded(field, value);
    }
    match form {
        Form::Grille { material, .. } => object.with("material", material.word()),
        Form::StatedArea { convention, .. } => object.with("convention", convention.word()),
        _ => object,
    }
}

/// How a gap or an inner opening closes.
pub(super) fn closing(closing: Closing) -> Object {
    Object::new()
        .with(F::OpenLaidUp, closing.open_laid_up)
        .with(F::OpenInUse, closing.open_in_use)
        .with(F::ClosedLeaves, closing.leaves_percent)
}

fn photo(photo: &Photo) -> Object {
    Object::new()
        .with("name", &photo.name)
        .with(F::Caption, &photo.caption)
        .list("marks", &photo.marks, mark)
        .with(F::AfterWork, photo.after_work)
}

fn mark(mark: &PhotoMark) -> Object {
    let object = Object::new().with("kind", mark.name());
    match *mark {
        PhotoMark::Circle {
            across,
            down,
            radius,
        } => object
            .with("across", across)
            .with("down", down)
            .with("radius", radius),
        PhotoMark::Arrow {
            from_across,
            from_down,
            across,
            down,
        } => object
            .with("from_across", from_across)
            .with("from_down", from_down)
            .with("across", across)
            .with("down", down),
    }
}

fn remedy(remedy: &Remedy) -> Object {
    Object::new()
        .with("kind", remedy.kind.word())
        .with(F::RemedyWords, &remedy.words)
        .recorded(F::LeakLeft, remedy.leak_left_percent)
        .recorded(F::MaterialCost, remedy.material_cost)
        .with(F::CostBasis, remedy.cost_basis.word())
        .recorded(F::Minutes, remedy.minutes)
}

fn stands_open(gap: &Gap, set_up: SetUp) -> bool {
    gap.closing.is_none_or(|closing| closing.is_open(set_up))
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
