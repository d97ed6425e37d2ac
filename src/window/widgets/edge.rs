//! The upright edge between two parts of a page, moved by pointer or keyboard.

use crate::window::theme::palette;
use eframe::egui;
use egui::accesskit::Role;
use egui::{
    CursorIcon, EventFilter, Id, Key, Rangef, Rect, Response, Sense, Stroke, Ui, WidgetInfo, pos2,
};

/// What was done to an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Moved {
    /// It stands here now, in points from the left of the window.
    To(f32),
    /// It goes back to where it stood at first.
    Back,
}

/// One press of an arrow key, points.
const STEP: f32 = 16.0;

/// Draws the edge over these x within the height of `room`. Arrow keys move it, a double click or
/// Enter puts it back.
pub fn edge(ui: &Ui, name: &str, across: Rangef, room: Rect) -> Option<Moved> {
    let rect = Rect::from_x_y_ranges(across, room.y_range());
    let response = ui.interact(rect, Id::unique(("edge", name)), Sense::click_and_drag());
    response.widget_info(|| WidgetInfo::labeled(Role::Splitter, true, name));
    let response = response
        .on_hover_and_drag_cursor(CursorIcon::ResizeHorizontal)
        .on_hover_text("Drag it, or move it with the arrow keys; a double click puts it back");
    line(ui, &response);
    if response.double_clicked() {
        return Some(Moved::Back);
    }
    if response.dragged() {
        let at = response.interact_pointer_pos()?;
        return Some(Moved::To(at.x));
    }
    if !response.has_focus() {
        return None;
    }
    let filter = EventFilter {
        horizontal_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let at = rect.center().x;
    if pressed(Key::ArrowLeft) {
        Some(Moved::To(at - STEP))
    } else if pressed(Key::ArrowRight) {
        Some(Moved::To(at + STEP))
    } else if pressed(Key::Enter) {
        Some(Moved::Back)
    } else {
        None
    }
}

/// A rule from top to bottom, and a grip that says it can be moved.
fn line(ui: &Ui, response: &Response) {
    let colours = palette(ui);
    let held = response.hovered() || response.dragged() || response.has_focus();
    let (colour, width) = if held {
        (colours.accent, 2.0)
    } else {
        (colours.outline, 1.0)
    };
    let rect = response.rect;
    let x = rect.center().x;
    let painter = ui.painter();
    let rule = if held { colour } else { colours.rule };
    painter.vline(x, rect.y_range(), Stroke::new(width, rule));
    for dot in -2_i8..=2 {
        let at = pos2(x, rect.center().y + 6.0 * f32::from(dot));
        painter.circle_filled(at, 1.8, colour);
    }
}
