//! Every gap that may be sealed, by what sealing it alone saves.

use super::state;
use super::view::SealingPlanContext;
use super::work_in_hand::{on_its_way, out_of_date};
use crate::assess::Answer;
use crate::assess::Topic;
use crate::assess::sealing::{Aim, Ranked, Sealable};
use crate::survey::{Gap, Item, Place, RemedyKind, WorkState};
use crate::window::decisions::Ranking;
use crate::window::format::{digits_of, money};
use crate::window::theme::{bold, palette};
use crate::window::widgets::{self, Choice};
use eframe::egui;
use egui::{Align, Label, Layout, RichText, ScrollArea, Stroke, Ui, vec2};

/// Rows drawn unless all are asked for.
const ROWS: usize = 60;
/// Width of the name at least.
const NAME_LEAST: f32 = 150.0;

/// A column that holds figures.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Column {
    Saves(Aim),
    Cost,
    Minutes,
    Payback,
}

/// The columns behind the name, with their widths.
const COLUMNS: [(Column, f32); 7] = [
    (Column::Saves(Aim::AchWindy), 58.0),
    (Column::Saves(Aim::Water), 56.0),
    (Column::Saves(Aim::Heat), 50.0),
    (Column::Saves(Aim::WinterCost), 66.0),
    (Column::Cost, 66.0),
    (Column::Minutes, 48.0),
    (Column::Payback, 66.0),
];
const TICK: f32 = 30.0;
const NUMBER: f32 = 34.0;
const REMEDY: f32 = 140.0;
const STATE: f32 = 92.0;

/// Draws the table.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    on_its_way(ui, context);
    let decisions = context.decisions;
    let Some(dated) = decisions.ranking() else {
        return;
    };
    let ranking = match &dated.answer {
        Ok(ranking) => ranking,
        Err(why) => return widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
    };
    out_of_date(ui, context, dated.revision);
    if ranking.ranked.is_empty() {
        ui.label("There is no gap that may be sealed.");
        return;
    }
    let currency = context.survey.tariffs.currency.clone();
    ui.horizontal_wrapped(|ui| {
        widgets::muted(
            ui,
            format!(
                "Ranked by {}: the air balance struck again with each gap sealed, by itself. Sealing one gap \
                 shifts air to others, so that savings do not add up; the plan below says what they come to \
                 together. * suggested by this program [A].",
                ranking.aim.name()
            ),
        );
        widgets::working_button(ui, context.queue, Topic::Ranking, "what sealing saves");
    });
    table(ui, context, ranking, &currency);
}

fn table(ui: &mut Ui, context: &mut SealingPlanContext<'_>, ranking: &Ranking, currency: &str) {
    let figures: f32 = COLUMNS.iter().map(|(_, width)| width).sum();
    let name = ui.available_width() - figures - TICK - NUMBER - REMEDY - STATE - 22.0;
    let name = name.clamp(NAME_LEAST, 380.0);
    let count = ranking.ranked.len();
    let drawn = if context.view.all_rows {
        count
    } else {
        count.min(ROWS)
    };
    ScrollArea::horizontal()
        .id_salt("ranking")
        .auto_shrink([false, true])
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing = vec2(0.0, 1.0);
            head(ui, name, ranking.aim, currency);
            for one in ranking.ranked.iter().take(drawn) {
                let Some(gap) = context.survey.gap(one.sealable.gap()) else {
                    continue;
                };
                ui.push_id(gap.id, |ui| row(ui, context, name, (gap, one), ranking.aim));
            }
        });
    if drawn < count {
        let words = format!("Show all {count} gaps");
        if ui.button(words).clicked() {
            context.view.all_rows = true;
        }
    }
}

