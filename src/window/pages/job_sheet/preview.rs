//! The pages as they will be printed.

use super::view::JobSheetContext;
use crate::survey::number;
use crate::window::body::narrow;
use crate::window::theme::palette;
use crate::window::widgets;
use eframe::egui;
use egui::{Color32, Rect, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2};
use std::ops::Range;

/// Widest page on the screen, points.
const WIDEST: f32 = 900.0;
/// Space between pages, points.
const BETWEEN: f32 = 12.0;
/// Widths are stepped, so that dragging the window does not draw all pages at each pixel.
const WIDTH_STEP: f32 = 24.0;

type Above = fn(&mut Ui, &mut JobSheetContext<'_>);

/// Draws the pages; `above` first, where the window is narrow.
pub(super) fn show(ui: &mut Ui, context: &mut JobSheetContext<'_>, above: Option<Above>) {
    ScrollArea::vertical()
        .id_salt("job sheet pages")
        .auto_shrink(false)
        .show_viewport(ui, |ui, viewport| {
            if let Some(above) = above {
                above(ui, context);
                widgets::follow_focus(ui);
                ui.add_space(BETWEEN);
            }
            if std::mem::take(&mut context.view.pages_wanted) {
                ui.scroll_to_cursor(Some(egui::Align::TOP));
            }
            pages(ui, context, viewport);
        });
}

fn pages(ui: &mut Ui, context: &mut JobSheetContext<'_>, viewport: Rect) {
    let room = ui.available_width().min(WIDEST);
    let width = ((room / WIDTH_STEP).floor() * WIDTH_STEP).max(WIDTH_STEP);
    let pixels = number::whole(f64::from(width * ui.ctx().pixels_per_point()));
    let Some(pages) = context.sheets.pages() else {
        look(ui, context, (0..0, pixels));
        if context.sheets.step().is_some() {
            ui.horizontal(|ui| {
                ui.add_space(BETWEEN);
                widgets::muted(ui, "The pages are being set.");
            });
        }
        return;
    };
    let seen = viewport.translate(ui.min_rect().min.to_vec2());
    let mut in_sight: Option<(usize, usize)> = None;
    for page in 0..pages.pages() {
        let Some((wide, high)) = pages.page_size(page) else {
            continue;
        };
        let size = vec2(width, width * narrow(high / wide));
        let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
        let words = format!("Page {} of {}", page + 1, pages.pages());
        response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &words));
        if rect.intersects(seen) {
            in_sight = Some((in_sight.map_or(page, |(first, _)| first), page + 1));
            paint(ui, context, page, rect);
        }
        ui.add_space(BETWEEN);
    }
    let in_sight = in_sight.map_or(0..0, |(first, end)| first..end);
    look(ui, context, (in_sight, pixels));
}

/// Says which pages are in sight and how wide they are.
fn look(ui: &Ui, context: &mut JobSheetContext<'_>, looked_at: (Range<usize>, u32)) {
    let looked_at = Some(looked_at);
    if context.view.in_sight != looked_at {
        context.view.in_sight = looked_at;
        // They are drawn at the start of the next frame.
        ui.ctx().request_repaint();
    }
}

fn paint(ui: &Ui, context: &JobSheetContext<'_>, page: usize, rect: Rect) {
    let painter = ui.painter();
    // Paper is white in the dark as well: this is how it will look.
    painter.rect_filled(rect, 0.0, Color32::WHITE);
    if let Some(texture) = context.sheets.picture(page) {
        let whole = Rect::from_min_max(egui::pos2(0.0, 0.0), egui::pos2(1.0, 1.0));
        painter.image(texture.id(), rect, whole, Color32::WHITE);
    }
    let line = Stroke::new(1.0, palette(ui).rule);
    painter.rect_stroke(rect, 0.0, line, StrokeKind::Outside);
}
