//! The chart of a trial: temperature, humidity and water below each other on one axis of time, to be
//! moved, zoomed, read and marked by mouse, finger and key.

mod keys;
mod plots;
mod pointer;
mod read;
mod span;
mod view;

pub use view::{ChartView, Marked};

use crate::figure::trial::{Band, Lines};
use crate::window::widgets;
use eframe::egui;
use egui::accesskit::Role;
use egui::{Id, Sense, Ui, WidgetInfo};
use span::Span;
use view::Tool;

/// Draws the chart; `Some` is a period that was marked. `revision` tells one state of the lines from
/// another, `id` one trial from another.
pub fn show(
    ui: &mut Ui,
    view: &mut ChartView,
    (id, name): (Id, &str),
    revision: u64,
    (lines, bands): (&Lines, &[Band]),
) -> Option<Marked> {
    let Some(all) = lines.span() else {
        widgets::muted(ui, "There are no readings to draw.");
        return None;
    };
    tools(ui, view, all, name);
    // Above the plots, which are higher than a low window: whoever moves the cursor by keys sees where it is.
    match view.begun {
        Some(begun) => {
            read::begun(ui, begun);
        }
        None => {
            widgets::muted(ui, keys::WORDS);
        }
    }
    read::show(ui, view, lines, all);
    let mut marked = None;
    let response = {
        let drawn = plots::show(ui, view, (id, revision), (lines, bands), all);
        let response = ui.interact(drawn.rect, id, Sense::click_and_drag());
        if response.has_focus() {
            keys::hold(ui, response.id, view.begun.is_some());
            marked = keys::take(ui, view, lines, all);
            let stroke = ui.visuals().selection.stroke;
            ui.painter()
                .rect_stroke(drawn.rect, 2.0, stroke, egui::StrokeKind::Inside);
        }
        marked = marked.or(pointer::take(ui, view, &response, &drawn, (bands, all)));
        response
    };
    let words = format!("Chart of {name}");
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &words));
    marked
}

/// Buttons for all that keys and pointer do to the view.
fn tools(ui: &mut Ui, view: &mut ChartView, all: Span, name: &str) {
    let shown = view.shown(all);
    let middle = shown.0 + (shown.1 - shown.0) / 2;
    let half = (shown.1 - shown.0) / 2;
    ui.horizontal_wrapped(|ui| {
        ui.label("Dragging");
        for (tool, words) in [
            (Tool::Move, "moves the view"),
            (Tool::Mark, "marks a period"),
        ] {
            if ui.radio(view.tool == tool, words).clicked() {
                view.tool = tool;
            }
        }
        ui.add_space(8.0);
        let mut button = |words: &str, say: &str| {
            widgets::named_button(ui, words, &format!("{say}: chart of {name}"))
        };
        if button("Earlier", "Earlier") {
            view.show(span::moved(shown, -half, all));
        }
        if button("Later", "Later") {
            view.show(span::moved(shown, half, all));
        }
        let around = view.cursor.unwrap_or(middle);
        if button("Closer", "Closer") {
            view.show(span::zoomed(shown, around, 0.5, all));
        }
        if button("Wider", "Wider") {
            view.show(span::zoomed(shown, around, 2.0, all));
        }
        if button("All", "All") {
            view.show(all);
        }
    });
}
