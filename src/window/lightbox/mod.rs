//! One photo, as large as the window allows, with its marks.

mod canvas;
mod marks;

pub(super) use canvas::paint_marks;

use super::page::{PageContext, Queue};
use super::photos::Sight;
use super::widgets::{self, TextField};
use crate::survey::{Edit, Gap, GapId, MergeKey, Photo, PhotoMark, Record};
use eframe::egui;
use egui::{Context, Frame, Id, Key, Modal, Modifiers, Ui, vec2};

/// What a drag on the photo draws.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Tool {
    /// A circle from its middle outwards.
    #[default]
    Circle,
    /// An arrow from its tail to its tip.
    Arrow,
}

/// What the pointer is doing.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Drag {
    /// Drawing a mark that began here, in shares of the picture.
    Draw { from: (f64, f64), to: (f64, f64) },
    /// Moving the selected mark; the pointer was here last.
    Move { last: (f64, f64) },
}

/// The photo shown large, and what is being done to it.
#[derive(Clone, Debug)]
pub(super) struct Lightbox {
    gap: GapId,
    name: String,
    tool: Tool,
    /// The mark selected, by its place in the list.
    selected: Option<usize>,
    drag: Option<Drag>,
    /// The photo takes the focus in the next frame.
    fresh: bool,
}

impl Lightbox {
    /// Opens a photo of a gap.
    #[must_use]
    pub(super) fn new(gap: GapId, name: &str) -> Self {
        Self {
            gap,
            name: name.to_owned(),
            tool: Tool::default(),
            selected: None,
            drag: None,
            fresh: true,
        }
    }
}

/// The gap and the place of the photo in it.
struct At<'a> {
    gap: &'a Gap,
    at: usize,
    photo: &'a Photo,
}

impl At<'_> {
    /// Queues a change of the photo.
    fn change(&self, queue: &mut Queue, merge: Option<MergeKey>, change: impl FnOnce(&mut Photo)) {
        let mut gap = self.gap.clone();
        if let Some(photo) = gap.photos.get_mut(self.at) {
            change(photo);
        }
        queue.edit(Edit::Put(Record::Gap(Box::new(gap))), merge);
    }

    /// Changes one mark; changes of the same mark in a row are one step.
    fn change_mark(&self, queue: &mut Queue, number: usize, mark: PhotoMark) {
        let key = MergeKey(format!(
            "mark {number} of {} at {}",
            self.photo.name, self.gap.id
        ));
        self.change(queue, Some(key), |photo| {
            if let Some(old) = photo.marks.get_mut(number) {
                *old = marks::rounded(mark);
            }
        });
    }
}

/// Draws the photo over everything, where one is opened.
pub(super) fn show(ctx: &Context, context: &mut PageContext<'_>) {
    let Some(mut lightbox) = context.view.gaps.lightbox.take() else {
        return;
    };
    let survey = context.survey;
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
            context.queue.abort_step();
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
            content(ui, context, &mut lightbox, &here)
        });
    let close = modal.inner || (!typing && lightbox.drag.is_none() && modal.should_close());
    if close {
        context.queue.close_step();
    } else {
        context.view.gaps.lightbox = Some(lightbox);
    }
}

/// Draws it; true when it is to be closed.
fn content(
    ui: &mut Ui,
    context: &mut PageContext<'_>,
    lightbox: &mut Lightbox,
    here: &At<'_>,
) -> bool {
    let close = head(ui, context.queue, lightbox, here);
    tools(ui, context.queue, lightbox, here);
    // A caption is a sentence: it takes what the label leaves.
    let width = ui.available_width() - widgets::LABEL_WIDTH - 24.0;
    let caption = TextField::new("What it shows", "caption", &here.photo.caption)
        .id((here.gap.id, &here.photo.name))
        .width(width.clamp(120.0, 640.0))
        .show(ui, context.queue);
    if let Some(caption) = caption {
        let mut gap = here.gap.clone();
        if let Some(photo) = gap.photos.get_mut(here.at) {
            photo.caption = caption;
        }
        context.queue.typed(Edit::Put(Record::Gap(Box::new(gap))));
    }
    let room = ui.available_size() * ui.ctx().pixels_per_point();
    let sight = context.photos.large(ui.ctx(), &here.photo.name, room);
    match sight {
        Sight::Here(texture) => canvas::show(ui, context.queue, lightbox, here, texture),
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
            super::photos::gap_words(here.gap)
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

/// Shows another photo of the gap.
fn turn_to(queue: &mut Queue, lightbox: &mut Lightbox, here: &At<'_>, at: Option<usize>) {
    if let Some(photo) = at.and_then(|at| here.gap.photos.get(at)) {
        queue.close_step();
        *lightbox = Lightbox {
            tool: lightbox.tool,
            ..Lightbox::new(here.gap.id, &photo.name)
        };
    }
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
            "Drag on the photo to draw, or press C for a circle, A for an arrow. \
             Left and right turn to the other photos, Esc closes."
        }
        Some(_) => {
            "Arrow keys move the mark, + and − size it, R turns an arrow, Delete removes it; \
             Enter lets go of it."
        }
    };
    widgets::muted(ui, keys);
}
