//! What the walk round offers for leakage not found: taken over with one action, never by itself.

use crate::assess::walk_round;
use crate::report::walk::share_sentence;
use crate::survey::{Edit, Survey};
use crate::window::request::Queue;
use crate::window::widgets;
use eframe::egui::Ui;

/// Says what the places left may hold, with a button that takes the figure over; nothing where
/// nobody has begun a walk round.
pub(super) fn offer(ui: &mut Ui, survey: &Survey, queue: &mut Queue) {
    if !survey.has_walked() {
        return;
    }
    let walk = walk_round(survey);
    widgets::muted(ui, share_sentence(&walk));
    let Ok(percent) = walk.not_found_percent else {
        return;
    };
    let same = survey
        .leakage_not_found_percent
        .is_some_and(|now| (now - percent).abs() < 0.5);
    if percent > 0.0 && !same {
        let words = format!("Take {percent} % for leakage not found");
        if ui.button(words).clicked() {
            queue.edit(Edit::LeakageNotFound(Some(percent)), None);
        }
    }
}
