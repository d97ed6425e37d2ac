//! The result strip: the headlines, always in sight.

use super::answers::LongWork;
use super::background::Status;
use super::commands::Command;
use super::context::PageContext;
use super::theme::{figure_style, palette};
use super::{units, widgets};
use crate::physics::counts::whole;
use crate::report::key_results::{KeyResult, calibrated, key_results};
use crate::survey::{Finding, Severity};
use eframe::egui;
use egui::text::{LayoutJob, TextFormat};
use egui::{Align, Button, Label, Layout, RichText, TextStyle, Ui, vec2};

/// Height of the window below which the strip leaves the small print away.
const TALL: f32 = 600.0;

/// Draws the strip.
pub fn show<View>(ui: &mut Ui, context: &mut PageContext<'_, View>) {
    let Some(results) = context.results else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    let Some(told) = context.told() else { return };
    let shown = units::shown(ui.ctx());
    let headlines = key_results(&told).map(|result| result.shown(&shown));
    let calibrated = calibrated(&told).filter(|_| headlines.iter().any(|one| one.figure.is_ok()));
    let sure = sure(context, &headlines);
    let findings = &results.findings;
    if ui.ctx().content_rect().height() < TALL {
        ui.horizontal_wrapped(|ui| {
            for (headline, sure) in headlines.iter().zip(&sure) {
                short(ui, context, headline, sure);
            }
            calibration(ui, calibrated.as_deref());
            alerts(ui, context, findings);
        });
        return;
    }
    let count = headlines.len() + 1;
    let (each, width) = row(ui, count);
    let mut at = 0;
    while at < count {
        ui.horizontal_top(|ui| {
            for index in at..count.min(at + each) {
                let height = CELL_HEIGHT + (ui.spacing().interact_size.y - LINE).max(0.0);
                let layout = Layout::top_down(Align::Min);
                let width = width.min(ui.available_width());
                ui.allocate_ui_with_layout(vec2(width, height), layout, |cell| {
                    cell.set_max_width(width);
                    cell.spacing_mut().item_spacing.y = 1.0;
                    cell.set_min_height(height);
                    match headlines.get(index).zip(sure.get(index)) {
                        Some((headline, sure)) => {
                            cell.set_min_width(width);
                            full(cell, context, headline, sure);
                        }
                        None => alerts(cell, context, findings),
                    }
                });
            }
        });
        at += each;
    }
    calibration(ui, calibrated.as_deref());
}

/// What all the results are calibrated by, once for all of them.
fn calibration(ui: &mut Ui, by: Option<&str>) {
    if let Some(by) = by {
        let words = RichText::new(by).small().color(palette(ui).muted);
        ui.add(Label::new(words).truncate());
    }
}

/// How many cells stand in a row, and how wide they are. Where all stand in one, that of the alerts
/// is narrower than the results.
fn row(ui: &Ui, count: usize) -> (usize, f32) {
    let (room, space) = (ui.available_width(), ui.spacing().item_spacing.x);
    #[expect(clippy::cast_precision_loss, reason = "a handful of cells")]
    let width = |room: f32, cells: usize| room / cells as f32 - space;
    let results = width(room - ALERTS, count - 1);
    if results >= CELL_LEAST {
        return (count, results);
    }
    let fit = whole(f64::from(room / (CELL_LEAST + space))).max(1);
    // Equal rows look calmer than a full row and a remnant.
    let each = count.div_ceil(count.div_ceil(fit.min(count - 1)));
    (each, width(room, each))
}

/// Width of a result's cell at least.
const CELL_LEAST: f32 = 170.0;
/// Width of the alerts beside the results.
const ALERTS: f32 = 96.0;
/// Height of a cell: nothing jumps when the small print grows or goes.
const CELL_HEIGHT: f32 = 76.0;
/// Height of a line with a link in it, in the usual size.
const LINE: f32 = 25.0;

/// Where each result very likely lies, in brackets; `(…)` while that is being worked out.
fn sure<View>(context: &PageContext<'_, View>, results: &[KeyResult; 5]) -> [String; 5] {
    let status = context.answers.status(LongWork::Uncertainty);
    let found = context.answers.uncertainty(context.revision);
    let coming = found.is_none() && status != Status::Stopped;
    results.each_ref().map(|result| match &result.range {
        Some(range) => format!("({range})"),
        None if coming => "(…)".to_owned(),
        None => String::new(),
    })
}

const SURE: &str = "What it may be: 95 % of the draws of all that is uncertain lie between these. Measure \
                    next, on the Air change page, says what would narrow it.";

