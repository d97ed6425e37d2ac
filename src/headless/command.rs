//! The table of commands, from which help, manual pages and completions are made.

use super::asked::{AimWord, SetUpWord, WishArguments, draws, sum_of_money};
#[cfg(feature = "sheet")]
use super::bounds::Bounds;
use super::guide::GuideArguments;
use super::series::SeriesArguments;
use super::sheet::SheetArguments;
use super::winter::WinterArguments;
use crate::assess::shown::Units;
use crate::assess::uncertainty::DRAWS;
use clap::Subcommand;
use std::path::PathBuf;

/// What can be done without a window.
#[derive(Clone, Debug, PartialEq, Subcommand)]
pub enum Command {
    /// Print a survey's results in short: what is wrong, what to buy, what to seal, what never to close
    Assess {
        /// The survey file, NAME.ron
        file: PathBuf,
        /// Print all results: alerts, leakage, air changes, water, heat, sealing, workings
        #[arg(long)]
        full: bool,
        /// Print JSON with documented keys instead of a page to read
        #[arg(long, conflicts_with = "full")]
        json: bool,
        /// Work it out for this set-up instead of the one the file shows
        #[arg(long, value_name = "SET-UP")]
        set_up: Option<SetUpWord>,
        /// Show the best set of gaps to seal for at most this sum of the survey's currency
        #[arg(long, value_name = "SUM", value_parser = sum_of_money)]
        budget: Option<f64>,
        /// What sealing is to save most of
        #[arg(long, value_name = "AIM")]
        aim: Option<AimWord>,
        /// Units that sizes are shown in; JSON stays metric
        #[arg(long, value_enum, default_value_t)]
        units: Units,
        /// Draws of what is uncertain; 0 leaves it out
        #[arg(long, value_name = "NUMBER", default_value_t = DRAWS, value_parser = draws)]
        draws: u32,
    },
    /// Print everything that is wrong, dangerous, doubtful or worth knowing
    ///
    /// Exit codes: 0 where nobody could be hurt and nothing is in error, 1 for errors, 2 where the
    /// survey could not be read, 3 for dangers, which outrank errors. The other commands exit
    /// alike.
    Check {
        /// The survey file, NAME.ron
        file: PathBuf,
        /// Exit 1 for warnings too
        #[arg(long)]
        strict: bool,
        /// Units that sizes are shown in
        #[arg(long, value_enum, default_value_t)]
        units: Units,
    },
    /// Write the ledger of gaps as CSV, units in the headers
    Gaps {
        /// The survey file, NAME.ron
        file: PathBuf,
        /// The CSV file to write, or - for standard output; an old file is replaced
        #[arg(short, long, value_name = "OUT.csv")]
        output: PathBuf,
        /// Begin with a byte-order mark, for spreadsheets that take UTF-8 for another encoding
        #[arg(long)]
        byte_order_mark: bool,
    },
    /// Write the sealing plan as CSV, in the order of work
    Plan {
        /// The survey file, NAME.ron
        file: PathBuf,
        /// What it is to go by instead of what the file says
        #[command(flatten)]
        wish: WishArguments,
        /// The CSV file to write, or - for standard output; an old file is replaced
        #[arg(short, long, value_name = "OUT.csv")]
        output: PathBuf,
        /// Begin with a byte-order mark, for spreadsheets that take UTF-8 for another encoding
        #[arg(long)]
        byte_order_mark: bool,
    },
    /// Write the job sheet as PDF: survey report, quotation, work order, completion sheet, invoice
    Sheet(SheetArguments),
    /// Read a logger's file and print what it understood; exits 1 where it could not
    Series(SeriesArguments),
    /// Print what the measurements in a survey say: fan tests against the gaps found
    Measured {
        /// The survey file, NAME.ron
        file: PathBuf,
        /// Units that sizes are shown in
        #[arg(long, value_enum, default_value_t)]
        units: Units,
    },
    /// Take every option of drying and heating through a winter, hour by hour
    Winter(WinterArguments),
    /// Write the guide as PDF: how to survey a vehicle in an hour, on one page
    Guide(GuideArguments),
    /// Set the sheet that comes through standard input: what the window has its own program do
    #[cfg(feature = "sheet")]
    #[command(hide = true)]
    SetPages(Bounds),
    /// Write manual pages and shell completions into a folder, for packages
    #[command(hide = true)]
    Packaging {
        /// The folder; what it holds under the same names is replaced
        folder: PathBuf,
    },
}