fn head(ui: &mut Ui, name: f32, aim: Aim, currency: &str) {
    ui.horizontal_top(|ui| {
        for (words, width) in [
            ("plan", TICK),
            ("No.", NUMBER),
            ("Gap", name),
            ("Remedy", REMEDY),
        ] {
            boxed(ui, width, Align::Min, |ui| {
                widgets::muted(ui, words);
            });
        }
        for (column, width) in COLUMNS {
            boxed(ui, width, Align::Max, |ui| {
                let words = RichText::new(title(column, currency)).small();
                let words = if column == Column::Saves(aim) {
                    words.family(bold())
                } else {
                    words.color(palette(ui).muted)
                };
                ui.add(Label::new(words).wrap());
            });
        }
        boxed(ui, STATE, Align::Min, |ui| {
            widgets::muted(ui, "   State");
        });
    });
}

fn title(column: Column, currency: &str) -> String {
    match column {
        Column::Saves(Aim::AchWindy) => "saves /h windy".to_owned(),
        Column::Saves(Aim::Water) => "saves L/day".to_owned(),
        Column::Saves(Aim::Heat) => "saves W".to_owned(),
        Column::Saves(Aim::WinterCost) => format!("saves {currency} a winter"),
        Column::Cost => format!("costs {currency}"),
        Column::Minutes => "takes min".to_owned(),
        Column::Payback => "pays back, winters".to_owned(),
    }
}

/// A cell of fixed width.
pub(super) fn boxed(ui: &mut Ui, width: f32, align: Align, content: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(align), |ui| {
        ui.set_width(width - 6.0);
        content(ui);
        ui.set_min_width(width);
    });
}

/// A name for a gap that has none: its form.
pub(super) fn name_of(gap: &Gap) -> &str {
    match gap.name.trim() {
        "" => gap.form.name(),
        name => name,
    }
}

/// A link that leads to a gap in the ledger.
pub(super) fn way(ui: &mut Ui, context: &mut SealingPlanContext<'_>, gap: &Gap) {
    let words = RichText::new(name_of(gap)).color(palette(ui).accent);
    let response =
        widgets::link(ui, words).on_hover_text(format!("Show gap {} in the ledger", gap.id));
    widgets::tell_name(
        ui,
        response.id,
        &format!("go to gap {}, {}", gap.id, name_of(gap)),
    );
    if response.clicked() {
        context.queue.go_to(Place::whole(Item::Gap(gap.id)));
    }
}

fn row(
    ui: &mut Ui,
    context: &mut SealingPlanContext<'_>,
    name: f32,
    (gap, one): (&Gap, &Ranked),
    aim: Aim,
) {
    let drawn = ui.horizontal_top(|ui| {
        boxed(ui, TICK, Align::Min, |ui| tick(ui, context, gap));
        boxed(ui, NUMBER, Align::Min, |ui| {
            ui.add_space(4.0);
            ui.label(RichText::new(gap.id.to_string()).color(palette(ui).muted));
        });
        boxed(ui, name, Align::Min, |ui| {
            ui.add_space(4.0);
            way(ui, context, gap);
            widgets::muted(ui, gap.facing.name());
        });
        boxed(ui, REMEDY, Align::Min, |ui| {
            remedy(ui, context, gap, &one.sealable)
        });
        for (column, width) in COLUMNS {
            boxed(ui, width, Align::Max, |ui| {
                ui.add_space(4.0);
                figure(ui, one, column, aim);
            });
        }
        ui.add_space(8.0);
        boxed(ui, STATE, Align::Min, |ui| state_choice(ui, context, gap));
    });
    let rect = drawn.response.rect;
    let rule = Stroke::new(1.0, palette(ui).rule);
    ui.painter()
        .hline(rect.x_range(), rect.bottom() + 0.5, rule);
}

/// The tick that takes a gap into the plan, or out of it.
fn tick(ui: &mut Ui, context: &mut SealingPlanContext<'_>, gap: &Gap) {
    let mut planned = gap.state == WorkState::Planned;
    let response = ui.checkbox(&mut planned, "");
    let name = format!("Plan to seal gap {}, {}", gap.id, name_of(gap));
    widgets::tell_name(ui, response.id, &name);
    if response.changed() {
        let to = if planned {
            WorkState::Planned
        } else {
            WorkState::Open
        };
        change_state(context, gap, to);
    }
}

