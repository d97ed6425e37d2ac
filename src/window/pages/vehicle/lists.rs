//! What the lists of records have in common: a head with the way to remove, and a button to add.

use super::super::fields::{Fields, whole_findings, worst};
use super::fill;
use super::view::VehicleContext;
use crate::survey::{Edit, Item, RecordId};
use crate::window::theme::bold;
use crate::window::widgets;
use eframe::egui;
use egui::{Align, Layout, RichText, Ui};

/// The head of one record: its name, a sign where something was noticed, and *remove*.
pub(super) fn head(
    ui: &mut Ui,
    context: &mut VehicleContext<'_>,
    name: &str,
    kind: &str,
    id: RecordId,
) {
    let item = Item::from(id);
    let shown = shown_name(name, kind);
    ui.horizontal(|ui| {
        if let Some(severity) = worst(context, item) {
            widgets::severity_sign(ui, severity);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if widgets::named_button(ui, "Remove", &format!("Remove {shown}")) {
                context.queue.edit(Edit::Remove(id), None);
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(egui::Label::new(RichText::new(shown).family(bold())).truncate());
            });
        });
    });
    if let Some(part) = id.usual_part() {
        fill::mark(ui, context, part, &shown_name(name, kind));
    }
    whole_findings(ui, context.marks(item));
}

/// Draws each record of a list: its head, of id, name and what it is, and its fields.
pub(super) fn show<'a, T: Clone>(
    ui: &mut Ui,
    context: &mut VehicleContext<'a>,
    records: &[T],
    put: &dyn Fn(T) -> Edit,
    of: impl Fn(&T) -> (RecordId, &str, String),
    draw: impl Fn(&mut Fields<'a, '_, T>, &T),
) {
    for record in records {
        let (id, name, kind) = of(record);
        ui.push_id(id, |ui| {
            head(ui, context, name, &kind, id);
            let mut fields = Fields::new(ui, context, id.into(), record, put);
            draw(&mut fields, record);
        });
        between(ui);
    }
}

/// A record's name, or what it is where it has none.
pub(super) fn shown_name(name: &str, kind: &str) -> String {
    if name.trim().is_empty() {
        kind.to_owned()
    } else {
        name.trim().to_owned()
    }
}

/// A button that adds a record.
pub(super) fn add(ui: &mut Ui, context: &mut VehicleContext<'_>, words: &str, edit: Edit) {
    if ui.button(words).clicked() {
        context.queue.edit(edit, None);
    }
}

/// A line between records.
fn between(ui: &mut Ui) {
    ui.add_space(3.0);
    ui.separator();
    ui.add_space(1.0);
}
