//! Keeping the focus: what has it stays in sight, and arrow keys stay with it.

use eframe::egui;
use egui::{EventFilter, Id, Key, Modifiers, Response, Ui};

/// What had the focus when it was last looked for.
#[derive(Clone, Copy, Debug, Default)]
struct Followed {
    id: Option<Id>,
    /// How far it stood below the top of what scrolls.
    below: f32,
    /// Where that top stood on the screen.
    top: f32,
    /// It was in sight, or was being brought there.
    in_sight: bool,
}

/// At the end of what scrolls: when the keyboard has moved the focus to something of it, or something
/// that came or went above has moved what has the focus, scrolls so that it is in sight.
pub fn follow_focus(ui: &Ui) {
    let remembered = ui.scope_id().with("focus followed");
    let focused = ui.memory(|memory| memory.focused());
    let there = focused.and_then(|id| ui.ctx().read_response(id));
    // What is asked to take the focus may be drawn in the next frame only.
    if focused.is_some() && there.is_none() {
        return;
    }
    let before = ui.data(|data| data.get_temp::<Followed>(remembered));
    let before = before.unwrap_or_default();
    let by_hand = ui
        .input(|input| input.pointer.any_down() || input.smooth_scroll_delta() != egui::Vec2::ZERO);
    let mut now = Followed {
        id: focused,
        top: ui.min_rect().top(),
        ..Followed::default()
    };
    if let Some(response) = there.filter(|there| ui.min_rect().contains_rect(there.rect)) {
        now.below = response.rect.top() - ui.min_rect().top();
        let seen = ui.clip_rect().contains(response.rect.center());
        let came = focused != before.id;
        // While it still scrolls, what was read may be a frame behind.
        let still = (ui.min_rect().top() - before.top).abs() < 1.0;
        let moved = before.in_sight && still && (now.below - before.below).abs() > 1.0;
        // A click has what it clicked in sight already; what was scrolled away by hand stays away.
        let scrolls = !by_hand && (came || moved);
        if scrolls {
            ui.scroll_to_rect(response.rect, None);
        }
        now.in_sight = seen || scrolls || (before.in_sight && !by_hand && !came);
    }
    ui.data_mut(|data| data.insert_temp(remembered, now));
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
