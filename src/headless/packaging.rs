//! Manual pages and shell completions, made from the command table, so that they never say
//! anything else than the program.

use super::arguments::Arguments;
use crate::survey::file::in_plain_words;
use clap::CommandFactory;
use clap_complete::{Shell, generate_to};
use std::io;
use std::path::{Path, PathBuf};

/// Why they could not be written.
#[derive(Debug, thiserror::Error)]
#[error("{folder} cannot take manual pages and completions: {}", in_plain_words(.source))]
pub(super) struct PackagingFailure {
    folder: PathBuf,
    source: io::Error,
}

/// Shells that are provided for.
const SHELLS: [Shell; 3] = [Shell::Bash, Shell::Zsh, Shell::Fish];

/// Writes `man/NAME.1` for the program and each of its commands, and `completions/` for each shell.
///
/// # Errors
/// [`PackagingFailure`] where the folder cannot be made or written to.
pub(super) fn write(folder: &Path) -> Result<(), PackagingFailure> {
    written(folder).map_err(|source| PackagingFailure {
        folder: folder.to_owned(),
        source,
    })
}

fn written(folder: &Path) -> io::Result<()> {
    let mut command = Arguments::command();
    let completions = folder.join("completions");
    std::fs::create_dir_all(&completions)?;
    for shell in SHELLS {
        generate_to(shell, &mut command, "gapledger", &completions)?;
    }
    let pages = folder.join("man");
    std::fs::create_dir_all(&pages)?;
    // A page for each command; `help COMMAND` says nothing that those do not.
    clap_mangen::generate_to(Arguments::command().disable_help_subcommand(true), &pages)
}
