//! The first steps: one line under the bar that says what comes next and gets out of the way.

use super::commands::Command;
use super::page::Page;
use super::request::{Queue, Request};
use super::theme::palette;
use super::typesetting::SheetFile;
use super::widgets;
use crate::assess::Assessment;
use crate::report::guide::{STEPS, Step};
use crate::report::missing::{Missing, missing};
use crate::report::usual;
use crate::survey::{Field, Item, Place, Survey, WorkState};
use eframe::egui;
use egui::{RichText, Ui};

/// What the guide remembers.
#[derive(Clone, Debug, Default)]
pub struct Guide {
    /// It is shown.
    pub open: bool,
    /// Pages that were shown since it opened, with results to be seen on them.
    seen: Vec<Page>,
    /// A sheet was saved since it opened.
    saved: bool,
}

/// Where a step is done.
struct Way {
    step: &'static Step,
    place: Option<Place>,
    page: Page,
}

/// Where the steps are done, in their order.
fn ways() -> impl Iterator<Item = Way> {
    let size = Place::at(Item::Vehicle, Field::InsideLength);
    let to = [
        (Some(size), Page::Vehicle),
        (None, Page::Gaps),
        (None, Page::AirChange),
        (None, Page::DryingHeat),
        (None, Page::SealingPlan),
        (None, Page::JobSheet),
    ];
    let way = |(step, (place, page))| Way { step, place, page };
    STEPS.iter().zip(to).map(way)
}

impl Guide {
    /// Opens it anew.
    pub fn begin(&mut self) {
        self.open = true;
        self.start_over();
    }

    /// Forgets what was done with another survey.
    pub fn start_over(&mut self) {
        self.seen.clear();
        self.saved = false;
    }

    /// Remembers that a page was shown; one that has no results to show yet does not count.
    pub fn saw(&mut self, page: Page, answers: Option<&Assessment>) {
        let known = answers.is_some_and(|answers| answers.season_ach_per_h.is_ok());
        if self.open && known && !self.seen.contains(&page) {
            self.seen.push(page);
        }
    }

    /// Remembers that a file was written, if it is a sheet.
    pub fn wrote(&mut self, file: Option<SheetFile>) {
        self.saved |= self.open && matches!(file, Some(SheetFile::Pdf(_)));
    }

    fn done(&self, page: Page, survey: &Survey, answers: Option<&Assessment>) -> bool {
        match page {
            // The sizes that a survey starts with are nobody's measurement.
            Page::Vehicle => {
                let vehicle = &survey.vehicle;
                vehicle.gross_volume_m3().is_some() && !vehicle.has_starting_sizes()
            }
            Page::Gaps => answers.is_some_and(|answers| {
                let leakage = &answers.leakage;
                survey.gaps.len() > leakage.not_sized.len() + leakage.left_out.len()
            }),
            Page::InShort
            | Page::AirChange
            | Page::DryingHeat
            | Page::Winter
            | Page::Measurements => self.seen.contains(&page),
            Page::SealingPlan => {
                let chosen = [WorkState::Planned, WorkState::Sealed];
                survey.gaps.iter().any(|gap| chosen.contains(&gap.state))
            }
            Page::JobSheet => self.saved,
        }
    }

    /// Draws it.
    pub(super) fn show(
        &self,
        ui: &mut Ui,
        survey: &Survey,
        answers: Option<&Assessment>,
        queue: &mut Queue,
    ) {
        let palette = palette(ui);
        let low = widgets::is_low(ui);
        let next = ways().position(|way| !self.done(way.page, survey, answers));
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new("First steps").color(palette.muted));
            for (at, Way { step, place, page }) in ways().enumerate() {
                let done = self.done(page, survey, answers);
                let sign = if done {
                    "✔".to_owned()
                } else {
                    format!("{}", at + 1)
                };
                let here = next == Some(at);
                let mut words = if low && done {
                    RichText::new(sign)
                } else {
                    RichText::new(format!("{sign} {}", step.words))
                };
                if here {
                    words = words.strong().underline();
                }
                let link = widgets::link(ui, words).on_hover_text(hover(step, low));
                let state = if done { "done" } else { "to do" };
                widgets::tell_name(
                    ui,
                    link.id,
                    &format!("First steps: {}, {state}", step.words),
                );
                if link.clicked() {
                    match place {
                        Some(place) => queue.go_to(place),
                        None => queue.push(Request::Show(page)),
                    }
                }
            }
            match (next.and_then(|at| STEPS.get(at)), answers) {
                (Some(step), _) if !low => {
                    widgets::muted(ui, step.help);
                }
                (_, Some(answers)) if low => missing_menu(ui, survey, answers, queue),
                _ => {}
            }
            let close = widgets::link(ui, "close").on_hover_text(
                "Closes the first steps for good; Help, First steps brings them back",
            );
            widgets::tell_name(ui, close.id, "Close the first steps");
            if close.clicked() {
                queue.push(Request::EndGuide);
            }
        });
        if let Some(answers) = answers.filter(|_| !low) {
            let all = missing(survey, answers);
            if !all.is_empty() {
                ui.horizontal_wrapped(|ui| still_missing(ui, survey, &all, queue));
            }
        }
    }
}

/// What a step is about; where its name is not in sight, that first.
fn hover(step: &Step, low: bool) -> String {
    if low {
        format!("{}. {}", step.words, step.help)
    } else {
        step.help.to_owned()
    }
}

/// The same as [`still_missing`], folded away on a low window.
fn missing_menu(ui: &mut Ui, survey: &Survey, answers: &Assessment, queue: &mut Queue) {
    let all = missing(survey, answers);
    if all.is_empty() {
        return;
    }
    ui.menu_button(format!("Still missing: {} ▼", all.len()), |ui| {
        still_missing(ui, survey, &all, queue);
    });
}

/// What is still missing for the results of each page, with the way to where it is entered.
fn still_missing(ui: &mut Ui, survey: &Survey, all: &[Missing], queue: &mut Queue) {
    widgets::muted(ui, "Still missing");
    let mut before = None;
    for one in all {
        let page = one.results.name();
        if before.replace(page) != Some(page) {
            widgets::muted(ui, format!("for {page}:"));
        }
        let name = format!("Missing for {page}: {}", one.words);
        if widgets::named_button(ui, one.words, &name) {
            queue.go_to(one.place);
        }
    }
    let would_do = all.iter().any(|one| one.usual_would_do);
    if would_do {
        let kind = survey.vehicle.kind;
        let fill = widgets::usual_button(ui, kind);
        if fill.on_hover_text(usual::offer(kind)).clicked() {
            queue.command(Command::UsualVehicle);
        }
    }
}
