//! Windows, doors and vents on the drawing: chosen, moved, removed, added and brought back.
//!
//! While they are worked on, pointer and keys mean them and not the gaps, and do the same with them.

use super::super::view::GapsContext;
use super::arrows::{self, NUDGE_M};
use super::view::{Drag, drawing_id};
use crate::figure::body::BodyFigure;
use crate::figure::outline::{Sizes, fittings};
use crate::figure::scene::Point;
use crate::survey::{Edit, Facing, Fitting, FittingId, FittingKind, MergeKey};
use crate::window::body::Frame;
use crate::window::widgets;
use eframe::egui;
use egui::{Key, Modifiers, Pos2, ScrollArea, Ui};

/// Height of the list, at most, points.
const LIST: f32 = 150.0;

/// The list below the drawing: every fitting by its name, and what can be done with it.
pub(super) fn rows(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let shown = fittings::shown(context.survey);
    widgets::muted(
        ui,
        "Windows, doors and vents are only drawn: no result depends on them. Drag one on the drawing, or \
         choose it and press Ctrl and arrows; Delete removes it.",
    );
    let chosen = context.view.body.fitting;
    ScrollArea::vertical()
        .id_salt("fittings")
        .max_height(LIST)
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                for fitting in &shown {
                    let is = chosen == Some(fitting.id);
                    if ui.selectable_label(is, words(fitting)).clicked() {
                        context.view.body.fitting = Some(fitting.id);
                        ui.memory_mut(|memory| memory.request_focus(drawing_id()));
                    }
                }
            });
        });
    ui.horizontal_wrapped(|ui| {
        let there = shown.iter().any(|fitting| chosen == Some(fitting.id));
        let remove = ui.add_enabled(there, egui::Button::new("Remove what is chosen"));
        if remove.clicked() {
            self::remove(context);
        }
        let own = context.survey.fittings.is_some();
        let usual = egui::Button::new("Bring the usual ones back");
        if ui.add_enabled(own, usual).clicked() {
            context.queue.edit(Edit::Fittings(None), None);
        }
        for kind in FittingKind::ALL {
            if ui.button(format!("Add {}", kind.name())).clicked() {
                add(context, kind);
            }
        }
    });
}

/// A fitting in words: what it is, on which face, and how far along it.
fn words(fitting: &Fitting) -> String {
    let outline = &fitting.outline;
    let from = match outline.facing {
        Facing::Front | Facing::Rear => "from the nearside",
        _ => "from the front",
    };
    format!(
        "{}, {}, {:.2} m {from}",
        fitting.kind.name(),
        outline.facing.name(),
        outline.along_m
    )
}

/// Takes a list for the survey's own; equal steps in a row are one for undo.
fn put(context: &mut GapsContext<'_>, list: Vec<Fitting>, step: Option<String>) {
    let edit = Edit::Fittings(Some(list));
    context.queue.edit(edit, step.map(MergeKey));
}

fn remove(context: &mut GapsContext<'_>) {
    let Some(id) = context.view.body.fitting else {
        return;
    };
    let mut list = fittings::shown(context.survey);
    list.retain(|fitting| fitting.id != id);
    put(context, list, None);
    context.view.body.fitting = None;
}

fn add(context: &mut GapsContext<'_>, kind: FittingKind) {
    let mut list = fittings::shown(context.survey);
    let highest = list.iter().map(|fitting| fitting.id.0).max();
    let id = FittingId(highest.map_or(1, |highest| highest.saturating_add(1)));
    let sizes = Sizes::of(&context.survey.vehicle);
    list.push(fittings::new(id, kind, &sizes));
    put(context, list, None);
    context.view.body.fitting = Some(id);
}

/// Moves a fitting; where it stays, nothing is asked for.
fn put_moved(
    context: &mut GapsContext<'_>,
    id: FittingId,
    step: &str,
    moved: impl Fn(&Fitting) -> Fitting,
) {
    let mut list = fittings::shown(context.survey);
    let Some(fitting) = list.iter_mut().find(|fitting| fitting.id == id) else {
        return;
    };
    let new = moved(fitting);
    if new != *fitting {
        *fitting = new;
        put(context, list, Some(format!("{step} fitting {id}")));
    }
}

/// A click chooses what is there.
pub(super) fn click(context: &mut GapsContext<'_>, figure: &BodyFigure, frame: Frame, at: Pos2) {
    context.view.body.fitting = figure.fitting_at(frame.to_scene(at));
}

/// What a drag that begins at a point moves: the fitting there, or else the sight.
pub(super) fn begin(context: &mut GapsContext<'_>, figure: &BodyFigure, at: Point) -> Drag {
    let here = figure.fitting_at(at);
    let place = here.and_then(|id| figure.fittings.iter().find(|place| place.id == id));
    let Some(place) = place else {
        return Drag::Sight;
    };
    context.view.body.fitting = Some(place.id);
    let middle = place.panel.middle();
    Drag::Fitting {
        fitting: place.id,
        grip: Point::new(at.x - middle.x, at.y - middle.y),
    }
}

/// Moves the middle of a fitting to a point of the drawing.
pub(super) fn move_to(
    context: &mut GapsContext<'_>,
    figure: &BodyFigure,
    id: FittingId,
    to: Point,
) {
    put_moved(context, id, "drag", |fitting| {
        figure.layout.fitting_moved(fitting, to)
    });
}

/// Arrows step through the fittings, Ctrl and arrows move the chosen one, Delete removes it. Says
/// whether one was moved.
pub(super) fn keys(ui: &Ui, context: &mut GapsContext<'_>, figure: &BodyFigure) -> bool {
    let order = figure.fittings_in_order();
    let at = |id| order.iter().position(|one| Some(*one) == id);
    let way = arrows::pressed(ui, Modifiers::NONE);
    let forward = way.x + way.y;
    let end = order.len().saturating_sub(1);
    if forward != 0.0 {
        let to = match at(context.view.body.fitting) {
            Some(at) if forward > 0.0 => (at + 1).min(end),
            Some(at) => at.saturating_sub(1),
            None => 0,
        };
        context.view.body.fitting = order.get(to).copied();
        ui.ctx().request_repaint();
    }
    let pressed = |key| ui.input(|input| input.key_pressed(key) && input.modifiers.is_none());
    if pressed(Key::Delete) {
        remove(context);
        return false;
    }
    let way = arrows::pressed(ui, Modifiers::COMMAND);
    let chosen = context.view.body.fitting;
    let place = chosen.and_then(|id| figure.fittings.iter().find(|place| place.id == id));
    let Some(place) = place.filter(|_| way != egui::Vec2::ZERO) else {
        return false;
    };
    let by = |steps: f32| f64::from(steps) * NUDGE_M * figure.layout.scale;
    let middle = place.panel.middle();
    let to = Point::new(middle.x + by(way.x), middle.y + by(way.y));
    let (id, face) = (place.id, place.face);
    put_moved(context, id, "nudge", |fitting| {
        figure.layout.fitting_on(fitting, face, to)
    });
    true
}

/// The chosen fitting in words, for assistive technology.
pub(super) fn chosen_words(context: &GapsContext<'_>) -> String {
    let chosen = context.view.body.fitting;
    let shown = fittings::shown(context.survey);
    let fitting = shown.iter().find(|fitting| chosen == Some(fitting.id));
    fitting.map_or_else(String::new, |fitting| format!("chosen: {}", words(fitting)))
}
