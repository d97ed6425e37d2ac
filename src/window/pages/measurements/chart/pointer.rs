//! Mouse and finger on a chart.

use super::plots::OnScreen;
use super::span::{self, Span};
use super::view::{ChartView, Dragged, Marked, Tool};
use crate::figure::trial::Band;
use eframe::egui;
use egui::{CursorIcon, Response, Ui};

/// How near to the end of a period a drag takes hold of it, points.
const NEAR: f32 = 7.0;

/// Does what the pointer asks for.
pub(super) fn take(
    ui: &Ui,
    view: &mut ChartView,
    response: &Response,
    on: &OnScreen,
    (bands, all): (&[Band], Span),
) -> Option<Marked> {
    let shown = view.shown(all);
    zoom(ui, view, response, on, all);
    if response.clicked() {
        response.request_focus();
        let at = response.interact_pointer_pos();
        view.cursor = at
            .and_then(|at| on.moment(at.x))
            .map(|at| at.clamp(all.0, all.1));
    }
    match view.tool {
        Tool::Move => {
            if response.dragged() {
                response.request_focus();
                let by = f64::from(response.drag_delta().x) * on.seconds_per_point()?;
                #[expect(clippy::cast_possible_truncation, reason = "seconds of a calendar")]
                let by = by.round() as i64;
                view.show(span::moved(shown, -by, all));
            }
            None
        }
        Tool::Mark => mark(ui, view, response, on, (bands, all)),
    }
}

/// Pinching, or the wheel with Ctrl held; the wheel alone scrolls the page.
fn zoom(ui: &Ui, view: &mut ChartView, response: &Response, on: &OnScreen, all: Span) {
    let Some(at) = response.hover_pos().and_then(|at| on.moment(at.x)) else {
        return;
    };
    let factor = ui.input(egui::InputState::zoom_delta);
    if (factor - 1.0).abs() > 1e-4 {
        let shown = view.shown(all);
        view.show(span::zoomed(shown, at, 1.0 / f64::from(factor), all));
    }
}

/// Marks a new period, or moves the end of one that the drag began at.
fn mark(
    ui: &Ui,
    view: &mut ChartView,
    response: &Response,
    on: &OnScreen,
    (bands, all): (&[Band], Span),
) -> Option<Marked> {
    let shown = view.shown(all);
    let at = |x: f32| {
        let at = on.moment(x)?.clamp(shown.0, shown.1);
        Some(span::rounded(at, shown).clamp(all.0, all.1))
    };
    if let Some(here) = response.hover_pos()
        && end_near(on, bands, here.x).is_some()
    {
        ui.ctx().set_cursor_icon(CursorIcon::ResizeHorizontal);
    }
    let now = response.interact_pointer_pos();
    if response.drag_started() {
        response.request_focus();
        // Where the button went down, not where the pointer is once it is a drag.
        let origin = ui.input(|input| input.pointer.press_origin()).or(now)?;
        let start = at(origin.x)?;
        view.dragged = Some(match end_near(on, bands, origin.x) {
            Some((place, stays)) => Dragged::End(place, stays, start),
            None => Dragged::From(start, start),
        });
    }
    let dragged = view.dragged?;
    if let Some(to) = now.and_then(|now| at(now.x)) {
        view.dragged = Some(match dragged {
            Dragged::From(from, _) => Dragged::From(from, to),
            Dragged::End(place, stays, _) => Dragged::End(place, stays, to),
        });
    }
    if !response.drag_stopped() {
        return None;
    }
    match view.dragged.take()? {
        Dragged::From(one, other) if one != other => {
            Some(Marked::New(one.min(other), one.max(other)))
        }
        Dragged::End(place, one, other) if one != other => {
            Some(Marked::Moved(place, one.min(other), one.max(other)))
        }
        _ => None,
    }
}

/// The period whose end is near a place of the screen: which, and the end that stays.
fn end_near(on: &OnScreen, bands: &[Band], x: f32) -> Option<(usize, i64)> {
    let bands = bands.iter().enumerate();
    let ends = bands.flat_map(|(place, band)| {
        [
            (place, band.from_s, band.to_s),
            (place, band.to_s, band.from_s),
        ]
    });
    ends.filter_map(|(place, end, stays)| {
        let away = (on.x(end)? - x).abs();
        (away <= NEAR).then_some((away, place, stays))
    })
    .min_by(|one, other| one.0.total_cmp(&other.0))
    .map(|(_, place, stays)| (place, stays))
}