/// Figure and interval on one line; where that does not reach, the interval on the next.
fn with_brackets(ui: &Ui, figure: &str, sure: &str) -> LayoutJob {
    let format = |style, colour| written(ui, style, colour);
    let colours = palette(ui);
    let job = |between: &str| {
        let mut job = LayoutJob::default();
        job.wrap.max_width = ui.available_width();
        job.append(figure, 0.0, format(figure_style(), colours.text));
        if !sure.is_empty() {
            let words = format!("{between}{sure}");
            job.append(&words, 0.0, format(TextStyle::Small, colours.muted));
        }
        job
    };
    let beside = job(" ");
    let rows = ui.fonts_mut(|fonts| fonts.layout_job(beside.clone()).rows.len());
    if rows > 1 { job("\n") } else { beside }
}

/// Title, figure, and at most two rows of small print; all of it on hover.
fn full<View>(ui: &mut Ui, context: &mut PageContext<'_, View>, headline: &KeyResult, sure: &str) {
    let muted = palette(ui).muted;
    ui.horizontal(|ui| {
        ui.label(RichText::new(&headline.title).small().color(muted));
        if let Some(topic) = headline.topic {
            widgets::working_button(ui, context.queue, topic, &headline.title);
        }
    });
    let small = match &headline.figure {
        Ok(figure) => {
            let job = with_brackets(ui, figure, sure);
            let label = ui.label(job);
            if !sure.is_empty() {
                label.on_hover_text(SURE);
            }
            &headline.small
        }
        Err(why) => {
            widgets::not_known(ui, why);
            &why.reason
        }
    };
    let font = TextStyle::Small.resolve(ui.style());
    let mut job = LayoutJob::simple(small.clone(), font, muted, ui.available_width());
    job.wrap.max_rows = 2;
    ui.label(job).on_hover_text(small);
}

/// Words that stay on one line.
fn unbroken(words: &str) -> String {
    words.replace(' ', "\u{a0}")
}

fn short<View>(ui: &mut Ui, context: &mut PageContext<'_, View>, headline: &KeyResult, sure: &str) {
    let title = unbroken(&headline.title);
    match &headline.figure {
        Ok(figure) => {
            // Title and figure in one piece: a title at the end of a line says nothing. There is
            // little room: the interval is told on hover only.
            ui.label(title_and_figure(ui, &title, &unbroken(figure)))
                .on_hover_text(format!("{sure} {}", headline.small).trim());
        }
        Err(why) => {
            ui.label(RichText::new(title).small().color(palette(ui).muted));
            widgets::not_known(ui, why);
        }
    }
    if let Some(topic) = headline.topic {
        widgets::working_button(ui, context.queue, topic, &headline.title);
    }
}

fn title_and_figure(ui: &Ui, title: &str, figure: &str) -> LayoutJob {
    let colours = palette(ui);
    let mut job = LayoutJob::default();
    job.append(title, 0.0, written(ui, TextStyle::Small, colours.muted));
    let figure = format!("\u{a0}{figure}");
    job.append(&figure, 0.0, written(ui, TextStyle::Body, colours.text));
    job
}

fn written(ui: &Ui, style: TextStyle, color: egui::Color32) -> TextFormat {
    TextFormat {
        font_id: style.resolve(ui.style()),
        color,
        valign: Align::BOTTOM,
        ..TextFormat::default()
    }
}

/// Counts of the findings by severity; a click opens the list.
fn alerts<View>(ui: &mut Ui, context: &mut PageContext<'_, View>, findings: &[Finding]) {
    let mut parts: Vec<(Severity, String)> = Vec::new();
    for severity in [
        Severity::Error,
        Severity::Danger,
        Severity::Warning,
        Severity::Note,
    ] {
        let count = findings
            .iter()
            .filter(|finding| finding.severity == severity)
            .count();
        if count > 0 {
            let many = if count == 1 { "" } else { "s" };
            let words = format!(
                "{} {count} {}{many}",
                widgets::sign(severity),
                severity.name()
            );
            parts.push((severity, words));
        }
    }
    if parts.is_empty() {
        let ok = palette(ui).ok;
        ui.label(RichText::new("✔ nothing to mend").color(ok));
        return;
    }
    if widgets::is_touch(ui) {
        ui.horizontal_wrapped(|ui| alert_buttons(ui, context, &parts));
    } else {
        ui.spacing_mut().button_padding = vec2(5.0, 1.0);
        ui.spacing_mut().interact_size.y = 0.0;
        alert_buttons(ui, context, &parts);
    }
}

fn alert_buttons<View>(
    ui: &mut Ui,
    context: &mut PageContext<'_, View>,
    parts: &[(Severity, String)],
) {
    let touch = widgets::is_touch(ui);
    for (severity, words) in parts {
        // Fingers need room: the word then stands on hover and for assistive technology only.
        let shown = match words.rsplit_once(' ') {
            Some((sign_and_count, _)) if touch => sign_and_count,
            _ => words,
        };
        let colour = widgets::severity_colour(ui, *severity);
        let button = Button::new(RichText::new(shown).small().color(colour)).frame(false);
        let response = ui
            .add(button)
            .on_hover_text(format!("{words}: show the list of findings"));
        widgets::tell_name(ui, response.id, words);
        if response.clicked() {
            context.queue.command(Command::Findings);
        }
    }
}
