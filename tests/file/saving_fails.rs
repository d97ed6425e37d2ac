//! A failure at every step of a save leaves the old or the new file whole.

use crate::known;
use crate::saving::names;
use gapledger::survey::Survey;
use gapledger::survey::file::{
    Backups, DataError, Disk, FileStamp, KeepError, Overwrite, RealDisk, SaveError, SaveStep,
    carry_data_through, carry_photos_through, keep_data, keep_data_through, keep_photo,
    keep_photo_through, load, print, print_copy_path, save, save_through,
};
use std::fs::{self, File, Metadata};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A disk whose nth step fails, as a full disk or a pulled stick would.
struct FailingDisk {
    steps_before_failure: usize,
    steps: Vec<&'static str>,
    removes: bool,
}

impl FailingDisk {
    fn after(steps_before_failure: usize) -> Self {
        Self {
            steps_before_failure,
            steps: Vec::new(),
            removes: true,
        }
    }

    fn step(&mut self, name: &'static str) -> io::Result<()> {
        self.steps.push(name);
        if self.steps.len() > self.steps_before_failure {
            Err(io::Error::other(format!("{name} was made to fail")))
        } else {
            Ok(())
        }
    }
}

impl Disk for FailingDisk {
    fn create(&mut self, folder: &Path, like: Option<&Metadata>) -> io::Result<(PathBuf, File)> {
        self.step("create")?;
        RealDisk.create(folder, like)
    }

    fn write(&mut self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        if let Err(error) = self.step("write") {
            // Half of it is written when the disk is full.
            file.write_all(&bytes[..bytes.len() / 2])?;
            return Err(error);
        }
        RealDisk.write(file, bytes)
    }

    fn copy(&mut self, from: &Path, to: &mut File) -> io::Result<()> {
        if let Err(error) = self.step("copy") {
            to.write_all(b"(format: 2, ")?;
            return Err(error);
        }
        RealDisk.copy(from, to)
    }

    fn sync(&mut self, file: &File) -> io::Result<()> {
        self.step("sync")?;
        RealDisk.sync(file)
    }

    fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()> {
        self.step("rename")?;
        RealDisk.rename(from, to)
    }

    fn sync_folder(&mut self, folder: &Path) -> io::Result<()> {
        self.step("sync folder")?;
        RealDisk.sync_folder(folder)
    }

    fn remove(&mut self, path: &Path) -> io::Result<()> {
        if self.removes {
            RealDisk.remove(path)
        } else {
            Err(io::Error::other("remove was made to fail"))
        }
    }
}

/// The steps of a save over an old file, in their order.
const STEPS: [&str; 9] = [
    "create",
    "copy",
    "sync",
    "rename",
    "create",
    "write",
    "sync",
    "rename",
    "sync folder",
];

fn changed() -> Survey {
    let mut survey = known::newest();
    survey.header.title = "changed".to_owned();
    survey
}

fn folder_with_file() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("van.ron");
    fs::write(&path, known::FILE).unwrap();
    (folder, path)
}

fn expected_step(failing: usize) -> Option<SaveStep> {
    match failing {
        0..4 => Some(SaveStep::KeepPrevious),
        4 => Some(SaveStep::Create),
        5 => Some(SaveStep::Write),
        6 => Some(SaveStep::Sync),
        7 => Some(SaveStep::Rename),
        _ => None,
    }
}

#[test]
fn the_steps_are_made_in_the_order_that_is_safe() {
    let (_folder, path) = folder_with_file();
    let stamp = FileStamp::of(known::FILE.as_bytes());
    let mut disk = FailingDisk::after(usize::MAX);
    let overwrite = Overwrite::IfUnchanged(&stamp);
    save_through(
        &mut disk,
        &path,
        &changed(),
        overwrite,
        &mut Backups::default(),
    )
    .unwrap();
    assert_eq!(disk.steps, STEPS);
}

