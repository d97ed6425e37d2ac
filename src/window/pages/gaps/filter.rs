//! The line above the ledger: searching, filtering, columns, and what is shown.

use super::columns::Column;
use super::ledger_view::Fold;
use super::ledger_view::ledger_id;
use super::listing::{Filter, Listing, Only, Sort};
use super::view::GapsContext;
use crate::assess::LeakageTotal;
use crate::assess::quantity::{Kind, Quantity};
use crate::survey::{Certainty, Facing, Purpose, WorkState};
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets::{self, Choice};
use eframe::egui;
use egui::{Id, Key, RichText, TextEdit, Ui};

/// Width of a choice in the filter.
const CHOICE: f32 = 128.0;

/// Draws the line and what is unfolded under it.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>, listing: &Listing) {
    ui.horizontal_wrapped(|ui| {
        search(ui, context, listing);
        let words = match context.view.ledger.wanted.filter.choices() {
            0 => "Filter".to_owned(),
            choices => format!("Filter ({choices})"),
        };
        let hover = "Which gaps are shown, and in which order";
        fold(ui, context, Fold::Filter, (&words, "Filter"), hover);
        let hover = "Which columns are shown";
        fold(ui, context, Fold::Columns, ("Columns", "Columns"), hover);
        told(ui, context, listing);
    });
    match context.view.ledger.fold {
        Fold::None => {}
        Fold::Filter => filter(ui, context),
        Fold::Columns => columns(ui, context),
    }
}

fn search(ui: &mut Ui, context: &mut GapsContext<'_>, listing: &Listing) {
    let ledger = &mut context.view.ledger;
    let text = &mut ledger.wanted.filter.search;
    let response = ui.add(
        TextEdit::singleline(text)
            .id(Id::unique("search the ledger"))
            .align(egui::Align2::LEFT_CENTER)
            .desired_width(120.0)
            .char_limit(200)
            .return_key(None)
            .hint_text("search"),
    );
    widgets::tell_name(ui, response.id, "Search the ledger");
    if std::mem::take(&mut ledger.search_wanted) {
        response.request_focus();
    }
    // The rows that get the focus in this frame must not take the same key as their own.
    let down = response.has_focus()
        && ui.input_mut(|input| {
            let mut used = |key| input.consume_key(egui::Modifiers::NONE, key);
            used(Key::Enter) || used(Key::ArrowDown)
        });
    if down {
        ui.memory_mut(|memory| memory.request_focus(ledger_id()));
    }
    let escape = ui.input(|input| input.key_pressed(Key::Escape));
    if response.lost_focus() && escape {
        text.clear();
    }
    if down {
        select_what_is_shown(context, listing);
    }
    response.on_hover_text(
        "Words or the number of a gap: looked for in what it is, zone, facing, form, note and \
         remedy (Ctrl+F). Enter goes to the rows, Esc clears.",
    );
}

/// Where the selected gap is not among the rows, the first of them is selected instead.
fn select_what_is_shown(context: &mut GapsContext<'_>, listing: &Listing) {
    let selected = context.view.selected_in(context.survey);
    if selected.is_none_or(|id| listing.row(id).is_none())
        && let Some(first) = listing.lines.first()
    {
        context.view.select(Some(first.id));
    }
}

fn fold(
    ui: &mut Ui,
    context: &mut GapsContext<'_>,
    fold: Fold,
    (words, name): (&str, &str),
    hover: &str,
) {
    let ledger = &mut context.view.ledger;
    let open = ledger.fold == fold;
    let response = ui
        .add(egui::Button::new(words).selected(open))
        .on_hover_text(hover);
    widgets::tell_name(ui, response.id, name);
    if response.clicked() {
        ledger.fold = if open { Fold::None } else { fold };
    }
}

