//! Everything before and after a plan: figures, money, what shifts, what to heed.

use super::ranking::{boxed, name_of, saving_words};
use super::view::SealingPlanContext;
use crate::assess::Answer;
use crate::assess::sealing::{Aim, AirPerSleeper, FlowShift, Plan};
use crate::survey::{GapId, Survey};
use crate::window::format::{area_cm2, digits, digits_of, money};
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, finding_list};
use eframe::egui;
use egui::{Align, Label, RichText, ScrollArea, Ui, vec2};

/// Gaps listed whose air changes most.
const SHIFTS: usize = 5;

/// Draws cost and payback, before and after, what shifts, and what to heed.
pub(super) fn show(
    ui: &mut Ui,
    context: &mut SealingPlanContext<'_>,
    plan: &Plan,
    (aim, salt): (Aim, &'static str),
) {
    cost(ui, context.survey, plan);
    ui.add_space(4.0);
    table(ui, context, plan, salt);
    together(ui, plan, aim);
    shifts(ui, context.survey, plan);
    if !plan.findings.is_empty() {
        ui.add_space(4.0);
        finding_list(ui, context.queue, plan.findings.iter(), true);
    }
}

fn cost(ui: &mut Ui, survey: &Survey, plan: &Plan) {
    let currency = &survey.tariffs.currency;
    let at_least = if plan.cost_not_known.is_empty() {
        ""
    } else {
        "at least "
    };
    let payback = match &plan.payback_winters {
        Ok(winters) => format!("pays for itself in {} winters", digits_of(*winters, 2)),
        Err(why) => format!("when it pays for itself is not known: {}", why.reason),
    };
    let words = format!(
        "Costs {at_least}{}, takes {at_least}{:.0} minutes; {payback}.",
        money(plan.cost, currency),
        plan.minutes
    );
    ui.add(Label::new(RichText::new(words).family(bold())).wrap());
    let colours = palette(ui);
    for id in &plan.cost_not_known {
        let why = plan
            .gaps
            .iter()
            .find(|one| one.sealable.gap() == *id)
            .and_then(|one| one.sealable.cost().err());
        let reason = why.map_or_else(String::new, |why| format!(": {}", why.reason));
        let words = format!("▲ The cost of gap {id} is not known{reason}; it is not in the sum.");
        ui.add(Label::new(RichText::new(words).color(colours.warning)).wrap());
    }
    let mut small = Vec::new();
    if survey.tariffs.workshop_per_hour.is_none() {
        small.push("no hourly rate is given, so that working time costs nothing".to_owned());
    }
    let costs = || plan.gaps.iter().filter_map(|one| one.sealable.cost().ok());
    let assumed = costs().filter(|cost| cost.assumed).count();
    if assumed > 0 {
        small.push(format!(
            "a price or remedy in {assumed} of the gaps is this program's suggestion [A]"
        ));
    }
    if !small.is_empty() {
        widgets::muted(ui, format!("Mind: {}.", small.join("; ")));
    }
}

struct Line {
    name: String,
    before: Answer<f64>,
    after: Answer<f64>,
    words: fn(f64) -> String,
}

fn two(value: f64) -> String {
    digits_of(value, 2)
}

fn per_sleeper(air: &Answer<AirPerSleeper>, of: fn(&AirPerSleeper) -> f64) -> Answer<f64> {
    air.as_ref().map(of).map_err(Clone::clone)
}

fn lines(context: &SealingPlanContext<'_>, plan: &Plan) -> Vec<Line> {
    let case = |calm: bool| {
        let assessment = context.results.map(|results| &results.assessment);
        let named = assessment.and_then(|all| {
            let (calmest, windiest) = all.calmest_and_windiest?;
            let at = if calm { calmest } else { windiest };
            Some(all.cases.get(at)?.name.clone())
        });
        named.unwrap_or_else(|| if calm { "least wind" } else { "most wind" }.to_owned())
    };
    let (calm, windy) = (case(true), case(false));
    let (before, after) = (&plan.before, &plan.after);
    let (area_before, area_after) = plan.eqla_unintended.clone();
    let (air_before, air_after) = &plan.air_per_sleeper;
    let currency = context.survey.tariffs.currency.trim();
    let line = |name: String, before: &Answer<f64>, after: &Answer<f64>, words| Line {
        name,
        before: before.clone(),
        after: after.clone(),
        words,
    };
    let sleeper =
        |of: fn(&AirPerSleeper) -> f64| (per_sleeper(air_before, of), per_sleeper(air_after, of));
    let (calm_before, calm_after) = sleeper(|air| air.calm_m3_per_h);
    let (windy_before, windy_after) = sleeper(|air| air.windy_m3_per_h);
    vec![
        line(
            "EqLA, unintended gaps".to_owned(),
            &area_before,
            &area_after,
            area_cm2,
        ),
        line(
            format!("air changes /h, {calm}"),
            &before.ach_calm_per_h,
            &after.ach_calm_per_h,
            two,
        ),
        line(
            format!("air changes /h, {windy}"),
            &before.ach_windy_per_h,
            &after.ach_windy_per_h,
            two,
        ),
        line(
            "air changes /h, season".to_owned(),
            &before.ach_season_per_h,
            &after.ach_season_per_h,
            two,
        ),
        line(
            "water to remove, L/day".to_owned(),
            &before.removal_l_per_day,
            &after.removal_l_per_day,
            two,
        ),
        line(
            "heat with the air, W".to_owned(),
            &Ok(before.air_heat_w),
            &Ok(after.air_heat_w),
            two,
        ),
        line(
            format!("that heat a winter, {currency}"),
            &before.winter_cost,
            &after.winter_cost,
            |sum| money(sum, ""),
        ),
        line(
            format!("air for each sleeper, m³/h, {calm}"),
            &calm_before,
            &calm_after,
            two,
        ),
        line(
            format!("air for each sleeper, m³/h, {windy}"),
            &windy_before,
            &windy_after,
            two,
        ),
    ]
}

const NAME: f32 = 250.0;
const FIGURE: f32 = 104.0;

fn table(ui: &mut Ui, context: &SealingPlanContext<'_>, plan: &Plan, salt: &str) {
    ScrollArea::horizontal()
        .id_salt(("before and after", salt))
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing = vec2(0.0, 2.0);
            ui.horizontal_top(|ui| {
                boxed(ui, NAME, Align::Min, |_| {});
                for words in ["before", "after", "change"] {
                    boxed(ui, FIGURE, Align::Max, |ui| {
                        widgets::muted(ui, words);
                    });
                }
            });
            for line in lines(context, plan) {
                ui.horizontal_top(|ui| {
                    boxed(ui, NAME, Align::Min, |ui| {
                        ui.add(Label::new(&line.name).wrap());
                    });
                    for side in [&line.before, &line.after] {
                        boxed(ui, FIGURE, Align::Max, |ui| told(ui, side, line.words));
                    }
                    boxed(ui, FIGURE, Align::Max, |ui| {
                        ui.label(RichText::new(change(&line.before, &line.after)).family(bold()));
                    });
                });
            }
        });
    widgets::muted(
        ui,
        "Water and heat at the set temperature, mean over the weather cases by their weights. Whether \
         that is air enough to sleep in is judged under what stays open.",
    );
}

