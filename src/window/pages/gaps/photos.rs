//! The photos of the selected gap, small.

use super::change::change;
use super::view::GapsContext;
use crate::survey::{Field, Gap, Photo};
use crate::window::commands::Command;
use crate::window::lightbox::Lightbox;
use crate::window::marks::Marks;
use crate::window::photos::Sight;
use crate::window::theme::palette;
use crate::window::widgets;
use eframe::egui;
use egui::accesskit::Role;
use egui::{
    Align2, Id, Rect, Response, Sense, Stroke, StrokeKind, TextStyle, Ui, WidgetInfo, pos2, vec2,
};

/// Size of a tile.
const TILE: egui::Vec2 = vec2(104.0, 80.0);

/// Draws the card.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, marks: Marks<'_>) {
    if let Some(finding) = marks.at(Field::Photos) {
        widgets::message_line(ui, finding.severity, &finding.sentence);
    }
    if !gap.photos.is_empty() {
        ui.horizontal_wrapped(|ui| {
            for at in 0..gap.photos.len() {
                ui.vertical(|ui| {
                    ui.set_width(TILE.x);
                    tile(ui, context, gap, at);
                });
            }
        });
    }
    ui.horizontal_wrapped(|ui| {
        if let Some(line) = Command::AddPhotos.line() {
            let button = ui.button(line.name).on_hover_text(line.tooltip);
            if marks.wants(Field::Photos) {
                button.request_focus();
                button.scroll_to_me(Some(egui::Align::Center));
            }
            if button.clicked() {
                context.queue.command(Command::AddPhotos);
            }
        }
        widgets::muted(ui, "or drop them on the window, or paste one");
    });
}

/// What assistive technology says of a photo.
fn words(gap: &Gap, at: usize, photo: &Photo) -> String {
    let mut words = format!("photo {} of {}", at + 1, gap.photos.len());
    if !photo.caption.is_empty() {
        words += &format!(", {}", photo.caption);
    }
    match photo.marks.len() {
        0 => {}
        1 => words += ", 1 mark",
        many => words += &format!(", {many} marks"),
    }
    words
}

fn tile(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, at: usize) {
    let Some(photo) = gap.photos.get(at) else {
        return;
    };
    let id = Id::unique(("photo", gap.id, &photo.name));
    let (rect, _) = ui.allocate_exact_size(TILE, Sense::hover());
    let response = ui.interact(rect, id, Sense::click());
    let name = format!("open {}", words(gap, at, photo));
    let mut trouble = None;
    if ui.is_rect_visible(rect) {
        trouble = paint(ui, context, photo, rect, &response);
    }
    let told = match &trouble {
        Some(reason) => format!("{name}: {reason}"),
        None => name,
    };
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &told));
    let hover = match (&trouble, photo.caption.is_empty()) {
        (Some(reason), _) => format!("{}: {reason}", photo.name),
        (None, true) => photo.name.clone(),
        (None, false) => photo.caption.clone(),
    };
    if response.on_hover_text(hover).clicked() {
        context.view.lightbox = Some(Lightbox::new(gap.id, &photo.name));
    }
    ui.horizontal(|ui| {
        widgets::muted(ui, format!("{}", at + 1));
        if widgets::named_link(ui, "remove", &format!("remove photo {}", at + 1)) {
            let name = photo.name.clone();
            change(context.queue, gap, |gap| {
                gap.photos.retain(|photo| photo.name != name);
            });
        }
    });
}

/// Paints the photo or a placeholder; gives the reason where there is nothing to see.
fn paint(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    photo: &Photo,
    rect: Rect,
    response: &Response,
) -> Option<String> {
    let palette = palette(ui);
    let painter = ui.painter_at(rect.expand(3.0));
    painter.rect_filled(rect, 3.0, palette.field);
    let sight = context.photos.thumbnail(ui.ctx(), &photo.name);
    let placeholder = |sign: &str, text: &str, colour| {
        let font = TextStyle::Heading.resolve(ui.style());
        let middle = rect.center();
        painter.text(
            middle - vec2(0.0, 2.0),
            Align2::CENTER_BOTTOM,
            sign,
            font,
            colour,
        );
        let font = TextStyle::Small.resolve(ui.style());
        painter.text(
            middle + vec2(0.0, 4.0),
            Align2::CENTER_TOP,
            text,
            font,
            colour,
        );
    };
    let trouble = match sight {
        Sight::Here(texture) => {
            let scale = (rect.size() / texture.size).min_elem();
            let fit = Rect::from_center_size(rect.center(), texture.size * scale);
            let whole = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            painter.image(texture.id, fit, whole, egui::Color32::WHITE);
            crate::window::lightbox::paint_marks(&painter, fit, &photo.marks, None, 1.0);
            None
        }
        Sight::Coming => {
            placeholder("…", "being read", palette.muted);
            None
        }
        Sight::Trouble(reason) => {
            placeholder("✖", "cannot be shown", palette.warning);
            Some(reason)
        }
    };
    let stroke = if response.has_focus() {
        Stroke::new(2.5, palette.accent)
    } else if response.hovered() {
        Stroke::new(1.5, palette.text)
    } else {
        Stroke::new(1.0, palette.outline)
    };
    painter.rect_stroke(rect, 3.0, stroke, StrokeKind::Outside);
    trouble
}
