//! Shapes of a scene as shapes of the painter.

use super::frame::{Frame, narrow};
use crate::figure::scene::{self, Anchor, Dash, Point, Role, Scene, Shape};
use crate::window::theme::Palette;
use crate::window::units;
use eframe::egui;
use egui::text::{LayoutJob, TextWrapping};
use egui::{Align2, Color32, FontId, Galley, Painter, Pos2, Stroke};
use std::sync::Arc;

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
                painter.add(filled(&points, colour(*fill, palette)));
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
            room,
        } => {
            let align = match anchor {
                Anchor::Left => Align2::LEFT_CENTER,
                Anchor::Middle => Align2::CENTER_CENTER,
                Anchor::Right => Align2::RIGHT_CENTER,
            };
            let font = (narrow(*size) * LETTER * frame.scale).max(LEAST_LETTER);
            let most = room.map_or(f32::INFINITY, |room| narrow(room) * frame.scale);
            let words = within(painter, text, (font, most), colour(*role, palette));
            let place = align.anchor_size(frame.to_screen(*at), words.size());
            painter.galley(place.min, words, colour(*role, palette));
        }
    }
}

/// Words with letters of this size, or smaller ones where they are wider than `most`; where even the
/// smallest are, cut.
fn within(
    painter: &Painter,
    words: &str,
    (size, most): (f32, f32),
    colour: Color32,
) -> Arc<Galley> {
    let lay = |size: f32| {
        let font = FontId::proportional(size);
        painter.layout_no_wrap(words.to_owned(), font, colour)
    };
    let whole = lay(size);
    if whole.size().x <= most {
        return whole;
    }
    // A hair smaller, for what rounding leaves.
    let smaller = (0.99 * size * most / whole.size().x).max(LEAST_LETTER);
    let fits = lay(smaller);
    if fits.size().x <= most {
        return fits;
    }
    let font = FontId::proportional(smaller);
    let mut job = LayoutJob::simple_singleline(words.to_owned(), font, colour);
    job.wrap = TextWrapping::truncate_at_width(most);
    painter.layout_job(job)
}

/// A filled area. The painter fills convex ones itself; others are cut into triangles.
fn filled(points: &[Pos2], fill: Color32) -> egui::Shape {
    if is_convex(points) {
        return egui::Shape::convex_polygon(points.to_vec(), fill, Stroke::NONE);
    }
    let mut mesh = egui::Mesh::default();
    for corners in triangles(points) {
        let first = u32::try_from(mesh.vertices.len()).unwrap_or_default();
        for corner in corners {
            mesh.colored_vertex(corner, fill);
        }
        mesh.add_triangle(first, first + 1, first + 2);
    }
    egui::Shape::mesh(mesh)
}

/// Twice the area of a triangle, positive where its corners follow each other clockwise on the
/// screen.
fn turn(a: Pos2, b: Pos2, c: Pos2) -> f32 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

fn is_convex(points: &[Pos2]) -> bool {
    let next = |by: usize| points.iter().cycle().skip(by);
    let turns = points.iter().zip(next(1)).zip(next(2));
    let (mut left, mut right) = (false, false);
    for ((a, b), c) in turns {
        let turn = turn(*a, *b, *c);
        left |= turn < -1e-3;
        right |= turn > 1e-3;
    }
    !(left && right)
}

/// The triangles that a closed area without crossings is made of: corner after corner is cut off
/// where nothing else of the area lies in the triangle that falls away.
fn triangles(points: &[Pos2]) -> Vec<[Pos2; 3]> {
    let mut rest = points.to_vec();
    let whole: f32 = points
        .iter()
        .zip(points.iter().cycle().skip(1))
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum();
    if whole < 0.0 {
        rest.reverse();
    }
    let mut triangles = Vec::new();
    while let Some((at, ear)) = ear(&rest) {
        triangles.push(ear);
        rest.remove(at);
    }
    triangles
}

