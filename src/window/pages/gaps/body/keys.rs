//! The keyboard on the drawing: every mark is reached, moved and edited without a pointer.

use super::super::view::GapsContext;
use super::arrows::{self, NUDGE_M};
use super::fittings;
use super::pointer::put;
use super::sight::STEP;
use super::view::BodyView;
use crate::figure::body::BodyFigure;
use crate::survey::GapId;
use crate::window::commands::Command;
use crate::window::widgets;
use eframe::egui;
use egui::{EventFilter, Key, Modifiers, Rect, Response, Ui, Vec2};

/// A step of the sight by key, points.
const SIGHT_STEP: f32 = 60.0;

/// Does what keys ask for while the drawing has the focus.
pub(super) fn act(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    response: &Response,
    figure: &BodyFigure,
    space: Rect,
) {
    end_nudge(ui, context, response);
    if !response.has_focus() {
        return;
    }
    let filter = EventFilter {
        vertical_arrows: true,
        horizontal_arrows: true,
        escape: context.view.body.drag.is_some() || context.view.body.nudged,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    sight(ui, context);
    if context.view.body.fittings {
        context.view.body.nudged |= fittings::keys(ui, context, figure);
        return;
    }
    step(ui, context, figure, space);
    nudge(ui, context, figure);
    let pressed = |key| ui.input(|input| input.key_pressed(key) && input.modifiers.is_none());
    let selected = context.view.selected_in(context.survey);
    if pressed(Key::Enter) && selected.is_some() {
        context.view.select_and_edit(selected);
        ui.ctx().request_repaint();
    }
    let menu = widgets::asks_for_menu(ui);
    let mark = selected.and_then(|id| context.view.body.mark_on_screen(id));
    if let (true, Some(at)) = (menu, mark) {
        context.view.menu.open(ui, at);
    }
    if pressed(Key::Delete) {
        context.queue.command(Command::DeleteGap);
    }
}

fn sight(ui: &Ui, context: &mut GapsContext<'_>) {
    let BodyView {
        sight,
        enlarge_wanted,
        ..
    } = &mut context.view.body;
    let (larger, smaller, whole) = ui.input(|input| {
        let plain = !input.modifiers.command && !input.modifiers.alt;
        let pressed = |key| plain && input.key_pressed(key);
        (
            pressed(Key::Plus) || pressed(Key::Equals),
            pressed(Key::Minus),
            pressed(Key::Num0),
        )
    });
    if larger {
        *enlarge_wanted = Some(STEP);
    }
    if smaller {
        *enlarge_wanted = Some(1.0 / STEP);
    }
    if whole {
        sight.whole();
    }
    // The sight moves to where the arrow points, so the drawing moves the other way.
    let way = arrows::pressed(ui, Modifiers::SHIFT);
    sight.shift(-way * SIGHT_STEP);
    if larger || smaller || whole || way != Vec2::ZERO {
        ui.ctx().request_repaint();
    }
}

/// Left and up go to the mark before, right and down to the one after.
fn step(ui: &Ui, context: &mut GapsContext<'_>, figure: &BodyFigure, space: Rect) {
    let way = arrows::pressed(ui, Modifiers::NONE);
    let (first, last) = ui.input(|input| {
        let pressed = |key| input.modifiers.is_none() && input.key_pressed(key);
        (pressed(Key::Home), pressed(Key::End))
    });
    let forward = way.x + way.y;
    if !(first || last || forward != 0.0) {
        return;
    }
    let order = figure.reading_order();
    let selected = context.view.selected_in(context.survey);
    let at = selected.and_then(|id| order.iter().position(|gap| *gap == id));
    let end = order.len().saturating_sub(1);
    let to = match at {
        _ if first => 0,
        _ if last => end,
        Some(at) if forward > 0.0 => (at + 1).min(end),
        Some(at) => at.saturating_sub(1),
        None => 0,
    };
    if let Some(gap) = order.get(to) {
        select(ui, context, figure, *gap, space);
    }
}

fn select(ui: &Ui, context: &mut GapsContext<'_>, figure: &BodyFigure, gap: GapId, space: Rect) {
    context.view.select(Some(gap));
    let body = &mut context.view.body;
    if let (Some(place), Some(frame)) = (figure.place_of(gap), body.shown) {
        body.sight.reveal(frame.to_screen(place.at), space);
    }
    ui.ctx().request_repaint();
}

/// Ctrl and arrows move the selected gap over its face; all moves while Ctrl is held are one
/// step.
fn nudge(ui: &Ui, context: &mut GapsContext<'_>, figure: &BodyFigure) {
    let way = arrows::pressed(ui, Modifiers::COMMAND);
    if way == Vec2::ZERO {
        return;
    }
    let selected = context.view.selected_in(context.survey);
    let Some(gap) = selected.and_then(|id| context.survey.gap(id)) else {
        return;
    };
    let (right, down) = (f64::from(way.x) * NUDGE_M, f64::from(way.y) * NUDGE_M);
    if let Some(picked) = figure.layout.nudged(gap, right, down) {
        put(context, gap, picked, &format!("nudge gap {}", gap.id));
        context.view.body.nudged = true;
    }
}

/// Ends the step of the nudges when Ctrl is let go or the focus leaves; Esc takes them back.
fn end_nudge(ui: &Ui, context: &mut GapsContext<'_>, response: &Response) {
    if !context.view.body.nudged {
        return;
    }
    let (held, escaped) = ui.input(|input| {
        let escaped = input.key_pressed(Key::Escape);
        (input.modifiers.command, escaped)
    });
    if escaped {
        context.queue.abort_step();
    } else if held && response.has_focus() {
        return;
    } else {
        context.queue.close_step();
    }
    context.view.body.nudged = false;
}
