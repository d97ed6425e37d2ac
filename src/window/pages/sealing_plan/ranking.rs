//! Every gap that may be sealed, by what sealing it alone saves.

use super::state;
use super::view::SealingPlanContext;
use super::work_in_hand::{on_its_way, out_of_date};
use crate::assess::Answer;
use crate::assess::sealing::{Ranked, Sealable};
use crate::assess::words::facing;
use crate::report::sealing;
use crate::survey::leave::states;
use crate::survey::{Gap, Item, Place, Survey, WorkState};
use crate::window::changes_of_many::remedy_kinds;
use crate::window::request::Queue;
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice, report};
use eframe::egui;
use egui::{RichText, Ui};

/// Rows drawn unless all are asked for.
const ROWS: usize = 60;
const REMEDY: f32 = 126.0;
const STATE: f32 = 92.0;
/// So much more of it arrow and edges take in touch size.
const STATE_TOUCH: f32 = 34.0;

/// The columns that hold more than words.
const TICK: usize = 0;
const WHAT: usize = 2;
const HOW: usize = 3;

/// Draws the table.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    on_its_way(ui, context);
    let answers = context.answers;
    let Some(dated) = answers.ranking() else {
        return;
    };
    let ranking = match dated.answer {
        Ok(ranking) => ranking,
        Err(why) => return widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
    };
    out_of_date(ui, context, dated.revision);
    let all = ranking.ranked.len();
    let most = if context.view.all_rows { all } else { ROWS };
    let drawn: &[Ranked] = ranking.ranked.get(..most).unwrap_or(&ranking.ranked);
    let section = sealing::ranking(context.survey, ranking.aim, drawn);
    let survey = context.survey;
    let date = context.view.date_of_change();
    report::section_with(ui, context.queue, &section, &mut |ui, queue, row, at| {
        let of_row = |one: &&Ranked| row.item == Some(Item::Gap(one.sealable.gap()));
        let Some(one) = drawn.iter().find(of_row) else {
            return false;
        };
        let Some(gap) = survey.gap(one.sealable.gap()) else {
            return false;
        };
        match at {
            TICK => tick(ui, queue, (survey, &date), gap),
            WHAT => {
                ui.vertical(|ui| {
                    way(ui, queue, gap);
                    widgets::muted(ui, facing(gap.facing));
                });
            }
            HOW => remedy(ui, queue, (survey, gap), &one.sealable),
            behind if behind == row.cells.len() => {
                state_choice(ui, queue, (survey, &date), gap);
            }
            _ => return false,
        }
        true
    });
    if drawn.len() < all && ui.button(format!("Show all {all} gaps")).clicked() {
        context.view.all_rows = true;
    }
}

/// A link that leads to a gap in the ledger.
pub(super) fn way(ui: &mut Ui, queue: &mut Queue, gap: &Gap) {
    let words = RichText::new(gap.shown_name()).color(palette(ui).accent);
    let response =
        widgets::link(ui, words).on_hover_text(format!("Show gap {} in the ledger", gap.id));
    let told = format!("go to gap {}, {}", gap.id, gap.shown_name());
    widgets::tell_name(ui, response.id, &told);
    if response.clicked() {
        queue.go_to(Place::whole(Item::Gap(gap.id)));
    }
}

/// What a change of a gap's state needs to know: the survey, and the date it is written with.
type Dated<'a> = (&'a Survey, &'a str);

/// The tick that takes a gap into the plan, or out of it.
fn tick(ui: &mut Ui, queue: &mut Queue, dated: Dated<'_>, gap: &Gap) {
    let mut planned = gap.state == WorkState::Planned;
    let response = ui.checkbox(&mut planned, "");
    widgets::tell_name(ui, response.id, &tick_name(gap));
    if response.changed() {
        let to = if planned {
            WorkState::Planned
        } else {
            WorkState::Open
        };
        change_state(queue, dated, gap, to);
    }
}

/// What the tick of a gap is called.
pub(super) fn tick_name(gap: &Gap) -> String {
    format!("Plan to seal gap {}, {}", gap.id, gap.shown_name())
}

fn change_state(queue: &mut Queue, (survey, date): Dated<'_>, gap: &Gap, to: WorkState) {
    queue.edit(state::in_state(survey, gap, to, date), None);
}

/// The state of the work on a gap, to be changed.
pub(super) fn state_choice(ui: &mut Ui, queue: &mut Queue, dated: Dated<'_>, gap: &Gap) {
    let label = format!("State of gap {}", gap.id);
    let states = states(dated.0, gap);
    let touch = if widgets::is_touch(ui) {
        STATE_TOUCH
    } else {
        0.0
    };
    let chosen = Choice::new(&label, &gap.state, &states)
        .compact()
        .width(STATE + touch)
        .show(ui, |state| state.name().to_owned());
    if let Some(to) = chosen {
        change_state(queue, dated, gap, to);
    }
}

/// How it would be sealed, to be changed.
fn remedy(ui: &mut Ui, queue: &mut Queue, (survey, gap): (&Survey, &Gap), sealable: &Sealable) {
    let suggested = sealable.remedy().kind.name();
    let current = gap.remedy.as_ref().map(|own| own.kind);
    let options = remedy_kinds(survey, &[gap]);
    let label = format!("Remedy of gap {}", gap.id);
    let signs = sealing::suggested(sealable);
    let chosen = Choice::new(&label, &current, &options)
        .compact()
        .width(REMEDY)
        .show(ui, |kind| match kind {
            Some(kind) if Some(*kind) == current => format!("{}{signs}", kind.name()),
            Some(kind) => kind.name().to_owned(),
            None if current.is_none() => format!("{suggested}{signs}"),
            None => "as suggested".to_owned(),
        });
    if let Some(kind) = chosen {
        queue.edit(state::with_remedy(gap, kind), None);
    }
}
