//! The weather cases side by side.

use super::view::AirChangeContext;
use super::{direction, spaces};
use crate::assess::{Answer, Assessment, CaseAir, CaseAnswer, DirectionAnswer, Topic};
use crate::survey::WeatherCase;
use crate::window::format::{celsius, digits, digits_of, per_hour, percent};
use crate::window::intervals;
use crate::window::jobs::Results;
use crate::window::pages::side_by_side::SideBySide;
use crate::window::theme::palette;
use crate::window::widgets;
use eframe::egui;
use egui::{RichText, Ui};

/// Draws the table and the mean of the season.
pub(super) fn show(ui: &mut Ui, context: &mut AirChangeContext<'_>, results: &Results) {
    let assessment = &results.assessment;
    let cases = &assessment.cases;
    if cases.is_empty() {
        ui.label("There is no weather case: add one on the Vehicle page, such as still, 0 m/s.");
        return;
    }
    SideBySide::show(ui, "cases", cases.len(), |ui, table| {
        table.head(ui, cases.iter().map(|case| case.name.as_str()));
        weather(ui, context, table, cases);
        air_changes(ui, context, table, cases);
        inside(ui, context, table, cases);
        cross_check(ui, context, table, cases);
    });
    spaces::show(ui, context.survey, cases);
    season(ui, assessment);
}

/// A cell that shows a figure of the air balance, or why there is none.
fn told(ui: &mut Ui, case: &CaseAnswer, words: impl FnOnce(&CaseAir) -> Answer<(String, String)>) {
    match case.air.as_ref().map_err(Clone::clone).and_then(words) {
        Ok((figure, small)) => {
            ui.label(figure);
            if !small.is_empty() {
                widgets::muted(ui, small);
            }
        }
        Err(not_known) => widgets::answer_line(ui, &Err(not_known)),
    }
}

fn weather(ui: &mut Ui, context: &AirChangeContext<'_>, table: &SideBySide, cases: &[CaseAnswer]) {
    let recorded = |case: &CaseAnswer| -> Option<&WeatherCase> {
        context.survey.weather.iter().find(|one| one.id == case.id)
    };
    table.row(
        ui,
        "Wind at a weather station",
        "10 m, open country",
        |ui, at| {
            if let Some(case) = cases.get(at).and_then(recorded) {
                ui.label(format!("{} m/s", case.wind_m_s));
            }
        },
    );
    table.row(ui, "Wind at the body", "at the roof's height", |ui, at| {
        let Some(case) = cases.get(at) else { return };
        told(ui, case, |air| {
            let small = if air.wind_used > air.wind_at_body {
                format!(
                    "air is never quite still: {} m/s is used [A]",
                    air.wind_used
                )
            } else {
                String::new()
            };
            Ok((format!("{} m/s", digits_of(air.wind_used, 2)), small))
        });
    });
    table.row(ui, "Air outside → inside", "", |ui, at| {
        let Some(case) = cases.get(at) else { return };
        told(ui, case, |air| {
            let temperatures =
                format!("{} → {}", celsius(air.outside.t_c), celsius(air.inside.t_c));
            let small = format!(
                "{} → {} kg/m³",
                digits_of(air.outside.density(), 4),
                digits_of(air.inside.density(), 4)
            );
            Ok((temperatures, small))
        });
    });
}

fn at_direction(air: &CaseAir, at: usize) -> Answer<(String, String)> {
    let Some(direction) = air.directions.get(at) else {
        return Ok(Default::default());
    };
    let ach = direction.ach_per_h.clone()?;
    Ok((
        per_hour(ach),
        format!("wind {}", direction::words(direction)),
    ))
}

fn air_changes(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    table: &SideBySide,
    cases: &[CaseAnswer],
) {
    table.row(
        ui,
        "Air changes, mean",
        "over 16 wind directions",
        |ui, at| {
            let Some(case) = cases.get(at) else { return };
            let mean = case
                .air
                .as_ref()
                .map_err(Clone::clone)
                .and_then(|air| air.mean_ach_per_h.clone());
            match mean {
                Ok(mean) => {
                    ui.horizontal(|ui| {
                        ui.spacing_mut().item_spacing.x = 8.0;
                        ui.label(RichText::new(per_hour(mean)).heading());
                        sure(ui, context, at);
                        how(ui, context, case);
                    });
                }
                Err(not_known) => {
                    widgets::answer_line(ui, &Err(not_known));
                    how(ui, context, case);
                }
            }
        },
    );
    table.row(ui, "Least", "", |ui, at| {
        if let Some(case) = cases.get(at) {
            told(ui, case, |air| at_direction(air, air.lowest));
        }
    });
    table.row(ui, "Most", "", |ui, at| {
        if let Some(case) = cases.get(at) {
            told(ui, case, |air| at_direction(air, air.highest));
        }
    });
    table.row(ui, "Outside air, mean", "gross inflow", |ui, at| {
        if let Some(case) = cases.get(at) {
            told(ui, case, |air| {
                let flow = format!("{} kg/h", digits(air.mean_inflow_kg_s * 3600.0));
                Ok((flow, one_sided(&air.directions)))
            });
        }
    });
}

/// How sure it is, in brackets.
fn sure(ui: &mut Ui, context: &AirChangeContext<'_>, at: usize) {
    let found = context.decisions.uncertainty(context.revision);
    let case = found.and_then(|found| found.as_ref().ok()?.cases.get(at));
    if let Some(Ok(interval)) = case.map(|case| &case.ach_per_h) {
        ui.label(RichText::new(intervals::words(interval)).color(palette(ui).muted))
            .on_hover_text("95 % of the draws of everything in doubt lie between these");
    }
}

