//! The window's state, and what it keeps up with in every frame.

use super::file_work::Files;
use super::view::ViewState;
use crate::assess::shown::{Shown, Units};
use crate::sheet::setting::Look;
use crate::survey::date::DateWay;
use crate::survey::file::protection;
use crate::survey::{GapId, Severity, Survey};
use crate::tasks::data_folders;
use crate::window::answers::{Answers, Results, Revised};
use crate::window::document::Document;
use crate::window::focus::FocusKeeper;
use crate::window::guide::Guide;
use crate::window::key_order::KeyOrder;
use crate::window::loggers::{self, KnownShapes};
use crate::window::notices::{Cause, Notices, sentence_of};
use crate::window::page::Page;
use crate::window::pages::air_change::AirChangeView;
use crate::window::pages::gaps::GapsView;
use crate::window::pages::job_sheet::JobSheetView;
use crate::window::photos::Photos;
use crate::window::picker::{Picked, Picker};
use crate::window::preferences::Preferences;
use crate::window::questions::{Asked, Dialog};
use crate::window::request::Queue;
use crate::window::samples::Sample;
use crate::window::start::Start;
use crate::window::theme;
use crate::window::typesetting::{SheetKey, Told, Typesetting};
use crate::window::units;
use crate::window::unsaved_work::UnsavedWork;
use eframe::egui;
use egui::ViewportCommand;
use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::Receiver;

/// Told where the program has no folder of its own.
const NO_DATA_FOLDER: &str = "Gapledger found no home folder (HOME is not set): changes that are \
     not saved are not written down for a rescue, and files opened are not remembered. Save often.";

/// The system's file dialog while it is open.
pub(super) struct Picking {
    pub(super) answer: Receiver<Picked>,
    /// The gap that photos are picked for; without one it is a path that was asked for.
    pub(super) photos_of: Option<GapId>,
}

/// The system that the window runs in, as it is in this frame.
#[derive(Clone, Copy)]
pub(super) struct System<'a> {
    pub(super) ctx: &'a egui::Context,
    pub(super) frame: &'a eframe::Frame,
}

/// The window.
pub struct App {
    pub(super) document: Option<Document>,
    pub(super) files: Files,
    pub(super) answers: Answers,
    pub(super) queue: Queue,
    pub(super) view: ViewState,
    pub(super) notices: Notices,
    pub(super) asked: Option<Asked>,
    pub(super) picker: Picker,
    pub(super) picking: Option<Picking>,
    /// The system has file dialogs, for all that is known.
    pub(super) file_dialog: bool,
    pub(super) samples: &'static [Sample],
    pub(super) may_close: bool,
    pub(super) preferences: Preferences,
    pub(super) guide: Guide,
    pub(super) sheets: Typesetting,
    pub(super) unsaved: UnsavedWork,
    pub(super) photos: Photos,
    /// Files of loggers being opened and read.
    pub(super) loggers: loggers::Worker,
    /// How files of loggers were read before.
    pub(super) shapes: KnownShapes,
    pub(super) closing_after_photos: bool,
    /// When the system was asked for what is on its clipboard, and has not answered yet.
    pub(super) paste_wanted: Option<f64>,
    pub(super) focus: FocusKeeper,
    title: String,
    /// How dates are written.
    dates: DateWay,
    /// The day that a new survey is dated with.
    pub(super) today: Option<fn() -> String>,
    /// Everything is as large as site mode wants it.
    pub(super) site_sized: bool,
    /// Which revision, in which units, the widgets were told of last.
    units_told: Option<(u64, Units)>,
    /// The newest revision that a drag made, and in how many frames since then nothing moved.
    rested: (u64, u32),
}

/// Up to so many gaps results follow a mark that is dragged, wherever it rests; with more they come
/// when it is let go.
const LIVE_UP_TO: usize = 150;
/// Frames in which nothing moves, after which a mark that is held rests.
const REST: u32 = 3;

impl App {
    /// The window with what it starts with.
    #[must_use]
    pub fn new(cc: &eframe::CreationContext<'_>, start: Start) -> Self {
        theme::install(&cc.egui_ctx);
        cc.egui_ctx.add_plugin(KeyOrder::default());
        let preferences = Preferences::stored(cc.storage);
        preferences.apply(&cc.egui_ctx);
        let ctx = cc.egui_ctx.clone();
        let again = ctx.clone();
        let (unsaved, problem) =
            UnsavedWork::start(start.data, Box::new(move || again.request_repaint()));
        let wake: Arc<dyn Fn() + Send + Sync> = Arc::new(move || ctx.request_repaint());
        let answers = Answers::new(Arc::clone(&start.spawner), Arc::clone(&wake), start.effort);
        let loggers = loggers::Worker::new(&start.file_spawner, &wake);
        let photos = Photos::new(&start.photo_spawner, start.photo_holding, &wake);
        let view = ViewState {
            job_sheet: JobSheetView::stored(cc.storage),
            gaps: GapsView::stored(cc.storage),
            air_change: AirChangeView::stored(cc.storage),
            ..ViewState::default()
        };
        let mut app = Self {
            document: None,
            files: Files::new(start.file_spawner, Arc::clone(&wake)),
            answers,
            queue: Queue::default(),
            view,
            notices: Notices::default(),
            asked: None,
            picker: start.picker,
            picking: None,
            file_dialog: start.file_dialog,
            samples: start.samples,
            may_close: false,
            guide: Guide::default(),
            sheets: Typesetting::new(start.spawner, wake, start.effort, start.setter),
            preferences,
            unsaved,
            photos,
            loggers,
            shapes: KnownShapes::stored(cc.storage),
            closing_after_photos: false,
            paste_wanted: None,
            focus: FocusKeeper::default(),
            title: String::new(),
            dates: start.dates,
            today: start.today,
            site_sized: false,
            units_told: None,
            rested: (0, 0),
        };
        if start.guide && !app.preferences.guide_seen {
            app.guide.begin();
        }
        if let Some(problem) = problem {
            app.notices.tell(Severity::Warning, problem);
        }
        if start.no_data_folder {
            app.notices.tell(Severity::Warning, NO_DATA_FOLDER);
        }
        if let Some(path) = start.path {
            app.open_file(&path);
        }
        app
    }

