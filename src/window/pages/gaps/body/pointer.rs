//! The pointer on the drawing: select, add, move, zoom, pan.

use super::super::view::GapsContext;
use super::fittings;
use super::sight::Drawn;
use super::view::{Drag, drawing_id, gaps_at};
use crate::figure::body::{BodyFigure, Picked};
use crate::figure::scene::Point;
use crate::survey::{Edit, Gap, GapId, MergeKey};
use crate::window::body::Frame;
use crate::window::commands::Command;
use crate::window::ledger;
use eframe::egui;
use egui::{Key, Pos2, Response, Ui, Vec2};

/// So many points of the wheel enlarge 2.7 times.
const WHEEL_POINTS: f32 = 400.0;

/// Does what the pointer asks for.
pub(super) fn act(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    response: &Response,
    figure: &BodyFigure,
    frame: Frame,
) {
    zoom(ui, context, response, figure, frame);
    drag(ui, context, response, figure, frame);
    if response.clicked()
        && let Some(at) = response.interact_pointer_pos()
    {
        take_focus(ui);
        if context.view.body.fittings {
            fittings::click(context, figure, frame, at);
        } else {
            let together = ui.input(|input| input.modifiers.command);
            click(context, figure, frame, at, together);
        }
        if response.double_clicked() && !context.view.body.fittings {
            edit_what_is_there(context, figure, frame, at);
        }
    }
    if response.secondary_clicked()
        && !context.view.body.fittings
        && let Some(at) = response.interact_pointer_pos()
    {
        take_focus(ui);
        menu(ui, context, figure, frame, at);
    }
    if response.hovered() {
        cursor(ui, context, response, figure, frame);
    }
}

fn take_focus(ui: &Ui) {
    ui.memory_mut(|memory| memory.request_focus(drawing_id()));
}

/// A click on a mark selects its gap, with Ctrl beside those selected already, on a shared mark the next of its gaps, on a free place of
/// a face it adds a gap there.
fn click(
    context: &mut GapsContext<'_>,
    figure: &BodyFigure,
    frame: Frame,
    at: Pos2,
    together: bool,
) {
    let here = gaps_at(figure, frame, at);
    let selected = context.view.selected_in(context.survey);
    if together {
        // As in the ledger: the gap is selected too, or is not any more.
        if let Some(gap) = here.first() {
            context.view.toggle(*gap, selected);
        }
        return;
    }
    if !here.is_empty() {
        let at = here.iter().position(|gap| Some(*gap) == selected);
        let next = at.map_or(0, |at| (at + 1) % here.len());
        context.view.select(here.get(next).copied());
        return;
    }
    let Some(picked) = figure.layout.added(frame.to_scene(at)) else {
        return;
    };
    match ledger::add_at(context.survey, selected, picked.facing, picked.position) {
        Some(gap) => {
            context.view.after_adding(Some(gap.id), true);
            context.queue.edit(Edit::gap(gap), None);
        }
        // The command says what is missing.
        None => context.queue.command(Command::AddGap),
    }
}

/// What can be done with the gap of a mark, and with those selected together with it.
fn menu(ui: &Ui, context: &mut GapsContext<'_>, figure: &BodyFigure, frame: Frame, at: Pos2) {
    let here = gaps_at(figure, frame, at);
    let chosen = context.view.chosen_in(context.survey);
    let Some(first) = here.first() else { return };
    if !here.iter().any(|gap| chosen.contains(gap)) {
        context.view.select(Some(*first));
    }
    context.view.menu.open(ui, at);
}

/// The second click of two on a mark; the first has selected its gap.
fn edit_what_is_there(context: &mut GapsContext<'_>, figure: &BodyFigure, frame: Frame, at: Pos2) {
    let [gap] = gaps_at(figure, frame, at)[..] else {
        return;
    };
    context.view.select_and_edit(Some(gap));
}

fn drag(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    response: &Response,
    figure: &BodyFigure,
    frame: Frame,
) {
    if response.drag_started() {
        begin(ui, context, figure, frame);
    }
    let Some(drag) = context.view.body.drag else {
        return;
    };
    let fingers = ui.input(|input| input.multi_touch().is_some());
    let escaped = ui.input(|input| input.key_pressed(Key::Escape));
    match drag {
        Drag::Mark { .. } | Drag::Fitting { .. } if escaped || fingers => {
            context.queue.abort_step();
            context.view.body.drag = Some(Drag::Over);
        }
        Drag::Mark { gap, grip } if response.dragged() => {
            if let Some(at) = response.interact_pointer_pos() {
                let at = frame.to_scene(at);
                let to = Point::new(at.x - grip.x, at.y - grip.y);
                move_to(context, figure, gap, to);
            }
        }
        Drag::Fitting { fitting, grip } if response.dragged() => {
            if let Some(at) = response.interact_pointer_pos() {
                let at = frame.to_scene(at);
                let to = Point::new(at.x - grip.x, at.y - grip.y);
                fittings::move_to(context, figure, fitting, to);
            }
        }
        Drag::Sight if response.dragged() && !fingers => {
            let by = response.drag_delta();
            context.view.body.sight.shift(by);
        }
        _ => {}
    }
    if response.drag_stopped() || !ui.input(|input| input.pointer.any_down()) {
        if context.view.body.is_moving() {
            context.queue.close_step();
        }
        context.view.body.drag = None;
    }
}

