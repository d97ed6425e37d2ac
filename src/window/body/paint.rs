//! Shapes of a scene as shapes of the painter.

use super::frame::{Frame, narrow};
use crate::figure::scene::{self, Anchor, Dash, Point, Role, Scene, Shape};
use crate::window::theme::Palette;
use crate::window::units;
use eframe::egui;
use egui::{Align2, Color32, FontId, Painter, Pos2, Stroke};

/// The smallest letters, in points: smaller ones nobody could read.
const LEAST_LETTER: f32 = 9.0;
/// Letters on paper are this many times their cap height.
const LETTER: f32 = 1.25;

/// Paints a scene.
pub fn paint(painter: &Painter, scene: &Scene, frame: &Frame, palette: &Palette) {
    let shown = units::shown(painter.ctx());
    let scene = scene.shown(&shown);
    for mark in &scene.marks {
        shape(painter, &mark.shape, frame, palette);
    }
}

fn shape(painter: &Painter, shape: &Shape, frame: &Frame, palette: &Palette) {
    let pen = |role: Role, width: f64| {
        let width = (narrow(width) * frame.scale).max(0.7);
        Stroke::new(width, colour(role, palette))
    };
    let place = |points: &[Point]| -> Vec<Pos2> {
        points.iter().map(|point| frame.to_screen(*point)).collect()
    };
    match shape {
        Shape::Polyline { points, stroke } => {
            let pen = pen(stroke.role, stroke.width);
            line(painter, &place(points), pen, stroke.dash);
        }
        Shape::Polygon {
            points,
            fill,
            outline,
        } => {
            let points = place(points);
            if let Some(fill) = fill {
                let fill = colour(*fill, palette);
                painter.add(egui::Shape::convex_polygon(
                    points.clone(),
                    fill,
                    Stroke::NONE,
                ));
            }
            if let Some(outline) = outline {
                closed(
                    painter,
                    points,
                    pen(outline.role, outline.width),
                    outline.dash,
                );
            }
        }
        Shape::Circle {
            centre,
            radius,
            fill,
            outline,
        } => {
            let (centre, radius) = (frame.to_screen(*centre), narrow(*radius) * frame.scale);
            if let Some(fill) = fill {
                painter.circle_filled(centre, radius, colour(*fill, palette));
            }
            if let Some(scene::Stroke { role, width, dash }) = outline {
                let pen = pen(*role, *width);
                match dash {
                    Dash::Solid => {
                        painter.circle_stroke(centre, radius, pen);
                    }
                    dash => closed(painter, round(centre, radius), pen, *dash),
                }
            }
        }
        Shape::Arrow {
            from,
            to,
            role,
            width,
        } => {
            let (from, to) = (frame.to_screen(*from), frame.to_screen(*to));
            arrow(painter, from, to, pen(*role, *width));
        }
        Shape::Text {
            at,
            text,
            size,
            role,
            anchor,
        } => {
            let align = match anchor {
                Anchor::Left => Align2::LEFT_CENTER,
                Anchor::Middle => Align2::CENTER_CENTER,
                Anchor::Right => Align2::RIGHT_CENTER,
            };
            let font = (narrow(*size) * LETTER * frame.scale).max(LEAST_LETTER);
            let font = FontId::proportional(font);
            painter.text(
                frame.to_screen(*at),
                align,
                text,
                font,
                colour(*role, palette),
            );
        }
    }
}

fn closed(painter: &Painter, mut points: Vec<Pos2>, stroke: Stroke, dash: Dash) {
    points.extend(points.first().copied());
    line(painter, &points, stroke, dash);
}

fn line(painter: &Painter, points: &[Pos2], stroke: Stroke, dash: Dash) {
    let width = stroke.width.max(1.0);
    match dash {
        Dash::Solid => {
            painter.add(egui::Shape::line(points.to_vec(), stroke));
        }
        Dash::Dashed => {
            painter.extend(egui::Shape::dashed_line(
                points,
                stroke,
                width * 4.0,
                width * 2.5,
            ));
        }
        Dash::Dotted => {
            painter.extend(egui::Shape::dotted_line(
                points,
                stroke.color,
                width * 2.4,
                width * 0.8,
            ));
        }
    }
}

fn round(centre: Pos2, radius: f32) -> Vec<Pos2> {
    const CORNERS: u8 = 40;
    (0..CORNERS)
        .map(|corner| {
            let turn = std::f32::consts::TAU * f32::from(corner) / f32::from(CORNERS);
            centre + radius * egui::Vec2::angled(turn)
        })
        .collect()
}

/// A shaft and a solid head whose size follows the width, so that thin arrows have one too.
fn arrow(painter: &Painter, from: Pos2, to: Pos2, stroke: Stroke) {
    let length = from.distance(to);
    if length < 0.5 {
        return;
    }
    let along = (to - from) / length;
    let head = (stroke.width * 2.4).max(5.0).min(length);
    let neck = to - along * head;
    painter.line_segment([from, neck], stroke);
    let aside = along.rot90() * head * 0.65;
    let corners = vec![to, neck + aside, neck - aside];
    painter.add(egui::Shape::convex_polygon(
        corners,
        stroke.color,
        Stroke::new(0.0, Color32::TRANSPARENT),
    ));
}

/// The colour of a role in a theme.
#[must_use]
pub fn colour(role: Role, palette: &Palette) -> Color32 {
    match role {
        Role::Ink => palette.text,
        Role::Faint => palette.muted,
        Role::Body => palette.card,
        Role::Glass => palette.selection,
        Role::Ground => palette.button,
        Role::Leak | Role::Partly => palette.warning,
        Role::Protected | Role::Well => palette.ok,
        Role::Second => palette.second,
        Role::Third => palette.third,
        Role::Own | Role::Inward | Role::First => palette.accent,
        Role::Outward | Role::Selected => palette.danger,
    }
}
