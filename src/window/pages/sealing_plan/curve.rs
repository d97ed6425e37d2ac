//! What the money buys: the figures against money spent, in the order of most saving for it.

use super::super::air_change::lines::{Look, case_looks};
use super::super::plots::{self, Axis, Curve, still_plot};
use super::state;
use super::view::{SealingPlanContext, Shown};
use super::work_in_hand::{on_its_way, out_of_date};
use crate::assess::Answer;
use crate::assess::quantity::price;
use crate::assess::sealing::{Figures, Order, Step};
use crate::assess::words::figure as significant;
use crate::figure::styles::PLAIN;
use crate::report::sealing;
use crate::survey::{GapId, Item};
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice, report};
use eframe::egui;
use egui::{RichText, ScrollArea, Ui};
use egui_plot::HoverPosition;

const HEIGHT: f32 = 250.0;
/// Width from which the table stands beside the plot.
const BESIDE: f32 = 860.0;

/// A line of the curve: its name, the weather it is for, and the value that it shows.
type Line = (&'static str, Weather, fn(&Figures) -> Option<f64>);

/// The weather that a line is for.
#[derive(Clone, Copy, PartialEq)]
enum Weather {
    Calmest,
    Season,
    Windiest,
}

impl Shown {
    const ALL: [Self; 3] = [Self::AirChanges, Self::Water, Self::Heat];

    fn name(self) -> &'static str {
        match self {
            Self::AirChanges => "air changes, /h",
            Self::Water => "water to remove, L/day",
            Self::Heat => "heat with the air, W",
        }
    }

    /// The lines it has.
    fn lines(self) -> Vec<Line> {
        match self {
            Self::AirChanges => vec![
                ("most wind", Weather::Windiest, |figures| {
                    figures.ach_windy_per_h.clone().ok()
                }),
                ("season", Weather::Season, |figures| {
                    figures.ach_season_per_h.clone().ok()
                }),
                ("least wind", Weather::Calmest, |figures| {
                    figures.ach_calm_per_h.clone().ok()
                }),
            ],
            Self::Water => vec![("season", Weather::Season, |figures| {
                figures.removal_l_per_day.clone().ok()
            })],
            Self::Heat => vec![("season", Weather::Season, |figures| {
                Some(figures.air_heat_w)
            })],
        }
    }
}

/// Draws the curve and the table.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let answers = context.answers;
    let Some(dated) = answers.order() else {
        return on_its_way(ui, context);
    };
    let order = match dated.answer {
        Ok(order) => order,
        Err(why) => return widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
    };
    out_of_date(ui, context, dated.revision);
    if order.steps.is_empty() {
        return table(ui, context, order);
    }
    let water = Axis::of(ui, "L/day");
    let chosen =
        Choice::new("Curve of", &context.view.curve, &Shown::ALL).show(ui, |shown| match shown {
            Shown::Water => water.label("water to remove"),
            shown => shown.name().to_owned(),
        });
    if let Some(shown) = chosen {
        context.view.curve = shown;
    }
    if ui.available_width() >= BESIDE {
        ui.columns(2, |columns| {
            if let [left, right] = columns {
                plot(left, context, order);
                table(right, context, order);
            }
        });
    } else {
        plot(ui, context, order);
        table(ui, context, order);
    }
}

fn plot(ui: &mut Ui, context: &SealingPlanContext<'_>, order: &Order) {
    let shown = context.view.curve;
    let looks = looks(ui, context);
    let axis = Axis::of(ui, "L/day");
    let scaled = |figure| match shown {
        Shown::Water => axis.at(figure),
        Shown::AirChanges | Shown::Heat => figure,
    };
    let lines: Vec<Curve<'_>> = shown
        .lines()
        .into_iter()
        .filter_map(|(name, weather, of)| {
            let steps = order.steps.iter().map(|step| (step.spent, &step.after));
            let all = std::iter::once((0.0, &order.before)).chain(steps);
            let points: Option<Vec<[f64; 2]>> = all
                .map(|(spent, figures)| {
                    let figure = of(figures).filter(|y| y.is_finite())?;
                    Some([spent, scaled(figure)])
                })
                .collect();
            let [calm, season, windy] = looks;
            let look = match weather {
                Weather::Calmest => calm,
                Weather::Season => season,
                Weather::Windiest => windy,
            };
            Some((name, points?, look))
        })
        .collect();
    if lines.is_empty() {
        widgets::muted(ui, "This figure is not known.");
        return;
    }
    let water = (shown == Shown::Water).then_some(axis);
    let label = match water {
        Some(axis) => axis.label("water to remove"),
        None => shown.name().to_owned(),
    };
    let currency = context.survey.tariffs.currency.trim().to_owned();
    let unit = currency.clone();
    let plot = still_plot("what money buys", HEIGHT)
        .include_x(0.0)
        .y_axis_label(label)
        .x_axis_label(format!("money spent, {currency}"))
        .label_formatter(move |at| hover(at, &unit));
    plots::show(ui, plot, "what the money buys", &lines, |_| {});
}

/// The looks of the calmest case, of the season and of the windiest case: the same as on the
/// rose.
fn looks(ui: &Ui, context: &SealingPlanContext<'_>) -> [Look; 3] {
    let [season, calm, windy] = PLAIN.map(|style| Look::of(ui, style));
    let found = context.results.and_then(|results| {
        let looks = case_looks(ui, results.assessment());
        let (calm, windy) = results.assessment().calmest_and_windiest?;
        Some((*looks.get(calm)?, *looks.get(windy)?))
    });
    let (calm, windy) = found.unwrap_or((calm, windy));
    [calm, season, windy]
}

fn hover(at: &HoverPosition<'_>, currency: &str) -> Option<String> {
    plots::hover(at, |spent, figure| {
        [price(spent, currency), significant(figure, 3)]
    })
}

/// The steps, each with a way to plan up to it.
fn table(ui: &mut Ui, context: &mut SealingPlanContext<'_>, order: &Order) {
    let aim = context.view.aim;
    let section = sealing::order(context.survey, aim, order);
    let survey = context.survey;
    let date = context.view.date_of_change();
    ScrollArea::vertical()
        .id_salt("steps")
        .max_height(HEIGHT + 20.0)
        .min_scrolled_height(HEIGHT)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            report::section_with(ui, context.queue, &section, &mut |ui, queue, row, at| {
                let is_step = |step: &Step| row.item == Some(Item::Gap(step.sealable.gap()));
                let Some(place) = order.steps.iter().position(is_step) else {
                    return false;
                };
                if at != row.cells.len() {
                    return false;
                }
                let words = RichText::new("plan up to here")
                    .small()
                    .color(palette(ui).accent);
                let link = widgets::link(ui, words);
                let name = format!("Plan up to step {}", place + 1);
                widgets::tell_name(ui, link.id, &name);
                if link.clicked() {
                    let steps = order.steps.iter().take(place + 1);
                    let sealed: Vec<GapId> = steps.map(|step| step.sealable.gap()).collect();
                    if let Some(edit) = state::plan_of(survey, &sealed, &date) {
                        queue.edit(edit, None);
                    }
                }
                true
            });
        });
}
