//! Findings about spaces and the openings between them.

use super::finding::{Finder, Finding, Item, numbered};
use super::gap::{below_ground, sizes_in_range};
use crate::survey::{Field, InnerOpening, SpaceId, Survey};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    for space in &survey.spaces {
        let mut finder = Finder::new(
            findings,
            Item::Space(space.id),
            numbered("space", space.id, &space.name),
        );
        finder.check(Field::SpaceVolume, space.volume_m3);
        finder.check(Field::WarmerThanFirst, space.warmer_by_k);
        let joined = survey
            .inner_openings
            .iter()
            .any(|opening| opening.from == space.id || opening.to == space.id);
        if survey.spaces.len() > 1 && !joined {
            finder.remark(
                None,
                "nothing joins it to another space",
                "add the doorway, curtain or bulkhead gaps, if there are any",
            );
        }
    }
    for opening in &survey.inner_openings {
        let mut finder = Finder::new(
            findings,
            Item::InnerOpening(opening.id),
            numbered("inner opening", opening.id, &opening.name),
        );
        inner_opening(&mut finder, survey, opening);
    }
}

fn inner_opening(finder: &mut Finder<'_>, survey: &Survey, opening: &InnerOpening) {
    let known = |id: SpaceId| survey.spaces.iter().any(|space| space.id == id);
    for (field, id) in [(Field::From, opening.from), (Field::To, opening.to)] {
        if !known(id) {
            finder.error(
                field,
                format!("it joins space {id}, which does not exist"),
                "choose one of the spaces listed",
            );
        }
    }
    if opening.from == opening.to {
        finder.error(
            Field::To,
            "it joins a space to itself",
            "choose another space",
        );
    }
    sizes_in_range(finder, &opening.form, opening.count);
    finder.check(Field::MiddleHeight, opening.height_m);
    finder.check(Field::Rise, opening.rise_m);
    if let Some(closing) = opening.closing {
        finder.check(Field::ClosedLeaves, closing.leaves_percent);
    }
    if let Some((field, words)) = opening.form.missing() {
        finder.error(
            field,
            format!("not sized: {words}, so the air of the spaces cannot be worked out"),
            "measure it, or estimate it",
        );
    }
    let half_rise = opening.rise_m.map_or(0.0, |rise| rise / 2.0);
    if opening
        .height_m
        .is_some_and(|height| height - half_rise < 0.0)
    {
        below_ground(finder);
    }
}
