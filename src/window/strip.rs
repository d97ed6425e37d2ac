//! The result strip: the headlines, always in sight.

use super::commands::Command;
use super::context::PageContext;
use super::decisions::LongWork;
use super::errand::Status;
use super::format::{area_cm2, celsius, digits_of, length_mm, per_hour};
use super::intervals;
use super::theme::{figure_style, palette};
use super::widgets;
use crate::assess::{Answer, Assessment, CaseAnswer, NotKnown, Topic};
use crate::survey::{Finding, Severity, Survey, WeatherId};
use eframe::egui;
use egui::text::{LayoutJob, TextFormat};
use egui::{Align, Button, Layout, RichText, TextStyle, Ui, vec2};

/// One headline.
#[derive(Clone, Debug, PartialEq)]
pub struct Headline {
    /// What it is.
    pub title: String,
    /// Its working.
    pub topic: Option<Topic>,
    /// Figure with unit, and small print.
    pub figure: Answer<(String, String)>,
}

/// The headlines of a survey.
#[must_use]
pub fn headlines(survey: &Survey, assessment: &Assessment) -> Vec<Headline> {
    let (calm, wind) = match assessment.calmest_and_windiest {
        Some((calm, wind)) => (assessment.cases.get(calm), assessment.cases.get(wind)),
        None => (None, None),
    };
    vec![
        leakage(assessment),
        air_change("least wind", calm, assessment),
        air_change("most wind", wind, assessment),
        removal(survey, calm, wind),
        heat(survey, calm, wind),
    ]
}

fn leakage(assessment: &Assessment) -> Headline {
    let leakage = &assessment.leakage;
    let figure = leakage.unintended.clone().map(|total| {
        if total.gaps == 0 && total.not_sized == 0 {
            return (area_cm2(0.0), "no gap written down yet".to_owned());
        }
        let mut small = match &leakage.square_side {
            Ok(side) => format!("one square hole, {} wide", length_mm(*side)),
            Err(_) => String::new(),
        };
        if total.not_sized > 0 {
            small = format!("{small}; {} not sized", total.not_sized);
        }
        (area_cm2(total.figures.eqla), small)
    });
    Headline {
        title: "EqLA, unintended".to_owned(),
        topic: Some(Topic::LeakageArea),
        figure,
    }
}

fn no_case() -> NotKnown {
    NotKnown::because("there is no weather case")
}

fn air_change(which: &str, case: Option<&CaseAnswer>, assessment: &Assessment) -> Headline {
    let name = case.map_or(which, |case| case.name.as_str());
    let figure = case.ok_or_else(no_case).and_then(|case| {
        let air = case.air.clone()?;
        let mean = air.mean_ach_per_h?;
        let at = |index: usize| {
            let direction = air.directions.get(index)?;
            direction.ach_per_h.as_ref().ok().copied()
        };
        let span = match (at(air.lowest), at(air.highest)) {
            (Some(low), Some(high)) => {
                format!("{}–{}, ", digits_of(low, 2), digits_of(high, 2))
            }
            _ => String::new(),
        };
        Ok((
            per_hour(mean),
            format!("{span}{}", assessment.set_up.name()),
        ))
    });
    Headline {
        title: format!("Air changes, {name}"),
        topic: topic(case, Topic::AirChange),
        figure,
    }
}

fn topic(case: Option<&CaseAnswer>, of: impl Fn(WeatherId) -> Topic) -> Option<Topic> {
    case.map(|case| of(case.id))
}

/// `0.6–2.1`, or one number where both read the same.
fn span(low: f64, high: f64) -> String {
    let (low, high) = (digits_of(low.min(high), 2), digits_of(low.max(high), 2));
    if low == high {
        low
    } else {
        format!("{low}–{high}")
    }
}

fn removal(survey: &Survey, calm: Option<&CaseAnswer>, wind: Option<&CaseAnswer>) -> Headline {
    let litres = |case: Option<&CaseAnswer>| -> Answer<f64> {
        let drying = case.ok_or_else(no_case)?.drying.clone()?;
        Ok(drying.at_set_temperature.l_per_day())
    };
    let targets = &survey.targets;
    let figure = litres(calm).and_then(|calm| {
        let small = format!(
            "to hold {} % at {}",
            targets.rh_percent,
            celsius(targets.set_temperature_c)
        );
        Ok((format!("{} L/day", span(calm, litres(wind)?)), small))
    });
    Headline {
        title: "Water to remove".to_owned(),
        topic: topic(wind, Topic::Removal),
        figure,
    }
}

fn heat(survey: &Survey, calm: Option<&CaseAnswer>, wind: Option<&CaseAnswer>) -> Headline {
    let watts = |case: Option<&CaseAnswer>| -> Answer<f64> {
        case.ok_or_else(no_case)?
            .heat
            .clone()?
            .set_temperature
            .total_w()
    };
    let figure = watts(calm).and_then(|calm| {
        let small = format!("to hold {}", celsius(survey.targets.set_temperature_c));
        Ok((format!("{} W", span(calm, watts(wind)?)), small))
    });
    Headline {
        title: "Heat".to_owned(),
        topic: topic(wind, Topic::Heat),
        figure,
    }
}

/// Height of the window below which the strip leaves the small print away.
const TALL: f32 = 600.0;

