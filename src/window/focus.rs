//! The focus is not lost when what has it goes away: a button that vanishes once it was pressed
//! hands it to what is nearest, a list or dialog that closes gives it back.

use super::page::Page;
use eframe::egui;
use egui::{Context, Id, LayerId, Order, Rect, Sense, WidgetRect};

/// What had the focus in the last frame.
#[derive(Clone, Copy, Debug)]
struct Held {
    id: Id,
    rect: Rect,
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

impl FocusKeeper {
    /// At the end of each frame: where what had the focus is not drawn any more, something else
    /// gets it. On the Gaps page ledger or body take it by themselves.
    pub(super) fn follow(&mut self, ctx: &Context, page: Option<Page>) {
        let focused = ctx.memory(|memory| memory.focused());
        if let Some(there) = focused.and_then(|id| drawn(ctx, id)) {
            if there.layer_id.order == Order::Background {
                self.below = Some(there.id);
            }
            self.held = Some(Held {
                id: there.id,
                rect: there.rect,
                layer: there.layer_id,
                page,
            });
            return;
        }
        let Some(held) = self.held.take() else { return };
        let another = focused.is_some_and(|id| id != held.id);
        let moved_on = held.page != page || another || drawn(ctx, held.id).is_some();
        if moved_on {
            return;
        }
        let heir = if held.layer.order != Order::Background {
            self.below.and_then(|id| drawn(ctx, id))
        } else if page == Some(Page::Gaps) {
            None
        } else {
            nearest(ctx, &held)
        };
        let blocked = |layer| ctx.memory(|memory| !memory.allows_interaction(layer));
        if let Some(heir) = heir.filter(|heir| heir.enabled && !blocked(heir.layer_id)) {
            ctx.memory_mut(|memory| memory.request_focus(heir.id));
            ctx.request_repaint();
        }
    }
}

fn drawn(ctx: &Context, id: Id) -> Option<WidgetRect> {
    ctx.viewport(|viewport| viewport.this_pass.widgets.get(id).copied())
}

/// What can be pressed or typed into nearest to where the focus was.
fn nearest(ctx: &Context, held: &Held) -> Option<WidgetRect> {
    let centre = held.rect.center();
    ctx.viewport(|viewport| {
        let all = viewport.this_pass.widgets.get_layer(held.layer);
        all.filter(|other| {
            other.enabled
                && other.visible
                && other.sense.contains(Sense::click())
                && other.interact_rect.is_positive()
                && !other.rect.contains_rect(held.rect)
        })
        .min_by(|a, b| {
            let apart = |one: &WidgetRect| one.rect.distance_to_pos(centre);
            apart(a).total_cmp(&apart(b))
        })
        .copied()
    })
}
