//! The list of usual places: one focus for all of it, moved by arrow keys.

use super::super::view::GapsContext;
use super::view::{At, list_id};
use crate::assess::words::counted;
use crate::survey::{Outcome, Station, Survey};
use crate::window::theme::{bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::accesskit::Role;
use egui::{
    Align2, FontId, Key, Response, ScrollArea, Sense, StrokeKind, TextStyle, Ui, WidgetInfo, pos2,
    vec2,
};

/// Draws the places of a station, or of all of them.
pub(in crate::window::pages::gaps) fn show(
    ui: &mut Ui,
    context: &mut GapsContext<'_>,
    only: Option<&'static Station>,
) {
    let space = ui.available_rect_before_wrap();
    let response = ui.interact(space, list_id(), Sense::focusable_noninteractive());
    if std::mem::take(&mut context.view.walk.focus_wanted) {
        response.request_focus();
    }
    describe(ui, context, &response);
    keys(ui, context, &response);
    let now = context.view.walk.place_in(context.survey);
    let scroll = std::mem::take(&mut context.view.walk.scroll_wanted);
    ScrollArea::vertical()
        .id_salt("places")
        .auto_shrink(false)
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            let mut station = None;
            for at in context.survey.usual_places() {
                if only.is_some_and(|only| only.id != at.0.id) {
                    continue;
                }
                if only.is_none() && station != Some(at.0.id) {
                    station = Some(at.0.id);
                    heading(ui, context.survey, at.0);
                }
                let here = now.is_some_and(|now| (now.0.id, now.1.id) == (at.0.id, at.1.id));
                let row = row(ui, context.survey, at, here);
                if here && scroll {
                    row.scroll_to_me(None);
                }
                if row.clicked() {
                    context.view.walk.choose(at);
                    response.request_focus();
                }
            }
        });
    let stroke = if response.has_focus() {
        ui.visuals().selection.stroke
    } else {
        egui::Stroke::new(1.0, palette(ui).rule)
    };
    ui.painter()
        .rect_stroke(space, 3.0, stroke, StrokeKind::Inside);
}

/// The list in words, for assistive technology.
fn describe(ui: &Ui, context: &GapsContext<'_>, response: &Response) {
    let progress = context.survey.progress();
    let words = format!(
        "Usual places: {} of {} looked at",
        progress.looked(),
        progress.places
    );
    response.widget_info(|| WidgetInfo::labeled(Role::List, true, &words));
    let now = context.view.walk.place_in(context.survey);
    let value = now.map_or_else(String::new, |at| words_of(context.survey, at));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_value(value);
        node.set_description(
            "Up and down go from place to place, left and right from station to station.",
        );
    });
}

fn keys(ui: &Ui, context: &mut GapsContext<'_>, response: &Response) {
    if !response.has_focus() {
        return;
    }
    widgets::hold_arrows(ui, response.id);
    let pressed = |key| ui.input(|input| input.key_pressed(key) && input.modifiers.is_none());
    let survey = context.survey;
    let walk = &mut context.view.walk;
    for (key, down, by) in [
        (Key::ArrowUp, false, 1),
        (Key::ArrowDown, true, 1),
        (Key::Home, false, usize::MAX),
        (Key::End, true, usize::MAX),
    ] {
        if pressed(key) {
            walk.step(survey, down, by);
        }
    }
    for (key, next) in [(Key::ArrowLeft, false), (Key::ArrowRight, true)] {
        if pressed(key) {
            walk.step_station(survey, next);
        }
    }
}

/// Height of a row: at least a finger's in touch size.
fn row_height(ui: &Ui) -> f32 {
    if widgets::is_touch(ui) {
        ui.spacing().interact_size.y
    } else {
        21.0
    }
}

fn heading(ui: &mut Ui, survey: &Survey, station: &Station) {
    let progress = survey.progress_at(station);
    let words = format!(
        "{}: {} of {}",
        station.words(),
        progress.looked(),
        progress.places
    );
    ui.add_space(5.0);
    ui.horizontal(|ui| {
        ui.add_space(8.0);
        ui.label(egui::RichText::new(words).family(bold()));
    });
}

fn row(ui: &mut Ui, survey: &Survey, at: At, here: bool) -> Response {
    let size = vec2(ui.available_width(), row_height(ui));
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    // The list has the focus for all its rows.
    let id = egui::Id::unique(("place", at.0.id, at.1.id));
    let response = ui.interact(rect, id, Sense::CLICK);
    let words = words_of(survey, at);
    response.widget_info(|| WidgetInfo::labeled(Role::ListItem, true, &words));
    if !ui.is_rect_visible(rect) {
        return response;
    }
    let colours = palette(ui);
    let painter = ui.painter();
    if here {
        painter.rect_filled(rect, 2.0, colours.selection);
    } else if response.hovered() {
        painter.rect_filled(rect, 2.0, colours.stripe);
    }
    let (sign, colour) = match survey.outcome(at.0.id, at.1.id) {
        Some(Outcome::Found) => ("✔", colours.accent),
        Some(Outcome::Nothing) => ("–", colours.ok),
        Some(Outcome::NotReached) => ("✖", colours.warning),
        None => ("·", colours.muted),
    };
    let font: FontId = TextStyle::Body.resolve(ui.style());
    let middle = rect.center().y;
    let text = |x: f32, align, words: &str, colour| {
        painter.text(pos2(x, middle), align, words, font.clone(), colour);
    };
    text(rect.left() + 18.0, Align2::CENTER_CENTER, sign, colour);
    text(
        rect.left() + 34.0,
        Align2::LEFT_CENTER,
        at.1.name,
        colours.text,
    );
    let state = state(survey, at);
    text(rect.right() - 10.0, Align2::RIGHT_CENTER, &state, colour);
    response
}

/// What came of a place, in few words.
fn state(survey: &Survey, (station, place): At) -> String {
    let found = || {
        let visit = survey.visit(station.id, place.id);
        let gaps = visit.map_or(0, |visit| survey.found_at(visit).count());
        counted(gaps, "gap", "gaps")
    };
    match survey.outcome(station.id, place.id) {
        Some(Outcome::Found) => found(),
        Some(other) => other.name().to_owned(),
        None => "not looked at yet".to_owned(),
    }
}

/// A place and what came of it.
fn words_of(survey: &Survey, at: At) -> String {
    format!("{}: {}", at.1.name, state(survey, at))
}