fn begin(ui: &Ui, context: &mut GapsContext<'_>, figure: &BodyFigure, frame: Frame) {
    let Some(origin) = ui.input(|input| input.pointer.press_origin()) else {
        return;
    };
    take_focus(ui);
    if context.view.body.fittings {
        let drag = fittings::begin(context, figure, frame.to_scene(origin));
        context.view.body.drag = Some(drag);
        return;
    }
    let here = gaps_at(figure, frame, origin);
    let selected = context.view.selected_in(context.survey);
    // Of gaps that share a mark the selected one moves.
    let gap = here
        .iter()
        .find(|gap| Some(**gap) == selected)
        .or_else(|| here.first());
    let drag = gap.and_then(|gap| {
        let middle = figure.place_of(*gap)?.grip;
        let at = frame.to_scene(origin);
        context.view.select(Some(*gap));
        Some(Drag::Mark {
            gap: *gap,
            grip: Point::new(at.x - middle.x, at.y - middle.y),
        })
    });
    context.view.body.drag = Some(drag.unwrap_or(Drag::Sight));
}

fn move_to(context: &mut GapsContext<'_>, figure: &BodyFigure, gap: GapId, to: Point) {
    let Some(gap) = context.survey.gap(gap) else {
        return;
    };
    if let Some(picked) = figure.layout.moved(gap, to) {
        put(context, gap, picked, &format!("drag gap {}", gap.id));
    }
}

/// Asks for a gap at another place; equal steps in a row are one for undo.
pub(super) fn put(context: &mut GapsContext<'_>, gap: &Gap, picked: Picked, step: &str) {
    if (gap.facing, gap.position) == (picked.facing, picked.position) {
        return;
    }
    let mut moved = gap.clone();
    (moved.facing, moved.position) = (picked.facing, picked.position);
    let edit = Edit::gap(moved);
    context.queue.edit(edit, Some(MergeKey(step.to_owned())));
}

/// Wheel, pinch and two fingers, and what keys and buttons asked for.
fn zoom(
    ui: &Ui,
    context: &mut GapsContext<'_>,
    response: &Response,
    figure: &BodyFigure,
    frame: Frame,
) {
    let space = response.rect;
    let wanted = context.view.body.enlarge_wanted.take();
    let mut steps: Vec<(f32, Pos2)> = wanted
        .map(|factor| (factor, space.center()))
        .into_iter()
        .collect();
    let touch = ui.input(|input| input.multi_touch());
    let mut shift = Vec2::ZERO;
    if let Some(touch) = touch
        && space.contains(touch.center_pos)
    {
        steps.push((touch.zoom_delta, touch.center_pos));
        shift = touch.translation_delta;
    } else if let Some(at) = response.hover_pos() {
        let (pinch, wheel) = ui.input(|input| (input.zoom_delta(), input.smooth_scroll_delta()));
        steps.push((pinch * (wheel.y / WHEEL_POINTS).exp(), at));
        shift = egui::vec2(wheel.x, 0.0);
        // The page round the drawing does not scroll as well.
        ui.input_mut(|input| input.smooth_scroll_delta = Vec2::ZERO);
    }
    let drawn = Drawn {
        vehicle: &context.survey.vehicle,
        layout: &figure.layout,
        frame,
    };
    let sight = &mut context.view.body.sight;
    for (factor, about) in steps {
        if (factor - 1.0).abs() > 1e-4 {
            sight.enlarge(factor, about, space, &drawn);
            ui.ctx().request_repaint();
        }
    }
    sight.shift(shift);
}

fn cursor(
    ui: &Ui,
    context: &GapsContext<'_>,
    response: &Response,
    figure: &BodyFigure,
    frame: Frame,
) {
    let icon = match context.view.body.drag {
        Some(Drag::Mark { .. } | Drag::Fitting { .. } | Drag::Sight) => egui::CursorIcon::Grabbing,
        Some(Drag::Over) => egui::CursorIcon::Default,
        None => match response.hover_pos() {
            Some(at) if context.view.body.fittings => match figure.fitting_at(frame.to_scene(at)) {
                Some(_) => egui::CursorIcon::Grab,
                None => egui::CursorIcon::Default,
            },
            Some(at) if !gaps_at(figure, frame, at).is_empty() => egui::CursorIcon::PointingHand,
            Some(at) if figure.layout.pick(frame.to_scene(at)).is_some() => {
                egui::CursorIcon::Crosshair
            }
            _ => egui::CursorIcon::Default,
        },
    };
    ui.ctx().set_cursor_icon(icon);
}
