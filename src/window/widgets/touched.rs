//! Whether something was typed into the field that has the focus.

use eframe::egui;
use egui::{Context, Id, Response, Ui};

/// An input that has the focus, and nothing was typed into it yet.
#[derive(Clone, Copy)]
struct Untouched;

/// Tells whether something that is not yet settled was typed into the input with this id.
pub(super) fn tell_touched(ui: &Ui, id: Id, response: &Response, touched: bool) {
    // Asked before the data is locked: the answer takes the same lock.
    let untouched = response.has_focus() && !touched;
    ui.data_mut(|data| {
        if untouched {
            data.insert_temp(id, Untouched);
        } else {
            data.remove::<Untouched>(id);
        }
    });
}

/// Whether an input of a page has the focus and nothing was typed into it: undoing is then the
/// survey's business, not the text's.
#[must_use]
pub fn untouched(ctx: &Context) -> bool {
    let focused = ctx.memory(|memory| memory.focused());
    focused.is_some_and(|id| ctx.data(|data| data.get_temp::<Untouched>(id)).is_some())
}
