//! Files that are written, and opened with the system's viewer.

use crate::assess::shown::{Shown, Units};
use crate::sheet::csv::{self, ByteOrderMark};
use crate::sheet::{Kind, Paper, Typeset, guide, output, typeset};
use crate::survey::date::DateWay;
use crate::window::answers::Revised;
use std::path::{Path, PathBuf};
use std::sync::Arc;

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
        }
    }

    /// Its ending, without the dot.
    #[must_use]
    pub fn ending(self) -> &'static str {
        match self {
            Self::Pdf(_) | Self::Guide(..) => "pdf",
            Self::Ledger | Self::Plan => "csv",
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
    /// Writes it.
    pub(super) fn write(self, pages: Option<&Typeset>) -> Result<Written, String> {
        let (bytes, ending) = match self.file {
            SheetFile::Pdf(_) => {
                let pages = pages.ok_or("no sheet has been set yet")?;
                (pages.pdf().map_err(words)?, ".pdf")
            }
            SheetFile::Ledger => {
                let bytes = csv::ledger(&self.of.study, self.mark);
                (bytes.map_err(words)?, ".csv")
            }
            SheetFile::Plan => (csv::plan(&self.of.study, self.mark).map_err(words)?, ".csv"),
            SheetFile::Guide(paper, units) => {
                let kind = self.of.study.survey().vehicle.kind;
                let sheet = guide(kind, paper, &Shown::of(units, DateWay::default()));
                let pages = typeset(&sheet).map_err(words)?;
                (pages.pdf().map_err(words)?, ".pdf")
            }
        };
        output::write(self.survey_path.as_deref(), &self.path, ending, &bytes).map_err(words)?;
        Ok(Written {
            file: self.file,
            path: self.path,
        })
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
