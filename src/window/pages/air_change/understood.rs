//! What hangs on parking, on the choice of pressure coefficients, and on doors and curtains inside.

use super::direction;
use super::view::AirChangeContext;
use crate::assess::spaces::{ClosingCase, ClosingEffect};
use crate::assess::words::capital;
use crate::assess::{Answer, Parking};
use crate::physics::pressure_coefficient::PressureSet;
use crate::survey::{Edit, InnerOpeningId, Item, Record, SetUp};
use crate::window::decisions::Understood;
use crate::window::format::{digits_of, per_hour};
use crate::window::pages::fields::Fields;
use crate::window::theme::{bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Grid, Label, RichText, Ui};

/// The best and the worst way to park for a wind that mostly comes from one side.
pub(super) fn parked(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    understood: Option<&Understood>,
) {
    let site = &context.survey.site;
    let mut fields = Fields::new(ui, context, Item::Site, site, Edit::Site);
    fields.hint("not given").direction().optional(
        "Prevailing wind from",
        "prevailing_wind_deg",
        |site| &mut site.prevailing_wind_deg,
    );
    fields
        .hint("not given")
        .direction()
        .optional("Front points to", "heading_deg", |site| {
            &mut site.heading_deg
        });
    widgets::muted(
        fields.ui,
        "A point of the compass such as NW, or degrees clockwise from north.",
    );
    match understood.map(|understood| &understood.parking) {
        None => {}
        Some(Err(why)) => widgets::answer_line(ui, &Answer::<String>::Err(why.clone())),
        Some(Ok(parking)) => parking_table(ui, parking),
    }
}

fn parking_table(ui: &mut Ui, parking: &Parking) {
    let words = RichText::new(format!("{}.", capital(&parking.sentence))).family(bold());
    ui.add(Label::new(words).wrap());
    let mut rows = vec![("best", parking.best), ("worst", parking.worst)];
    rows.extend(parking.now.map(|now| ("as it stands", now)));
    Grid::new("parking")
        .min_row_height(19.0)
        .spacing([16.0, 2.0])
        .show(ui, |ui| {
            for words in ["", "front towards", "air changes", "wind meets"] {
                small(ui, words);
            }
            ui.end_row();
            for (words, (heading, ach)) in rows {
                let from_front = parking.wind_from_deg - heading;
                ui.label(words);
                ui.label(format!(
                    "{} ({})",
                    direction::degrees(heading),
                    direction::compass(heading)
                ));
                ui.label(per_hour(ach));
                ui.label(direction::side(from_front.rem_euclid(360.0)));
                ui.end_row();
            }
        });
    widgets::muted(
        ui,
        format!(
            "In \u{201c}{}\u{201d}, the case with most wind.",
            parking.case
        ),
    );
}

/// The head of a column: in a grid it must not wrap, or it wraps at every letter.
fn small(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).small().color(palette(ui).muted));
}

fn set_name(set: PressureSet) -> &'static str {
    match set {
        PressureSet::LowRise => "Liddament 1986 [M], low-rise",
        PressureSet::WallAverage => "Swami and Chandra 1988 [M]",
    }
}

/// Mean air change of each weather case by both sets of pressure coefficients.
pub(super) fn coefficients(ui: &mut Ui, context: &AirChangeContext<'_>, understood: &Understood) {
    let cases = &context.survey.weather;
    let chosen = context.survey.site.pressure_set;
    Grid::new("sets")
        .min_row_height(19.0)
        .spacing([14.0, 2.0])
        .show(ui, |ui| {
            small(ui, "Air changes, mean");
            for case in cases {
                small(ui, &case.name);
            }
            ui.end_row();
            for of_set in &understood.pressure_sets {
                let mut words = RichText::new(set_name(of_set.set));
                if of_set.set == chosen {
                    words = words.family(bold());
                }
                let response = ui.label(words);
                widgets::explain_marks(response, set_name(of_set.set));
                for ach in &of_set.mean_ach_per_h {
                    told(ui, &ach.clone().map(per_hour));
                }
                ui.end_row();
            }
            ui.label("second against first");
            let [first, second] = &understood.pressure_sets;
            for (first, second) in first.mean_ach_per_h.iter().zip(&second.mean_ach_per_h) {
                let change = first.clone().and_then(|first| {
                    let second = second.clone()?;
                    Ok(change_words(second, first))
                });
                told(ui, &change);
            }
            ui.end_row();
        });
    widgets::muted(
        ui,
        "Neither set was measured on a parked vehicle: how far they lie apart says how much hangs on the \
         choice, made on the Vehicle page (bold).",
    );
}

