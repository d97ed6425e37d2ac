//! The command that writes the job sheet.

use super::WishArguments;
use crate::assess::Study;
use crate::assess::shown::Units;
use crate::sheet::{Kind, Paper, Part};
use crate::survey::date::DateWay;
use clap::Args;
use std::path::PathBuf;

/// What is asked of the job sheet.
#[derive(Clone, Debug, PartialEq, Args)]
pub struct SheetArguments {
    /// The survey file, NAME.ron
    pub file: PathBuf,
    /// What it is to go by instead of what the file says
    #[command(flatten)]
    pub wish: WishArguments,
    /// The PDF to write, or - for standard output; an old file is replaced
    #[arg(short, long, value_name = "OUT.pdf")]
    pub output: PathBuf,
    /// Which sheet
    #[arg(long, value_enum, default_value_t)]
    pub kind: Kind,
    /// Size of the paper
    #[arg(long, value_enum, default_value_t)]
    pub paper: Paper,
    /// Units that sizes are printed in; the survey file stays metric
    #[arg(long, value_enum, default_value_t)]
    pub units: Units,
    /// Parts to leave out; safety ventilation and cautions are always printed
    #[arg(long, value_name = "PART", value_enum, value_delimiter = ',')]
    pub without: Vec<Part>,
    /// Parts to print besides the usual ones: bill and proof, on the completion sheet
    #[arg(long, value_name = "PART", value_enum, value_delimiter = ',')]
    pub with: Vec<Part>,
    /// Name of the workshop, for the head of the sheet
    #[arg(long, value_name = "NAME", default_value = "")]
    pub workshop: String,
    /// Its address; \n begins a new line
    #[arg(long, value_name = "ADDRESS", default_value = "")]
    pub address: String,
    /// Its own texts as JSON: name, address, tax_number, payment, terms, warranty, acceptance
    #[arg(long, value_name = "FILE.json")]
    pub profile: Option<PathBuf>,
    /// Its logo, a JPEG, PNG or WebP file
    #[arg(long, value_name = "PICTURE")]
    pub logo: Option<PathBuf>,
}

#[cfg(feature = "sheet")]
pub(super) use with_typesetter::{SheetFailure, unprintable, write};
#[cfg(not(feature = "sheet"))]
pub(super) use without_typesetter::{SheetFailure, unprintable, write};

#[cfg(feature = "sheet")]
mod with_typesetter {
    use super::super::bounds::Bounds;
    use super::super::standard_output::is_standard_output;
    use super::{DateWay, Part, SheetArguments, Study};
    use crate::assess::uncertainty::DRAWS;
    use crate::assess::winter::WINTER_DRAWS;
    use crate::headless::progress::Progress;
    use crate::sheet::output::{self, OutputError};
    use crate::sheet::photos::{PictureError, logo, print_copies};
    use crate::sheet::profile::{ProfileError, profile};
    use crate::sheet::{
        Choices, Kind, Material, SheetError, Workshop, WorkshopTexts, contents, typeset,
    };
    use crate::tasks::{self, processors};
    use std::collections::BTreeMap;
    use std::path::Path;
    use std::thread;

    pub(in crate::headless) use crate::sheet::unprintable;

