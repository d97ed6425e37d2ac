//! What a program leaves behind when it is killed.
//!
//! The test starts itself again: the child drives the window through a script of changes and
//! prints each revision with its time, until it is killed. Then nothing may be damaged, and what
//! is left, on the disk or for a rescue, must be no older than what was printed three seconds
//! before.

use super::small_survey;
use gapledger::survey::file::load;
use gapledger::survey::{Edit, Facing, Form, Gap, GapId, Record, Survey};
use gapledger::window::app::{App, Start};
use gapledger::window::commands::Command as WindowCommand;
use gapledger::window::data_folder::DataFolder;
use gapledger::window::data_folder::{offer, rescue};
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

/// Names the folder to the child.
const FOLDER: &str = "GAPLEDGER_TEST_KILLED_FOLDER";
/// Names the number of its script to the child.
const SCRIPT: &str = "GAPLEDGER_TEST_KILLED_SCRIPT";
/// So many children are killed, unless [`KILLS_ASKED`] says otherwise.
const KILLS: usize = 50;
/// Names another number of kills, such as 500 for a test through a night.
const KILLS_ASKED: &str = "GAPLEDGER_KILLS";

/// How many children are killed.
fn kills() -> usize {
    let asked = std::env::var(KILLS_ASKED).ok();
    asked.map_or(KILLS, |words| words.parse().unwrap())
}

/// So many of them run at a time.
const AT_A_TIME: usize = 6;
/// Work older than this is never lost.
const LOST_AT_MOST_MS: u64 = 3000;
/// Nobody's child any more, it ends by itself.
const LONGEST_LIFE: Duration = Duration::from_secs(60);

/// Numbers that look random and are the same in every run.
struct Numbers(u64);

impl Numbers {
    fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    /// From 0 to so many, the last not included.
    fn below(&mut self, end: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) % end
    }
}

fn now_ms() -> u64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap();
    u64::try_from(since.as_millis()).unwrap()
}

fn revision_of(survey: &Survey) -> u64 {
    let title = survey.header.title.strip_prefix("revision ");
    title.map_or(0, |number| number.parse().unwrap())
}

/// The child: bursts of changes as somebody types them, pauses in which the window sleeps, and
/// now and then a save.
fn edit_until_killed(folder: &Path, script: u64) {
    let began = Instant::now();
    let mut numbers = Numbers::new(script + 1);
    let start = Start {
        data: Some(DataFolder::at(&folder.join("data"))),
        // Results are not looked at here.
        spawner: Arc::new(|_| Ok(())),
        ..Start::test(Some(folder.join("van.ron")))
    };
    let mut window = egui_kittest::Harness::builder().build_eframe(|cc| App::new(cc, start));
    let mut revision = 0;
    while began.elapsed() < LONGEST_LIFE {
        let burst = Duration::from_millis(300 + numbers.below(4200));
        let burst_began = Instant::now();
        while burst_began.elapsed() < burst {
            revision += 1;
            change(&mut window, revision);
            std::thread::sleep(Duration::from_millis(20 + numbers.below(100)));
        }
        if numbers.below(4) == 0 {
            window.state_mut().queue().command(WindowCommand::Save);
            window.step();
            assert!(!window.state_mut().unsaved());
        }
        // The window is not touched: the worker must wake by itself.
        std::thread::sleep(Duration::from_millis(200 + numbers.below(2500)));
    }
}

fn change(window: &mut super::Window<'_>, revision: u64) {
    let mut header = window.state().survey().unwrap().header.clone();
    header.title = format!("revision {revision}");
    let zone = window.state().survey().unwrap().zones[0].id;
    let queue = window.state_mut().queue();
    queue.edit(Edit::Header(header), None);
    if revision.is_multiple_of(5) {
        let id = GapId(1000 + u32::try_from(revision).unwrap());
        let form = Form::RoundHole {
            diameter_mm: Some(3.0),
        };
        let gap = Gap::new(id, zone, Facing::Rear, form);
        queue.edit(Edit::Put(Record::Gap(Box::new(gap))), None);
    }
    window.step();
    assert_eq!(revision_of(window.state().survey().unwrap()), revision);
    let mut out = std::io::stdout().lock();
    writeln!(out, "revision {revision} at {}", now_ms()).unwrap();
    out.flush().unwrap();
}