/// How many are shown, what they come to, and the way back to all.
fn told(ui: &mut Ui, context: &mut GapsContext<'_>, listing: &Listing) {
    let all = context.survey.gaps.len();
    let shown = listing.lines.len();
    let narrowed = context.view.ledger.wanted.filter != Filter::default();
    if narrowed {
        ui.label(format!("shows {shown} of {} –", counted(all)));
        if widgets::link(ui, "show all").clicked() {
            context.view.ledger.wanted.filter = Filter::default();
        }
    } else {
        ui.label(counted(all));
    }
    if shown == 0 {
        return;
    }
    let colour = palette(ui).muted;
    let words = match &listing.together {
        Some(together) => match &together.total {
            Ok(total) => {
                let area = |of: fn(&LeakageTotal) -> f64| {
                    let area = Quantity::of_total(Kind::LeakageCm2, &together.total, of);
                    area.text().unwrap_or_else(|unknown| unknown.to_string())
                };
                let share = together.share.filter(|_| narrowed);
                let share = share.map_or_else(String::new, |share| {
                    format!(", {} of the leakage", Kind::Share.text(share))
                });
                let lacking = total.lacking();
                let lacking = lacking.map_or_else(String::new, |words| format!(", {words}"));
                format!(
                    "EqLA {}, ELA {}{share}{lacking}",
                    area(|total| total.figures.eqla),
                    area(|total| total.figures.ela)
                )
            }
            Err(not_known) => format!("leakage area not known: {}", not_known.reason),
        },
        None => "being worked out".to_owned(),
    };
    let words = units::text(ui.ctx(), &words);
    ui.label(RichText::new(words).color(colour)).on_hover_text(
        "Of the rows shown. EqLA: equivalent leakage area at 10 Pa; ELA: effective leakage area \
         at 4 Pa. The share is of the flow at 10 Pa through all gaps.",
    );
}

fn counted(gaps: usize) -> String {
    match gaps {
        1 => "1 gap".to_owned(),
        gaps => format!("{gaps} gaps"),
    }
}

/// A choice that may be left open.
fn part<T: PartialEq + Clone>(
    ui: &mut Ui,
    what: &str,
    value: &mut Option<T>,
    all: impl IntoIterator<Item = T>,
    words: impl Fn(&T) -> String,
) {
    let mut options = vec![None];
    options.extend(all.into_iter().map(Some));
    let chosen = Choice::new(&format!("Show {what}"), value, &options)
        .compact()
        .width(CHOICE)
        .show(ui, |option| match option {
            Some(option) => words(option),
            None => format!("any {what}"),
        });
    if let Some(chosen) = chosen {
        *value = chosen;
    }
}

fn filter(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let survey = context.survey;
    let columns: Vec<Column> = context.view.columns.shown().to_vec();
    let wanted = &mut context.view.ledger.wanted;
    let filter = &mut wanted.filter;
    ui.horizontal_wrapped(|ui| {
        let all = Only::ALL;
        let only = Choice::new("Show which gaps", &filter.only, &all)
            .compact()
            .width(CHOICE)
            .show(ui, |only| only.name().to_owned());
        if let Some(only) = only {
            filter.only = only;
        }
        let ids = survey.zones.iter().map(|zone| zone.id);
        part(ui, "zone", &mut filter.zone, ids, |id| {
            survey.zone_name(*id).to_owned()
        });
        fn named<T: Copy>(name: fn(T) -> &'static str) -> impl Fn(&T) -> String {
            move |one| name(*one).to_owned()
        }
        let name = named(Facing::name);
        part(ui, "facing", &mut filter.facing, Facing::ALL, name);
        let name = named(Purpose::name);
        part(ui, "purpose", &mut filter.purpose, Purpose::ALL, name);
        let name = named(WorkState::name);
        part(ui, "state", &mut filter.state, WorkState::ALL, name);
        let name = named(Certainty::name);
        part(ui, "certainty", &mut filter.certainty, Certainty::ALL, name);
        sort(ui, &mut wanted.sort, &columns);
    });
}

/// The order of the rows, for the keyboard; the headings do the same for the pointer.
fn sort(ui: &mut Ui, sort: &mut Option<Sort>, columns: &[Column]) {
    let mut options = vec![None];
    for &column in columns {
        let first = column.largest_first();
        options.extend([first, !first].map(|down| Some(Sort { column, down })));
    }
    let chosen = Choice::new("Order of the rows", sort, &options)
        .compact()
        .width(CHOICE + 40.0)
        .show(ui, |sort| match sort {
            None => "order of the survey".to_owned(),
            Some(Sort { column, down }) => {
                let way = if *down { "falling" } else { "rising" };
                format!("by {}, {way}", column.look().words)
            }
        });
    if let Some(chosen) = chosen {
        *sort = chosen;
    }
}

fn columns(ui: &mut Ui, context: &mut GapsContext<'_>) {
    ui.horizontal_wrapped(|ui| {
        for column in Column::ALL {
            let shown = context.view.columns.shows(column);
            let words = column.look().words;
            if column == Column::Name {
                continue;
            }
            if let Some(shown) = widgets::plain_tick(ui, words, shown) {
                context.view.columns.set(column, shown);
            }
        }
    });
}
