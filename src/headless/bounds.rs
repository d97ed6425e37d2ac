//! What one sheet may take of the machine: past that the program ends with a sentence, before the
//! machine stands still.

use crate::sheet::SheetError;
use clap::Args;
use std::io::Write;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread;
use std::time::{Duration, Instant};

/// How often it is looked at.
const LOOK_EVERY: Duration = Duration::from_millis(50);

/// Memory in MB: a report of 1 000 gaps takes 500.
const MEGABYTES: u64 = 2_000;
/// Time in seconds: the same report takes two minutes.
const SECONDS: u64 = 900;

/// What one sheet may take.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Args)]
pub struct Bounds {
    /// Memory that it may take, MB
    #[arg(long, value_name = "MB", default_value_t = MEGABYTES)]
    pub megabytes: u64,
    /// Time that it may take, s
    #[arg(long, value_name = "S", default_value_t = SECONDS)]
    pub seconds: u64,
}

impl Default for Bounds {
    fn default() -> Self {
        Self {
            megabytes: MEGABYTES,
            seconds: SECONDS,
        }
    }
}

impl Bounds {
    /// Does the work. Where it takes more, the process ends with exit code 2 and a sentence on
    /// standard error: a typesetter that is in the midst of a page cannot be stopped otherwise.
    /// Where no watcher can be started, the work is done without.
    pub(super) fn keep<T>(self, work: impl FnOnce() -> T) -> T {
        let (done, ended) = channel::<()>();
        let watcher = thread::Builder::new().name("bounds".to_owned());
        let _watching = watcher.spawn(move || {
            let begun = Instant::now();
            loop {
                if let Some(error) = self.broken(begun.elapsed(), megabytes_held()) {
                    let _ = writeln!(std::io::stderr(), "gapledger: {error}");
                    std::process::exit(2);
                }
                if ended.recv_timeout(LOOK_EVERY) != Err(RecvTimeoutError::Timeout) {
                    return;
                }
            }
        });
        let made = work();
        drop(done);
        made
    }

    fn broken(self, taken: Duration, held: Option<u64>) -> Option<SheetError> {
        let Self { megabytes, seconds } = self;
        if held.is_some_and(|held| held > megabytes) {
            Some(SheetError::TooLarge { megabytes })
        } else if taken > Duration::from_secs(seconds) {
            Some(SheetError::TooSlow { seconds })
        } else {
            None
        }
    }
}

/// Memory that this process holds, MB, where the system tells it in Linux's way.
fn megabytes_held() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmRSS:"))?;
    let kilobytes: u64 = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
    Some(kilobytes / 1000)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_within_its_bounds_is_done() {
        assert_eq!(Bounds::default().keep(|| 2 + 3), 5);
    }

    #[test]
    fn each_bound_has_its_sentence() {
        let bounds = Bounds {
            megabytes: 100,
            seconds: 10,
        };
        let second = Duration::from_secs(1);
        assert_eq!(bounds.broken(second * 10, Some(100)), None);
        assert_eq!(bounds.broken(second * 10, None), None);
        let large = bounds.broken(second, Some(101)).unwrap();
        assert!(
            large
                .to_string()
                .starts_with("the sheet took more than 100 MB")
        );
        let slow = bounds.broken(second * 11, None).unwrap();
        assert!(
            slow.to_string()
                .starts_with("the sheet was not set after 10 seconds")
        );
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn the_system_tells_how_much_is_held() {
        let before = megabytes_held().unwrap();
        let held = vec![1_u8; 60_000_000];
        let with = megabytes_held().unwrap();
        assert!(with > before + 40, "{before} {with} {}", held.len());
    }
}
