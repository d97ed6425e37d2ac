//! The edge between two parts of a page, moved by pointer or keyboard.

use crate::window::theme::palette;
use eframe::egui;
use egui::accesskit::Role;
use egui::{
    CursorIcon, EventFilter, Id, Key, Pos2, Rangef, Rect, Response, Sense, Stroke, Ui, WidgetInfo,
    pos2,
};

/// What was done to an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Moved {
    /// It stands here now, in points from the left of the window, or from its top.
    To(f32),
    /// It goes back to where it stood at first.
    Back,
}

/// One press of an arrow key, points.
const STEP: f32 = 16.0;

/// Which way an edge runs.
#[derive(Clone, Copy, PartialEq)]
enum Runs {
    Upright,
    Level,
}

impl Runs {
    /// What moves across it.
    fn across(self, at: Pos2) -> f32 {
        match self {
            Self::Upright => at.x,
            Self::Level => at.y,
        }
    }

    /// The keys that move it back and on.
    fn keys(self) -> (Key, Key) {
        match self {
            Self::Upright => (Key::ArrowLeft, Key::ArrowRight),
            Self::Level => (Key::ArrowUp, Key::ArrowDown),
        }
    }
}

/// Draws the edge over these x within the height of `room`. Arrow keys move it, a double click or
/// Enter puts it back.
pub fn edge(ui: &Ui, name: &str, across: Rangef, room: Rect) -> Option<Moved> {
    let rect = Rect::from_x_y_ranges(across, room.y_range());
    moved(ui, name, rect, Runs::Upright)
}

/// Draws a level edge over this rectangle; it is moved as [`edge`] is.
pub fn level_edge(ui: &Ui, name: &str, rect: Rect) -> Option<Moved> {
    moved(ui, name, rect, Runs::Level)
}

fn moved(ui: &Ui, name: &str, rect: Rect, runs: Runs) -> Option<Moved> {
    let response = ui.interact(rect, Id::unique(("edge", name)), Sense::click_and_drag());
    response.widget_info(|| WidgetInfo::labeled(Role::Splitter, true, name));
    let cursor = match runs {
        Runs::Upright => CursorIcon::ResizeHorizontal,
        Runs::Level => CursorIcon::ResizeVertical,
    };
    let response = response
        .on_hover_and_drag_cursor(cursor)
        .on_hover_text("Drag it, or move it with the arrow keys; a double click puts it back");
    line(ui, &response, runs);
    if response.double_clicked() {
        return Some(Moved::Back);
    }
    if response.dragged() {
        let at = response.interact_pointer_pos()?;
        return Some(Moved::To(runs.across(at)));
    }
    if !response.has_focus() {
        return None;
    }
    let filter = EventFilter {
        horizontal_arrows: runs == Runs::Upright,
        vertical_arrows: runs == Runs::Level,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let at = runs.across(rect.center());
    let (back, on) = runs.keys();
    if pressed(back) {
        Some(Moved::To(at - STEP))
    } else if pressed(on) {
        Some(Moved::To(at + STEP))
    } else if pressed(Key::Enter) {
        Some(Moved::Back)
    } else {
        None
    }
}

/// A rule from end to end, and a grip that says it can be moved.
fn line(ui: &Ui, response: &Response, runs: Runs) {
    let colours = palette(ui);
    let held = response.hovered() || response.dragged() || response.has_focus();
    let (colour, width) = if held {
        (colours.accent, 2.0)
    } else {
        (colours.outline, 1.0)
    };
    let rect = response.rect;
    let middle = rect.center();
    let painter = ui.painter();
    let rule = if held { colour } else { colours.rule };
    let stroke = Stroke::new(width, rule);
    match runs {
        Runs::Upright => painter.vline(middle.x, rect.y_range(), stroke),
        Runs::Level => painter.hline(rect.x_range(), middle.y, stroke),
    };
    for dot in -2_i8..=2 {
        let along = 6.0 * f32::from(dot);
        let at = match runs {
            Runs::Upright => pos2(middle.x, middle.y + along),
            Runs::Level => pos2(middle.x + along, middle.y),
        };
        painter.circle_filled(at, 1.8, colour);
    }
}
