//! Where the place that is looked at lies on the drawing.

use super::super::view::GapsContext;
use crate::figure::body::BodyFigure;
use crate::window::body::Frame;
use crate::window::theme::palette;
use eframe::egui;
use egui::{Rect, Stroke, Ui};

/// Radius of the ring round the place, points.
const RING: f32 = 13.0;

/// Paints a ring round the place, with a cross, which no gap's mark has.
pub(in crate::window::pages::gaps) fn paint(
    ui: &Ui,
    context: &GapsContext<'_>,
    figure: &BodyFigure,
    frame: Frame,
    space: Rect,
) {
    let Some((_, place)) = context.view.walk.place_in(context.survey) else {
        return;
    };
    let (facing, position) = place.spot(context.survey);
    let (point, _) = figure.layout.place(facing, &position);
    let at = frame.to_screen(point);
    let painter = ui.painter().with_clip_rect(space);
    let colours = palette(ui);
    painter.circle_stroke(at, RING, Stroke::new(5.0, colours.page));
    painter.circle_stroke(at, RING, Stroke::new(2.5, colours.accent));
    for out in [egui::vec2(1.0, 0.0), egui::vec2(0.0, 1.0)] {
        for side in [-1.0, 1.0] {
            let ends = [at + out * side * RING, at + out * side * (RING + 7.0)];
            painter.line_segment(ends, Stroke::new(2.5, colours.accent));
        }
    }
}