#[test]
fn a_failure_at_any_step_leaves_the_old_or_the_new_file_whole() {
    let old_stamp = FileStamp::of(known::FILE.as_bytes());
    let new_text = print(&changed());
    for failing in 0..STEPS.len() {
        let (folder, path) = folder_with_file();
        let mut backups = Backups::default();
        let mut disk = FailingDisk::after(failing);
        let overwrite = Overwrite::IfUnchanged(&old_stamp);
        let error =
            save_through(&mut disk, &path, &changed(), overwrite, &mut backups).unwrap_err();
        assert_eq!(
            disk.steps,
            STEPS[..=failing],
            "nothing more after the failure"
        );

        let on_disk = fs::read_to_string(&path).unwrap();
        let stamp = match (expected_step(failing), error) {
            (Some(expected), SaveError::Failed { step, .. }) => {
                assert_eq!(step, expected);
                assert_eq!(on_disk, known::FILE, "{}", STEPS[failing]);
                old_stamp.clone()
            }
            (None, SaveError::NotConfirmed { stamp, .. }) => {
                assert_eq!(on_disk, new_text);
                assert_eq!(stamp, FileStamp::of(new_text.as_bytes()));
                stamp
            }
            (_, other) => panic!("{}: {other:?}", STEPS[failing]),
        };
        let expected: &[&str] = match failing {
            0..4 => &["van.ron"],
            _ => &["van.ron", "van.ron.bak"],
        };
        assert_eq!(names(folder.path()), expected, "{}", STEPS[failing]);
        if failing >= 4 {
            let kept = fs::read_to_string(folder.path().join("van.ron.bak")).unwrap();
            assert_eq!(kept, known::FILE);
        }

        // The disk is well again: the same save goes through.
        let overwrite = Overwrite::IfUnchanged(&stamp);
        save(&path, &changed(), overwrite, &mut backups).unwrap();
        assert_eq!(load(&path).unwrap().survey, changed());
        let kept = fs::read_to_string(folder.path().join("van.ron.bak")).unwrap();
        assert_eq!(kept, known::FILE);
    }
}

