//! The rose: air changes against wind direction, all weather cases together. A click or the arrow
//! keys choose the direction whose flows are shown.

use super::drawings::ROSE_MM;
use super::lines::{case_looks, key, not_known};
use super::view::AirChangeContext;
use crate::assess::words::compass_point;
use crate::assess::{Assessment, CaseAir};
use crate::figure::rose::{drawn, needle};
use crate::figure::styles::DRAWN;
use crate::figure::{RoseFrame, Scene};
use crate::report::direction;
use crate::window::answers::Results;
use crate::window::body;
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice};
use eframe::egui;
use egui::{Key, RichText, Ui};

const MOST_HEIGHT: f32 = 330.0;

/// Draws the rose, and what is chosen on it.
pub(super) fn show(ui: &mut Ui, context: &mut AirChangeContext<'_>, results: &Results) {
    let assessment = results.assessment();
    let Some(air) = any_air(assessment) else {
        let mut cases = assessment.cases.iter();
        return not_known(ui, cases.find_map(|case| case.air.as_ref().err()));
    };
    let heading = context.survey.site.front_points_to();
    let frame = frame_choice(ui, context, heading);
    names(ui, assessment);
    let at = context.view.direction;
    let dates = (context.revision, results.revision);
    let drawings = &mut context.view.drawings;
    let mut scene = Scene::clone(&drawings.rose(dates, results, heading, frame));
    let turn = match (frame, heading) {
        (RoseFrame::Compass, Some(heading)) => heading,
        _ => 0.0,
    };
    let chosen = air.directions.get(at);
    if let Some(direction) = chosen {
        needle(&mut scene, direction.from_front_deg + turn);
        scene.description = format!(
            "{}; wind from {} chosen. Arrow keys turn it; the figures stand in the table below",
            scene.description,
            direction::words(direction)
        );
    }
    let height = ui.available_width().min(MOST_HEIGHT);
    let touched = body::show(ui, &scene, height);
    let count = air.directions.len();
    if let Some(point) = touched.clicked {
        let (right, up) = (point.x - ROSE_MM / 2.0, ROSE_MM / 2.0 - point.y);
        let from_up = right.atan2(up).to_degrees();
        let angles = air.directions.iter().map(|one| one.from_front_deg);
        context.view.direction = nearest(angles, from_up - turn);
        touched.response.request_focus();
    } else if touched.response.has_focus() {
        widgets::hold_arrows(ui, touched.response.id);
        context.view.direction = stepped(ui, at, count);
    }
    if let Some(direction) = chosen {
        ui.label(format!(
            "Flows shown: wind from {}",
            direction::words(direction)
        ));
    }
}

fn any_air(assessment: &Assessment) -> Option<&CaseAir> {
    assessment
        .cases
        .iter()
        .find_map(|case| case.air.as_ref().ok())
}

fn frame_choice(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    heading: Option<f64>,
) -> RoseFrame {
    let Some(heading) = heading else {
        widgets::muted(
            ui,
            "Front up. With the heading, on the Vehicle page, it can be shown by compass too.",
        );
        return RoseFrame::Vehicle;
    };
    let frame = context.view.frame();
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Up is").color(palette(ui).muted));
        let chosen = Choice::new(
            "Up on the rose",
            &frame,
            &[RoseFrame::Vehicle, RoseFrame::Compass],
        )
        .compact()
        .width(130.0)
        .show(ui, |frame| {
            match frame {
                RoseFrame::Vehicle => "the vehicle's front",
                RoseFrame::Compass => "north",
            }
            .to_owned()
        });
        if let Some(chosen) = chosen {
            context.view.by_compass = chosen == RoseFrame::Compass;
        }
        widgets::muted(ui, format!("front towards {}", compass_point(heading)));
    });
    frame
}

/// The names of the curves behind a piece of their line.
fn names(ui: &mut Ui, assessment: &Assessment) {
    let looks = case_looks(ui, assessment);
    let cases = drawn(assessment).into_iter().filter_map(|place| {
        let case = assessment.cases.get(place)?;
        Some((case.name.as_str(), *looks.get(place)?))
    });
    key(ui, cases);
    if assessment.cases.len() > DRAWN {
        widgets::muted(
            ui,
            "Four weather cases are drawn, the calmest and the windiest among them; the table has all.",
        );
    }
}

fn stepped(ui: &Ui, at: usize, count: usize) -> usize {
    let count = count.max(1);
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    if pressed(Key::ArrowRight) || pressed(Key::ArrowDown) {
        (at + 1) % count
    } else if pressed(Key::ArrowLeft) || pressed(Key::ArrowUp) {
        (at + count - 1) % count
    } else {
        at
    }
}

/// The place of the angle that is nearest to another one on the circle, degrees.
pub(super) fn nearest(angles: impl Iterator<Item = f64>, to_deg: f64) -> usize {
    let apart = |angle: f64| {
        let turn = (angle - to_deg).rem_euclid(360.0);
        turn.min(360.0 - turn)
    };
    let found = angles
        .enumerate()
        .min_by(|(_, a), (_, b)| apart(*a).total_cmp(&apart(*b)));
    found.map_or(0, |(at, _)| at)
}
