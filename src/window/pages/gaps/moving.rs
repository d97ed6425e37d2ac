//! Dragging rows of the ledger to another place: by their number, so that a finger anywhere else
//! still scrolls.

use super::ledger_view::Carried;
use super::listing::Listing;
use super::view::GapsContext;
use crate::physics::counts::whole;
use crate::survey::{Edit, GapId};
use crate::window::theme::palette;
use eframe::egui;
use egui::{CursorIcon, Id, Key, Rect, Response, Sense, Stroke, Ui, vec2};

/// Within so many points of its edge the ledger scrolls while a row is carried.
const EDGE: f32 = 24.0;
/// So far it scrolls in a frame.
const SCROLL: f32 = 8.0;

/// The number of a row takes drags, and clicks as the rest of the row does. Rows sorted by a column
/// stand in no order that could be changed.
pub(super) fn grip(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    gap: GapId,
    number: Rect,
) -> Option<Response> {
    if context.view.is_sorted() {
        return None;
    }
    // Not focusable: the ledger as a whole is one stop for Tab.
    let sense = Sense::CLICK | Sense::DRAG;
    let response = ui.interact(number, Id::unique(("carried by", gap)), sense);
    if response.hovered() {
        ui.ctx().set_cursor_icon(CursorIcon::Grab);
        dots(ui, number);
    }
    if response.drag_started() {
        let one = context.view.selected_in(context.survey);
        if !context.view.is_chosen(gap, one) {
            context.view.select(Some(gap));
        }
        context.view.ledger.carried = Some(Carried::Gap(gap));
    }
    Some(response.on_hover_text("Drag the row to another place in the ledger"))
}

/// What shows that a row can be taken there.
fn dots(ui: &Ui, number: Rect) {
    let colour = palette(ui).muted;
    for row in [-4.0, 0.0, 4.0] {
        for column in [4.0, 8.0] {
            let at = number.left_center() + vec2(column, row);
            ui.painter().circle_filled(at, 1.1, colour);
        }
    }
}

/// Shows where the carried rows would go, and puts them there when they are let go. Esc leaves
/// them where they are.
pub(super) fn carry(ui: &Ui, context: &mut GapsContext<'_>, rows: &Listing, height: f32) {
    let Some(carried) = context.view.ledger.carried else {
        return;
    };
    let (down, escaped, pointer) = ui.input(|input| {
        let pointer = &input.pointer;
        let escaped = input.key_pressed(Key::Escape);
        (pointer.any_down(), escaped, pointer.latest_pos())
    });
    if escaped {
        context.view.ledger.carried = Some(Carried::Over);
    }
    let at = pointer.filter(|_| carried != Carried::Over && !escaped);
    let place = at.map(|at| (at.y - ui.max_rect().top()) / height);
    let place = place.map(|place| whole(f64::from(place.round().max(0.0))).min(rows.lines.len()));
    if let Some(place) = place.filter(|_| down) {
        ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
        line(ui, place, height);
        scroll(ui, at.map_or(0.0, |at| at.y));
    }
    if down {
        return;
    }
    context.view.ledger.carried = None;
    if let Some(place) = place {
        let gaps = context.view.chosen_in(context.survey);
        let before = rows.lines.get(place).map(|line| line.id);
        // Below the last row shown, but in front of what is not shown after it.
        let last = rows.lines.last().map(|line| line.at + 1);
        let unseen = last
            .and_then(|at| context.survey.gaps.get(at))
            .map(|gap| gap.id);
        let before = before.or(unseen);
        context.queue.edit(Edit::MoveGaps { gaps, before }, None);
        context.view.keep_in_sight();
    }
}

fn line(ui: &Ui, place: usize, height: f32) {
    #[expect(
        clippy::cast_precision_loss,
        reason = "a ledger has no millions of rows"
    )]
    let y = ui.max_rect().top() + place as f32 * height;
    let stroke = Stroke::new(3.0, palette(ui).accent);
    ui.painter().hline(ui.clip_rect().x_range(), y, stroke);
}

/// Scrolls while the pointer is at the upper or lower edge.
fn scroll(ui: &Ui, y: f32) {
    let seen = ui.clip_rect();
    let by = if y < seen.top() + EDGE {
        SCROLL
    } else if y > seen.bottom() - EDGE {
        -SCROLL
    } else {
        return;
    };
    ui.scroll_with_delta(vec2(0.0, by));
    ui.ctx().request_repaint();
}
