//! The program without a window: `assess`, `check`, `gaps`, `plan`, `sheet`, `series`,
//! `measured`, `winter` and `guide`.
//!
//! Everything is made up as text first and then written at once, so that what is printed does not
//! depend on how far a reader got. Results go to standard output; standard error holds one
//! sentence where something failed and, where it is a terminal, how far longer work is.
//!
#![doc = include_str!("json/keys.md")]

mod arguments;
mod asked;
#[cfg(feature = "sheet")]
mod bounds;
mod command;
mod guide;
mod json;
mod measured;
mod packaging;
mod page;
mod progress;
mod series;
mod series_columns;
mod sheet;
mod standard_output;
mod winter;

pub use arguments::Arguments;
#[cfg(feature = "sheet")]
pub use bounds::Bounds;
pub use command::Command;
pub use guide::{GuideArguments, VehicleWord};
pub use series::SeriesArguments;
pub use series_columns::ColumnWord;
pub use sheet::SheetArguments;
pub use winter::{ColourWord, WinterArguments, WinterWord};

use crate::assess::Study;
use crate::assess::drying::Comparison;
use crate::assess::shown::Shown;
use crate::sheet::csv::{self, ByteOrderMark, CsvError};
use crate::sheet::locale::dates_of_the_system;
use crate::survey::date::DateWay;
use crate::survey::{Edit, Finding, Severity, file, findings};
use crate::tasks;
use asked::Asked;
use progress::Progress;
use standard_output::is_standard_output;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;

pub use asked::{AimWord, SetUpWord, WishArguments};

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// All went well: exit code 0.
    Fine,
    /// It was done, but the survey has errors: exit code 1.
    SurveyHasErrors,
    /// It could not be done: exit code 2.
    Failed,
    /// It was done, but somebody could be hurt: exit code 3, whatever else is wrong.
    SurveyHasDangers,
}

impl Outcome {
    /// The exit code.
    #[must_use]
    pub fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::SurveyHasErrors => 1,
            Self::Failed => 2,
            Self::SurveyHasDangers => 3,
        }
    }

    fn of(findings: &[Finding]) -> Self {
        let any = |severity| findings.iter().any(|finding| finding.severity == severity);
        if any(Severity::Danger) {
            Self::SurveyHasDangers
        } else if any(Severity::Error) {
            Self::SurveyHasErrors
        } else {
            Self::Fine
        }
    }

    /// The same, with warnings counted as errors.
    fn strictly_of(findings: &[Finding]) -> Self {
        let warned = findings
            .iter()
            .any(|finding| finding.severity == Severity::Warning);
        match Self::of(findings) {
            Self::Fine if warned => Self::SurveyHasErrors,
            outcome => outcome,
        }
    }
}

