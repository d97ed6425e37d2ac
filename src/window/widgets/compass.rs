//! A compass: directions turned by mouse, finger or keys.
//!
//! Each direction has a knob on a ring of its own, so that two that agree do not lie on each other.
//! Turning a knob, or pressing keys on it in a row, is one step for undo.

use super::focus::hold_arrows;
use super::words::is_touch;
use crate::survey::{Field, MergeKey};
use crate::window::help;
use crate::window::request::Queue;
use crate::window::theme::{Palette, TOUCH_TARGET, bold, palette};
use eframe::egui;
use egui::{
    Align2, Color32, CursorIcon, FontId, Id, Key, Painter, Pos2, Rect, Response, Sense, Shape,
    Stroke, Ui, Vec2, WidgetInfo, pos2, vec2,
};

/// Degrees that an arrow key turns, and with Shift.
const STEP_DEG: f64 = 5.0;
const STEP_WITH_SHIFT_DEG: f64 = 15.0;
/// Radius of the rings as parts of the dial's: the heading inside, the wind outside.
const RINGS: [f32; 2] = [0.40, 0.67];
const SIZE: f32 = 190.0;
const SIZE_FOR_FINGERS: f32 = 270.0;
const GRIP: f32 = 30.0;
const KNOB: f32 = 8.0;

/// Draws a compass with the front of the vehicle, and the wind that mostly blows; `Some` is the one
/// turned and where to, degrees clockwise from north.
pub fn compass(
    ui: &mut Ui,
    queue: &mut Queue,
    hands: [(Field, Option<f64>); 2],
) -> Option<(Field, f64)> {
    let size = if is_touch(ui) { SIZE_FOR_FINGERS } else { SIZE };
    let size = size.min(ui.available_width());
    let (dial, _) = ui.allocate_exact_size(vec2(size, size), Sense::hover());
    let mut turned = None;
    let mut knobs = Vec::new();
    for ((field, value), ring) in hands.into_iter().zip(RINGS) {
        let middle = on_ring(dial, ring, value.unwrap_or(0.0));
        let response = grip(ui, queue, dial, middle, (field, value));
        if let Some(to) = response.1 {
            turned = Some((field, to));
        }
        knobs.push((middle, value.is_some(), response.0));
    }
    let [(_, heading), (_, wind)] = hands;
    let colours = palette(ui);
    let painter = ui.painter();
    face(painter, dial, colours);
    vehicle(painter, dial, heading, colours);
    if let Some(from) = wind {
        let tail = on_ring(dial, RINGS[1], from);
        let to = on_ring(dial, RINGS[0] + 0.08, from) - tail;
        painter.arrow(tail, to, Stroke::new(2.5, colours.accent));
    }
    for (middle, known, response) in knobs {
        knob(painter, middle, known, &response, colours);
    }
    turned
}

/// The knob of one direction as an input of its own: its response, and where it was turned to.
fn grip(
    ui: &Ui,
    queue: &mut Queue,
    dial: Rect,
    middle: Pos2,
    (field, value): (Field, Option<f64>),
) -> (Response, Option<f64>) {
    let size = if is_touch(ui) { TOUCH_TARGET } else { GRIP };
    let id = ui.scope_id().with(("compass", field));
    let rect = Rect::from_center_size(middle, Vec2::splat(size));
    let response = ui.interact(rect, id, Sense::click_and_drag());
    let name = format!("Compass: {}", field.label());
    response.widget_info(|| WidgetInfo::slider(true, value.unwrap_or(0.0), &name));
    let response = response
        .on_hover_cursor(CursorIcon::Grab)
        .on_hover_text(format!("{name}: drag it, or turn it by the arrow keys"));
    help::offer(ui, &response, &name, field.help());
    if response.drag_started() || response.clicked() {
        response.request_focus();
    }
    let step = MergeKey(name);
    let to = dragged(ui, queue, dial, &response).or_else(|| pressed(ui, &response, value));
    let to = to.filter(|to| value.is_none_or(|value| (value - to).abs() > 1e-9));
    if to.is_some() {
        queue.typing_in(step);
    }
    // A drag takes the focus from the other knob: that must not end the step of the drag.
    let left = response.lost_focus() && ui.ctx().dragged_id().is_none();
    if response.drag_stopped() || left {
        queue.close_step();
    }
    (response, to)
}

