//! Setting a sheet, step by step, on a worker.

use super::{SheetKey, Snapshot};
use crate::assess::{Answer, Assessment, Comparison, assess, compare};
use crate::sheet::blocks::Picture;
use crate::sheet::photos::{logo, print_copies};
use crate::sheet::uncertainty::Uncertainties;
use crate::sheet::{
    Choices, Kind, Material, Paper, Part, SheetError, Typeset, Workshop, contents, typeset,
};
use crate::survey::Survey;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU8, Ordering};

/// What is chosen on the page; pictures by their paths.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetChoices {
    /// Which sheet.
    pub kind: Kind,
    /// On what paper.
    pub paper: Paper,
    /// Parts that are printed.
    pub parts: BTreeSet<Part>,
    /// Name of the workshop.
    pub workshop: String,
    /// Its address.
    pub address: String,
    /// Path of its logo; empty for none.
    pub logo: String,
}

impl Default for SheetChoices {
    fn default() -> Self {
        Self {
            kind: Kind::default(),
            paper: Paper::default(),
            parts: Part::ALL.into_iter().collect(),
            workshop: String::new(),
            address: String::new(),
            logo: String::new(),
        }
    }
}

/// What the worker is at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Photos are made ready.
    Photos,
    /// The doubt about the results is worked out.
    Uncertainty {
        /// How much of it is done.
        percent: u8,
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
            Self::Uncertainty { percent } => Some(f32::from(percent) / 100.0),
            Self::Photos | Self::Pages => None,
        }
    }
}

/// What does not change while only choices change.
pub(super) struct Prepared {
    revision: u64,
    path: Option<std::path::PathBuf>,
    assessment: Assessment,
    comparison: Answer<Comparison>,
    /// The sheet that the doubts are for.
    kind: Kind,
    uncertainties: Uncertainties,
    photos: BTreeMap<String, Picture>,
}

/// What came of it; neither pages nor a sentence where it was cancelled.
pub(super) struct Outcome {
    pub(super) prepared: Option<Arc<Prepared>>,
    pub(super) pages: Option<Result<Typeset, String>>,
}

impl Outcome {
    pub(super) fn failed(why: &str) -> Self {
        Self {
            prepared: None,
            pages: Some(Err(format!("The sheet could not be set: {why}."))),
        }
    }
}

/// Sets a sheet. `tell` is called at the beginning of each step.
pub(super) fn set(
    key: &SheetKey,
    snapshot: &Snapshot,
    before: Option<Arc<Prepared>>,
    cancel: &AtomicBool,
    tell: &(dyn Fn(Step) + Sync),
) -> Outcome {
    let prepared = before.filter(|before| {
        before.revision == key.revision
            && before.path == snapshot.path
            && (before.kind == key.choices.kind || key.choices.kind == Kind::WorkOrder)
    });
    let prepared = prepared.unwrap_or_else(|| Arc::new(prepare(key, snapshot, cancel, tell)));
    if cancel.load(Ordering::Relaxed) {
        return Outcome {
            prepared: None,
            pages: None,
        };
    }
    tell(Step::Pages);
    let pages = choices(&key.choices).and_then(|choices| {
        pages(snapshot, &prepared, &choices).map_err(|error| error.to_string())
    });
    let pages = pages.map_err(|words| format!("The sheet could not be set: {words}."));
    Outcome {
        prepared: Some(prepared),
        pages: (!cancel.load(Ordering::Relaxed)).then_some(pages),
    }
}

fn prepare(
    key: &SheetKey,
    snapshot: &Snapshot,
    cancel: &AtomicBool,
    tell: &(dyn Fn(Step) + Sync),
) -> Prepared {
    tell(Step::Photos);
    let survey = &*snapshot.survey;
    let photos = snapshot
        .path
        .as_deref()
        .map_or_else(BTreeMap::new, |path| print_copies(path, survey, cancel));
    tell(Step::Uncertainty { percent: 0 });
    let uncertainties = uncertainties(key.choices.kind, survey, cancel, tell);
    Prepared {
        revision: key.revision,
        path: snapshot.path.clone(),
        assessment: assess(survey),
        comparison: compare(survey),
        kind: key.choices.kind,
        uncertainties,
        photos,
    }
}

/// How sure the results are; tells how far it is at each twentieth of the way.
fn uncertainties(
    kind: Kind,
    survey: &Survey,
    cancel: &AtomicBool,
    tell: &(dyn Fn(Step) + Sync),
) -> Uncertainties {
    let told = AtomicU8::new(0);
    let watch = |share: f64| {
        if cancel.load(Ordering::Relaxed) {
            return ControlFlow::Break(());
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of twenty"
        )]
        let percent = (share * 20.0) as u8 * 5;
        if told.fetch_max(percent, Ordering::Relaxed) < percent {
            tell(Step::Uncertainty { percent });
        }
        ControlFlow::Continue(())
    };
    Uncertainties::watched(kind, survey, &watch)
}

fn pages(
    snapshot: &Snapshot,
    prepared: &Prepared,
    choices: &Choices,
) -> Result<Typeset, SheetError> {
    let material = Material {
        told: crate::report::Material {
            survey: &snapshot.survey,
            assessment: &prepared.assessment,
            comparison: &prepared.comparison,
            uncertainty: prepared.uncertainties.now.as_ref(),
            uncertainty_before: prepared.uncertainties.before.as_ref(),
        },
        photos: &prepared.photos,
    };
    typeset(&contents(&material, choices))
}

fn choices(chosen: &SheetChoices) -> Result<Choices, String> {
    let logo = match chosen.logo.trim() {
        "" => None,
        path => Some(logo(Path::new(path)).map_err(|error| format!("the logo: {error}"))?),
    };
    Ok(Choices {
        kind: chosen.kind,
        paper: chosen.paper,
        parts: chosen.parts.clone(),
        workshop: Workshop {
            name: chosen.workshop.clone(),
            address: chosen.address.clone(),
            logo,
        },
    })
}