/// Draws the strip.
pub fn show<View>(ui: &mut Ui, context: &mut PageContext<'_, View>) {
    let Some(results) = context.results else {
        widgets::muted(ui, "The results are being worked out.");
        return;
    };
    let headlines = headlines(context.survey, &results.assessment);
    let sure = sure(context, &results.assessment);
    let findings = &results.assessment.findings;
    if ui.ctx().content_rect().height() < TALL {
        ui.horizontal_wrapped(|ui| {
            for (headline, sure) in headlines.iter().zip(&sure) {
                short(ui, context, headline, sure);
            }
            alerts(ui, context, findings);
        });
        return;
    }
    let count = headlines.len() + 1;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a handful of headlines"
    )]
    let fit = (ui.available_width() / CELL_LEAST).floor().max(1.0) as usize;
    // Equal rows look calmer than a full row and a remnant.
    let each = count.div_ceil(count.div_ceil(fit.min(count)));
    let mut at = 0;
    while at < count {
        ui.columns(each, |columns| {
            for (cell, index) in columns.iter_mut().zip(at..count) {
                // Columns stretch their text to full lines; a strip reads better without.
                cell.with_layout(Layout::top_down(Align::Min), |cell| {
                    cell.spacing_mut().item_spacing.y = 1.0;
                    let more = (cell.spacing().interact_size.y - LINE).max(0.0);
                    cell.set_min_height(CELL_HEIGHT + more);
                    match headlines.get(index).zip(sure.get(index)) {
                        Some((headline, sure)) => full(cell, context, headline, sure),
                        None => alerts(cell, context, findings),
                    }
                });
            }
        });
        at += each;
    }
}

/// Width of a cell at least.
const CELL_LEAST: f32 = 148.0;
/// Height of a cell: nothing jumps when the small print grows or goes.
const CELL_HEIGHT: f32 = 76.0;
/// Height of a line with a link in it, in the usual size.
const LINE: f32 = 25.0;

/// How sure each headline is, in brackets; `(…)` while that is being worked out.
fn sure<View>(context: &PageContext<'_, View>, assessment: &Assessment) -> [String; 5] {
    match context.decisions.uncertainty(context.revision) {
        Some(Ok(found)) => {
            intervals::of_headlines(assessment, found).map(Option::unwrap_or_default)
        }
        Some(Err(_)) => Default::default(),
        None => match context.decisions.status(LongWork::Uncertainty) {
            Status::Stopped => Default::default(),
            _ => std::array::from_fn(|_| "(…)".to_owned()),
        },
    }
}

const SURE: &str = "What it may be: 95 % of the draws of everything in doubt lie between these. Measure \
                    next, on the Air change page, says what would narrow it.";

/// Figure and interval on one line, as far as it reaches.
fn with_brackets(ui: &Ui, figure: &str, sure: &str) -> LayoutJob {
    let format = |style: TextStyle, colour| TextFormat {
        font_id: style.resolve(ui.style()),
        color: colour,
        valign: Align::BOTTOM,
        ..TextFormat::default()
    };
    let colours = palette(ui);
    let mut job = LayoutJob::default();
    job.wrap.max_width = ui.available_width();
    job.append(figure, 0.0, format(figure_style(), colours.text));
    if !sure.is_empty() {
        job.append(" ", 0.0, format(TextStyle::Small, colours.muted));
        job.append(sure, 0.0, format(TextStyle::Small, colours.muted));
    }
    job
}

/// Title, figure, and at most two rows of small print; all of it on hover.
fn full<View>(ui: &mut Ui, context: &mut PageContext<'_, View>, headline: &Headline, sure: &str) {
    let muted = palette(ui).muted;
    ui.horizontal(|ui| {
        ui.label(RichText::new(&headline.title).small().color(muted));
        if let Some(topic) = headline.topic {
            widgets::working_button(ui, context.queue, topic, &headline.title);
        }
    });
    let small = match &headline.figure {
        Ok((figure, small)) => {
            let job = with_brackets(ui, figure, sure);
            let label = ui.label(job);
            if !sure.is_empty() {
                label.on_hover_text(SURE);
            }
            small
        }
        Err(not_known) => {
            ui.label(RichText::new("not known").italics().color(muted));
            &not_known.reason
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

fn short<View>(ui: &mut Ui, context: &mut PageContext<'_, View>, headline: &Headline, sure: &str) {
    ui.label(
        RichText::new(unbroken(&headline.title))
            .small()
            .color(palette(ui).muted),
    );
    match &headline.figure {
        Ok((figure, small)) => {
            // There is little room: the interval is told on hover only.
            ui.label(RichText::new(unbroken(figure)).strong())
                .on_hover_text(format!("{sure} {small}").trim());
        }
        Err(not_known) => {
            ui.label(
                RichText::new("not known")
                    .italics()
                    .color(palette(ui).muted),
            )
            .on_hover_text(&not_known.reason);
        }
    }
    if let Some(topic) = headline.topic {
        widgets::working_button(ui, context.queue, topic, &headline.title);
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_span_of_equal_readings_is_one_number() {
        assert_eq!(span(0.61, 2.14), "0.61–2.1");
        assert_eq!(span(2.14, 0.61), "0.61–2.1");
        assert_eq!(span(1.001, 1.002), "1.0");
    }
}
