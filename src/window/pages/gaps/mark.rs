//! The small mark of a gap's purpose, with the shapes of the unfolded body; sealed gaps are
//! struck through.

use crate::survey::{Gap, Purpose, WorkState};
use crate::window::theme::{Palette, palette};
use eframe::egui;
use egui::{Color32, Pos2, Shape, Stroke, Ui, Vec2};

/// Radius of a round mark, points.
const RADIUS: f32 = 5.0;

/// Paints the mark.
pub(super) fn purpose(ui: &Ui, centre: Pos2, gap: &Gap) {
    let colours = palette(ui);
    let fill = colour(gap.purpose, colours);
    let line = Stroke::new(1.0, colours.text);
    match corners(gap.purpose) {
        None => {
            ui.painter().circle(centre, RADIUS, fill, line);
        }
        Some((corners, first_deg, stretch)) => {
            let points = regular(centre, RADIUS * stretch, corners, first_deg);
            ui.painter().add(Shape::convex_polygon(points, fill, line));
        }
    }
    if gap.state == WorkState::Sealed {
        let reach = Vec2::new(RADIUS + 2.0, -RADIUS - 2.0);
        let stroke = Stroke::new(2.0, colours.text);
        ui.painter()
            .line_segment([centre - reach, centre + reach], stroke);
    }
}

fn colour(purpose: Purpose, colours: &Palette) -> Color32 {
    match purpose {
        Purpose::Unintended => colours.warning,
        Purpose::SafetyVentilation | Purpose::GasDropOut | Purpose::ApplianceAir => colours.ok,
        Purpose::NotSaid | Purpose::Drain | Purpose::UserVentilation => colours.accent,
    }
}

/// Corners, the first one's angle from the top, and a stretch that gives every shape about the
/// area of the circle; none for the circle.
fn corners(purpose: Purpose) -> Option<(u8, f32, f32)> {
    match purpose {
        Purpose::Unintended => None,
        Purpose::NotSaid => Some((5, 0.0, 1.15)),
        Purpose::SafetyVentilation => Some((4, 45.0, 1.25)),
        Purpose::GasDropOut => Some((3, 180.0, 1.55)),
        Purpose::ApplianceAir => Some((6, 0.0, 1.1)),
        Purpose::Drain => Some((4, 0.0, 1.25)),
        Purpose::UserVentilation => Some((3, 0.0, 1.55)),
    }
}

fn regular(centre: Pos2, radius: f32, corners: u8, first_deg: f32) -> Vec<Pos2> {
    (0..corners)
        .map(|corner| {
            let share = f32::from(corner) / f32::from(corners);
            let angle = (first_deg + 360.0 * share).to_radians();
            centre + radius * Vec2::new(angle.sin(), -angle.cos())
        })
        .collect()
}
