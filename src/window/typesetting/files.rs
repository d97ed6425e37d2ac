//! Files that are written, and opened with the system's viewer.

use super::put_away::PutAway;
use super::setter::Setter;
use crate::assess::shown::{Shown, Units};
use crate::figure::trial::{self, Band, Lines};
use crate::sheet::csv::{self, ByteOrderMark};
use crate::sheet::{Kind, Manuscript, Paper, guide, output, svg};
use crate::survey::TrialId;
use crate::survey::date::DateWay;
use crate::window::answers::Revised;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Width of a trial as a picture, mm.
const PICTURE_MM: f64 = 260.0;

/// A sort of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetFile {
    /// The sheet as PDF.
    Pdf(Kind),
    /// The ledger of gaps for a spreadsheet.
    Ledger,
    /// The sealing plan for a spreadsheet.
    Plan,
    /// The guide to surveying for the survey's kind of vehicle, as PDF.
    Guide(Paper, Units),
    /// A trial over time as a picture.
    TrialPicture(TrialId),
    /// The readings of a trial for a spreadsheet.
    TrialRows(TrialId),
}

impl SheetFile {
    /// What it is.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Pdf(kind) => kind.name(),
            Self::Ledger => "ledger",
            Self::Plan => "sealing plan",
            Self::Guide(..) => "guide",
            Self::TrialPicture(_) => "trial",
            Self::TrialRows(_) => "readings",
        }
    }

    /// Its ending, without the dot.
    #[must_use]
    pub fn ending(self) -> &'static str {
        match self {
            Self::Pdf(_) | Self::Guide(..) => "pdf",
            Self::Ledger | Self::Plan | Self::TrialRows(_) => "csv",
            Self::TrialPicture(_) => "svg",
        }
    }
}

/// A file to write.
pub struct Output {
    /// What it is.
    pub file: SheetFile,
    /// Where to.
    pub path: PathBuf,
    /// What is worked out of the survey.
    pub of: Arc<Revised>,
    /// The survey's own file, which is never overwritten.
    pub survey_path: Option<PathBuf>,
    /// How tables begin.
    pub mark: ByteOrderMark,
}

/// A file that was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// What it is.
    pub file: SheetFile,
    /// Where it is.
    pub path: PathBuf,
}

impl Output {
    /// Writes it; `pdf` is the sheet that was set last.
    pub(super) fn write(self, pdf: Option<&PutAway>, setter: &Setter) -> Result<Written, String> {
        let (bytes, ending) = match self.file {
            SheetFile::Pdf(_) => {
                let pdf = pdf.ok_or("no sheet has been set yet")?;
                (pdf.bytes().map_err(words)?, ".pdf")
            }
            SheetFile::Ledger => {
                let bytes = csv::ledger(&self.of.study, self.mark);
                (bytes.map_err(words)?, ".csv")
            }
            SheetFile::Plan => (csv::plan(&self.of.study, self.mark).map_err(words)?, ".csv"),
            SheetFile::Guide(paper, units) => {
                let kind = self.of.study.survey().vehicle.kind;
                let sheet = guide(kind, paper, &Shown::of(units, DateWay::default()));
                let manuscript = Manuscript::of(&sheet).map_err(words)?;
                (setter.pdf(manuscript)?, ".pdf")
            }
            SheetFile::TrialPicture(id) => {
                let (lines, bands) = self.trial(id)?;
                let span = lines.span().ok_or("there are no readings to draw")?;
                let scene = trial::drawing(&lines, &bands, span, PICTURE_MM);
                (svg::svg(&scene).into_bytes(), ".svg")
            }
            SheetFile::TrialRows(id) => {
                let (lines, bands) = self.trial(id)?;
                (
                    csv::trial(&lines, &bands, self.mark).map_err(words)?,
                    ".csv",
                )
            }
        };
        let made_from = self.survey_path.as_slice();
        let made_from: Vec<&Path> = made_from.iter().map(PathBuf::as_path).collect();
        output::write(&made_from, &self.path, ending, &bytes).map_err(words)?;
        Ok(Written {
            file: self.file,
            path: self.path,
        })
    }
}

impl Output {
    /// The lines of a trial and its periods.
    fn trial(&self, id: TrialId) -> Result<(Arc<Lines>, Vec<Band>), String> {
        let survey = self.of.study.survey();
        let trial = survey.trial(id).ok_or("the trial is no longer there")?;
        let lines = self.of.trial_lines(id);
        let lines = lines.ok_or("its readings are still being read: write it in a moment")?;
        let lines = lines.map_err(|unknown| unknown.reason)?;
        Ok((lines, trial::bands(survey, trial)))
    }
}

fn words(error: impl std::fmt::Display) -> String {
    error.to_string()
}

/// Opens a file with the system's viewer.
pub(super) fn open(path: &Path) -> Result<(), String> {
    opener::open(path).map_err(|error| {
        format!(
            "{} could not be opened ({error}): open it from the folder it is in",
            path.display()
        )
    })
}
