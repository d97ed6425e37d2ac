//! The command that prints the guide.

use crate::assess::shown::Units;
use crate::sheet::Paper;
use crate::survey::VehicleKind;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// A kind of vehicle as written on the command line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum VehicleWord {
    /// Towed caravan
    #[default]
    TouringCaravan,
    /// Camper built into a panel van
    PanelVan,
    /// Living body built onto a cab chassis, the cab kept
    CoachBuilt,
    /// Body that includes the driver's place
    Integrated,
    /// Anything else
    Other,
}

impl From<VehicleWord> for VehicleKind {
    fn from(word: VehicleWord) -> Self {
        match word {
            VehicleWord::TouringCaravan => Self::TouringCaravan,
            VehicleWord::PanelVan => Self::PanelVan,
            VehicleWord::CoachBuilt => Self::CoachBuilt,
            VehicleWord::Integrated => Self::Integrated,
            VehicleWord::Other => Self::Other,
        }
    }
}

/// What is asked of the guide.
#[derive(Clone, Debug, PartialEq, Args)]
pub struct GuideArguments {
    /// The PDF to write, or - for standard output; an old file is replaced
    #[arg(short, long, value_name = "OUT.pdf")]
    pub output: PathBuf,
    /// The vehicle whose usual places are listed
    #[arg(long, value_name = "KIND", value_enum, default_value_t)]
    pub vehicle: VehicleWord,
    /// Size of the paper
    #[arg(long, value_enum, default_value_t)]
    pub paper: Paper,
    /// Units that sizes are printed in
    #[arg(long, value_enum, default_value_t)]
    pub units: Units,
}

#[cfg(feature = "sheet")]
pub(super) use with_typesetter::{GuideFailure, write};
#[cfg(not(feature = "sheet"))]
pub(super) use without_typesetter::{GuideFailure, write};

#[cfg(feature = "sheet")]
mod with_typesetter {
    use super::super::standard_output::is_standard_output;
    use super::GuideArguments;
    use crate::assess::shown::Shown;
    use crate::sheet::output::{self, OutputError};
    use crate::sheet::{SheetError, guide, typeset};
    use crate::survey::date::DateWay;

    /// Why there is no guide.
    #[derive(Debug, thiserror::Error)]
    pub(in crate::headless) enum GuideFailure {
        #[error(transparent)]
        Sheet(#[from] SheetError),
        #[error(transparent)]
        Output(#[from] OutputError),
    }

    /// Writes the guide, or gives it back where it goes to standard output.
    pub(in crate::headless) fn write(arguments: &GuideArguments) -> Result<Vec<u8>, GuideFailure> {
        let shown = Shown::of(arguments.units, DateWay::YearMonthDay);
        let sheet = guide(arguments.vehicle.into(), arguments.paper, &shown);
        let pdf = typeset(&sheet)?.pdf()?;
        if is_standard_output(&arguments.output) {
            return Ok(pdf);
        }
        output::write_or_send(&[], &arguments.output, ".pdf", &pdf)?;
        Ok(Vec::new())
    }
}

#[cfg(not(feature = "sheet"))]
mod without_typesetter {
    use super::GuideArguments;

    /// Why there is no guide.
    #[derive(Debug, thiserror::Error)]
    pub(in crate::headless) enum GuideFailure {
        #[error("this program was built without paper, so it cannot print the guide")]
        NotBuilt,
    }

    /// Tells that it cannot.
    pub(in crate::headless) fn write(_arguments: &GuideArguments) -> Result<Vec<u8>, GuideFailure> {
        Err(GuideFailure::NotBuilt)
    }
}
