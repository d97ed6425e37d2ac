//! What is on the screen: the page with its surroundings, or the start page.

use super::App;
use super::state::System;
use super::view::ViewState;
use crate::window::context::PageContext;
use crate::window::document::Document;
use crate::window::page::Page;
use crate::window::{
    bar, commands, dialogs, focus, help, lightbox, loggers, pages, start_page, strip, theme,
    widgets,
};
use eframe::egui;
use egui::{
    CentralPanel, Color32, Frame, Margin, Panel, ScrollArea, UiBuilder, UiKind, UiStackInfo,
};

impl App {
    /// What the page sees whose view this is.
    fn context<View>(
        &mut self,
        view: fn(&mut ViewState) -> &mut View,
    ) -> Option<PageContext<'_, View>> {
        let document = self.document.as_ref()?;
        let survey = document.history.survey();
        Some(PageContext {
            survey,
            revision: document.history.revision(),
            results: self.answers.results(),
            answers: &self.answers,
            sheets: &self.sheets,
            queue: &mut self.queue,
            selected: self.view.gaps.selected_in(survey),
            wanted: self.view.wanted,
            view: view(&mut self.view),
            photos: &mut self.photos,
        })
    }

    /// Draws a page, or a part of the window that draws from the same things.
    fn page<View>(
        &mut self,
        ui: &mut egui::Ui,
        view: fn(&mut ViewState) -> &mut View,
        show: fn(&mut egui::Ui, &mut PageContext<'_, View>),
    ) {
        if let Some(mut context) = self.context(view) {
            show(ui, &mut context);
        }
    }

    fn foot(&mut self, ui: &mut egui::Ui) {
        let palette = theme::palette(ui);
        if let Some(words) = self.files.words() {
            Panel::bottom("files")
                .frame(panel_frame(palette.card, 4))
                .show(ui, |ui| widgets::muted(ui, words));
        }
        if let Some((name, share)) = self.loggers.reading() {
            Panel::bottom("logger")
                .frame(panel_frame(palette.card, 4))
                .show(ui, |ui| loggers::progress(ui, name, share, &mut self.queue));
        }
        if !self.notices.list().is_empty() {
            Panel::bottom("notices")
                .frame(panel_frame(palette.card, 4))
                .show(ui, |ui| self.notices.show(ui, &mut self.queue));
        }
    }

    fn survey_screen(&mut self, ui: &mut egui::Ui, tab_begins: bool) {
        let palette = theme::palette(ui);
        Panel::bottom("strip")
            .frame(panel_frame(palette.strip, 6))
            .show(ui, |ui| {
                self.page(ui, |view| &mut view.working, strip::show);
            });
        self.foot(ui);
        self.help_line(ui, help::line::OF_A_PAGE);
        self.first_steps(ui);
        self.working_panel(ui);
        page_space(ui, 8, |ui| {
            if tab_begins {
                focus::begin_here(ui.ctx());
            }
            match self.view.page {
                Page::InShort => {
                    self.page(ui, |view| &mut view.in_short, pages::in_short::show);
                }
                Page::Vehicle => {
                    self.page(ui, |view| &mut view.vehicle, pages::vehicle::show);
                }
                Page::Gaps => self.page(ui, |view| &mut view.gaps, pages::gaps::show),
                Page::AirChange => {
                    self.page(ui, |view| &mut view.air_change, pages::air_change::show);
                }
                Page::DryingHeat => {
                    self.page(ui, |view| &mut view.drying_heat, pages::drying_heat::show);
                }
                Page::Winter => {
                    self.page(ui, |view| &mut view.winter, pages::winter::show);
                }
                Page::SealingPlan => {
                    self.page(ui, |view| &mut view.sealing_plan, pages::sealing_plan::show);
                }
                Page::Measurements => {
                    self.page(ui, |view| &mut view.measurements, pages::measurements::show);
                }
                Page::JobSheet => {
                    self.page(ui, |view| &mut view.job_sheet, pages::job_sheet::show);
                }
            }
            self.view.wanted = None;
        });
    }

    fn bar(&mut self, ui: &mut egui::Ui) {
        Panel::top("bar")
            .frame(panel_frame(theme::palette(ui).strip, 3))
            .show(ui, |ui| {
                let history = self.document.as_ref().map(|document| &document.history);
                bar::show(ui, history, self.view.page, &mut self.queue);
            });
    }

    /// Site mode: nothing but its bar, what is told, and the page.
    fn site_screen(&mut self, ui: &mut egui::Ui) {
        let palette = theme::palette(ui);
        Panel::top("site bar")
            .frame(panel_frame(palette.strip, 3))
            .show(ui, |ui| {
                self.page(ui, |view| &mut view.gaps, pages::gaps::site::bar);
            });
        self.foot(ui);
        page_space(ui, 6, |ui| {
            self.page(ui, |view| &mut view.gaps, pages::gaps::site::show);
            self.view.wanted = None;
        });
    }

    fn help_line(&mut self, ui: &mut egui::Ui, otherwise: &str) {
        if self.view.help {
            Panel::bottom("help line")
                .frame(panel_frame(theme::palette(ui).card, 4))
                .show(ui, |ui| help::line::show(ui, &mut self.queue, otherwise));
        }
    }

    fn first_steps(&mut self, ui: &mut egui::Ui) {
        let answers = self.answers.results().map(|results| results.assessment());
        self.guide.saw(self.view.page, answers);
        let (true, Some(document)) = (self.guide.open, &self.document) else {
            return;
        };
        Panel::top("first steps")
            .frame(panel_frame(theme::palette(ui).card, 4))
            .show(ui, |ui| {
                let survey = document.history.survey();
                self.guide.show(ui, survey, answers, &mut self.queue);
            });
    }

    fn working_panel(&mut self, ui: &mut egui::Ui) {
        let Some(topic) = self.view.working else {
            return;
        };
        let palette = theme::palette(ui);
        let half = ui.available_width() * 0.5;
        Panel::right("working")
            .frame(panel_frame(palette.card, 10))
            .default_size(380.0_f32.min(half))
            .size_range(220.0_f32.min(half)..=half.max(220.0))
            .show(ui, |ui| {
                if let Some(mut context) = self.context(|view| &mut view.working) {
                    pages::working::show(ui, &mut context, topic);
                }
            });
    }

    fn start_screen(&mut self, ui: &mut egui::Ui) {
        self.foot(ui);
        self.help_line(ui, help::line::OF_THE_START_PAGE);
        page_space(ui, 8, |ui| {
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                let offered = start_page::Offered {
                    rescued: self.unsaved.offers(),
                    recent: self.unsaved.recent(),
                    samples: self.samples,
                };
                start_page::show(ui, &offered, &mut self.queue);
                widgets::follow_focus(ui);
            });
        });
    }
}

