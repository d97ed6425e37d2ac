//! Gapledger: the arguments, then the window or the commands without one.

use gapledger::headless::{Arguments, run};
use std::path::PathBuf;
use std::process::ExitCode;

/// Large pictures come and go in a window: what they held is given back once they are gone.
#[cfg(all(feature = "window", target_os = "linux"))]
#[global_allocator]
static MEMORY: tikv_jemallocator::Jemalloc = tikv_jemallocator::Jemalloc;

fn main() -> ExitCode {
    let arguments = Arguments::of_the_program();
    match arguments.command {
        Some(command) => run(command),
        None => window(arguments.file),
    }
}

#[cfg(feature = "window")]
fn window(file: Option<PathBuf>) -> ExitCode {
    if !gapledger::window::has_display() {
        return no_window("there is no display to open a window on");
    }
    match gapledger::window::run(file) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            let why = gapledger::window::in_words(&error.to_string());
            no_window(&format!("the window could not be opened: {why}"))
        }
    }
}

#[cfg(not(feature = "window"))]
fn window(_file: Option<PathBuf>) -> ExitCode {
    no_window("this program was built without its window")
}

/// One line that names the way without a window; exit code 2.
#[expect(
    clippy::print_stderr,
    reason = "the one line a person without a display reads"
)]
fn no_window(why: &str) -> ExitCode {
    let why = why.replace('\n', " ");
    eprintln!("gapledger: {why}; try `gapledger assess FILE` instead");
    ExitCode::from(2)
}
