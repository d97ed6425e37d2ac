//! The job sheet: what is printed, how it looks, and where it is written.

mod choose;
mod customer;
mod preview;
mod view;

pub use view::JobSheetView;

use crate::sheet::csv::ByteOrderMark;
use crate::window::request::Request;
use crate::window::theme::palette;
use crate::window::typesetting::{SheetFile, SheetKey};
use crate::window::widgets;
use eframe::egui;
use egui::{Panel, RichText, ScrollArea, Ui};
use view::JobSheetContext;

/// Narrower than this, the choices stand above the pages.
const SIDE_BY_SIDE: f32 = 760.0;
/// Width of the choices beside the pages.
const CHOICES: f32 = 330.0;

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut JobSheetContext<'_>) {
    context.view.below = ui.available_width() < SIDE_BY_SIDE;
    if !context.view.below {
        Panel::left("job sheet choices")
            .frame(egui::Frame::NONE)
            .show_separator_line(false)
            .resizable(false)
            .exact_size(CHOICES)
            .show(ui, |ui| {
                ScrollArea::vertical()
                    .id_salt("job sheet choices")
                    .auto_shrink(false)
                    .show(ui, |ui| {
                        ui.set_width(ui.available_width() - 12.0);
                        side(ui, context);
                        widgets::follow_focus(ui);
                    });
            });
        preview::show(ui, context, None);
    } else {
        preview::show(ui, context, Some(side));
    }
}

fn key(context: &JobSheetContext<'_>) -> SheetKey {
    SheetKey {
        revision: context.revision,
        choices: context.view.choices.clone(),
    }
}

/// Everything but the pages.
fn side(ui: &mut Ui, context: &mut JobSheetContext<'_>) {
    widgets::card(ui, "Job sheet", |ui| {
        state(ui, context);
        ui.add_space(4.0);
        files(ui, context);
    });
    ui.add_space(4.0);
    choose::show(ui, &mut context.view.choices, context.queue);
    ui.add_space(4.0);
    widgets::card(ui, "Customer and papers", |ui| customer::show(ui, context));
    ui.add_space(4.0);
    tables(ui, context);
}

/// What is being set.
fn state(ui: &mut Ui, context: &mut JobSheetContext<'_>) {
    let key = key(context);
    let sheets = context.sheets;
    if let Some(step) = sheets.step() {
        ui.horizontal_wrapped(|ui| {
            ui.label(step.words());
            if let Some(share) = step.share() {
                let bar = egui::ProgressBar::new(share).desired_width(110.0);
                ui.add(bar.show_percentage());
            }
            if widgets::named_button(ui, "Cancel", "Cancel setting the pages") {
                context.queue.push(Request::CancelSheet);
            }
        });
    } else if let Some(words) = sheets.given_up() {
        let colour = palette(ui).warning;
        ui.add(egui::Label::new(RichText::new(words).color(colour)).wrap());
        if ui.button("Set the pages again").clicked() {
            context.queue.push(Request::SetSheetAgain);
        }
    } else if let Some(pages) = sheets.pages() {
        let count = pages.pages();
        let words = if count == 1 {
            "1 page".to_owned()
        } else {
            format!("{count} pages")
        };
        ui.horizontal_wrapped(|ui| {
            ui.label(words);
            if context.view.below && widgets::link(ui, "look at them below").clicked() {
                context.view.pages_wanted = true;
            }
        });
        if let Some(replaced) = pages.replaced() {
            widgets::muted(ui, format!("{replaced}."));
        }
    }
    if sheets.pages().is_some_and(|pages| !pages.is_of(&key)) {
        widgets::muted(ui, "The pages shown are older than the choices.");
    }
}

fn files(ui: &mut Ui, context: &mut JobSheetContext<'_>) {
    let (kind, sheets) = (context.view.choices.kind, context.sheets);
    let ready = sheets.shows(&key(context)) && !sheets.is_writing();
    ui.horizontal_wrapped(|ui| {
        let save = ui.add_enabled(ready, egui::Button::new("Save as PDF…"));
        if save.clicked() {
            context.queue.push(Request::WriteFile(SheetFile::Pdf(kind)));
        }
        let open = ui
            .add_enabled(sheets.written().is_some(), egui::Button::new("Open file"))
            .on_hover_text("Open the file written last with the system's viewer")
            .on_disabled_hover_text("Nothing has been written yet");
        if open.clicked() {
            context.queue.push(Request::OpenWritten);
        }
    });
    if sheets.is_writing() {
        widgets::muted(ui, "Writing…");
    }
}

fn tables(ui: &mut Ui, context: &mut JobSheetContext<'_>) {
    widgets::card(ui, "For spreadsheets", |ui| {
        ui.horizontal_wrapped(|ui| {
            for (words, file) in [
                ("Ledger as CSV…", SheetFile::Ledger),
                ("Plan as CSV…", SheetFile::Plan),
            ] {
                if ui.button(words).clicked() {
                    context.queue.push(Request::WriteFile(file));
                }
            }
        });
        let view = &mut context.view;
        let marked = view.mark == ByteOrderMark::With;
        if let Some(with) = widgets::plain_tick(ui, "Begin with a byte-order mark", marked) {
            view.mark = ByteOrderMark::asked(with);
        }
        widgets::muted(
            ui,
            "Tick it where the spreadsheet shows stray letters instead of ² or é.",
        );
    });
}