/// One kill: how it went, in numbers.
struct Outcome {
    /// The last revision printed three seconds before the kill; 0 when it was killed earlier.
    owed: u64,
    /// The last revision printed.
    made: u64,
    /// What is left.
    left: u64,
}

fn kill_one(number: usize) -> Outcome {
    let (folder, path) = small_survey();
    std::fs::rename(path, folder.path().join("van.ron")).unwrap();
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args(["--exact", "killed::at_most_three_seconds_of_work_are_lost"])
        .arg("--nocapture")
        .env(FOLDER, folder.path())
        .env(SCRIPT, number.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let lines = lines_of(&mut child);
    let mut printed = vec![lines.recv_timeout(LONGEST_LIFE).unwrap()];
    // Spread from 0.2 to 6.2 seconds, each somewhere in its own part.
    let part_ms = 6000 / kills() as u64;
    let moment_ms = 200 + part_ms * number as u64 + Numbers::new(number as u64).below(part_ms);
    std::thread::sleep(Duration::from_millis(moment_ms));
    let killed_ms = now_ms();
    child.kill().unwrap();
    child.wait().unwrap();
    printed.extend(lines.iter());
    let owed = printed
        .iter()
        .filter(|(_, at_ms)| at_ms + LOST_AT_MOST_MS <= killed_ms);
    Outcome {
        owed: owed.map(|(revision, _)| *revision).max().unwrap_or(0),
        made: printed.last().unwrap().0,
        left: newest_left(folder.path()),
    }
}

/// The revisions that the child prints, with their times.
fn lines_of(child: &mut Child) -> Receiver<(u64, u64)> {
    let (sender, receiver) = channel();
    let out = BufReader::new(child.stdout.take().unwrap());
    std::thread::spawn(move || {
        for line in out.lines() {
            let line = line.unwrap();
            let words: Vec<&str> = line.split_whitespace().collect();
            // The child may be killed in the middle of a line.
            if let [.., "revision", revision, "at", at_ms] = words.as_slice()
                && at_ms.len() == 13
            {
                let sent = sender.send((revision.parse().unwrap(), at_ms.parse().unwrap()));
                sent.unwrap();
            }
        }
    });
    receiver
}

/// Reads everything that is left: all of it must be whole.
fn newest_left(folder: &Path) -> u64 {
    let saved = load(&folder.join("van.ron")).unwrap().survey;
    let mut newest = revision_of(&saved);
    let backup = folder.join("van.ron.bak");
    if backup.exists() {
        load(&backup).unwrap();
    }
    let offers = offer::look(&DataFolder::at(&folder.join("data")));
    assert!(offers.len() <= 1, "{offers:?}");
    for offer in offers {
        assert!(offer.content.is_ok(), "{offer:?}");
        let (belongs, survey) = rescue::read(&offer.path).unwrap();
        assert_eq!(belongs.file, Some(folder.join("van.ron")));
        newest = newest.max(revision_of(&survey));
    }
    newest
}

/// Three seconds are what the program promises \[A\].
#[test]
fn at_most_three_seconds_of_work_are_lost() {
    if let (Some(folder), Ok(script)) = (std::env::var_os(FOLDER), std::env::var(SCRIPT)) {
        edit_until_killed(Path::new(&folder), script.parse().unwrap());
        return;
    }
    let next = AtomicUsize::new(0);
    let outcomes = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..AT_A_TIME)
            .map(|_| {
                scope.spawn(|| {
                    let mut outcomes = Vec::new();
                    loop {
                        let number = next.fetch_add(1, Ordering::Relaxed);
                        if number >= kills() {
                            return outcomes;
                        }
                        outcomes.push((number, kill_one(number)));
                    }
                })
            })
            .collect();
        let done = workers.into_iter().map(|worker| worker.join().unwrap());
        done.flatten().collect::<Vec<_>>()
    });
    assert_eq!(outcomes.len(), kills());
    for (number, Outcome { owed, made, left }) in &outcomes {
        assert!(left >= owed, "kill {number}: {left} is left of {owed} owed");
        // A change may be written down before its line is printed.
        assert!(*left <= made + 1, "kill {number}: {left} of {made} made");
    }
    // The test must be able to fail: something must have been owed, and not all of it saved.
    let owing = outcomes.iter().filter(|(_, outcome)| outcome.owed > 0);
    assert!(owing.count() >= kills() / 3);
}