fn told(ui: &mut Ui, answer: &Answer<f64>, words: fn(f64) -> String) {
    match answer {
        Ok(value) => {
            ui.label(words(*value));
        }
        Err(why) => {
            ui.label(
                RichText::new("not known")
                    .italics()
                    .color(palette(ui).muted),
            )
            .on_hover_text(&why.reason);
        }
    }
}

/// The change as a share: `−23 %`.
fn change(before: &Answer<f64>, after: &Answer<f64>) -> String {
    let (Ok(before), Ok(after)) = (before, after) else {
        return String::new();
    };
    if before.abs() < 1e-12 {
        return String::new();
    }
    let percent = (after / before - 1.0) * 100.0;
    if percent.abs() < 0.05 {
        return "none".to_owned();
    }
    let sign = if percent < 0.0 { "−" } else { "+" };
    let percent = percent.abs();
    if percent < 9.95 {
        format!("{sign}{percent:.1} %")
    } else {
        format!("{sign}{percent:.0} %")
    }
}

/// Savings one by one and together.
fn together(ui: &mut Ui, plan: &Plan, aim: Aim) {
    let Some(both) = plan.together.iter().find(|one| one.aim == aim) else {
        return;
    };
    if plan.gaps.len() < 2 {
        return;
    }
    let words = |saved| format!("{} {}", saving_words(aim, saved), aim.unit());
    let more = if both.together > both.sum_alone {
        "more, because air that one gap lets in must find another to leave by"
    } else {
        "less, because air that is kept out of one gap comes in by others"
    };
    let line = format!(
        "One by one these gaps save {} of {}; together {}: {more}.",
        words(both.sum_alone).trim(),
        aim.name(),
        words(both.together).trim()
    );
    ui.add_space(2.0);
    ui.add(Label::new(line).wrap());
}

/// The gaps left open through which most more comes in afterwards.
fn shifted(plan: &Plan) -> Vec<&FlowShift> {
    let more = |shift: &FlowShift| shift.after_kg_s.0 - shift.before_kg_s.0;
    let mut shifts: Vec<&FlowShift> = plan
        .shifts
        .iter()
        .filter(|shift| !shift.sealed && more(shift) * 3600.0 > 0.01)
        .collect();
    shifts.sort_by(|a, b| more(b).total_cmp(&more(a)));
    shifts.truncate(SHIFTS);
    shifts
}

fn shifts(ui: &mut Ui, survey: &Survey, plan: &Plan) {
    let shifts = shifted(plan);
    if shifts.is_empty() {
        return;
    }
    let name = |id: GapId| match survey.gap(id) {
        Some(gap) => format!("gap {id} {}", name_of(gap)),
        None => format!("gap {id}"),
    };
    let listed: Vec<String> = shifts
        .iter()
        .map(|shift| {
            format!(
                "{} {} → {}",
                name(shift.gap),
                digits(shift.before_kg_s.0 * 3600.0),
                digits(shift.after_kg_s.0 * 3600.0)
            )
        })
        .collect();
    widgets::muted(
        ui,
        format!(
            "More air then comes in through others, kg/h in most wind: {}.",
            listed.join("; ")
        ),
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::NotKnown;

    #[test]
    fn a_change_is_a_share_with_its_sign() {
        assert_eq!(change(&Ok(2.0), &Ok(1.5)), "−25 %");
        assert_eq!(change(&Ok(2.0), &Ok(2.05)), "+2.5 %");
        assert_eq!(change(&Ok(2.0), &Ok(2.0)), "none");
        assert_eq!(change(&Ok(0.0), &Ok(1.0)), "");
        assert_eq!(change(&Err(NotKnown::because("no")), &Ok(1.0)), "");
    }
}
