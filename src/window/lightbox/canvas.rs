//! The photo itself: painted with its marks, drawn on by mouse and keys.

use super::marks;
use super::opened::{At, Drag, Lightbox, Tool, turn_to};
use crate::assess::words::counted;
use crate::survey::PhotoMark;
use crate::window::request::Queue;
use crate::window::theme::palette;
use crate::window::widgets::hold_arrows;
use eframe::egui;
use egui::accesskit::Role;
use egui::load::SizedTexture;
use egui::{
    Color32, Event, Id, Key, Painter, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui,
    WidgetInfo, pos2, vec2,
};

/// Colour of a mark, and of the dark line under it: seen on light and on dark.
const BRIGHT: Color32 = Color32::from_rgb(0xff, 0xd6, 0x3a);
const UNDER: Color32 = Color32::from_rgb(0x10, 0x10, 0x10);
/// How near the pointer must come to a mark, in points.
const NEAR: f32 = 9.0;

/// Draws the photo as large as it fits, and takes what is done to it.
pub(super) fn show(
    ui: &mut Ui,
    queue: &mut Queue,
    lightbox: &mut Lightbox,
    here: &At<'_>,
    texture: SizedTexture,
) {
    let room = ui.available_rect_before_wrap();
    let scale = (room.size() / texture.size).min_elem();
    let rect = Rect::from_center_size(room.center(), texture.size * scale.max(0.01));
    let id = Id::unique(("photo shown large", &here.photo.name));
    ui.allocate_rect(room, Sense::hover());
    let response = ui.interact(rect, id, Sense::click_and_drag());
    let words = format!(
        "photo, {}",
        counted(here.photo.marks.len(), "mark", "marks")
    );
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &words));
    // The key that opened the photo is not meant for it.
    let fresh = std::mem::take(&mut lightbox.fresh);
    if fresh {
        response.request_focus();
    }
    let picture = Picture { rect };
    if response.has_focus() && !fresh {
        hold_arrows(ui, response.id);
        keys(ui, queue, lightbox, here, &picture);
    }
    pointer(ui, queue, lightbox, here, &picture, &response);
    let painter = ui.painter_at(room);
    let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    painter.image(texture.id, rect, whole, Color32::WHITE);
    paint_marks(&painter, rect, &here.photo.marks, lightbox.selected, 2.0);
    if let Some(Drag::Draw { from, to }) = lightbox.drag
        && let Some(mark) = marks::drawn(lightbox.tool, from, to, picture.ratio())
    {
        paint_marks(&painter, rect, &[mark], Some(0), 2.0);
    }
    if response.has_focus() {
        let line = Stroke::new(2.0, palette(ui).accent);
        painter.rect_stroke(rect, 0.0, line, StrokeKind::Inside);
    }
}

/// The place of the picture on the screen.
struct Picture {
    rect: Rect,
}

impl Picture {
    fn ratio(&self) -> f64 {
        f64::from(self.rect.height() / self.rect.width())
    }

    /// A place in shares of the picture, inside it.
    fn share(&self, at: Pos2) -> (f64, f64) {
        let from = (at - self.rect.min) / self.rect.size();
        let inside = |share: f32| f64::from(share).clamp(0.0, 1.0);
        (inside(from.x), inside(from.y))
    }
}

fn keys(ui: &Ui, queue: &mut Queue, lightbox: &mut Lightbox, here: &At<'_>, picture: &Picture) {
    let pressed = |key| ui.input(|input| input.key_pressed(key) && !input.modifiers.command);
    for (key, tool) in [(Key::C, Tool::Circle), (Key::A, Tool::Arrow)] {
        if pressed(key) {
            lightbox.tool = tool;
            return;
        }
    }
    let Some((number, mark)) = lightbox
        .selected
        .and_then(|number| Some((number, *here.photo.marks.get(number)?)))
    else {
        if pressed(Key::ArrowLeft) {
            turn_to(queue, lightbox, here, here.at.checked_sub(1));
        } else if pressed(Key::ArrowRight) {
            turn_to(queue, lightbox, here, Some(here.at + 1));
        } else if pressed(Key::Enter) {
            marks::put_in_the_middle(queue, lightbox, here);
        }
        return;
    };
    if pressed(Key::Delete) || pressed(Key::Backspace) {
        marks::remove(queue, lightbox, here);
        return;
    }
    if pressed(Key::Enter) {
        queue.close_step();
        lightbox.selected = None;
        return;
    }
    // Several presses may fall into one frame.
    let changed = ui.input(|input| {
        let presses = input.events.iter().filter_map(|event| match event {
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } if !modifiers.command => Some((*key, modifiers.shift)),
            _ => None,
        });
        presses.fold(mark, |mark, (key, fine)| {
            worked(mark, key, fine, picture.ratio())
        })
    });
    if changed != mark {
        here.change_mark(queue, number, changed);
    }
}

