//! How far longer work is, told to whoever sits before a terminal.
//!
//! One line on standard error, written over again and wiped in the end. Where standard error is no
//! terminal, nothing is told: a log or a pipe holds what went wrong and nothing else.

use crate::physics::counts::whole;
use std::io::{self, IsTerminal, Write};
use std::ops::ControlFlow;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Nothing is told of work that is done before this.
const PATIENCE: Duration = Duration::from_secs(2);

/// The line on a terminal.
pub(super) struct Progress<W: Write> {
    begun: Instant,
    patience: Duration,
    told: Mutex<Told<W>>,
}

struct Told<W> {
    /// Nowhere, where nobody looks.
    to: Option<W>,
    /// What the line says.
    line: String,
}

impl Progress<io::Stderr> {
    /// On standard error, where that is a terminal.
    pub(super) fn on_terminal() -> Self {
        let to = io::stderr();
        Self::new(to.is_terminal().then_some(to), PATIENCE)
    }
}

impl<W: Write> Progress<W> {
    fn new(to: Option<W>, patience: Duration) -> Self {
        Self {
            begun: Instant::now(),
            patience,
            told: Mutex::new(Told {
                to,
                line: String::new(),
            }),
        }
    }

    /// A watch over work of this name, which never gives it up.
    pub(super) fn of(&self, work: &str) -> impl Fn(f64) -> ControlFlow<()> {
        move |share| {
            self.tell(work, share);
            ControlFlow::Continue(())
        }
    }

    fn tell(&self, work: &str, share: f64) {
        if self.begun.elapsed() < self.patience {
            return;
        }
        let percent = whole(share.clamp(0.0, 1.0) * 100.0);
        let mut told = self.told.lock().unwrap_or_else(PoisonError::into_inner);
        told.write(format!("{work}: {percent} %"));
    }
}

impl<W: Write> Told<W> {
    fn write(&mut self, line: String) {
        let Some(to) = self.to.as_mut().filter(|_| line != self.line) else {
            return;
        };
        let blank = self.line.chars().count();
        // Progress that cannot be written is no reason to stop the work.
        let _ = write!(to, "\r{:blank$}\r{line}", "").and_then(|()| to.flush());
        self.line = line;
    }
}

impl<W: Write> Drop for Progress<W> {
    /// The line makes room for the results.
    fn drop(&mut self) {
        let told = self.told.get_mut().unwrap_or_else(PoisonError::into_inner);
        told.write(String::new());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(patience: Duration) -> String {
        let mut to = Vec::new();
        let progress = Progress::new(Some(&mut to), patience);
        let watch = progress.of("Sealing each gap");
        for share in [0.0, 0.004, 0.5, 1.0] {
            assert!(watch(share).is_continue());
        }
        drop(watch);
        drop(progress);
        String::from_utf8(to).expect("text")
    }

    #[test]
    fn long_work_tells_each_percent_once_and_wipes_its_line_in_the_end() {
        let wiped = " ".repeat("Sealing each gap: 0 %".len());
        let text = written(Duration::ZERO);
        assert!(text.starts_with(&format!(
            "\r\rSealing each gap: 0 %\r{wiped}\rSealing each gap: 50 %"
        )));
        assert!(text.ends_with("Sealing each gap: 100 %\r                       \r"));
        assert_eq!(text.matches("gap: 0 %").count(), 1);
    }

    #[test]
    fn short_work_tells_nothing() {
        assert_eq!(written(Duration::from_secs(3600)), "");
    }
}
