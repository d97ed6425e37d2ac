//! The program's window: its state, and the frame of every screen.

use super::commands;
use super::decisions::Decisions;
use super::desk::{SheetDesk, SheetKey, Snapshot, Told};
use super::dialogs::{self, Asked, Dialog};
use super::document::Document;
use super::focus::FocusKeeper;
use super::guide::Guide;
use super::jobs::{Jobs, Results};
use super::keeping::Keeping;
use super::looks::Looks;
use super::notices::Notices;
use super::notices::sentence_of;
use super::page::{Page, PageContext, Queue, ViewState};
use super::pages::gaps::{Columns, Division};
use super::pages::job_sheet::JobSheetView;
use super::photos::Photos;
use super::photos::picker::PhotoPicker;
use super::picker::Picker;
pub use super::start::Start;
use super::{bar, help, lightbox, pages, start_page, strip, theme, widgets};
use crate::survey::file::{Backups, protection};
use crate::survey::{GapId, Severity, Survey};
use eframe::egui;
use egui::{CentralPanel, Frame, Margin, Panel, ScrollArea, ViewportCommand};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::Receiver;
use std::time::Instant;

/// The system's file dialog while it is open.
pub(super) struct Picking {
    pub(super) answer: Receiver<Option<PathBuf>>,
    pub(super) since: Instant,
}

/// The gap that photos are picked for, the dialog's answer, and since when it is open.
pub(super) type PickingPhotos = (GapId, Receiver<Option<Vec<PathBuf>>>, Instant);

/// The window.
pub struct App {
    pub(super) document: Option<Document>,
    pub(super) backups: Backups,
    pub(super) jobs: Jobs,
    pub(super) decisions: Decisions,
    pub(super) queue: Queue,
    pub(super) view: ViewState,
    pub(super) notices: Notices,
    pub(super) asked: Option<Asked>,
    pub(super) picker: Picker,
    pub(super) picking: Option<Picking>,
    pub(super) samples: Vec<PathBuf>,
    pub(super) may_close: bool,
    pub(super) looks: Looks,
    pub(super) guide: Guide,
    pub(super) desk: SheetDesk,
    pub(super) keeping: Keeping,
    pub(super) photos: Photos,
    pub(super) photo_picker: PhotoPicker,
    pub(super) picking_photos: Option<PickingPhotos>,
    pub(super) closing_after_photos: bool,
    focus: FocusKeeper,
    submitted: Option<u64>,
    title: String,
}

impl App {
    /// The window with what it starts with.
    #[must_use]
    pub fn new(cc: &eframe::CreationContext<'_>, start: Start) -> Self {
        theme::install(&cc.egui_ctx);
        let looks = Looks::stored(cc.storage);
        looks.apply(&cc.egui_ctx);
        let ctx = cc.egui_ctx.clone();
        let again = ctx.clone();
        let (keeping, problem) =
            Keeping::start(start.data, Box::new(move || again.request_repaint()));
        let wake: Arc<dyn Fn() + Send + Sync> = Arc::new(move || ctx.request_repaint());
        let jobs = Jobs::new(Arc::clone(&start.spawner), Arc::clone(&wake));
        let photos = Photos::new(start.photo_spawner, start.photo_holding, Arc::clone(&wake));
        let view = ViewState {
            job_sheet: JobSheetView::stored(cc.storage),
            columns: Columns::stored(cc.storage),
            division: Division::stored(cc.storage),
            ..ViewState::default()
        };
        let mut app = Self {
            document: None,
            backups: Backups::default(),
            jobs,
            decisions: Decisions::new(Arc::clone(&start.spawner), Arc::clone(&wake), start.effort),
            queue: Queue::default(),
            view,
            notices: Notices::default(),
            asked: None,
            picker: start.picker,
            picking: None,
            samples: start.samples,
            may_close: false,
            guide: Guide::default(),
            desk: SheetDesk::new(start.spawner, wake),
            looks,
            keeping,
            photos,
            photo_picker: start.photo_picker,
            picking_photos: None,
            closing_after_photos: false,
            focus: FocusKeeper::default(),
            submitted: None,
            title: String::new(),
        };
        if start.guide && !app.looks.guide_seen {
            app.guide.begin();
        }
        if let Some(problem) = problem {
            app.notices.tell(Severity::Warning, problem);
        }
        if let Some(path) = start.path {
            app.open_file(&path);
        }
        app
    }

    /// The open survey.
    #[must_use]
    pub fn survey(&self) -> Option<&Survey> {
        let document = self.document.as_ref()?;
        Some(document.history.survey())
    }