    /// Why there is no sheet.
    #[derive(Debug, thiserror::Error)]
    pub(in crate::headless) enum SheetFailure {
        #[error("the logo cannot be used: {0}. Name another picture after --logo, or leave it out")]
        Logo(#[from] PictureError),
        #[error(transparent)]
        Profile(#[from] ProfileError),
        #[error(transparent)]
        Sheet(#[from] SheetError),
        #[error(transparent)]
        Output(#[from] OutputError),
    }

    /// Writes the sheet, or gives it back where it goes to standard output. What is given back for a
    /// file tells what had to be replaced on the sheet.
    pub(in crate::headless) fn write(
        arguments: &SheetArguments,
        study: &Study,
        dates: DateWay,
    ) -> Result<Vec<u8>, SheetFailure> {
        let mut choices = choices(arguments)?;
        choices.dates = dates;
        let copies = || match choices.has(Part::Photos) {
            true => print_copies(&arguments.file, study.survey(), &|| false),
            false => BTreeMap::new(),
        };
        let photos = beside(copies, || worked_out(study, choices.kind, &arguments.file));
        let material = Material::of(study, choices.kind, &photos);
        let (pages, pdf) = Bounds::default().keep(|| {
            let pages = typeset(&contents(&material, &choices))?;
            let pdf = pages.pdf()?;
            Ok::<_, SheetError>((pages, pdf))
        })?;
        if is_standard_output(&arguments.output) {
            return Ok(pdf);
        }
        let texts = [&arguments.profile, &arguments.logo].into_iter().flatten();
        let inputs: Vec<&Path> = texts.map(|path| path.as_path()).collect();
        output::write_beside((&arguments.file, &inputs), &arguments.output, ".pdf", &pdf)?;
        let replaced = pages.replaced().map(|sentence| format!("{sentence}.\n"));
        Ok(replaced.unwrap_or_default().into())
    }

    /// Does one work while another goes on: each has stretches in which it keeps one processor alone busy.
    fn beside<T: Send>(work: impl Fn() -> T + Sync, other: impl FnOnce()) -> T {
        thread::scope(|scope| {
            let beside = thread::Builder::new().spawn_scoped(scope, &work).ok();
            other();
            let done = beside.and_then(|one| one.join().ok());
            // Where no thread starts or it falls, it is done afterwards.
            done.unwrap_or_else(&work)
        })
    }

    /// Works out what takes long, and tells a terminal how far it is.
    fn worked_out(study: &Study, kind: Kind, file: &Path) {
        let (threads, progress) = (processors(), Progress::on_terminal());
        let draws = progress.of("Drawing what is uncertain");
        tasks::sealed_singly(study, threads, &progress.of("Sealing each gap by itself"));
        for study in kind.draws(study) {
            tasks::uncertainty(study, DRAWS, threads, &draws);
        }
        // What one thread does alone is best done while the photos are made ready.
        match kind {
            Kind::Report => _ = study.work(),
            Kind::Quotation | Kind::WorkOrder => _ = study.ordered().work(),
            Kind::Completion | Kind::Invoice => {}
        }
        if matches!(kind, Kind::Report | Kind::Completion) {
            let (folders, shelf) = (
                tasks::data_folders(Some(file), None),
                tasks::Shelf::default(),
            );
            let reading = progress.of("Reading loggers");
            tasks::tried(study, &folders, file.parent(), &shelf, &reading);
        }
        if kind == Kind::Report {
            let winter = progress.of("Going through the winter");
            let places = crate::headless::winter::places(file);
            tasks::winter_laid(study, &places, &winter);
            tasks::winter(study, &places, threads, &winter);
            tasks::winter_after_plan(study, &places, threads, &winter);
            tasks::winter_bands(study, WINTER_DRAWS, threads, &winter);
        }
    }

    fn choices(arguments: &SheetArguments) -> Result<Choices, SheetFailure> {
        let mut choices = Choices::new(arguments.kind);
        choices.paper = arguments.paper;
        choices.units = arguments.units;
        choices.parts.extend(&arguments.with);
        for part in &arguments.without {
            choices.parts.remove(part);
        }
        let mut texts = match &arguments.profile {
            Some(path) => profile(path)?,
            None => WorkshopTexts::default(),
        };
        // What is named on the command line goes before what stands in the file.
        for (own, named) in [
            (&mut texts.name, arguments.workshop.clone()),
            (&mut texts.address, arguments.address.replace("\\n", "\n")),
        ] {
            if !named.is_empty() {
                *own = named;
            }
        }
        let logo = arguments.logo.as_deref().map(logo).transpose()?;
        choices.workshop = Workshop { texts, logo };
        Ok(choices)
    }
}

#[cfg(not(feature = "sheet"))]
mod without_typesetter {
    use super::{DateWay, SheetArguments, Study};
    use crate::survey::{Finding, Survey};

    /// Nothing is printed, so nothing is unprintable.
    pub(in crate::headless) fn unprintable(_survey: &Survey) -> Vec<Finding> {
        Vec::new()
    }

    /// Why there is no sheet.
    #[derive(Debug, thiserror::Error)]
    pub(in crate::headless) enum SheetFailure {
        #[error(
            "this program was built without the job sheet; `gapledger assess` prints the results, `gapledger gaps` and `gapledger plan` write tables"
        )]
        NotBuilt,
    }

    /// Tells that it cannot.
    pub(in crate::headless) fn write(
        _arguments: &SheetArguments,
        _study: &Study,
        _dates: DateWay,
    ) -> Result<Vec<u8>, SheetFailure> {
        Err(SheetFailure::NotBuilt)
    }
}
