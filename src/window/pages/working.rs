//! The working panel: how a result came about.

use crate::assess::{
    Mark, Source, Topic, Working, drying_working, ranking_working, uncertainty_working, working,
};
use crate::window::context::PageContext;
use crate::window::theme::{figure_style, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Frame, Grid, Id, Key, Layout, Margin, RichText, ScrollArea, Stroke, Ui};
use std::sync::Arc;

/// The working last put together, so that it is written once and not in every frame.
#[derive(Clone)]
struct Written {
    revision: u64,
    topic: Topic,
    working: Option<Arc<Working>>,
}

/// Draws the working of one result; the window puts it into a panel at the right.
pub fn show<View>(ui: &mut Ui, context: &mut PageContext<'_, View>, topic: Topic) {
    if escaped(ui) {
        context.queue.close_working();
    }
    let written = written(ui, context, topic);
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let close = ui
                .button("Close")
                .on_hover_text("Put the working away (Esc)");
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
            Some(working) => sheet(ui, &working),
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
fn written<View>(ui: &Ui, context: &PageContext<'_, View>, topic: Topic) -> Option<Arc<Working>> {
    let id = Id::unique("the working shown");
    let before = ui
        .data(|data| data.get_temp::<Written>(id))
        .filter(|written| written.topic == topic);
    let results = context.results?;
    let decisions = context.decisions;
    let revision = match topic {
        Topic::Drying(_) => results.comparison_revision,
        Topic::Uncertainty => decisions
            .uncertainty(context.revision)
            .map_or(0, |_| context.revision),
        Topic::Ranking => decisions.ranking().map_or(0, |dated| dated.revision),
        _ => results.revision,
    };
    let fits = revision == context.revision;
    match before {
        Some(before) if !fits || before.revision == revision => before.working,
        before if !fits => before.and_then(|before| before.working),
        _ => {
            let working = match (topic, &results.comparison) {
                (Topic::Drying(topic), Ok(all)) => drying_working(context.survey, all, topic),
                (Topic::Uncertainty, _) => uncertainty(context),
                (Topic::Ranking, _) => ranking(context),
                (topic, _) => working(context.survey, &results.assessment, topic),
            };
            let working = working.map(Arc::new);
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
        .decisions
        .uncertainty(context.revision)?
        .as_ref()
        .ok()?;
    Some(uncertainty_working(found))
}

fn ranking<View>(context: &PageContext<'_, View>) -> Option<Working> {
    let found = context.decisions.ranking()?.answer.as_ref().ok()?;
    Some(ranking_working(
        context.survey,
        found.aim,
        &found.before,
        &found.ranked,
    ))
}

fn sheet(ui: &mut Ui, working: &Working) {
    ui.add(egui::Label::new(RichText::new(&working.title).text_style(figure_style())).wrap());
    ui.add_space(6.0);
    part(ui, "Formula");
    let colours = palette(ui);
    Frame::new()
        .fill(colours.field)
        .stroke(Stroke::new(1.0, colours.rule))
        .inner_margin(Margin::symmetric(8, 6))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            for line in working.formula.split(";  ") {
                ui.add(egui::Label::new(RichText::new(line).color(colours.text)).wrap());
            }
        });
    if !working.inputs.is_empty() {
        part(ui, "Put in");
        inputs(ui, &working.inputs);
    }
    part(ui, "Result");
    ui.add(egui::Label::new(RichText::new(&working.result).strong()).wrap());
    if !working.sources.is_empty() {
        part(ui, "Sources");
        for source in &working.sources {
            one_source(ui, source);
        }
    }
    if !working.notes.is_empty() {
        part(ui, "To keep in mind");
        for note in &working.notes {
            ui.add(egui::Label::new(format!("– {note}")).wrap());
        }
    }
}

fn part(ui: &mut Ui, words: &str) {
    ui.add_space(9.0);
    let colour = palette(ui).accent;
    ui.label(RichText::new(words).small().color(colour));
}

fn inputs(ui: &mut Ui, inputs: &[(String, String)]) {
    let width = ui.available_width();
    Grid::new("inputs")
        .num_columns(2)
        .striped(true)
        .spacing([10.0, 3.0])
        .show(ui, |ui| {
            for (name, value) in inputs {
                cell(ui, width * 0.52, |ui| {
                    let colour = palette(ui).muted;
                    ui.add(egui::Label::new(RichText::new(name).color(colour)).wrap());
                });
                cell(ui, width * 0.42, |ui| {
                    ui.add(egui::Label::new(value).wrap());
                });
                ui.end_row();
            }
        });
}

fn cell(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui)) {
    ui.vertical(|ui| {
        ui.set_width(width);
        content(ui);
    });
}

/// A source: its mark, what the mark means, and the source itself.
fn one_source(ui: &mut Ui, source: &Source) {
    let words = format!("{} {}", source.mark.bracketed(), source.text);
    ui.add(egui::Label::new(words).wrap())
        .on_hover_text(Mark::legend());
    widgets::muted(ui, source.mark.words());
    ui.add_space(2.0);
}
