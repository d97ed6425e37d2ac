//! The zones: names, totals, adding and removing.

use super::view::GapsContext;
use crate::assess::LeakageTotal;
use crate::assess::quantity::Kind;
use crate::assess::words::counted;
use crate::report::leakage::eqla;
use crate::survey::{Edit, Field, Item, Record, RecordId, Zone, ZoneId};
use crate::window::theme::palette;
use crate::window::units;
use crate::window::widgets::{self, TextField};
use eframe::egui;
use egui::{Id, Key, RichText, TextEdit, Ui};

/// Draws the zones with their totals.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let survey = context.survey;
    for zone in &survey.zones {
        ui.push_id(zone.id, |ui| row(ui, context, zone));
    }
    total(ui, context);
    ui.add_space(4.0);
    add(ui, context);
}

fn row(ui: &mut Ui, context: &mut GapsContext<'_>, zone: &Zone) {
    let gaps = context.survey.gaps.iter();
    let lines = gaps.filter(|gap| gap.zone == zone.id).count();
    // What is left beside count, area, share and the link.
    let width = (ui.available_width() - 236.0).clamp(142.0, 200.0);
    ui.horizontal_wrapped(|ui| {
        let name = TextField::new(Field::ZoneName, &zone.name)
            .id(zone.id)
            .marks(context.marks(Item::Zone(zone.id)))
            .compact()
            .width(width)
            .show(ui, context.queue);
        if let Some(name) = name {
            let id = zone.id;
            let zone = Record::Zone(Zone { id, name });
            context.queue.typed(Edit::Put(zone));
        }
        let words = match lines {
            1 => "1 gap".to_owned(),
            lines => format!("{lines} gaps"),
        };
        ui.label(RichText::new(words).color(palette(ui).muted));
        figures(ui, context, zone.id);
        if widgets::named_link(ui, "remove", &format!("remove zone {}", zone.name)) {
            context
                .queue
                .edit(Edit::Remove(RecordId::Zone(zone.id)), None);
        }
    });
}

fn figures(ui: &mut Ui, context: &GapsContext<'_>, id: ZoneId) {
    let Some(results) = context.results else {
        return;
    };
    let leakage = &results.assessment().leakage;
    let Some((_, answer)) = leakage.by_zone.iter().find(|(zone, _)| *zone == id) else {
        return;
    };
    match (answer.clone(), eqla(answer).text()) {
        (Ok(total), Ok(mut words)) => {
            if let Ok(all) = &leakage.all
                && all.figures.flow_10pa > 0.0
            {
                let share = total.figures.flow_10pa / all.figures.flow_10pa;
                words = format!("{words}, {}", Kind::Share.text(share));
            }
            let ctx = ui.ctx().clone();
            ui.strong(units::text(&ctx, &words))
                .on_hover_text(units::text(&ctx, &hover(&total)));
        }
        (_, Err(not_known)) | (Err(not_known), _) => {
            ui.label("not known").on_hover_text(not_known.reason);
        }
    }
}

fn hover(total: &LeakageTotal) -> String {
    let lacking = total.lacking();
    let lacking = lacking.map_or_else(String::new, |words| format!(", without {words}"));
    format!(
        "EqLA of {} of the ledger{lacking}. The share is of the flow at 10 Pa through all gaps",
        counted(total.gaps, "gap", "gaps")
    )
}

fn total(ui: &mut Ui, context: &GapsContext<'_>) {
    let Some(results) = context.results else {
        return;
    };
    let all = eqla(&results.assessment().leakage.all).text();
    ui.horizontal_wrapped(|ui| {
        ui.label("All gaps, EqLA");
        widgets::answer_line(ui, &all);
    });
}

fn add(ui: &mut Ui, context: &mut GapsContext<'_>) {
    ui.horizontal(|ui| {
        let text = &mut context.view.new_zone;
        let response = ui.add(
            TextEdit::singleline(text)
                .id(Id::unique("new zone"))
                .desired_width(142.0)
                .return_key(None)
                .hint_text("another zone"),
        );
        widgets::tell_name(ui, response.id, "Name of a zone to add");
        let entered = response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        let pressed = ui.button("Add zone").clicked();
        if (entered || pressed) && !text.trim().is_empty() {
            let zone = Zone {
                id: context.survey.free_zone_id(),
                name: text.trim().to_owned(),
            };
            text.clear();
            context.queue.edit(Edit::Put(Record::Zone(zone)), None);
        }
    });
}
