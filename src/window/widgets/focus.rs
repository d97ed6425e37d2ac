//! Keeping the focus: what has it stays in sight, and arrow keys stay with it.

use eframe::egui;
use egui::{EventFilter, Id, Key, Modifiers, Response, Ui};

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

/// While this has the focus, arrow keys are its own; Tab goes on as everywhere.
pub fn hold_arrows(ui: &Ui, id: Id) {
    let filter = EventFilter {
        vertical_arrows: true,
        horizontal_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
}

/// Whether the keys for a menu of what has the focus were pressed; they are used up.
pub fn asks_for_menu(ui: &Ui) -> bool {
    ui.input_mut(|input| {
        input.consume_key(Modifiers::SHIFT, Key::F10)
            || input.consume_key(Modifiers::NONE, Key::Menu)
    })
}

/// While this has the focus, the arrow keys up and down are its own.
pub(super) fn hold_up_and_down(ui: &Ui, id: Id) {
    let filter = EventFilter {
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
}

/// Gives this the focus whenever nothing else has it and nothing lies over it.
pub fn hold_focus(ui: &Ui, response: &Response) {
    let free = ui.memory(|memory| memory.focused().is_none() && memory.top_modal_layer().is_none());
    if free && !egui::Popup::is_any_open(ui.ctx()) {
        response.request_focus();
    }
}