fn how(ui: &mut Ui, context: &mut AirChangeContext<'_>, case: &CaseAnswer) {
    let what = format!("air changes, {}", case.name);
    widgets::working_button(ui, context.queue, Topic::AirChange(case.id), &what);
}

fn one_sided(directions: &[DirectionAnswer]) -> String {
    let ruled = directions.iter().filter(|one| one.one_sided).count();
    match ruled {
        0 => String::new(),
        many => format!("gusts through one face decide in {many} directions"),
    }
}

/// Lowest and highest of a figure over the directions.
fn span(
    directions: &[DirectionAnswer],
    of: impl Fn(&DirectionAnswer) -> Option<f64>,
) -> Option<(f64, f64)> {
    directions.iter().filter_map(of).fold(None, |span, value| {
        let (low, high) = span.unwrap_or((value, value));
        Some((value.min(low), value.max(high)))
    })
}

fn span_words((low, high): (f64, f64), unit: &str) -> String {
    let (low, high) = (digits_of(low, 2), digits_of(high, 2));
    if low == high {
        format!("{low} {unit}")
    } else {
        format!("{low} to {high} {unit}")
    }
}

/// Neutral levels in words: what lies beyond the body is told as such, not in metres of sky.
fn level_words((low, high): (f64, f64), body: Option<(f64, f64)>) -> String {
    let Some((floor, roof)) = body else {
        return span_words((low, high), "m");
    };
    let place = |level: f64| {
        if level > roof {
            "above the roof".to_owned()
        } else if level < floor {
            "below the floor".to_owned()
        } else {
            format!("{} m", digits_of(level, 2))
        }
    };
    let (low, high) = (place(low), place(high));
    if low == high {
        low
    } else {
        format!("{low} to {high}")
    }
}

fn inside(ui: &mut Ui, context: &AirChangeContext<'_>, table: &SideBySide, cases: &[CaseAnswer]) {
    let vehicle = &context.survey.vehicle;
    let body = vehicle.floor_height_m.zip(vehicle.height_m);
    table.row(
        ui,
        "Inside pressure",
        "at mid-height, by direction",
        |ui, at| {
            let Some(case) = cases.get(at) else { return };
            told(ui, case, |air| {
                let span = span(&air.directions, |one| Some(one.inside_pressure));
                let words = span.map_or_else(String::new, |span| span_words(span, "Pa"));
                Ok((words, String::new()))
            });
        },
    );
    table.row(
        ui,
        "Neutral level",
        "above ground, by direction",
        |ui, at| {
            let Some(case) = cases.get(at) else { return };
            told(ui, case, |air| {
                Ok(match span(&air.directions, |one| one.neutral_level) {
                    Some(span) => (level_words(span, body), String::new()),
                    None => (
                        "none".to_owned(),
                        "inside and outside air weigh the same".to_owned(),
                    ),
                })
            });
        },
    );
}

fn cross_check(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    table: &SideBySide,
    cases: &[CaseAnswer],
) {
    table.row(ui, "Cross-check", "basic model for houses", |ui, at| {
        let Some(case) = cases.get(at) else { return };
        told(ui, case, |air| {
            let check = air.cross_check.clone()?;
            let small = match air.mean_ach_per_h {
                Ok(mean) if mean > 0.0 => {
                    format!("{} times the mean", digits_of(check.ach_per_h / mean, 2))
                }
                _ => String::new(),
            };
            Ok((per_hour(check.ach_per_h), small))
        });
        let what = format!("cross-check, {}", case.name);
        widgets::working_button(ui, context.queue, Topic::CrossCheck(case.id), &what);
    });
}

fn season(ui: &mut Ui, assessment: &Assessment) {
    ui.add_space(4.0);
    let shares: Vec<String> = assessment
        .cases
        .iter()
        .filter(|case| case.share > 0.0)
        .map(|case| format!("{} {}", percent(case.share), case.name))
        .collect();
    ui.horizontal_wrapped(|ui| {
        ui.label("Mean of the season:");
        let mean = assessment.season_ach_per_h.clone().map(per_hour);
        widgets::answer_line(ui, &mean);
        if !shares.is_empty() {
            widgets::muted(ui, format!("({})", shares.join(", ")));
        }
    });
    widgets::muted(
        ui,
        "Air changes count the gross inflow of outside air, at inside-air density. Closed parked \
         vehicles in light wind have measured 0.15 to 3 /h [S].",
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_neutral_level_beyond_the_body_is_told_in_words() {
        let body = Some((0.5, 2.5));
        assert_eq!(level_words((62.0, 100.0), body), "above the roof");
        assert_eq!(level_words((-3.0, 1.24), body), "below the floor to 1.2 m");
        assert_eq!(level_words((1.0, 2.0), body), "1.0 m to 2.0 m");
        assert_eq!(level_words((1.0, 9.0), None), "1.0 to 9.0 m");
    }

    #[test]
    fn a_span_that_reads_the_same_is_one_figure() {
        assert_eq!(span_words((1.201, 1.204), "m"), "1.2 m");
        assert_eq!(span_words((-3.4, 0.5), "Pa"), "-3.4 to 0.50 Pa");
    }
}