    /// The newest results.
    #[must_use]
    pub fn results(&self) -> Option<&Results> {
        self.jobs.results()
    }

    /// What has come of longer work.
    #[must_use]
    pub fn decisions(&self) -> &Decisions {
        &self.decisions
    }

    /// Whether there are changes that are not saved.
    pub fn unsaved(&mut self) -> bool {
        self.document.as_mut().is_some_and(Document::unsaved)
    }

    /// The file of the open survey.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.document.as_ref()?.path()
    }

    /// The photos of the open survey.
    #[must_use]
    pub fn photos(&self) -> &Photos {
        &self.photos
    }

    /// The page shown and what the pages remember.
    #[must_use]
    pub fn view(&self) -> &ViewState {
        &self.view
    }

    /// Where requests go, as from a page.
    pub fn queue(&mut self) -> &mut Queue {
        &mut self.queue
    }

    /// The question being asked.
    #[must_use]
    pub fn dialog(&self) -> Option<&Dialog> {
        self.asked.as_ref().map(|asked| &asked.dialog)
    }

    /// What the window is telling.
    #[must_use]
    pub fn notices(&self) -> &Notices {
        &self.notices
    }

    /// Takes a survey as the open one.
    pub(super) fn show_document(&mut self, document: Document, page: Page) {
        let job_sheet = JobSheetView {
            in_sight: None,
            ..self.view.job_sheet.clone()
        };
        self.desk.clear();
        self.view = ViewState {
            page,
            columns: std::mem::take(&mut self.view.columns),
            division: self.view.division,
            job_sheet,
            ..ViewState::default()
        };
        self.keeping.let_go();
        self.jobs.forget();
        self.decisions.forget();
        self.photos.open(document.path());
        self.submitted = None;
        self.guide.start_over();
        if let Some(refused) = document.path().and_then(protection) {
            self.notices.tell(Severity::Note, sentence_of(&refused));
        }
        self.document = Some(document);
    }

    fn work_out(&mut self) {
        if let Some(document) = &self.document {
            let revision = document.history.revision();
            if self.submitted != Some(revision) {
                self.submitted = Some(revision);
                let survey = Arc::clone(document.history.survey());
                if let Err(sentence) = self.jobs.submit(revision, survey) {
                    self.notices.tell(Severity::Error, sentence);
                }
            }
        }
        for sentence in self.jobs.collect() {
            self.notices.tell(Severity::Error, sentence);
        }
        if let Some(document) = &self.document {
            let history = &document.history;
            let wanted = self.view.sealing_plan.wanted();
            let (revision, page) = (history.revision(), self.view.page);
            let told = self
                .decisions
                .follow(revision, history.survey(), page, wanted);
            for sentence in told {
                self.notices.tell(Severity::Error, sentence);
            }
        }
    }

    /// Has the job sheet set while its page is shown, and takes in what came of it.
    fn set_sheet(&mut self, ctx: &egui::Context) {
        for told in self.desk.collect(ctx) {
            match told {
                Told::Done(sentence) => {
                    self.guide.wrote(self.desk.written());
                    self.notices.tell(Severity::Note, sentence);
                }
                Told::Failed(words) => self.notices.tell(Severity::Error, sentence_of(&words)),
            }
        }
        let Some(document) = &self.document else {
            return;
        };
        if self.view.page != Page::JobSheet {
            return;
        }
        let key = SheetKey {
            revision: document.history.revision(),
            choices: self.view.job_sheet.choices.clone(),
        };
        let snapshot = Snapshot {
            survey: Arc::clone(document.history.survey()),
            path: document.path().map(Path::to_owned),
        };
        self.desk.want(&key, &snapshot);
        if let Some((pages, width)) = self.view.job_sheet.in_sight.clone() {
            self.desk.show(pages, width);
        }
    }

    fn tell_title(&mut self, ctx: &egui::Context) {
        let unsaved = self.unsaved();
        let title = match &self.document {
            None => "Gapledger".to_owned(),
            Some(document) => {
                let mark = if unsaved { " (not saved)" } else { "" };
                format!("Gapledger – {}{mark}", document.name())
            }
        };
        if title != self.title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    fn context(&mut self) -> Option<PageContext<'_>> {
        let document = self.document.as_ref()?;
        Some(PageContext {
            survey: document.history.survey(),
            revision: document.history.revision(),
            results: self.jobs.results(),
            decisions: &self.decisions,
            desk: &self.desk,
            queue: &mut self.queue,
            view: &mut self.view,
            photos: &mut self.photos,
        })
    }

    fn foot(&mut self, ui: &mut egui::Ui) {
        let palette = theme::palette(ui);
        if !self.notices.list().is_empty() {
            Panel::bottom("notices")
                .frame(panel_frame(palette.card, 4))
                .show(ui, |ui| self.notices.show(ui, &mut self.queue));
        }
    }

    fn survey_screen(&mut self, ui: &mut egui::Ui) {
        let palette = theme::palette(ui);
        Panel::bottom("strip")
            .frame(panel_frame(palette.strip, 6))
            .show(ui, |ui| {
                if let Some(mut context) = self.context() {
                    strip::show(ui, &mut context);
                }
            });
        self.foot(ui);
        self.help_line(ui, help::OF_A_PAGE);
        self.first_steps(ui);
        self.working_panel(ui);
        CentralPanel::default()
            .frame(panel_frame(palette.page, 8))
            .show(ui, |ui| {
                let Some(mut context) = self.context() else {
                    return;
                };
                match context.view.page {
                    Page::Vehicle => pages::vehicle::show(ui, &mut context),
                    Page::Gaps => pages::gaps::show(ui, &mut context),
                    Page::AirChange => pages::air_change::show(ui, &mut context),
                    Page::DryingHeat => pages::drying_heat::show(ui, &mut context),
                    Page::SealingPlan => pages::sealing_plan::show(ui, &mut context),
                    Page::JobSheet => pages::job_sheet::show(ui, &mut context),
                }
                context.view.wanted = None;
            });
    }

    fn help_line(&mut self, ui: &mut egui::Ui, otherwise: &str) {
        if self.view.help {
            Panel::bottom("help line")
                .frame(panel_frame(theme::palette(ui).card, 4))
                .show(ui, |ui| help::line(ui, &mut self.queue, otherwise));
        }
    }

    fn first_steps(&mut self, ui: &mut egui::Ui) {
        let answers = self.jobs.results().map(|results| &results.assessment);
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
                if let Some(mut context) = self.context() {
                    pages::working::show(ui, &mut context, topic);
                }
            });
    }

    fn start_screen(&mut self, ui: &mut egui::Ui) {
        let palette = theme::palette(ui);
        self.foot(ui);
        self.help_line(ui, help::OF_THE_START_PAGE);
        CentralPanel::default()
            .frame(panel_frame(palette.page, 8))
            .show(ui, |ui| {
                ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                    let offered = start_page::Offered {
                        rescued: self.keeping.offers(),
                        recent: self.keeping.recent(),
                        samples: &self.samples,
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

impl eframe::App for App {
    fn logic(&mut self, ctx: &egui::Context, frame: &mut eframe::Frame) {
        if self.asked.is_none() {
            let large = self.view.gaps.lightbox.is_some();
            for command in commands::pressed(ctx, self.document.is_some(), large) {
                self.queue.command(command);
            }
        }
        self.take_picked();
        for request in self.queue.take() {
            self.run(request, ctx, frame);
        }
        self.photos_in(ctx);
        self.guard_closing(ctx);
        self.work_out();
        self.set_sheet(ctx);
        self.keep(ctx);
        self.tell_title(ctx);
    }

    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        let palette = theme::palette(ui);
        Panel::top("bar")
            .frame(panel_frame(palette.strip, 3))
            .show(ui, |ui| {
                let survey = self
                    .document
                    .as_ref()
                    .map(|document| document.history.survey());
                bar::show(
                    ui,
                    survey.map(|survey| &**survey),
                    &self.view,
                    &mut self.queue,
                );
            });
        if self.document.is_some() {
            self.survey_screen(ui);
        } else {
            self.start_screen(ui);
        }
        if let Some(mut context) = self.context() {
            lightbox::show(ui.ctx(), &mut context);
        }
        self.drop_hint(ui.ctx());
        if let Some(asked) = &mut self.asked {
            let name = self
                .document
                .as_ref()
                .map_or_else(String::new, Document::name);
            let findings = self
                .jobs
                .results()
                .map_or(&[][..], |results| &results.assessment.findings);
            let known = dialogs::Known {
                name: &name,
                findings,
                told: &self.notices,
            };
            dialogs::show(ui.ctx(), asked, &known, &mut self.queue);
        }
        let page = self.document.as_ref().map(|_| self.view.page);
        let dialog = self.asked.is_some() || self.view.gaps.lightbox.is_some();
        self.focus.follow(ui.ctx(), page, dialog);
        if !self.queue.is_empty() {
            ui.ctx().request_repaint();
        }
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        self.looks.store(storage);
        self.view.columns.store(storage);
        self.view.division.store(storage);
        self.view.job_sheet.store(storage);
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}
