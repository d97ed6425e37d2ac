//! The choice of a space inside, for gaps and equipment.

use super::fields::{Fields, Part};
use crate::survey::{Field, SpaceId, Survey};

/// The choice of a space, or of none, which is the first. Nothing is drawn where the inside is a
/// single space.
pub(super) fn choose<T: Clone>(
    fields: &mut Fields<'_, '_, T>,
    survey: &Survey,
    part: Part<T, Option<SpaceId>>,
) {
    if survey.spaces.len() < 2 {
        return;
    }
    let mut options = vec![None];
    options.extend(survey.spaces.iter().map(|space| Some(space.id)));
    let words = |id: &Option<SpaceId>| match id {
        Some(id) => survey.space_name(*id),
        None => "the first".to_owned(),
    };
    fields.choice(Field::Space, &options, words, part);
}
