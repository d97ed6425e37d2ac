//! What is done with a logger's file away from the window.

use super::chosen::{Chosen, LoggerFile, Taken};
use super::known::KnownShapes;
use crate::series::{Mapping, ReadError, Series, read_watched};
use crate::survey::file::{DataError, find_data, keep_data, read_data_file};
use crate::window::background::{Line, Manner, Spawner, Status, Task, Wake};
use crate::window::notices::sentence_of;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What is asked of the worker.
pub enum Ask {
    /// Open a file and guess how it is read.
    Open(PathBuf, Box<KnownShapes>),
    /// Look again at a file of loggers in the survey, or at another in its place.
    Again(Box<Again>),
    /// Look at its first rows again; anew where something was said of it as a whole.
    Look(Box<Chosen>, bool),
    /// Read all of it, and keep the file in this folder.
    Read(Box<Chosen>, PathBuf),
    /// Keep a weather file in this folder.
    KeepWeather(PathBuf, PathBuf),
}

/// Which file is looked at again.
pub struct Again {
    /// Where it is: among the survey's data, or chosen in its place.
    pub file: Whence,
    /// How it is read so far.
    pub mapping: Mapping,
    /// The loggers that stand on it.
    pub taken: Vec<Taken>,
}

/// Where a file is.
pub enum Whence {
    /// In the first of these folders that has it, by this name; the name it had when it was chosen.
    Kept(Vec<PathBuf>, String, String),
    /// Chosen by the user.
    Path(PathBuf),
}

/// A file that was read whole.
#[derive(Debug)]
pub struct ReadFile {
    /// The file, with how it was read and where its sensors hung.
    pub chosen: Box<Chosen>,
    /// Its rows.
    pub series: Arc<Series>,
    /// The name under which the file is kept, or why it is not.
    pub kept: Result<String, String>,
}

/// What comes of it.
pub enum Told {
    /// A file to be looked at.
    Opened(Box<Chosen>),
    /// It was looked at again.
    Looked(Box<Chosen>),
    /// It was read.
    Read(ReadFile),
    /// A weather file is kept.
    WeatherKept {
        /// Its name by its content.
        name: String,
        /// The name that it had.
        original: String,
    },
    /// It could not be read whole; it is to be looked at again.
    NotRead(Box<Chosen>),
    /// Nothing can be done with it: a sentence.
    Refused(String),
}

/// The worker for loggers' files.
pub struct Worker {
    task: Task<Ask, Told>,
    /// Name of the file being read.
    reading: Option<String>,
}

impl Worker {
    /// Nothing asked yet.
    #[must_use]
    pub fn new(spawner: &Spawner, wake: &Wake) -> Self {
        let manner = Manner::at_once("The logger's file could not be read");
        Self {
            task: Task::new(spawner, wake, manner, work),
            reading: None,
        }
    }

    /// Asks for something; what was asked before and has not come back is given up.
    ///
    /// # Errors
    /// A sentence, when no worker could be started.
    pub fn ask(&mut self, ask: Ask) -> Result<(), String> {
        self.reading = match &ask {
            Ask::Open(path, _) | Ask::KeepWeather(path, _) => Some(name_of(path)),
            Ask::Read(chosen, _) => Some(chosen.file.name.clone()),
            Ask::Again(again) => Some(match &again.file {
                Whence::Kept(_, _, original) => original.clone(),
                Whence::Path(path) => name_of(path),
            }),
            Ask::Look(..) => None,
        };
        self.task.submit(ask)
    }

    /// Gives up what is being done.
    pub fn stop(&mut self) {
        self.task.forget();
        self.reading = None;
    }

    /// What has come back; a sentence says what went wrong inside the program.
    pub fn collect(&mut self) -> (Vec<Told>, Option<String>) {
        let collected = self.task.collect();
        if self.task.status() == Status::Idle {
            self.reading = None;
        }
        collected
    }

    /// The file that is being read and which share of it is, 0…1.
    #[must_use]
    pub fn reading(&self) -> Option<(&str, f32)> {
        match (&self.reading, self.task.status()) {
            (Some(name), Status::Working(share)) => Some((name, share)),
            _ => None,
        }
    }
}

fn work(ask: Ask, line: &Line<'_, Told>) {
    line.send(match ask {
        Ask::Open(path, known) => match open(&path, &known) {
            Ok(chosen) => Told::Opened(Box::new(chosen)),
            Err(sentence) => Told::Refused(sentence),
        },
        Ask::Again(again) => match open_again(*again) {
            Ok(chosen) => Told::Opened(Box::new(chosen)),
            Err(sentence) => Told::Refused(sentence),
        },
        Ask::KeepWeather(path, folder) => {
            let original = name_of(&path);
            let kept = read(&path).and_then(|bytes| {
                keep_data(&folder, &bytes, &original).map_err(|error| sentence_of(&error))
            });
            match kept {
                Ok(name) => Told::WeatherKept { name, original },
                Err(sentence) => Told::Refused(sentence),
            }
        }
        Ask::Look(chosen, anew) => Told::Looked(Box::new(chosen.looked_at(anew))),
        Ask::Read(chosen, folder) => match rows(&chosen.file, &chosen.mapping, line) {
            Ok(series) => Told::Read(ReadFile {
                kept: keep_data(&folder, &chosen.file.bytes, &chosen.file.name)
                    .map_err(|error| sentence_of(&error)),
                chosen,
                series: Arc::new(series),
            }),
            Err(ReadError::Stopped) => return,
            Err(error) => {
                let mut chosen = chosen;
                chosen.refused = format!("The file cannot be read so: {error}.");
                Told::NotRead(chosen)
            }
        },
    });
}

