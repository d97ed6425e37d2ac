//! The unfolded body: gaps are added, selected and moved on it.

mod arrows;
mod fittings;
mod keys;
mod pointer;
mod sight;
mod tools;
pub(super) mod view;

use super::view::GapsContext;
use super::walk;
use crate::assess::quantity::Kind;
use crate::figure::body::{BodyFigure, Show, body};
use crate::survey::{Gap, GapId};
use crate::window::body::{Frame, paint};
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets;
use eframe::egui;
use egui::{Panel, Rect, Response, Sense, StrokeKind, Ui, Vec2};
use std::sync::Arc;
use view::{Made, drawing_id, gaps_at};

/// Draws the unfolded body into all of the space.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>, holds_focus: bool) {
    tools::show(ui, context);
    if context.view.body.legend {
        Panel::bottom("legend")
            .resizable(false)
            .frame(egui::Frame::new().inner_margin(egui::Margin::symmetric(0, 4)))
            .show(ui, tools::legend_rows);
    }
    if context.view.body.fittings {
        Panel::bottom("windows, doors and vents")
            .resizable(false)
            .frame(egui::Frame::new().inner_margin(egui::Margin::symmetric(0, 4)))
            .show(ui, |ui| fittings::rows(ui, context));
    }
    drawing(ui, context, holds_focus);
}

/// Draws the unfolded body alone.
pub(super) fn drawing(ui: &mut Ui, context: &mut GapsContext<'_>, holds_focus: bool) {
    let size = ui.available_size().max(Vec2::splat(60.0));
    let (space, _) = ui.allocate_exact_size(size, Sense::hover());
    let response = ui.interact(space, drawing_id(), Sense::click_and_drag());
    let Some(figure) = figure(context, space) else {
        widgets::muted(ui, "The drawing is being worked out.");
        return;
    };
    let frame = context.view.body.sight.frame(&figure.scene, space);
    context.view.body.shown = Some(frame);
    let scene = &figure.scene;
    paint(
        &ui.painter().with_clip_rect(space),
        scene,
        &frame,
        palette(ui),
    );
    if context.view.walks() {
        walk::paint_mark(ui, context, &figure, frame, space);
    }
    if holds_focus {
        widgets::hold_focus(ui, &response);
    }
    pointer::act(ui, context, &response, &figure, frame);
    keys::act(ui, context, &response, &figure, space);
    border(ui, &response, space);
    hover(context, &response, &figure, frame);
    describe(ui, context, &response, &figure);
}

/// The drawing for the space, made anew only where what it shows has changed.
fn figure(context: &mut GapsContext<'_>, space: Rect) -> Option<Arc<BodyFigure>> {
    let results = context.results?;
    let selected = context.view.selected_in(context.survey);
    let also: Vec<GapId> = context.view.also().collect();
    let view = &mut context.view.body;
    let (arrangement, width) = view.sight.paper(&context.survey.vehicle, space);
    let fitting = view.fitting.filter(|_| view.fittings);
    let key = Made {
        revisions: (context.revision, results.revision),
        selected: (selected, also.clone()),
        fitting,
        moving: view.is_moving(),
        paper: (arrangement, width),
    };
    // Numbers that look for another place in every frame would dance, and take their time.
    let moving = key.moving;
    let before = view.drawn.last().filter(|_| moving);
    let before = before.map(|figure| figure.labels.clone());
    let show = Show {
        selected,
        also: &also,
        numbers: true,
        fitting,
        before: before.as_deref(),
        ..Show::default()
    };
    let (survey, assessment) = (context.survey, results.assessment());
    let draw = || body(survey, assessment, arrangement, width, &show);
    Some(view.drawn.get(key, draw))
}

fn border(ui: &Ui, response: &Response, space: Rect) {
    let stroke = if response.has_focus() {
        ui.visuals().selection.stroke
    } else {
        egui::Stroke::new(1.0, palette(ui).rule)
    };
    ui.painter()
        .rect_stroke(space, 3.0, stroke, StrokeKind::Inside);
}

/// So many of the gaps that share a mark are named in the hover text.
const NAMED_MOST: usize = 6;

fn hover(context: &GapsContext<'_>, response: &Response, figure: &BodyFigure, frame: Frame) {
    let Some(at) = response.hover_pos() else {
        return;
    };
    let gaps = gaps_at(figure, frame, at);
    let body = &context.view.body;
    if gaps.is_empty() || body.drag.is_some() || body.fittings {
        return;
    }
    response.clone().on_hover_ui_at_pointer(|ui| {
        if gaps.len() > NAMED_MOST {
            ui.label(format!(
                "{} gaps in this place. A click selects the next one; enlarge the drawing to part \
                 them.",
                gaps.len()
            ));
        }
        for gap in gaps.iter().take(NAMED_MOST) {
            if let Some(gap) = context.survey.gap(*gap) {
                let words = gap_words(context, gap);
                ui.label(units::text(ui.ctx(), &words));
            }
        }
    });
}

/// A gap in one line: number, name, where, form and sizes, leakage.
fn gap_words(context: &GapsContext<'_>, gap: &Gap) -> String {
    let leakage = context.results.and_then(|results| {
        let answers = &results.assessment().gaps;
        let answer = answers.iter().find(|answer| answer.id == gap.id)?;
        answer
            .leakage
            .figures()
            .map(|figures| Kind::LeakageCm2.text(figures.eqla))
    });
    let leakage = leakage.map_or_else(String::new, |area| format!(", EqLA {area}"));
    let height = gap.position.height_m.map_or_else(String::new, |height| {
        format!(", {height:.2} m above ground")
    });
    format!(
        "{} {}: {}{height}, {}{leakage}",
        gap.id,
        gap.shown_name(),
        gap.facing.name(),
        crate::assess::words::sizes(&gap.form)
    )
}

/// The drawing and the selected gap in words, for assistive technology.
fn describe(ui: &Ui, context: &GapsContext<'_>, response: &Response, figure: &BodyFigure) {
    let shown = units::shown(ui.ctx());
    let words = shown.text(&figure.scene.description);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &*words));
    let selected = context.view.selected_in(context.survey);
    let selected = selected.and_then(|id| context.survey.gap(id));
    let value = if context.view.body.fittings {
        fittings::chosen_words(context)
    } else {
        selected.map_or_else(String::new, |gap| {
            format!("selected: {}", gap_words(context, gap))
        })
    };
    let value = shown.text(&value).into_owned();
    let keys = shown.text(
        "Arrows step through the gaps, Ctrl and arrows move the selected one by 50 mm, Enter \
         edits it, plus and minus enlarge and reduce, 0 shows the whole body, Shift and arrows \
         move the view.",
    );
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(value);
        node.set_description(keys.into_owned());
    });
}
