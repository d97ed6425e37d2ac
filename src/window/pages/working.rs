//! The working panel: how a result came about.

use crate::assess::{
    Topic, Working, drying_working, ranking_working, uncertainty_working, working,
};
use crate::report::{Section, workings};
use crate::window::context::PageContext;
use crate::window::request::Queue;
use crate::window::theme::figure_style;
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Id, Key, Layout, RichText, ScrollArea, Ui};
use std::sync::Arc;

/// The working last put together, so that it is written once and not in every frame.
#[derive(Clone)]
struct Written {
    revision: u64,
    topic: Topic,
    working: Option<Arc<Section>>,
}

/// Draws the working of one result; the window puts it into a panel at the right.
pub fn show<View>(ui: &mut Ui, context: &mut PageContext<'_, View>, topic: Topic) {
    if escaped(ui) {
        context.queue.close_working();
    }
    let written = written(ui, context, topic);
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let close = ui.button("Close").on_hover_text("Close the working (Esc)");
            widgets::tell_name(ui, close.id, "Close the working");
            if close.clicked() {
                context.queue.close_working();
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.heading("Working");
            });
        });
    });
    ui.separator();
    ScrollArea::vertical()
        .id_salt(topic)
        .auto_shrink(false)
        .show(ui, |ui| match written {
            Some(working) => sheet(ui, context.queue, &working),
            None => {
                ui.label(
                    "There is nothing to show: what this was about is no longer in the survey.",
                );
            }
        });
}

/// Whether Esc is meant for the panel: not while a text is being typed, whose field takes it.
fn escaped(ui: &Ui) -> bool {
    let id = Id::unique("a text had the focus");
    let typing = ui.ctx().text_edit_focused();
    let typed_before = ui
        .data_mut(|data| data.get_temp::<bool>(id))
        .unwrap_or(false);
    ui.data_mut(|data| data.insert_temp(id, typing));
    !typing && !typed_before && ui.input(|input| input.key_pressed(Key::Escape))
}

/// The working; while results of the newest survey are on their way, the one before.
fn written<View>(ui: &Ui, context: &PageContext<'_, View>, topic: Topic) -> Option<Arc<Section>> {
    let id = Id::unique("the working shown");
    let before = ui
        .data(|data| data.get_temp::<Written>(id))
        .filter(|written| written.topic == topic);
    let results = context.results?;
    let answers = context.answers;
    let revision = match topic {
        Topic::Drying(_) => results.comparison_revision(),
        Topic::Uncertainty => answers
            .uncertainty(context.revision)
            .map_or(0, |_| context.revision),
        Topic::Ranking => answers.ranking().map_or(0, |dated| dated.revision),
        _ => results.revision,
    };
    let fits = revision == context.revision;
    match before {
        Some(before) if !fits || before.revision == revision => before.working,
        before if !fits => before.and_then(|before| before.working),
        _ => {
            let working = match (topic, results.comparison()) {
                (Topic::Drying(topic), Ok(all)) => drying_working(context.survey, all, topic),
                (Topic::Uncertainty, _) => uncertainty(context),
                (Topic::Ranking, _) => ranking(context),
                (topic, _) => working(context.survey, results.assessment(), topic),
            };
            let working = working.map(|working| Arc::new(workings::one(&working)));
            let written = Written {
                revision,
                topic,
                working: working.clone(),
            };
            ui.data_mut(|data| data.insert_temp(id, written));
            working
        }
    }
}

fn uncertainty<View>(context: &PageContext<'_, View>) -> Option<Working> {
    let found = context
        .answers
        .uncertainty(context.revision)?
        .as_ref()
        .ok()?;
    Some(uncertainty_working(context.survey, found))
}

fn ranking<View>(context: &PageContext<'_, View>) -> Option<Working> {
    let found = context.answers.ranking()?.answer.as_ref().ok()?;
    Some(ranking_working(
        context.survey,
        found.aim,
        &found.before,
        &found.ranked,
    ))
}

fn sheet(ui: &mut Ui, queue: &mut Queue, working: &Section) {
    ui.add(egui::Label::new(RichText::new(&working.title).text_style(figure_style())).wrap());
    widgets::report::section(ui, queue, working);
}