    /// Tells the widgets in which units the survey is shown, when either has changed.
    pub(super) fn tell_units(&mut self, ctx: &egui::Context) {
        let units = self.preferences.units;
        self.view.job_sheet.choices.units = units;
        self.view.job_sheet.choices.dates = self.dates;
        let document = self.document.as_ref();
        let revision = document.map_or(u64::MAX, |document| document.history.revision());
        if self.units_told == Some((revision, units)) {
            return;
        }
        self.units_told = Some((revision, units));
        let shown = document.map_or_else(
            || Shown::of(units, self.dates),
            |document| Shown::written(units, self.dates, document.history.survey()),
        );
        units::tell(ctx, Arc::new(shown));
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
        self.answers.results()
    }

    /// What has come of longer work.
    #[must_use]
    pub fn answers(&self) -> &Answers {
        &self.answers
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
        self.sheets.clear();
        self.view = self.view.for_another_survey(page);
        self.unsaved.let_go();
        self.answers.forget();
        self.photos.open(document.path());
        self.guide.start_over();
        if let Some(refused) = document.path().and_then(protection) {
            self.notices.tell(Severity::Note, sentence_of(&refused));
        }
        self.document = Some(document);
    }

    pub(super) fn work_out(&mut self, ctx: &egui::Context) {
        let moves = self.moves(ctx);
        let Some(document) = &self.document else {
            return;
        };
        let history = &document.history;
        let folder = document.path().and_then(Path::parent);
        self.answers.stand_in(folder.map(Path::to_owned));
        let folders = data_folders(document.path(), self.photos.holding());
        self.answers.look_in(folders);
        let wanted = self.view.sealing_plan.wanted();
        let told = if moves {
            // Results of a place that is left in the next frame only take time from the drawing.
            self.answers.take_in(history.revision())
        } else {
            let (revision, survey) = (history.revision(), history.survey());
            self.answers
                .follow(revision, survey, self.view.page, wanted)
        };
        for sentence in told {
            self.notices.tell(Severity::Error, sentence);
        }
    }

    /// Whether a mark is being dragged on: results may come later, the drawing may not.
    fn moves(&mut self, ctx: &egui::Context) -> bool {
        let Some(document) = self.document.as_ref() else {
            return false;
        };
        if !self.view.gaps.body().is_dragged() {
            return false;
        }
        let (revision, survey) = (document.history.revision(), document.history.survey());
        let (last, frames) = self.rested;
        let frames = if last == revision {
            frames.saturating_add(1)
        } else {
            0
        };
        self.rested = (revision, frames);
        if survey.gaps.len() > LIVE_UP_TO {
            return true;
        }
        if frames < REST {
            ctx.request_repaint();
        }
        frames < REST
    }

    /// The study of the survey as it is.
    pub(super) fn study_now(&mut self) -> Option<Arc<Revised>> {
        let history = &self.document.as_ref()?.history;
        Some(self.answers.of(history.revision(), history.survey()))
    }

    /// Has the job sheet set while its page is shown, and takes in what came of it.
    pub(super) fn set_sheet(&mut self, ctx: &egui::Context) {
        for told in self.sheets.collect(ctx) {
            match told {
                Told::Done(sentence) => {
                    self.guide
                        .wrote(self.sheets.written().map(|written| written.file));
                    self.notices.over(Cause::Sheet);
                    self.notices.tell(Severity::Note, sentence);
                }
                Told::Failed(words) => {
                    let sentence = sentence_of(&words);
                    self.notices
                        .tell_of(Cause::Sheet, Severity::Error, sentence);
                }
            }
        }
        if self.view.page != Page::JobSheet {
            self.sheets.left();
            return;
        }
        let Some(of) = self.study_now() else { return };
        let key = SheetKey {
            revision: of.revision,
            choices: self.view.job_sheet.choices.clone(),
        };
        let path = self.document.as_ref().and_then(Document::path);
        // How wide pages are is known once the page was shown.
        let Some((pages, width)) = self.view.job_sheet.in_sight.clone() else {
            return;
        };
        let first = pages.start;
        self.sheets.want(&key, Look { width, first }, &of, path);
        self.sheets.show(pages);
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
