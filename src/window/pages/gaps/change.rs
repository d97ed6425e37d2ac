//! The fields of a gap, and the change that one of them asks for.

use super::super::fields::Fields;
use crate::survey::{Edit, Gap, Item};
use crate::window::context::PageContext;
use crate::window::request::Queue;
use eframe::egui::Ui;

/// The fields of a gap.
pub(super) fn fields<'a, 'u, View>(
    ui: &'u mut Ui,
    context: &'u mut PageContext<'a, View>,
    gap: &Gap,
) -> Fields<'a, 'u, Gap> {
    Fields::new(ui, context, Item::Gap(gap.id), gap, &Edit::gap)
}

/// Queues a change of a gap that a field has just reported.
pub(super) fn change(queue: &mut Queue, gap: &Gap, change: impl FnOnce(&mut Gap)) {
    let mut changed = gap.clone();
    change(&mut changed);
    queue.typed(Edit::gap(changed));
}