/// A corner that can be cut off, and the triangle that falls away with it.
fn ear(rest: &[Pos2]) -> Option<(usize, [Pos2; 3])> {
    let count = rest.len();
    if count < 3 {
        return None;
    }
    (0..count).find_map(|at| {
        let corner = |by: usize| rest.get((at + by) % count).copied();
        let (a, b, c) = (corner(count - 1)?, corner(0)?, corner(1)?);
        let outside = |p: &Pos2| {
            let own = *p == a || *p == b || *p == c;
            own || turn(a, b, *p) < 0.0 || turn(b, c, *p) < 0.0 || turn(c, a, *p) < 0.0
        };
        let cuts = turn(a, b, c) >= 0.0 && rest.iter().all(outside);
        cuts.then_some((at, [a, b, c]))
    })
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::outline::{Form, Look, Sizes, flank};
    use crate::survey::VehicleKind;
    use egui::pos2;
    use egui_kittest::Harness;

    fn area(points: &[Pos2]) -> f32 {
        let next = points.iter().cycle().skip(1);
        let twice: f32 = points
            .iter()
            .zip(next)
            .map(|(a, b)| a.x * b.y - b.x * a.y)
            .sum();
        twice.abs() / 2.0
    }

    /// A name as long as they are usual, and one that no letters make fit, in the room before their bars.
    #[test]
    fn words_with_little_room_get_smaller_letters_and_are_cut_only_then() {
        let usual = "background heat, 500 W + large compressor unit, 280 W*";
        let endless = usual.repeat(3);
        let mut seen = 0;
        let mut window = Harness::new_ui(|ui| {
            seen += 1;
            if seen == 1 {
                // The fonts are there from the next frame on.
                return crate::window::theme::install(ui.ctx());
            }
            let lay = |words: &str, most: f32| {
                within(
                    ui.painter(),
                    words,
                    (2.6 * LETTER * 4.4, most),
                    Color32::WHITE,
                )
            };
            let free = lay(usual, f32::INFINITY);
            assert!(free.size().x > 346.0, "{}", free.size().x);
            let small = lay(usual, 346.0);
            assert!(small.size().x <= 346.0 && !small.elided);
            let cut = lay(&endless, 346.0);
            assert!(cut.size().x <= 346.0 && cut.elided);
        });
        window.run_steps(3);
        drop(window);
        assert!(seen > 2);
    }

    /// The shoelace formula on one side, the triangles added up on the other.
    #[test]
    fn what_is_cut_into_triangles_keeps_its_area() {
        let hook = [
            (0.0, 0.0),
            (4.0, 0.0),
            (4.0, 4.0),
            (3.0, 4.0),
            (3.0, 1.0),
            (0.0, 1.0),
        ];
        let mut shapes = vec![hook.map(|(x, y)| pos2(x, y)).to_vec()];
        for kind in VehicleKind::ALL {
            let hull = flank(&Sizes::usual(kind))
                .into_iter()
                .find(|piece| piece.look == Look::Hull);
            let Some(Form::Area(points)) = hull.map(|piece| piece.form) else {
                panic!("a body");
            };
            let on_screen = |(x, y): &(f64, f64)| pos2(narrow(*x), narrow(-*y)) * 100.0;
            shapes.push(points.iter().map(on_screen).collect());
        }
        for shape in shapes {
            let mut backwards = shape.clone();
            backwards.reverse();
            for shape in [shape, backwards] {
                let parts: f32 = triangles(&shape).iter().map(|part| area(part)).sum();
                let whole = area(&shape);
                assert!((parts / whole - 1.0).abs() < 1e-3, "{parts} of {whole}");
            }
        }
        assert!(!is_convex(&hook.map(|(x, y)| pos2(x, y))));
        assert!(is_convex(&[
            pos2(0.0, 0.0),
            pos2(2.0, 0.0),
            pos2(2.0, 1.0),
            pos2(0.0, 1.0)
        ]));
    }
}
