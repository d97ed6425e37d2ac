//! The window's state, and what it keeps up with in every frame.

use super::files::Files;
use super::view::ViewState;
use crate::survey::file::protection;
use crate::survey::{GapId, Severity, Survey};
use crate::window::decisions::Decisions;
use crate::window::desk::{SheetDesk, SheetKey, Snapshot, Told};
use crate::window::document::Document;
use crate::window::focus::FocusKeeper;
use crate::window::guide::Guide;
use crate::window::jobs::{Jobs, Results};
use crate::window::keeping::Keeping;
use crate::window::looks::Looks;
use crate::window::notices::Notices;
use crate::window::notices::sentence_of;
use crate::window::page::Page;
use crate::window::pages::gaps::GapsView;
use crate::window::pages::job_sheet::JobSheetView;
use crate::window::photos::Photos;
use crate::window::picker::{Picked, Picker};
use crate::window::questions::{Asked, Dialog};
use crate::window::request::Queue;
use crate::window::start::Start;
use crate::window::theme;
use eframe::egui;
use egui::ViewportCommand;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::Receiver;

/// The system's file dialog while it is open.
pub(super) struct Picking {
    pub(super) answer: Receiver<Picked>,
    /// The gap that photos are picked for; without one it is a path that was asked for.
    pub(super) photos_of: Option<GapId>,
}

/// The window.
pub struct App {
    pub(super) document: Option<Document>,
    pub(super) files: Files,
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
    pub(super) closing_after_photos: bool,
    pub(super) focus: FocusKeeper,
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
            gaps: GapsView::stored(cc.storage),
            ..ViewState::default()
        };
        let mut app = Self {
            document: None,
            files: Files::new(start.file_spawner, Arc::clone(&wake)),
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
        self.desk.clear();
        self.view = self.view.for_another_survey(page);
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

    pub(super) fn work_out(&mut self) {
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
    pub(super) fn set_sheet(&mut self, ctx: &egui::Context) {
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

    pub(super) fn tell_title(&mut self, ctx: &egui::Context) {
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
}
