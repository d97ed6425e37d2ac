//! What a trial says: what each method did as one picture, then in words and tables.

use super::super::view::MeasurementsContext;
use crate::figure::trial::verdict;
use crate::report::{Material, measured};
use crate::survey::Trial;
use crate::window::body;
use crate::window::widgets::{self, report};
use eframe::egui::Ui;

/// Points of the screen for each millimetre of the picture.
const POINTS_PER_MM: f32 = 4.0;
/// Least and greatest width of it, mm.
const WIDE_MM: (f32, f32) = (110.0, 230.0);

/// Draws it, once it was worked out.
pub(super) fn show(ui: &mut Ui, context: &mut MeasurementsContext<'_>, trial: &Trial) {
    let Some((tried, told)) = context.answers.tried().zip(context.told()) else {
        return;
    };
    let study = tried.answer;
    let Some(outcomes) = study.tried() else {
        return;
    };
    if tried.revision != context.revision {
        widgets::muted(ui, "What the methods did is being worked out anew.");
    }
    let Some(then) = study.survey().trial(trial.id) else {
        return;
    };
    let room = (ui.available_width() / POINTS_PER_MM).clamp(WIDE_MM.0, WIDE_MM.1);
    let room = f64::from(room.floor());
    let key = (tried.revision, room.to_bits());
    let said = context.view.said(trial.id, key, || {
        let rows = outcomes.trial(trial.id).map_or_else(
            |_| Vec::new(),
            |outcome| measured::trial::rows(then, outcome),
        );
        let picture = (!rows.is_empty()).then(|| verdict(&rows, room));
        let told = Material {
            study,
            survey: study.survey(),
            ..told
        };
        (picture, measured::trial::section(&told, then))
    });
    let (picture, section) = &*said;
    if let Some(scene) = picture {
        body::show(ui, scene, body::narrow(scene.height) * POINTS_PER_MM);
    }
    report::section(ui, context.queue, section);
    ui.add_space(6.0);
}
