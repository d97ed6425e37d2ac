//! What the program is called with: a command, or a survey to open in the window.

use super::command::Command;
use clap::Parser;
use clap::error::{ContextKind, ContextValue};
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

impl Arguments {
    /// What this program was called with. Help, or what is wrong, is printed instead, and the program
    /// ends.
    #[must_use]
    pub fn of_the_program() -> Self {
        Self::try_parse().unwrap_or_else(|error| shortened(error).exit())
    }
}

/// Most letters of what was typed that are repeated.
const MOST_REPEATED: usize = 60;

/// The same error, which repeats no more of what was typed than a person reads.
fn shortened(mut error: clap::Error) -> clap::Error {
    for kind in [
        ContextKind::InvalidValue,
        ContextKind::InvalidArg,
        ContextKind::InvalidSubcommand,
    ] {
        let Some(ContextValue::String(typed)) = error.get(kind) else {
            continue;
        };
        if typed.chars().count() > MOST_REPEATED {
            let mut short: String = typed.chars().take(MOST_REPEATED).collect();
            short.push('\u{2026}');
            error.insert(kind, ContextValue::String(short));
        }
    }
    error
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(words: &[&str]) -> String {
        let all = ["gapledger"].iter().chain(words);
        match Arguments::try_parse_from(all) {
            Ok(_) => String::new(),
            Err(error) => shortened(error).to_string(),
        }
    }

    #[test]
    fn what_is_typed_wrong_is_told_in_plain_words_and_not_repeated_whole() {
        let long = "9".repeat(5000);
        for words in [
            ["assess", "f.ron", "--draws", &long],
            ["assess", "f.ron", "--draws", "99999999999999999999"],
            ["assess", "f.ron", "--draws", "x"],
            ["assess", "f.ron", "--draws", "4294967295"],
            ["winter", "f.ron", "--draws", "0"],
            ["winter", "f.ron", "--draws", "1001"],
        ] {
            let told = refused(&words);
            assert!(told.contains("write a whole number from"), "{told}");
            assert!(told.len() < 1000, "{told}");
        }
        for flag in ["--budget", "--set-up"] {
            let told = refused(&["assess", "f.ron", flag, &"x".repeat(5000)]);
            assert!(told.contains('\u{2026}') && told.len() < 1000, "{told}");
        }
        assert_eq!(refused(&["assess", "f.ron", "--draws", "0"]), "");
        assert_eq!(refused(&["winter", "f.ron", "--draws"]), "");
    }
}
