//! Setting a sheet, step by step, on a worker.

use super::order::{Order, PrintCopies, SheetChoices};
use super::put_away::{PutAway, Shelf};
use crate::assess::words::sentence;
use crate::physics::counts::{count, whole};
use crate::sheet::photos::{logo, print_copies};
use crate::sheet::setting::Said;
use crate::sheet::{Choices, Kind, Manuscript, Material, Workshop, contents};
use crate::tasks;
use crate::window::background::Line;
use crate::window::body::narrow;
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What the worker is at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Photos are made ready.
    Photos,
    /// How sure the results are is worked out.
    Uncertainty {
        /// How much of it is done.
        percent: usize,
    },
    /// Pages are set.
    Pages,
}

impl Step {
    /// It in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Photos => "Step 1 of 3: making photos ready",
            Self::Uncertainty { .. } => "Step 2 of 3: working out how sure the results are",
            Self::Pages => "Step 3 of 3: setting the pages",
        }
    }

    /// How much of the step is done, 0…1, where that is known.
    #[must_use]
    pub fn share(self) -> Option<f32> {
        match self {
            Self::Uncertainty { percent } => Some(narrow(count(percent) / 100.0)),
            Self::Photos | Self::Pages => None,
        }
    }
}

/// What the window is told of a sheet being set.
pub(super) enum News {
    Step(Step),
    Copies(Arc<PrintCopies>),
    /// The pages are set: width and height of each, and a sentence about characters that had to be
    /// replaced.
    Pages {
        sizes: Vec<(f64, f64)>,
        replaced: Option<String>,
    },
    /// A page is drawn.
    Picture {
        page: usize,
        png: PutAway,
    },
    /// The PDF, and with it the end.
    Pdf(PutAway),
    /// It could not be set, for this reason.
    Failed(String),
}

impl News {
    /// What was said, with what is large put away.
    fn of(said: Said, shelf: &Shelf) -> Self {
        match said {
            Said::Pages { sizes, replaced } => Self::Pages { sizes, replaced },
            Said::Picture { page, png } => Self::Picture {
                page,
                png: shelf.put(png),
            },
            Said::Pdf(pdf) => Self::Pdf(shelf.put(pdf)),
            Said::Failed(words) => Self::Failed(words),
        }
    }
}

/// Sets a sheet; nothing comes of it once nobody wants it any more.
pub(super) fn set(order: Order, line: &Line<'_, News>) {
    let Order {
        key,
        of,
        path,
        photos,
        effort,
        setter,
        look,
    } = order;
    let fits = |photos: &Arc<PrintCopies>| photos.revision == key.revision && photos.path == path;
    let there = photos.filter(fits).and_then(|there| there.pictures().ok());
    let photos = there.unwrap_or_else(|| {
        line.send(News::Step(Step::Photos));
        let survey = of.study.survey();
        let pictures = path.as_deref().map_or_else(BTreeMap::new, |path| {
            print_copies(path, survey, &|| line.stopped())
        });
        if !line.stopped() {
            let copies = PrintCopies::put_away(key.revision, path, &pictures);
            line.send(News::Copies(Arc::new(copies)));
        }
        pictures
    });
    if line.stopped() {
        return;
    }
    let studies = key.choices.kind.draws(&of.study);
    for (at, study) in studies.iter().enumerate() {
        let watch = told(line, at, studies.len());
        if tasks::uncertainty(study, effort.draws, effort.threads, &watch).is_none() {
            return;
        }
    }
    let places = of.weather_places();
    if matches!(key.choices.kind, Kind::Report | Kind::Completion) {
        let watch = |share| line.progress(share);
        of.try_trials(&watch);
    }
    if key.choices.kind == Kind::Report {
        let watch = |share| line.progress(share);
        let (study, threads) = (&of.study, effort.threads);
        tasks::winter_laid(study, &places, &watch);
        tasks::winter(study, &places, threads, &watch);
        tasks::winter_after_plan(study, &places, threads, &watch);
        tasks::winter_bands(study, effort.winter_draws, threads, &watch);
        if line.stopped() {
            return;
        }
    }
    line.send(News::Step(Step::Pages));
    let manuscript = choices(&key.choices).and_then(|choices| {
        let material = Material::of(&of.study, choices.kind, &photos);
        Manuscript::of(&contents(&material, &choices)).map_err(|error| error.to_string())
    });
    drop(photos);
    let set = manuscript.and_then(|manuscript| {
        let shelf = Shelf::new();
        let say = &mut |said| line.send(News::of(said, &shelf));
        setter.set(manuscript, look, &|| line.stopped(), say)
    });
    if let Err(words) = set {
        line.send(News::Failed(sentence(&words)));
    }
}

/// Tells how far the draws are, at each twentieth of the way, and hears whether to go on.
fn told(line: &Line<'_, News>, at: usize, of: usize) -> impl Fn(f64) -> ControlFlow<()> + Sync {
    let told = AtomicUsize::new(0);
    move |share: f64| {
        let share = (count(at) + share) / count(of);
        let percent = whole(share * 20.0) * 5;
        if told.fetch_max(percent + 1, Ordering::Relaxed) <= percent {
            line.send(News::Step(Step::Uncertainty { percent }));
        }
        line.progress(share)
    }
}

fn choices(chosen: &SheetChoices) -> Result<Choices, String> {
    let logo = match chosen.logo.trim() {
        "" => None,
        path => Some(
            logo(Path::new(path))
                .map_err(|error| format!("the sheet could not be set: the logo: {error}"))?,
        ),
    };
    Ok(Choices {
        kind: chosen.kind,
        paper: chosen.paper,
        parts: chosen.parts.clone(),
        workshop: Workshop {
            texts: chosen.workshop.clone(),
            logo,
        },
        units: chosen.units,
        dates: chosen.dates,
    })
}
