//! The choice of a space inside, for gaps and equipment.

use crate::survey::{Item, SpaceId, Survey};
use crate::window::widgets::Choice;
use eframe::egui::Ui;

/// The choice of a space, or of none, which is the first; `Some` is the newly chosen one.
/// Nothing is drawn where the inside is a single space.
pub(super) fn choose(
    ui: &mut Ui,
    survey: &Survey,
    now: Option<SpaceId>,
    of: Item,
) -> Option<Option<SpaceId>> {
    if survey.spaces.len() < 2 {
        return None;
    }
    let mut options = vec![None];
    options.extend(survey.spaces.iter().map(|space| Some(space.id)));
    Choice::new("Space inside", &now, &options)
        .id(of)
        .show(ui, |id| match id {
            Some(id) => survey.space_name(*id),
            None => "the first".to_owned(),
        })
}
