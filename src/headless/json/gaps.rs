//! The gaps one by one: what was written down about each, and what it lets through.

use super::leakage::{figures, with_figures};
use super::list;
use super::object::Object;
use crate::assess::{Assessment, GapAnswer, GapLeakage};
use crate::survey::gap::{Behind, Form};
use crate::survey::word::Word;
use crate::survey::{Closing, Gap, Photo, PhotoMark, Remedy, SetUp, Survey};

pub(super) fn gaps(survey: &Survey, assessment: &Assessment) -> Vec<Object> {
    list(&survey.gaps, |gap| {
        let answer = assessment.gaps.iter().find(|answer| answer.id == gap.id);
        gap_object(survey, gap, answer)
    })
}

fn gap_object(survey: &Survey, gap: &Gap, answer: Option<&GapAnswer>) -> Object {
    let object = place(survey, gap)
        .with("purpose", gap.purpose.word())
        .with("closable", gap.closing.is_some())
        .with("open", stands_open(gap, survey.set_up))
        .or_null("closing", gap.closing.map(closing));
    let object = behind(object, gap)
        .with("certainty", gap.certainty.word())
        .with("photos", list(&gap.photos, photo))
        .with("damp", gap.damp.as_str())
        .with("note", gap.note.as_str())
        .or_null("remedy", gap.remedy.as_ref().map(remedy))
        .with("state", gap.state.word())
        .with("state_date", gap.state_date.as_str())
        .with("leakage_is", leakage_word(answer));
    with_figures(object, &figures(answer))
}

/// What it is, its form, and where it is.
fn place(survey: &Survey, gap: &Gap) -> Object {
    let zone = survey.zone(gap.zone).map(|zone| zone.name.as_str());
    let space = survey.space_or_first(gap.space);
    let space_name = space.and_then(|id| survey.space(id));
    Object::new()
        .with("id", gap.id.0)
        .with("name", gap.name.as_str())
        .with("zone", gap.zone.0)
        .recorded("zone_name", zone)
        .or_null("space", space.map(|id| id.0))
        .or_null("space_name", space_name.map(|space| space.name.as_str()))
        .with("facing", gap.facing.word())
        .recorded(
            "cavity_pressure_coefficient",
            gap.cavity_pressure_coefficient,
        )
        .with("form", gap.form.word())
        .with("sizes", form_sizes(&gap.form))
        .with("count", gap.count)
        .recorded("along_m", gap.position.along_m)
        .recorded("across_m", gap.position.across_m)
        .recorded("height_m", gap.position.height_m)
        .recorded("rise_m", gap.position.rise_m)
}

fn behind(object: Object, gap: &Gap) -> Object {
    let (outer, opening) = match gap.behind {
        None => (None, None),
        Some(Behind::Gap(outer)) => (Some(outer.0), None),
        Some(Behind::Opening { free_area_mm2 }) => {
            let opening = Object::new().recorded("free_area_mm2", free_area_mm2);
            (None, Some(opening))
        }
    };
    object
        .with("leads_to", gap.leads_to.word())
        .or_null("behind_gap", outer)
        .or_null("behind_opening", opening)
}

/// The sizes of a form by their names in the survey file.
pub(super) fn form_sizes(form: &Form) -> Object {
    let mut object = Object::new();
    for (field, value) in form.sizes() {
        object = object.recorded(field.file_key(), value);
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
        .with("open_laid_up", closing.open_laid_up)
        .with("open_in_use", closing.open_in_use)
        .with("leaves_percent", closing.leaves_percent)
}

fn photo(photo: &Photo) -> Object {
    Object::new()
        .with("name", photo.name.as_str())
        .with("caption", photo.caption.as_str())
        .with("marks", list(&photo.marks, mark))
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
        .with("words", remedy.words.as_str())
        .recorded("leak_left_percent", remedy.leak_left_percent)
        .recorded("material_cost", remedy.material_cost)
        .with("cost_basis", remedy.cost_basis.word())
        .recorded("minutes", remedy.minutes)
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