#[test]
fn a_new_file_is_there_whole_or_not_at_all() {
    for failing in 0..5 {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("new.ron");
        let mut disk = FailingDisk::after(failing);
        let mut backups = Backups::default();
        let error = save_through(&mut disk, &path, &changed(), Overwrite::Never, &mut backups);
        match error.unwrap_err() {
            SaveError::NotConfirmed { .. } => {
                assert_eq!(failing, 4);
                assert_eq!(load(&path).unwrap().survey, changed());
            }
            SaveError::Failed { .. } => assert!(names(folder.path()).is_empty()),
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn a_temporary_file_that_cannot_be_removed_does_no_harm() {
    let (_folder, path) = folder_with_file();
    let mut disk = FailingDisk::after(5);
    disk.removes = false;
    let mut backups = Backups::default();
    let error = save_through(
        &mut disk,
        &path,
        &changed(),
        Overwrite::Anyway,
        &mut backups,
    );
    // The error is that of the write, which came first.
    assert!(
        error
            .unwrap_err()
            .to_string()
            .contains("write was made to fail")
    );
    assert_eq!(fs::read_to_string(&path).unwrap(), known::FILE);
    save(&path, &changed(), Overwrite::Anyway, &mut backups).unwrap();
    assert_eq!(load(&path).unwrap().survey, changed());
}

#[test]
fn a_file_changed_while_the_new_one_is_being_written_is_not_overwritten() {
    /// Somebody else writes the file while ours is brought onto the disk.
    struct Busy(PathBuf);
    impl Disk for Busy {
        fn create(
            &mut self,
            folder: &Path,
            like: Option<&Metadata>,
        ) -> io::Result<(PathBuf, File)> {
            RealDisk.create(folder, like)
        }
        fn write(&mut self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
            fs::write(&self.0, "(format: 2, vehicle: (kind: integrated))")?;
            RealDisk.write(file, bytes)
        }
        fn copy(&mut self, from: &Path, to: &mut File) -> io::Result<()> {
            RealDisk.copy(from, to)
        }
        fn sync(&mut self, file: &File) -> io::Result<()> {
            RealDisk.sync(file)
        }
        fn rename(&mut self, from: &Path, to: &Path) -> io::Result<()> {
            RealDisk.rename(from, to)
        }
        fn sync_folder(&mut self, folder: &Path) -> io::Result<()> {
            RealDisk.sync_folder(folder)
        }
        fn remove(&mut self, path: &Path) -> io::Result<()> {
            RealDisk.remove(path)
        }
    }

    let stamp = FileStamp::of(known::FILE.as_bytes());
    for overwrite in [Overwrite::IfUnchanged(&stamp), Overwrite::Never] {
        let (folder, path) = folder_with_file();
        if matches!(overwrite, Overwrite::Never) {
            fs::remove_file(&path).unwrap();
        }
        let mut disk = Busy(path.clone());
        let mut backups = Backups::default();
        let error = save_through(&mut disk, &path, &changed(), overwrite, &mut backups);
        assert!(matches!(
            error.unwrap_err(),
            SaveError::ChangedOnDisk { .. } | SaveError::Exists { .. }
        ));
        let theirs = fs::read_to_string(&path).unwrap();
        assert!(theirs.contains("integrated"));
        assert!(
            names(folder.path())
                .iter()
                .all(|name| name.starts_with("van.ron"))
        );
    }
}

#[test]
fn a_failure_at_any_step_leaves_no_half_of_a_loggers_file_behind() {
    const ROWS: &[u8] = b"time,t\n2026-11-05 14:30,5.0\n";
    for steps in 0.. {
        let folder = tempfile::tempdir().unwrap();
        let mut disk = FailingDisk::after(steps);
        let kept = keep_data_through(&mut disk, folder.path(), ROWS, "a.csv");
        let there: Vec<PathBuf> = fs::read_dir(folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .collect();
        for path in &there {
            assert_eq!(fs::read(path).unwrap(), ROWS, "{}", disk.steps.join(", "));
        }
        if kept.is_ok() {
            assert_eq!(
                disk.steps,
                ["create", "write", "sync", "rename", "sync folder"]
            );
            return;
        }
        assert!(matches!(kept, Err(DataError::Write { .. })));
        // Tried again on a disk that is well, it is there.
        let name = keep_data(folder.path(), ROWS, "a.csv").unwrap();
        assert_eq!(fs::read(folder.path().join(name)).unwrap(), ROWS);
    }
}

/// Every file in a folder and those in it, with its bytes.
fn all_files(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(all_files(&path));
        } else {
            found.push((path.clone(), fs::read(&path).unwrap()));
        }
    }
    found.sort();
    found
}

fn small_photo() -> Vec<u8> {
    let mut bytes = io::Cursor::new(Vec::new());
    image::RgbImage::from_fn(40, 30, |x, y| {
        image::Rgb(if x > y { [90, 20, 10] } else { [0; 3] })
    })
    .write_to(&mut bytes, image::ImageFormat::Png)
    .unwrap();
    bytes.into_inner()
}

#[test]
fn a_failure_at_any_step_leaves_no_half_of_a_photo_behind() {
    let photo = small_photo();
    let whole = tempfile::tempdir().unwrap();
    let name = keep_photo(whole.path(), &photo).unwrap().name;
    let copy = fs::read(print_copy_path(whole.path(), &name)).unwrap();
    for steps in 0.. {
        let folder = tempfile::tempdir().unwrap();
        let mut disk = FailingDisk::after(steps);
        let kept = keep_photo_through(&mut disk, folder.path(), &photo);
        for (path, bytes) in all_files(folder.path()) {
            assert!(bytes == photo || bytes == copy, "{}", path.display());
        }
        if let Ok(kept) = kept {
            // The photo came through; whether its print copy did is no matter.
            assert_eq!(fs::read(folder.path().join(kept.name)).unwrap(), photo);
        } else {
            assert!(matches!(kept, Err(KeepError::Write { .. })));
        }
        if disk.steps.len() <= steps {
            assert_eq!(disk.steps.len(), 10, "the photo and its print copy");
            return;
        }
    }
}

#[test]
fn a_failure_at_any_step_of_carrying_files_along_is_told_and_leaves_no_half_behind() {
    const ROWS: &[u8] = b"time,t\n2026-11-05 14:30,5.0\n";
    let photo = small_photo();
    let held = tempfile::tempdir().unwrap();
    let picture = keep_photo(held.path(), &photo).unwrap().name;
    let rows = keep_data(held.path(), ROWS, "a.csv").unwrap();
    let before = all_files(held.path());
    let copy = fs::read(print_copy_path(held.path(), &picture)).unwrap();
    let from = [held.path().to_owned()];
    for steps in 0.. {
        let folder = tempfile::tempdir().unwrap();
        let mut disk = FailingDisk::after(steps);
        let mut failed = carry_data_through(&mut disk, [&*rows], &from, folder.path());
        failed.extend(carry_photos_through(
            &mut disk,
            [&*picture],
            &from,
            folder.path(),
        ));
        assert_eq!(all_files(held.path()), before, "what is held stays");
        let there = all_files(folder.path());
        for (path, bytes) in &there {
            assert!(
                *bytes == ROWS || *bytes == photo || *bytes == copy,
                "{}",
                path.display()
            );
        }
        for name in [&rows, &picture] {
            let came = there.iter().any(|(path, _)| path.ends_with(name));
            let told = failed.iter().any(|(of, _)| of == name);
            assert!(came || told, "{name} is lost without a word");
        }
        if disk.steps.len() <= steps {
            assert!(failed.is_empty());
            assert_eq!(there.len(), 3);
            return;
        }
    }
}