/// Why a command could not be done.
#[derive(Debug, thiserror::Error)]
enum Failure {
    #[error(transparent)]
    Load(#[from] file::LoadError),
    #[error(transparent)]
    Csv(#[from] CsvError),
    #[error(transparent)]
    Sheet(#[from] sheet::SheetFailure),
    #[error(transparent)]
    Series(#[from] series::SeriesFailure),
    #[error(transparent)]
    Winter(#[from] winter::WinterFailure),
    #[error(transparent)]
    Guide(#[from] guide::GuideFailure),
    #[error(transparent)]
    Packaging(#[from] packaging::PackagingFailure),
    #[cfg(feature = "sheet")]
    #[error("no sheet was set, because what was asked did not come through: {0}")]
    Pipe(#[from] io::Error),
    #[error("the set-up could not be changed: {0}")]
    SetUp(#[from] crate::survey::EditRefused),
    #[error("the results could not be put into JSON: {0}")]
    Json(#[from] serde_json::Error),
}

/// Does what the command says, on standard output and standard error.
#[must_use]
pub fn run(command: Command) -> ExitCode {
    // Standard error is not held: progress is told on it by whoever works.
    let (mut out, mut errors) = (io::stdout().lock(), io::stderr());
    let outcome = run_in(command, dates_of_the_system(), &mut out, &mut errors);
    ExitCode::from(outcome.code())
}

/// Does what the command says, on the outputs given; dates stay as the survey holds them.
///
/// ```
/// use gapledger::headless::{Command, Outcome, run_to};
/// let (mut out, mut errors) = (Vec::new(), Vec::new());
/// let file = "no-such-survey.ron".into();
/// let units = gapledger::assess::shown::Units::Metric;
/// let check = Command::Check { file, strict: false, units };
/// let outcome = run_to(check, &mut out, &mut errors);
/// assert_eq!(outcome, Outcome::Failed);
/// assert!(out.is_empty());
/// assert!(String::from_utf8_lossy(&errors).starts_with("gapledger: there is no file"));
/// ```
pub fn run_to(command: Command, out: &mut impl Write, errors: &mut impl Write) -> Outcome {
    run_in(command, DateWay::YearMonthDay, out, errors)
}

/// The same with dates written so.
fn run_in(
    command: Command,
    dates: DateWay,
    out: &mut impl Write,
    errors: &mut impl Write,
) -> Outcome {
    // Its pages are told one by one, as they are drawn.
    #[cfg(feature = "sheet")]
    if let Command::SetPages(bounds) = command {
        return match bounds.keep(|| crate::sheet::setting::serve(&mut io::stdin().lock(), out)) {
            Ok(()) => Outcome::Fine,
            Err(error) => complain(&Failure::from(error).to_string(), errors),
        };
    }
    match done(command, dates) {
        Ok((bytes, outcome)) => print(&bytes, outcome, out, errors),
        Err(failure) => complain(&failure.to_string(), errors),
    }
}

/// What the command prints, and how it ends.
fn done(command: Command, dates: DateWay) -> Result<(Vec<u8>, Outcome), Failure> {
    match command {
        Command::Assess {
            file,
            full,
            json,
            set_up,
            budget,
            aim,
            units,
            draws,
        } => {
            // The other pages tell the best set beside the work.
            let in_short = !full && !json;
            let wish = WishArguments {
                set_up,
                budget: budget.filter(|_| in_short),
                aim: aim.filter(|_| in_short),
            };
            let study = wish.study(file::load(&file)?.survey)?;
            let asked = Asked {
                draws,
                aim: aim.unwrap_or_default().into(),
                budget,
            };
            read_loggers(&study, &file);
            worked_out(&study, asked, (&file, !in_short));
            let text = if json {
                json::print(&study, asked)?
            } else {
                let shown = Shown::written(units, dates, study.survey());
                if full {
                    page::render(&study, asked, shown)
                } else {
                    page::in_short(&study, shown)
                }
            };
            Ok((text.into(), Outcome::of(&study.assessment().findings)))
        }
        Command::Check {
            file,
            strict,
            units,
        } => {
            let study = load(&file)?;
            let survey = study.survey();
            let mut findings = study.assessment().findings.clone();
            let compared = study.comparison().iter();
            findings.extend(compared.flat_map(Comparison::over_the_supply).cloned());
            let progress = Progress::on_terminal();
            let looking = progress.of("Looking at the photos");
            let states = tasks::photo_states(&file, survey, tasks::processors(), &looking);
            findings.extend(findings::photos(survey, &states.unwrap_or_default()));
            let folders = tasks::data_folders(Some(&file), None);
            let troubles = tasks::Shelf::default().troubles(&folders, survey);
            findings.extend(findings::data_files(survey, &troubles));
            findings.extend(sheet::unprintable(survey));
            findings.sort_by_key(|finding| finding.severity);
            let outcome = if strict {
                Outcome::strictly_of(&findings)
            } else {
                Outcome::of(&findings)
            };
            let shown = Shown::written(units, dates, survey);
            Ok((page::blocks(&findings, &shown).into(), outcome))
        }
        Command::Gaps {
            file,
            output,
            byte_order_mark,
        } => table(
            &load(&file)?,
            &file,
            (&output, byte_order_mark),
            csv::ledger,
        ),
        Command::Plan {
            file,
            wish,
            output,
            byte_order_mark,
        } => {
            let study = wish.study(file::load(&file)?.survey)?;
            table(&study, &file, (&output, byte_order_mark), csv::plan)
        }
        Command::Measured { file, units } => {
            let study = load(&file)?;
            read_loggers(&study, &file);
            let shown = Shown::written(units, dates, study.survey());
            let outcome = Outcome::of(&study.assessment().findings);
            Ok((measured::text(&study, shown).into(), outcome))
        }
        Command::Winter(arguments) => through_winter(&arguments),
        Command::Guide(arguments) => Ok((guide::write(&arguments)?, Outcome::Fine)),
        // Answered above, page by page.
        #[cfg(feature = "sheet")]
        Command::SetPages(_) => Ok((Vec::new(), Outcome::Fine)),
        Command::Packaging { folder } => {
            packaging::write(&folder)?;
            Ok((Vec::new(), Outcome::Fine))
        }
        Command::Series(arguments) => {
            let understood = series::text(&arguments)?;
            let outcome = if understood.is_whole {
                Outcome::Fine
            } else {
                Outcome::SurveyHasErrors
            };
            Ok((understood.text.into(), outcome))
        }
        Command::Sheet(arguments) => {
            let study = arguments.wish.study(file::load(&arguments.file)?.survey)?;
            let printed = sheet::write(&arguments, &study, dates)?;
            Ok((printed, Outcome::of(&study.assessment().findings)))
        }
    }
}

/// Works out what takes long, and tells a terminal how far it is; `wholly` where all that sealing
/// comes to is asked for.
fn worked_out(study: &Study, asked: Asked, (file, wholly): (&Path, bool)) {
    let (threads, progress) = (tasks::processors(), Progress::on_terminal());
    tasks::sealed_singly(study, threads, &progress.of("Sealing each gap by itself"));
    let search = progress.of("Looking for the best set of gaps");
    if wholly {
        let order = progress.of("Putting the gaps in order");
        tasks::order(study, asked.aim, threads, &order);
        asked.best(study, &mut |share| search(share));
    }
    study.best_wished(&mut |share| search(share));
    let draws = progress.of("Drawing what is uncertain");
    tasks::uncertainty(study, asked.draws, threads, &draws);
    tasks::winter(
        study,
        &winter::places(file),
        threads,
        &progress.of("Going through the winter"),
    );
}

/// Every option through a winter. A table of hours that goes to standard output stands instead of the
/// page.
fn through_winter(arguments: &WinterArguments) -> Result<(Vec<u8>, Outcome), Failure> {
    let mut survey = file::load(&arguments.file)?.survey;
    if let Some(word) = arguments.set_up {
        survey.apply(Edit::SetUp(word.into()))?;
    }
    let study = Study::new(Arc::new(survey));
    let found = winter::through(arguments, &study)?;
    if let Some(output) = &arguments.output {
        let table = found.table()?;
        if is_standard_output(output) {
            return Ok((table, Outcome::of(&study.assessment().findings)));
        }
        let read = [Some(&arguments.file), found.weather_file()];
        let read: Vec<&Path> = read.into_iter().flatten().map(PathBuf::as_path).collect();
        csv::write(&read, output, &table)?;
    }
    let printed = if arguments.json {
        found.json()?.into()
    } else {
        found.page().into()
    };
    Ok((printed, Outcome::of(&study.assessment().findings)))
}

/// Works out the trials of a survey with the files beside it.
fn read_loggers(study: &Study, file: &Path) {
    let folders = tasks::data_folders(Some(file), None);
    let shelf = tasks::Shelf::default();
    tasks::tried(study, &folders, file.parent(), &shelf, &tasks::to_the_end);
}

/// Writes a table of a survey as CSV.
fn table(
    study: &Study,
    file: &Path,
    (output, marked): (&Path, bool),
    bytes: impl Fn(&Study, ByteOrderMark) -> Result<Vec<u8>, CsvError>,
) -> Result<(Vec<u8>, Outcome), Failure> {
    let bytes = bytes(study, ByteOrderMark::asked(marked))?;
    let printed = if is_standard_output(output) {
        bytes
    } else {
        csv::write(&[file], output, &bytes)?;
        Vec::new()
    };
    Ok((printed, Outcome::of(&study.assessment().findings)))
}

fn load(path: &Path) -> Result<Study, file::LoadError> {
    file::load(path).map(|loaded| Study::new(Arc::new(loaded.survey)))
}

fn print(text: &[u8], outcome: Outcome, out: &mut impl Write, errors: &mut impl Write) -> Outcome {
    match out.write_all(text).and_then(|()| out.flush()) {
        // Whoever reads has seen enough, as `head` does: not a failure.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => outcome,
        Err(error) => complain(
            &format!(
                "the results could not be printed: {}",
                file::in_plain_words(&error)
            ),
            errors,
        ),
        Ok(()) => outcome,
    }
}

fn complain(sentence: &str, errors: &mut impl Write) -> Outcome {
    // Where even standard error is closed, the exit code is all that is left to say it.
    let _ = writeln!(errors, "gapledger: {sentence}");
    Outcome::Failed
}

#[cfg(test)]
mod tests;