fn change_state(context: &mut SealingPlanContext<'_>, gap: &Gap, to: WorkState) {
    let date = &context.view.date_of_change();
    let edit = state::in_state(context.survey, gap, to, date);
    context.queue.edit(edit, None);
}

/// The state of the work on a gap, to be changed.
pub(super) fn state_choice(ui: &mut Ui, context: &mut SealingPlanContext<'_>, gap: &Gap) {
    let label = format!("State of gap {}", gap.id);
    let chosen = Choice::new(&label, &gap.state, &state::STATES)
        .compact()
        .width(STATE - 14.0)
        .show(ui, |state| state.name().to_owned());
    if let Some(to) = chosen {
        change_state(context, gap, to);
    }
}

/// How it would be sealed, to be changed.
fn remedy(ui: &mut Ui, context: &mut SealingPlanContext<'_>, gap: &Gap, sealable: &Sealable) {
    let suggested = sealable.remedy().kind.name();
    let current = gap.remedy.as_ref().map(|own| own.kind);
    let mut options = vec![None];
    options.extend(RemedyKind::ALL.map(Some));
    let label = format!("Remedy of gap {}", gap.id);
    let unsaid = if current.is_some() && sealable.is_assumed() {
        " *"
    } else {
        ""
    };
    let chosen = Choice::new(&label, &current, &options)
        .compact()
        .width(REMEDY - 14.0)
        .show(ui, |kind| match kind {
            Some(kind) if Some(*kind) == current => format!("{}{unsaid}", kind.name()),
            Some(kind) => kind.name().to_owned(),
            None if current.is_none() => format!("{suggested} *"),
            None => "as suggested".to_owned(),
        });
    if let Some(kind) = chosen {
        context.queue.edit(state::with_remedy(gap, kind), None);
    }
}

fn figure(ui: &mut Ui, one: &Ranked, column: Column, aim: Aim) {
    let cost = one.sealable.cost();
    let answer: Answer<String> = match column {
        Column::Saves(of) => one.saves.of(of).map(|saved| saving_words(of, saved)),
        Column::Cost => cost.map(|cost| {
            let mark = if cost.assumed { " *" } else { "" };
            format!("{}{}{mark}", cost.at_least(), money(cost.priced, ""))
        }),
        Column::Minutes => cost.map(|cost| format!("{:.0}", cost.minutes)),
        Column::Payback => one
            .payback_winters
            .clone()
            .map(|winters| digits_of(winters, 2)),
    };
    match answer {
        Ok(words) => {
            let words = RichText::new(words);
            let words = if column == Column::Saves(aim) {
                words.family(bold())
            } else {
                words
            };
            ui.label(words);
        }
        Err(why) => {
            ui.label(RichText::new("–").color(palette(ui).muted))
                .on_hover_text(format!("not known: {}", why.reason));
        }
    }
}

/// A saving with as many decimals as mean something; what is below zero is a loss and says so.
pub(super) fn saving_words(aim: Aim, saved: f64) -> String {
    let places = match aim {
        Aim::AchWindy | Aim::Water | Aim::WinterCost => 2,
        Aim::Heat => 1,
    };
    let least = 10f64.powi(-places);
    if saved.abs() < least / 2.0 && saved.abs() > 0.0 {
        return format!("< {least}");
    }
    let places = usize::try_from(places).unwrap_or(0);
    format!("{saved:.places$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_savings_are_not_shown_as_nothing() {
        assert_eq!(saving_words(Aim::AchWindy, 0.312), "0.31");
        assert_eq!(saving_words(Aim::AchWindy, 0.001), "< 0.01");
        assert_eq!(saving_words(Aim::Water, 0.0), "0.00");
        assert_eq!(saving_words(Aim::Heat, 12.43), "12.4");
        assert_eq!(saving_words(Aim::Heat, 0.04), "< 0.1");
        assert_eq!(saving_words(Aim::AchWindy, -0.12), "-0.12");
    }
}
