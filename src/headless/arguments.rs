//! What the program is called with: a command, or a survey to open in the window.

use super::command::Command;
use clap::Parser;
use std::path::PathBuf;

/// Survey the air leakage of caravans, campers and motorhomes. Without a command the window opens.
#[derive(Parser)]
#[command(name = "gapledger", version, args_conflicts_with_subcommands = true)]
pub struct Arguments {
    /// What to do without a window.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// The survey file to open in the window, NAME.ron
    pub file: Option<PathBuf>,
}