fn told(ui: &mut Ui, answer: &Answer<String>) {
    match answer {
        Ok(words) => {
            ui.label(words);
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

fn change_words(now: f64, was: f64) -> String {
    if was <= 0.0 {
        return "–".to_owned();
    }
    let percent = (now / was - 1.0) * 100.0;
    let sign = if percent < 0.0 { "−" } else { "+" };
    format!("{sign}{:.0} %", percent.abs())
}

/// Every inner opening that closes: a switch for the set-up shown, and what closing it saves.
pub(super) fn closing(ui: &mut Ui, context: &mut AirChangeContext<'_>, understood: &Understood) {
    if understood.closing.is_empty() {
        ui.label(
            "No door or curtain inside is written down. Spaces and what joins them are added on the \
             Vehicle page; until then the inside is one space.",
        );
        return;
    }
    for effect in &understood.closing {
        ui.push_id(effect.id, |ui| one_effect(ui, context, effect));
        ui.add_space(3.0);
    }
    widgets::muted(
        ui,
        "Closing an inner opening may also raise the outside air that comes in: then it says so.",
    );
}

fn one_effect(ui: &mut Ui, context: &mut AirChangeContext<'_>, effect: &ClosingEffect) {
    let name = match effect.name.trim() {
        "" => format!("inner opening {}", effect.id),
        name => name.to_owned(),
    };
    let closed = widgets::plain_tick(
        ui,
        &format!("{name}: closed, {}", context.survey.set_up.name()),
        !effect.stands_open,
    );
    if let Some(closed) = closed {
        switch(context, effect.id, !closed);
    }
    for (case, recorded) in effect.cases.iter().zip(&context.survey.weather) {
        let words = format!("{}: {}", recorded.name, closing_words(case));
        ui.add(Label::new(words).wrap());
    }
}

fn switch(context: &mut AirChangeContext<'_>, id: InnerOpeningId, open: bool) {
    let openings = &context.survey.inner_openings;
    let Some(opening) = openings.iter().find(|opening| opening.id == id) else {
        return;
    };
    let mut changed = opening.clone();
    if let Some(closing) = &mut changed.closing {
        match context.survey.set_up {
            SetUp::LaidUp => closing.open_laid_up = open,
            SetUp::InUse => closing.open_in_use = open,
        }
    }
    let edit = Edit::Put(Record::InnerOpening(Box::new(changed)));
    context.queue.edit(edit, None);
}

fn closing_words(case: &ClosingCase) -> String {
    let (open, closed) = match &case.inflow_kg_s {
        Ok(pair) => *pair,
        Err(why) => return format!("not known: {}", why.reason),
    };
    let ach = match &case.ach_per_h {
        Ok((open, closed)) => format!(", {} open, {} closed", per_hour(*open), per_hour(*closed)),
        Err(_) => String::new(),
    };
    if open <= 0.0 {
        return format!("no air comes in{ach}");
    }
    let share = (closed / open - 1.0) * 100.0;
    if share.abs() < 0.5 {
        format!("closing it changes nothing to speak of{ach}")
    } else if share < 0.0 {
        format!(
            "closing it saves {} % of the outside air that comes in{ach}",
            digits_of(-share, 2)
        )
    } else {
        format!(
            "closing it raises the outside air that comes in by {} %{ach}",
            digits_of(share, 2)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::WeatherId;

    #[test]
    fn closing_that_raises_the_air_says_so() {
        let case = |open: f64, closed: f64| ClosingCase {
            id: WeatherId(1),
            inflow_kg_s: Ok((open, closed)),
            ach_per_h: Ok((open * 100.0, closed * 100.0)),
        };
        let words = |open, closed| closing_words(&case(open, closed));
        assert!(words(0.01, 0.008).starts_with("closing it saves 20 % of"));
        assert!(
            words(0.01, 0.011)
                .starts_with("closing it raises the outside air that comes in by 10 %")
        );
        assert!(words(0.01, 0.010_01).starts_with("closing it changes nothing"));
        assert!(words(0.0, 0.0).starts_with("no air comes in"));
    }
}