fn panel_frame(fill: egui::Color32, vertical: i8) -> Frame {
    Frame::new()
        .fill(fill)
        .inner_margin(Margin::symmetric(12, vertical))
}

/// Shows the page. Every frame begins with its colour all over the window, so that is not painted
/// again; what fades out at the edge of a list is told of it.
fn page_space(ui: &mut egui::Ui, vertical: i8, show: impl FnOnce(&mut egui::Ui)) {
    let under = Frame::new().fill(theme::palette(ui).page);
    let under = UiStackInfo::new(UiKind::CentralPanel).with_frame(under);
    CentralPanel::default()
        .frame(panel_frame(Color32::TRANSPARENT, vertical))
        .show(ui, |ui| {
            ui.scope_builder(UiBuilder::new().ui_stack_info(under), show);
        });
}

impl eframe::App for App {
    fn logic(&mut self, ctx: &egui::Context, frame: &mut eframe::Frame) {
        let system = System { ctx, frame };
        if self.asked.is_none() {
            let now = commands::Situation {
                survey_open: self.document.is_some(),
                photo_large: self.view.gaps.lightbox.is_some(),
                on_gaps: self.view.page == Page::Gaps,
                walking: ctx.memory(|memory| memory.has_focus(pages::gaps::walk_list())),
            };
            for command in commands::pressed(ctx, now) {
                self.queue.command(command);
            }
            self.paste_in(ctx);
        }
        self.files_in(system);
        self.take_picked();
        if !self.queue.is_empty() {
            self.notices.turn();
        }
        for request in self.queue.take() {
            self.run(request, system);
        }
        self.follow_site_mode(ctx);
        self.photos_in(ctx);
        self.loggers_in();
        self.guard_closing(ctx);
        self.work_out(ctx);
        self.tell_units(ctx);
        self.set_sheet(ctx);
        self.keep(ctx);
        self.tell_title(ctx);
    }

    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        // Nothing under a dialog has the pointer: a tooltip that was open would stay over it.
        let pointer = self.asked.is_some().then(|| {
            let ctx = ui.ctx();
            ctx.input_mut(|input| std::mem::take(&mut input.pointer))
        });
        if self.in_site_mode() {
            self.site_screen(ui);
        } else {
            let begins = self.document.is_some() && focus::holds_tab(ui.ctx());
            self.bar(ui);
            if self.document.is_some() {
                self.survey_screen(ui, begins);
            } else {
                self.start_screen(ui);
            }
        }
        if let Some(document) = &self.document {
            lightbox::show(
                ui.ctx(),
                &mut self.view.gaps.lightbox,
                document.history.survey(),
                &mut self.photos,
                &mut self.queue,
            );
        }
        if let Some(pointer) = pointer {
            ui.ctx().input_mut(|input| input.pointer = pointer);
        }
        self.drop_hint(ui.ctx());
        if let Some(asked) = &mut self.asked {
            let name = self
                .document
                .as_ref()
                .map_or_else(String::new, Document::name);
            let findings = self
                .answers
                .results()
                .map_or(&[][..], |results| &results.findings);
            let known = dialogs::Known {
                name: &name,
                findings,
                told: &self.notices,
                file_dialog: self.file_dialog,
            };
            // What the pointer was over before is not any more.
            if asked.fresh {
                ui.ctx().request_repaint();
            }
            dialogs::show(ui.ctx(), asked, &known, &mut self.queue);
        }
        let page = self.document.as_ref().map(|_| self.view.page);
        let dialog = self.asked.is_some() || self.view.gaps.lightbox.is_some();
        self.focus.follow(ui.ctx(), page, dialog);
        if !self.queue.is_empty() {
            ui.ctx().request_repaint();
        }
    }

    fn clear_color(&self, visuals: &egui::Visuals) -> [f32; 4] {
        visuals.panel_fill.to_normalized_gamma_f32()
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        self.preferences.store(storage);
        self.view.gaps.store(storage);
        self.view.air_change.store(storage);
        self.view.job_sheet.store(storage);
        self.shapes.store(storage);
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}
