//! One photo, as large as the window allows, with its marks.

mod canvas;
mod marks;
mod opened;

pub(super) use canvas::paint_marks;
pub(super) use opened::Lightbox;

use super::photos::{Photos, Sight};
use super::request::Queue;
use super::widgets::{self, TextField};
use crate::survey::findings::numbered;
use crate::survey::{Edit, Field, Survey};
use eframe::egui;
use egui::{Context, Frame, Id, Key, Modal, Modifiers, Ui, vec2};
use opened::{At, Drag, Tool, turn_to};

/// Draws the photo over everything, where one is opened.
pub(super) fn show(
    ctx: &Context,
    opened: &mut Option<Lightbox>,
    survey: &Survey,
    photos: &mut Photos,
    queue: &mut Queue,
) {
    let Some(mut lightbox) = opened.take() else {
        return;
    };
    // Undo may have taken the gap or the photo away.
    let here = survey.gap(lightbox.gap).and_then(|gap| {
        let at = gap.photos.iter().position(|p| p.name == lightbox.name)?;
        let photo = gap.photos.get(at)?;
        Some(At { gap, at, photo })
    });
    let Some(here) = here else { return };
    if lightbox.selected >= Some(here.photo.marks.len()) {
        lightbox.selected = None;
    }
    let typing = ctx.text_edit_focused();
    let escape =
        |ctx: &Context| ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
    if lightbox.drag.is_some() && escape(ctx) {
        if matches!(lightbox.drag, Some(Drag::Move { .. })) {
            queue.abort_step();
        }
        lightbox.drag = None;
    }
    let frame = Frame::window(&ctx.global_style()).inner_margin(12);
    let modal = Modal::new(Id::unique("lightbox"))
        .frame(frame)
        .show(ctx, |ui| {
            let room = ui.ctx().content_rect().size() - vec2(56.0, 56.0);
            ui.set_width(room.x);
            ui.set_height(room.y);
            content(ui, photos, queue, &mut lightbox, &here)
        });
    let close = modal.inner || (!typing && lightbox.drag.is_none() && modal.should_close());
    if close {
        queue.close_step();
    } else {
        *opened = Some(lightbox);
    }
}

/// Draws it; true when it is to be closed.
fn content(
    ui: &mut Ui,
    photos: &mut Photos,
    queue: &mut Queue,
    lightbox: &mut Lightbox,
    here: &At<'_>,
) -> bool {
    let close = head(ui, queue, lightbox, here);
    tools(ui, queue, lightbox, here);
    // A caption is a sentence: it takes what the label leaves.
    let width = ui.available_width() - widgets::LABEL_WIDTH - 24.0;
    let caption = TextField::new(Field::Caption, &here.photo.caption)
        .id((here.gap.id, &here.photo.name))
        .width(width.clamp(120.0, 640.0))
        .kept_on_escape()
        .show(ui, queue);
    if let Some(caption) = caption {
        let mut gap = here.gap.clone();
        if let Some(photo) = gap.photos.get_mut(here.at) {
            photo.caption = caption;
        }
        queue.typed(Edit::gap(gap));
    }
    if let Some(after) = widgets::tick(ui, Field::AfterWork, here.photo.after_work) {
        let mut gap = here.gap.clone();
        if let Some(photo) = gap.photos.get_mut(here.at) {
            photo.after_work = after;
        }
        queue.edit(Edit::gap(gap), None);
    }
    let room = ui.available_size() * ui.ctx().pixels_per_point();
    let sight = photos.large(ui.ctx(), &here.photo.name, room);
    match sight {
        Sight::Here(texture) => canvas::show(ui, queue, lightbox, here, texture),
        Sight::Coming => {
            widgets::muted(ui, "The photo is being read …");
        }
        Sight::Trouble(reason) => {
            ui.label(format!(
                "Photo \u{201c}{}\u{201d} cannot be shown: {reason}.",
                here.photo.name
            ));
        }
    }
    close
}

fn head(ui: &mut Ui, queue: &mut Queue, lightbox: &mut Lightbox, here: &At<'_>) -> bool {
    ui.horizontal_wrapped(|ui| {
        ui.heading(format!(
            "Photo {} of {} – {}",
            here.at + 1,
            here.gap.photos.len(),
            numbered("gap", here.gap.id, &here.gap.name)
        ));
        let before = here.at.checked_sub(1);
        if turn_button(ui, "Previous", before.is_some()) {
            turn_to(queue, lightbox, here, before);
        }
        let after = Some(here.at + 1).filter(|&at| at < here.gap.photos.len());
        if turn_button(ui, "Next", after.is_some()) {
            turn_to(queue, lightbox, here, after);
        }
        ui.button("Close").clicked()
    })
    .inner
}

fn turn_button(ui: &mut Ui, words: &str, enabled: bool) -> bool {
    ui.add_enabled(enabled, egui::Button::new(words)).clicked()
}

/// The tools and the marks there are.
fn tools(ui: &mut Ui, queue: &mut Queue, lightbox: &mut Lightbox, here: &At<'_>) {
    ui.horizontal_wrapped(|ui| {
        ui.label("Draw");
        ui.selectable_value(&mut lightbox.tool, Tool::Circle, "Circle");
        ui.selectable_value(&mut lightbox.tool, Tool::Arrow, "Arrow");
        if ui
            .button("Put in the middle")
            .on_hover_text("Then move it with the arrow keys")
            .clicked()
        {
            marks::put_in_the_middle(queue, lightbox, here);
        }
        ui.separator();
        for (number, mark) in here.photo.marks.iter().enumerate() {
            let words = format!("{} {}", number + 1, mark.name());
            let chosen = lightbox.selected == Some(number);
            let response = ui.selectable_label(chosen, &words);
            widgets::tell_name(ui, response.id, &format!("mark {words}"));
            if response.clicked() {
                queue.close_step();
                lightbox.selected = (!chosen).then_some(number);
                lightbox.fresh = true;
            }
        }
        let remove = egui::Button::new("Remove mark");
        if ui
            .add_enabled(lightbox.selected.is_some(), remove)
            .clicked()
        {
            marks::remove(queue, lightbox, here);
        }
    });
    let keys = match lightbox.selected {
        None => {
            "Drag on the photo to draw, or drag a mark by its line to move it. C is for circles, A \
             for arrows, Enter puts one in the middle. Left and right turn to the other photos, Esc \
             closes."
        }
        Some(_) => {
            "Arrow keys move the mark, + and − size it, R turns an arrow, Delete removes it; \
             Enter lets go of it."
        }
    };
    widgets::muted(ui, keys);
}
