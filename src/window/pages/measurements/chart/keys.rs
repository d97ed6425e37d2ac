//! The keys of a chart that has the focus.

use super::span::{self, Span};
use super::view::{ChartView, Marked};
use crate::figure::trial::Lines;
use eframe::egui;
use egui::{EventFilter, Id, Key, Modifiers, Ui};

/// Steps of the cursor in a view, and how much of it one key moves or zooms.
const STEPS: i64 = 120;
const CLOSER: f64 = 0.5;

/// What each key does, for the line over the chart.
pub(super) const WORDS: &str = "Keys on the chart: ← → cursor, with Shift by one reading, Page Up and Page Down earlier and later, + and \u{2212} \
     closer and wider, 0 all, B period begins at the cursor, E it ends there, Esc not after all.";

/// Keeps arrows, and Esc while a period is being marked, for the chart with the focus.
pub(super) fn hold(ui: &Ui, id: Id, marking: bool) {
    let filter = EventFilter {
        vertical_arrows: false,
        horizontal_arrows: true,
        escape: marking,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
}

/// Does what keys ask for.
pub(super) fn take(ui: &Ui, view: &mut ChartView, lines: &Lines, all: Span) -> Option<Marked> {
    let pressed = |modifiers, key| ui.input_mut(|input| input.consume_key(modifiers, key));
    let plain = |key| pressed(Modifiers::NONE, key);
    let shown = view.shown(all);
    let middle = shown.0 + (shown.1 - shown.0) / 2;
    let cursor = view.cursor.unwrap_or(middle);
    let step = (shown.1 - shown.0) / STEPS;
    let go = |by: i64| {
        let track = &lines.inside.temperature;
        let next = track.step(cursor + by * step, 0);
        // Never less than a reading, so that each can be reached.
        match next {
            Some(next) if (next - cursor) * by > 0 => Some(next),
            _ => track.step(cursor, by),
        }
    };
    let mut at = None;
    for (key, by) in [(Key::ArrowRight, 1), (Key::ArrowLeft, -1)] {
        // Shift first: a plain key is taken with Shift too.
        if pressed(Modifiers::SHIFT, key) {
            at = lines.inside.temperature.step(cursor, by);
        } else if plain(key) {
            at = go(by);
        }
    }
    if plain(Key::Home) {
        at = Some(all.0);
    }
    if plain(Key::End) {
        at = Some(all.1);
    }
    if let Some(at) = at {
        view.cursor = Some(at);
        view.show(span::showing(shown, at, all));
    }
    let half = (shown.1 - shown.0) / 2;
    for (key, by) in [(Key::PageUp, -half), (Key::PageDown, half)] {
        if plain(key) {
            view.show(span::moved(shown, by, all));
        }
    }
    let around = view.cursor.filter(|at| (shown.0..=shown.1).contains(at));
    let around = around.unwrap_or(middle);
    if plain(Key::Plus) || plain(Key::Equals) || pressed(Modifiers::SHIFT, Key::Plus) {
        view.show(span::zoomed(shown, around, CLOSER, all));
    }
    if plain(Key::Minus) {
        view.show(span::zoomed(shown, around, 1.0 / CLOSER, all));
    }
    if plain(Key::Num0) {
        view.show(all);
    }
    if plain(Key::Escape) {
        view.begun = None;
    }
    if plain(Key::B) {
        view.cursor = Some(cursor);
        view.begun = Some(cursor);
    }
    if plain(Key::E)
        && let Some(begun) = view.begun
        && begun != cursor
    {
        view.begun = None;
        return Some(Marked::New(begun.min(cursor), begun.max(cursor)));
    }
    None
}