fn rows(file: &LoggerFile, mapping: &Mapping, line: &Line<'_, Told>) -> Result<Series, ReadError> {
    read_watched(&file.bytes, mapping, &mut |share| line.progress(share))
}

fn name_of(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
}

/// The bytes of a file; what is no regular file, or too large, is refused before it is read.
fn read(path: &Path) -> Result<Vec<u8>, String> {
    read_data_file(path).map_err(|error| match error {
        DataError::Missing { .. } => format!("There is no file {}.", path.display()),
        error => sentence_of(&error),
    })
}

/// Opens a file; what is no regular file, or too large, is refused before it is read.
fn open(path: &Path, known: &KnownShapes) -> Result<Chosen, String> {
    let file = chosen_file(path)?;
    let quoted = format!("\u{201c}{}\u{201d}", file.name);
    Chosen::of(file, |guess| known.mapping(guess)).map_err(|error| format!("{quoted}: {error}."))
}

/// Opens a file of loggers that are in the survey, or another in its place.
fn open_again(again: Again) -> Result<Chosen, String> {
    let file = match again.file {
        Whence::Path(path) => chosen_file(&path)?,
        Whence::Kept(folders, name, original) => {
            let bytes = find_data(&folders, &name).map_err(|error| sentence_of(&error))?;
            Arc::new(LoggerFile {
                path: PathBuf::from(&name),
                name: original,
                bytes,
            })
        }
    };
    let quoted = format!("\u{201c}{}\u{201d}", file.name);
    Chosen::again(file, again.mapping, again.taken).map_err(|error| format!("{quoted}: {error}."))
}

fn chosen_file(path: &Path) -> Result<Arc<LoggerFile>, String> {
    let bytes = read(path)?;
    let (path, name) = (path.to_owned(), name_of(path));
    Ok(Arc::new(LoggerFile { path, name, bytes }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::background::inline;
    use std::fs;

    fn worker() -> Worker {
        Worker::new(&inline(), &(Arc::new(|| {}) as Wake))
    }

    fn refused(path: &Path) -> String {
        let mut worker = worker();
        worker
            .ask(Ask::Open(path.to_owned(), Box::default()))
            .unwrap();
        match worker.collect().0.pop() {
            Some(Told::Refused(sentence)) => sentence,
            _ => panic!("{} was opened", path.display()),
        }
    }

    #[test]
    fn what_is_no_file_of_readings_is_refused_by_a_sentence() {
        let folder = tempfile::tempdir().unwrap();
        assert!(refused(folder.path()).contains("a folder, a pipe or a device"));
        assert!(refused(&folder.path().join("gone.csv")).contains("There is no file"));
        let prose = folder.path().join("prose.txt");
        fs::write(&prose, "Nothing was read here.\n").unwrap();
        assert!(refused(&prose).contains("no row with a time and a number"));
        // A file with a hole of two gigabytes takes no room on the disk, and is not read.
        let large = folder.path().join("large.csv");
        fs::File::create(&large).unwrap().set_len(2 << 30).unwrap();
        assert!(refused(&large).contains("larger than 256 MB"));
    }

    #[test]
    fn a_file_is_opened_said_and_read_and_a_bad_line_leads_back_to_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("days.csv");
        let mut text = String::from("Time,Temp °C\n");
        for day in 1..=28 {
            text.push_str(&format!("2026-01-{day:02} 00:00,{day}\n"));
        }
        fs::write(&path, &text).unwrap();
        let mut worker = worker();
        let open = |worker: &mut Worker| {
            worker.ask(Ask::Open(path.clone(), Box::default())).unwrap();
            match worker.collect().0.pop() {
                Some(Told::Opened(chosen)) => chosen,
                _ => panic!("not opened"),
            }
        };
        let chosen = open(&mut worker);
        worker
            .ask(Ask::Read(chosen, folder.path().join("kept")))
            .unwrap();
        match worker.collect().0.pop() {
            Some(Told::Read(read)) => {
                assert_eq!(read.series.times_s.len(), 28);
                // The file is kept as it was, under a name of its own.
                let kept = folder.path().join("kept").join(read.kept.unwrap());
                assert_eq!(fs::read(kept).unwrap(), text.as_bytes());
            }
            _ => panic!("not read"),
        }
        for more in 0..60 {
            text.push_str(&format!("2026-03-01 00:{more:02},5\n"));
        }
        text.push_str("2026-04-01 00:00,5 ±1\n");
        fs::write(&path, &text).unwrap();
        let chosen = open(&mut worker);
        worker
            .ask(Ask::Read(chosen, folder.path().join("kept")))
            .unwrap();
        match worker.collect().0.pop() {
            Some(Told::NotRead(chosen)) => {
                assert!(
                    chosen.refused.contains("line 90, column 2"),
                    "{}",
                    chosen.refused
                );
            }
            _ => panic!("read"),
        }
    }
}