/// The mark after one press of a key.
fn worked(mark: PhotoMark, key: Key, fine: bool, ratio: f64) -> PhotoMark {
    let step = if fine { 0.002 } else { 0.01 };
    match key {
        Key::ArrowLeft => marks::moved(mark, -step, 0.0),
        Key::ArrowRight => marks::moved(mark, step, 0.0),
        Key::ArrowUp => marks::moved(mark, 0.0, -step),
        Key::ArrowDown => marks::moved(mark, 0.0, step),
        Key::Plus | Key::Equals => marks::sized(mark, 1.1),
        Key::Minus => marks::sized(mark, 1.0 / 1.1),
        Key::R => marks::turned(mark, ratio),
        _ => mark,
    }
}

fn pointer(
    ui: &Ui,
    queue: &mut Queue,
    lightbox: &mut Lightbox,
    here: &At<'_>,
    picture: &Picture,
    response: &Response,
) {
    let near = f64::from(NEAR / picture.rect.width());
    let hit = |at: (f64, f64)| {
        let on = |mark: &PhotoMark| marks::is_at(mark, at, picture.ratio(), near);
        here.photo.marks.iter().rposition(on)
    };
    if response.clicked()
        && let Some(at) = response.interact_pointer_pos()
    {
        queue.close_step();
        lightbox.selected = hit(picture.share(at));
        response.request_focus();
    }
    if response.drag_started() {
        let origin = ui.input(|input| input.pointer.press_origin());
        if let Some(at) = origin.map(|at| picture.share(at)) {
            queue.close_step();
            // The selected mark is held anywhere on it, others by their line: within a circle
            // there is something to be drawn on.
            let selected = lightbox.selected.filter(|_| hit(at) == lightbox.selected);
            let by_line = |mark: &PhotoMark| marks::has_line_at(mark, at, picture.ratio(), near);
            let held = selected.or_else(|| here.photo.marks.iter().rposition(by_line));
            lightbox.drag = Some(match held {
                Some(_) => Drag::Move { last: at },
                None => Drag::Draw { from: at, to: at },
            });
            lightbox.selected = held;
            response.request_focus();
        }
    }
    let Some(drag) = lightbox.drag else { return };
    let now = response.interact_pointer_pos().map(|at| picture.share(at));
    match (drag, now) {
        (Drag::Draw { from, .. }, Some(to)) => lightbox.drag = Some(Drag::Draw { from, to }),
        (Drag::Move { last }, Some(to)) if to != last => {
            if let Some(number) = lightbox.selected
                && let Some(mark) = here.photo.marks.get(number)
            {
                let mark = marks::moved(*mark, to.0 - last.0, to.1 - last.1);
                here.change_mark(queue, number, mark);
            }
            lightbox.drag = Some(Drag::Move { last: to });
        }
        _ => {}
    }
    if response.drag_stopped() || !ui.input(|input| input.pointer.any_down()) {
        if let Some(Drag::Draw { from, to }) = lightbox.drag.take()
            && let Some(mark) = marks::drawn(lightbox.tool, from, to, picture.ratio())
        {
            marks::add(queue, lightbox, here, mark);
        }
        queue.close_step();
    }
}

/// Paints marks over a picture that lies in this rectangle; `line` is the width of their line.
pub(in crate::window) fn paint_marks(
    painter: &Painter,
    rect: Rect,
    marks: &[PhotoMark],
    selected: Option<usize>,
    line: f32,
) {
    #[expect(clippy::cast_possible_truncation, reason = "places on a screen")]
    let at = |across: f64, down: f64| {
        rect.min + vec2(across as f32 * rect.width(), down as f32 * rect.height())
    };
    // What is marked is in the picture: a circle that is larger is drawn as far as that goes.
    let painter = painter.with_clip_rect(painter.clip_rect().intersect(rect));
    for (number, mark) in marks.iter().enumerate() {
        // The selected one is told by its thicker line.
        let width = if selected == Some(number) {
            line * 2.0
        } else {
            line
        };
        for (width, colour) in [(width + 2.0, UNDER), (width, BRIGHT)] {
            let stroke = Stroke::new(width, colour);
            match *mark {
                PhotoMark::Circle {
                    across,
                    down,
                    radius,
                } => {
                    #[expect(clippy::cast_possible_truncation, reason = "a radius on a screen")]
                    let radius = radius as f32 * rect.width();
                    painter.circle_stroke(at(across, down), radius, stroke);
                }
                PhotoMark::Arrow {
                    from_across,
                    from_down,
                    across,
                    down,
                } => {
                    let tail = at(from_across, from_down);
                    arrow(&painter, tail, at(across, down), line, stroke);
                }
            }
        }
    }
}

/// An arrow whose head does not grow with its length.
fn arrow(painter: &Painter, tail: Pos2, tip: Pos2, line: f32, stroke: Stroke) {
    let along = (tip - tail).normalized();
    let side = along.rot90();
    let head = 7.0 * line;
    painter.line_segment([tail, tip], stroke);
    for side in [side, -side] {
        painter.line_segment([tip, tip - along * head + side * head * 0.5], stroke);
    }
}
