//! Keeping what has the focus in sight.

use eframe::egui;
use egui::{Id, Ui};

/// At the end of what scrolls: when the keyboard has moved the focus to something of it, scrolls so
/// that it is in sight.
pub fn follow_focus(ui: &Ui) {
    let remembered = ui.scope_id().with("focus followed");
    let focused = ui.memory(|memory| memory.focused());
    let before = ui.data_mut(|data| {
        let before = data.get_temp_mut_or_default::<Option<Id>>(remembered);
        std::mem::replace(before, focused)
    });
    // A click has what it clicked in sight already.
    if focused == before || ui.input(|input| input.pointer.any_down()) {
        return;
    }
    if let Some(response) = focused.and_then(|id| ui.ctx().read_response(id))
        && ui.min_rect().contains_rect(response.rect)
    {
        ui.scroll_to_rect(response.rect, None);
    }
}
