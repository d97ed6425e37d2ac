//! Showing a result, or why it is not known, and the way to its working.

use crate::assess::{Answer, NotKnown, Topic};
use crate::window::request::Queue;
use crate::window::theme::{figure_style, palette};
use crate::window::units;
use eframe::egui;
use egui::{Response, RichText, Ui};

/// A small link beside a result that opens its working; `what` names the result for assistive
/// technology.
pub fn working_button(ui: &mut Ui, queue: &mut Queue, topic: Topic, what: &str) -> Response {
    let colour = palette(ui).accent;
    let response = super::words::link(ui, RichText::new("how?").small().color(colour))
        .on_hover_text(format!("Show how this was worked out: {what}"));
    super::words::tell_name(ui, response.id, &format!("how? {what}"));
    if response.clicked() {
        queue.open_working(topic);
    }
    response
}

/// *Not known*, with the reason on hover.
pub fn not_known(ui: &mut Ui, why: &NotKnown) {
    let colour = palette(ui).muted;
    let reason = units::text(ui.ctx(), &why.reason);
    ui.label(RichText::new("not known").italics().color(colour))
        .on_hover_text(reason);
}

/// A result in words on one line, or *not known* with the reason in small text and on hover.
pub fn answer_line(ui: &mut Ui, answer: &Answer<String>) {
    match answer {
        Ok(words) => {
            let words = units::text(ui.ctx(), words);
            ui.label(RichText::new(words).color(palette(ui).text));
        }
        Err(why) => not_known_since(ui, why),
    }
}

fn not_known_since(ui: &mut Ui, why: &NotKnown) {
    not_known(ui, why);
    super::words::muted(ui, &why.reason);
}

/// A headline: title with the way to its working, the figure, and a line of small print.
pub fn figure(
    ui: &mut Ui,
    queue: &mut Queue,
    title: &str,
    topic: Option<Topic>,
    answer: &Answer<(String, String)>,
) {
    ui.vertical(|ui| {
        ui.horizontal(|ui| {
            ui.label(RichText::new(title).small().color(palette(ui).muted));
            if let Some(topic) = topic {
                working_button(ui, queue, topic, title);
            }
        });
        match answer {
            Ok((figure, small)) => {
                let figure = units::text(ui.ctx(), figure);
                ui.label(RichText::new(figure).text_style(figure_style()));
                super::words::muted(ui, small);
            }
            Err(why) => not_known_since(ui, why),
        }
    });
}
