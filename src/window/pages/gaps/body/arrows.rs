//! The arrows that were pressed on the drawing.

use eframe::egui;
use egui::{Key, Modifiers, Ui, Vec2, vec2};

/// A nudge by key, m.
pub(super) const NUDGE_M: f64 = 0.05;

const ARROWS: [(Key, Vec2); 4] = [
    (Key::ArrowLeft, vec2(-1.0, 0.0)),
    (Key::ArrowRight, vec2(1.0, 0.0)),
    (Key::ArrowUp, vec2(0.0, -1.0)),
    (Key::ArrowDown, vec2(0.0, 1.0)),
];

/// The arrows pressed in this frame with just these modifiers, added up.
pub(super) fn pressed(ui: &Ui, modifiers: Modifiers) -> Vec2 {
    ui.input(|input| {
        let mut sum = Vec2::ZERO;
        if input.modifiers.matches_exact(modifiers) {
            for (key, way) in ARROWS {
                if input.key_pressed(key) {
                    sum += way;
                }
            }
        }
        sum
    })
}
