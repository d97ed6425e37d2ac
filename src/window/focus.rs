//! The focus is not lost when what has it goes away: a button that vanishes once it was pressed
//! hands it to what stands in its place, a list or dialog that closes gives it back.

use super::page::Page;
use eframe::egui;
use egui::{Context, FocusDirection, Id, Key, LayerId, Order, Sense, WidgetRect};

/// What had the focus in the last frame.
#[derive(Clone, Copy, Debug)]
struct Held {
    id: Id,
    /// What Tab reaches just before it.
    before: Option<Id>,
    layer: LayerId,
    page: Option<Page>,
}

/// Follows the focus from frame to frame.
#[derive(Debug, Default)]
pub(super) struct FocusKeeper {
    held: Option<Held>,
    /// What had it last on the page itself, below lists and dialogs.
    below: Option<Id>,
}

/// Where nothing has the focus, Tab begins on the page and not at the menus: whoever works by keyboard is
/// in the work at once, and comes to menus and results after it. Whether Tab was held back for that,
/// before anything is drawn; [`begin_here`] lets it go.
pub(super) fn holds_tab(ctx: &Context) -> bool {
    let tab = ctx.input(|input| input.modifiers.is_none() && input.key_pressed(Key::Tab));
    let begins = tab && ctx.memory(|memory| memory.focused().is_none());
    if begins {
        ctx.memory_mut(|memory| memory.move_focus(FocusDirection::None));
    }
    begins
}

/// The first that takes the focus from here on gets it.
pub(super) fn begin_here(ctx: &Context) {
    ctx.memory_mut(|memory| memory.move_focus(FocusDirection::Next));
}

impl FocusKeeper {
    /// At the end of each frame: where what had the focus is not drawn any more, something else
    /// gets it. On the Gaps page ledger or body take it by themselves. `dialog`: one lies over the
    /// page.
    pub(super) fn follow(&mut self, ctx: &Context, page: Option<Page>, dialog: bool) {
        let focused = ctx.memory(|memory| memory.focused());
        if let Some(there) = focused.and_then(|id| drawn(ctx, id)) {
            if there.layer_id.order == Order::Background {
                self.below = Some(there.id);
            }
            self.held = Some(Held {
                id: there.id,
                before: just_before(ctx, &there),
                layer: there.layer_id,
                page,
            });
            return;
        }
        let Some(held) = self.held.take() else { return };
        let another = focused.is_some_and(|id| id != held.id);
        if held.page != page || another {
            return;
        }
        let above = held.layer.order != Order::Background;
        if drawn(ctx, held.id).is_some() {
            // Esc has taken the focus away, and may have closed what it was in.
            self.held = Some(held).filter(|_| above);
            return;
        }
        let heir = if above {
            self.below.and_then(|id| drawn(ctx, id))
        } else if page == Some(Page::Gaps) {
            None
        } else {
            in_its_place(ctx, &held)
        };
        let Some(heir) = heir else { return };
        if ctx.memory(|memory| memory.allows_interaction(heir.layer_id)) {
            ctx.memory_mut(|memory| memory.request_focus(heir.id));
            // It may be gone itself in the next frame, where results come piece by piece.
            self.held = Some(Held {
                id: heir.id,
                layer: heir.layer_id,
                ..held
            });
            ctx.request_repaint();
        } else {
            // What lay over the page keeps it shut for one frame more.
            self.held = Some(held);
            if !dialog {
                ctx.request_repaint();
            }
        }
    }
}

/// What is drawn in this frame and takes the focus. Ids that nobody gave are numbers: where a
/// button was there may be a bar of the same id.
fn drawn(ctx: &Context, id: Id) -> Option<WidgetRect> {
    let there = ctx.viewport(|viewport| viewport.this_pass.widgets.get(id).copied());
    there.filter(|there| there.enabled && there.sense.is_focusable())
}

/// What can be pressed or typed into.
fn takes(one: &WidgetRect) -> bool {
    one.enabled && one.visible && one.sense.contains(Sense::click())
}

fn just_before(ctx: &Context, there: &WidgetRect) -> Option<Id> {
    ctx.viewport(|viewport| {
        let all = viewport.this_pass.widgets.get_layer(there.layer_id);
        let before = all.take_while(|one| one.id != there.id);
        before.filter(|one| takes(one)).last().map(|one| one.id)
    })
}

/// What Tab now reaches where it would have reached what is gone; at the end of all, what it
/// reaches before.
fn in_its_place(ctx: &Context, held: &Held) -> Option<WidgetRect> {
    let before = held.before?;
    ctx.viewport(|viewport| {
        let all = viewport.this_pass.widgets.get_layer(held.layer);
        let mut rest = all
            .skip_while(|one| one.id != before)
            .filter(|one| takes(one));
        let last = rest.next()?;
        Some(*rest.next().unwrap_or(last))
    })
}
