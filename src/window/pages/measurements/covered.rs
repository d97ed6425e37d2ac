//! What was covered for a test, each with its tick once it is uncovered.

use super::super::fields::{Fields, field_findings};
use crate::survey::{Covered, FanTest, Field, GapId, Survey};
use crate::window::help;
use crate::window::request::Queue;
use crate::window::theme::bold;
use crate::window::widgets::{self, Choice, TextField};
use eframe::egui;
use egui::{RichText, Ui};

/// Width of the choice of a gap, and of the words.
const WIDE: f32 = 150.0;

/// Draws the list.
pub(super) fn show(fields: &mut Fields<'_, '_, FanTest>, survey: &Survey, test: &FanTest) {
    let (ui, queue, marks) = fields.parts();
    let field = Field::CoveredForTest;
    let heading = ui.label(RichText::new(field.label()).family(bold()));
    help::explain(ui, heading, field.label(), field.help());
    let mut changed = test.covered.clone();
    let mut away = None;
    for (at, one) in changed.iter_mut().enumerate() {
        ui.push_id(("covered", at), |ui| {
            if row(ui, queue, survey, (test, at), one) {
                away = Some(at);
            }
        });
    }
    if let Some(at) = away {
        changed.remove(at);
    }
    let add = ui.button("Add a covered opening");
    let name = format!("Add a covered opening to fan test {}", test.id);
    widgets::tell_name(ui, add.id, &name);
    if add.clicked() {
        changed.push(Covered::default());
    }
    field_findings(ui, marks, &[Field::Uncovered, Field::CoveredGap]);
    if changed != test.covered {
        fields.change(|test| test.covered = changed);
    }
}

/// One opening; `true` where it is to go from the list, which nothing does while it is covered.
fn row(
    ui: &mut Ui,
    queue: &mut Queue,
    survey: &Survey,
    (test, at): (&FanTest, usize),
    one: &mut Covered,
) -> bool {
    let id = (test.id, at);
    ui.horizontal_wrapped(|ui| {
        let mut options: Vec<Option<GapId>> = vec![None];
        options.extend(survey.gaps.iter().map(|gap| Some(gap.id)));
        let words = |gap: &Option<GapId>| match gap.and_then(|id| survey.gap(id)) {
            Some(gap) => format!("{} {}", gap.id, gap.name.trim()),
            None => gap.map_or_else(|| "not in the ledger".to_owned(), |id| format!("gap {id}")),
        };
        let label = format!("Gap covered, opening {}", at + 1);
        let chosen = Choice::of(Field::CoveredGap, &one.gap, &options)
            .label(&label)
            .id(id)
            .compact()
            .width(WIDE)
            .show(ui, words);
        if let Some(gap) = chosen {
            one.gap = gap;
        }
        if one.gap.is_none() {
            let label = format!("Opening {} covered", at + 1);
            let typed = TextField::new(Field::CoveredWhat, &one.what)
                .label(&label)
                .id(id)
                .compact()
                .width(WIDE)
                .show(ui, queue);
            if let Some(what) = typed {
                one.what = what;
            }
        }
        let words = survey.covered_in_words(one);
        let mut uncovered = one.uncovered;
        let tick = ui.checkbox(&mut uncovered, Field::Uncovered.label());
        let tick = help::explain(ui, tick, Field::Uncovered.label(), Field::Uncovered.help());
        widgets::tell_name(ui, tick.id, &format!("{words} uncovered again"));
        one.uncovered = uncovered;
        let name = format!("Take {words} from the list");
        let button = ui
            .add_enabled(one.uncovered, widgets::cross_button(ui))
            .on_hover_text(&name)
            .on_disabled_hover_text("Uncover it and tick that first");
        widgets::tell_name(ui, button.id, &name);
        button.clicked()
    })
    .inner
}