/// Where a drag turns it to, in whole steps. Esc takes the drag back.
fn dragged(ui: &Ui, queue: &mut Queue, dial: Rect, response: &Response) -> Option<f64> {
    let over: Id = response.id.with("over");
    if response.drag_started() {
        ui.data_mut(|data| data.remove::<bool>(over));
    }
    if !response.dragged() {
        return None;
    }
    let is_over = ui.data(|data| data.get_temp::<bool>(over)).is_some();
    if is_over {
        return None;
    }
    if ui.input(|input| input.key_pressed(Key::Escape)) {
        queue.abort_step();
        ui.data_mut(|data| data.insert_temp(over, true));
        return None;
    }
    let from = response.interact_pointer_pos()? - dial.center();
    let angle = f64::from(from.x).atan2(f64::from(-from.y)).to_degrees();
    Some(((angle / STEP_DEG).round() * STEP_DEG).rem_euclid(360.0))
}

/// Where keys turn it to.
fn pressed(ui: &Ui, response: &Response, value: Option<f64>) -> Option<f64> {
    if !response.has_focus() {
        return None;
    }
    hold_arrows(ui, response.id);
    let (shift, right, left) = ui.input(|input| {
        let down = |key| i32::from(input.key_pressed(key));
        (
            input.modifiers.shift,
            down(Key::ArrowRight) + down(Key::ArrowUp),
            down(Key::ArrowLeft) + down(Key::ArrowDown),
        )
    });
    let step = if shift { STEP_WITH_SHIFT_DEG } else { STEP_DEG };
    let by = f64::from(right - left) * step;
    (right != left).then(|| (value.unwrap_or(0.0) + by).rem_euclid(360.0))
}

fn on_ring(dial: Rect, ring: f32, clockwise_from_up_deg: f64) -> Pos2 {
    dial.center() + towards(clockwise_from_up_deg) * (ring * dial.width() / 2.0)
}

fn towards(clockwise_from_up_deg: f64) -> Vec2 {
    #[expect(clippy::cast_possible_truncation, reason = "an angle on a screen")]
    let angle = clockwise_from_up_deg.to_radians() as f32;
    vec2(angle.sin(), -angle.cos())
}

/// The dial: points of the compass, and a tick every thirty degrees.
fn face(painter: &Painter, dial: Rect, colours: &Palette) {
    let radius = dial.width() / 2.0;
    painter.circle(
        dial.center(),
        radius - 1.0,
        colours.page,
        Stroke::new(1.0, colours.rule),
    );
    for ring in RINGS {
        let line = Stroke::new(0.7, colours.rule);
        painter.circle_stroke(dial.center(), radius * ring, line);
    }
    for tick in 0..12 {
        let degrees = 30.0 * f64::from(tick);
        let ends = [on_ring(dial, 0.95, degrees), on_ring(dial, 1.0, degrees)];
        painter.line_segment(ends, Stroke::new(1.0, colours.muted));
    }
    for (quarter, letter) in (0..).zip(["N", "E", "S", "W"]) {
        let at = on_ring(dial, 0.86, 90.0 * f64::from(quarter));
        let font = FontId::new(13.0, bold());
        painter.text(at, Align2::CENTER_CENTER, letter, font, colours.text);
    }
}

/// The vehicle from above, its front towards the heading; broken where that is not known.
fn vehicle(painter: &Painter, dial: Rect, heading: Option<f64>, colours: &Palette) {
    let along = towards(heading.unwrap_or(0.0));
    let across = along.rot90();
    let unit = dial.width() / 2.0;
    let at = |x: f32, y: f32| dial.center() + along * (x * unit) + across * (y * unit);
    let body = vec![
        at(0.30, 0.05),
        at(0.22, 0.12),
        at(-0.28, 0.12),
        at(-0.28, -0.12),
        at(0.22, -0.12),
        at(0.30, -0.05),
    ];
    let line = Stroke::new(1.5, colours.text);
    if heading.is_some() {
        painter.add(Shape::convex_polygon(body, colours.card, line));
        let glass = [at(0.16, 0.10), at(0.16, -0.10)];
        painter.line_segment(glass, line);
    } else {
        let round: Vec<Pos2> = body.iter().chain(body.first()).copied().collect();
        painter.extend(Shape::dashed_line(&round, line, 4.0, 4.0));
    }
}

/// Filled where the direction is known, hollow where it is not.
fn knob(painter: &Painter, middle: Pos2, known: bool, response: &Response, colours: &Palette) {
    let fill = match (known, response.hovered() || response.dragged()) {
        (false, false) => Color32::TRANSPARENT,
        (_, true) => colours.button_hovered,
        (true, false) => colours.accent,
    };
    painter.circle(middle, KNOB, fill, Stroke::new(2.0, colours.accent));
    if !known {
        let font = FontId::new(10.0, bold());
        let at = pos2(middle.x, middle.y);
        painter.text(at, Align2::CENTER_CENTER, "?", font, colours.accent);
    }
    if response.has_focus() {
        painter.circle_stroke(middle, KNOB + 4.0, Stroke::new(2.0, colours.text));
    }
}
