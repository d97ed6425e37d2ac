//! Saving: what is written, what is kept, and what is never overwritten.

use crate::known;
use gapledger::survey::file::{
    Backups, FileStamp, Overwrite, ParseError, SaveError, backup_path, load, print, save,
};
use gapledger::survey::{Survey, VehicleKind};
use std::fs;
use std::path::{Path, PathBuf};

/// A folder with a file of the known survey in it.
fn folder_with_file() -> (tempfile::TempDir, PathBuf, FileStamp) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("van.ron");
    fs::write(&path, known::FILE).unwrap();
    (folder, path, FileStamp::of(known::FILE.as_bytes()))
}

fn titled(title: &str) -> Survey {
    let mut survey = known::newest();
    survey.header.title = title.to_owned();
    survey
}

/// Saves over the file with this stamp, as the first save of a run of the program.
fn save_over(path: &Path, survey: &Survey, stamp: &FileStamp) {
    let overwrite = Overwrite::IfUnchanged(stamp);
    save(path, survey, overwrite, &mut Backups::default()).unwrap();
}

/// The names in a folder, in order.
pub(crate) fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn a_new_survey_is_saved_and_loaded_again() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("new.ron");
    let survey = Survey::new(VehicleKind::PanelVan);
    let stamp = save(&path, &survey, Overwrite::Never, &mut Backups::default()).unwrap();
    let loaded = load(&path).unwrap();
    assert_eq!(loaded.survey, survey);
    assert_eq!(loaded.stamp, stamp);
    assert_eq!(names(folder.path()), ["new.ron"]);
}

#[test]
fn the_version_before_is_kept_once_in_a_run() {
    let (folder, path, _) = folder_with_file();
    let mut backups = Backups::default();
    let stamp = load(&path).unwrap().stamp;
    let first = titled("first");
    let stamp = save(&path, &first, Overwrite::IfUnchanged(&stamp), &mut backups).unwrap();
    assert_eq!(fs::read_to_string(backup_path(&path)).unwrap(), known::FILE);
    save(
        &path,
        &titled("second"),
        Overwrite::IfUnchanged(&stamp),
        &mut backups,
    )
    .unwrap();
    assert_eq!(fs::read_to_string(backup_path(&path)).unwrap(), known::FILE);
    assert_eq!(load(&path).unwrap().survey, titled("second"));
    assert_eq!(names(folder.path()), ["van.ron", "van.ron.bak"]);

    // The next run keeps what it found.
    let stamp = load(&path).unwrap().stamp;
    let third = titled("third");
    save_over(&path, &third, &stamp);
    assert_eq!(
        fs::read_to_string(backup_path(&path)).unwrap(),
        print(&titled("second"))
    );
}

#[test]
fn a_file_that_somebody_else_changed_is_not_overwritten_unasked() {
    let (folder, path, stamp) = folder_with_file();
    // One letter, so that the length is the same, and the time put back.
    let theirs = known::FILE.replace("Invented vehicle 1", "Invented vehicle 2");
    let time = fs::metadata(&path).unwrap().modified().unwrap();
    fs::write(&path, &theirs).unwrap();
    let file = fs::File::options().write(true).open(&path).unwrap();
    file.set_modified(time).unwrap();

    let mut backups = Backups::default();
    let mine = titled("mine");
    let error = save(&path, &mine, Overwrite::IfUnchanged(&stamp), &mut backups).unwrap_err();
    assert!(
        matches!(error, SaveError::ChangedOnDisk { .. }),
        "{error:?}"
    );
    assert!(
        error.to_string().contains("has not been overwritten"),
        "{error}"
    );
    assert_eq!(fs::read_to_string(&path).unwrap(), theirs);
    assert_eq!(names(folder.path()), ["van.ron"]);

    save(&path, &mine, Overwrite::Anyway, &mut backups).unwrap();
    assert_eq!(load(&path).unwrap().survey, mine);
    // What they wrote is still there.
    assert_eq!(fs::read_to_string(backup_path(&path)).unwrap(), theirs);
}

#[test]
fn a_file_that_was_only_touched_is_unchanged() {
    let (_folder, path, stamp) = folder_with_file();
    let file = fs::File::options().write(true).open(&path).unwrap();
    file.set_modified(std::time::UNIX_EPOCH).unwrap();
    let mine = titled("mine");
    save_over(&path, &mine, &stamp);
    assert_eq!(load(&path).unwrap().survey, mine);
}

#[test]
fn a_file_that_is_gone_is_written_anew() {
    let (folder, path, stamp) = folder_with_file();
    fs::remove_file(&path).unwrap();
    let mine = titled("mine");
    save_over(&path, &mine, &stamp);
    assert_eq!(load(&path).unwrap().survey, mine);
    assert_eq!(names(folder.path()), ["van.ron"]);
}

#[test]
fn a_new_name_never_overwrites_a_file() {
    let (folder, path, _) = folder_with_file();
    let mut backups = Backups::default();
    let error = save(&path, &titled("mine"), Overwrite::Never, &mut backups).unwrap_err();
    assert!(matches!(error, SaveError::Exists { .. }), "{error:?}");
    assert_eq!(fs::read_to_string(&path).unwrap(), known::FILE);
    assert_eq!(names(folder.path()), ["van.ron"]);
}

#[test]
fn places_where_no_file_can_be_are_named() {
    let (folder, path, stamp) = folder_with_file();
    let mut backups = Backups::default();
    let survey = titled("mine");
    let error = save(folder.path(), &survey, Overwrite::Anyway, &mut backups).unwrap_err();
    assert!(matches!(error, SaveError::IsFolder { .. }), "{error:?}");
    let nowhere = folder.path().join("none").join("van.ron");
    let error = save(&nowhere, &survey, Overwrite::Never, &mut backups).unwrap_err();
    assert!(matches!(error, SaveError::NoFolder { .. }), "{error:?}");

    // Write protection holds for everybody, also where a rename would get round it.
    let mut mode = fs::metadata(&path).unwrap().permissions();
    mode.set_readonly(true);
    fs::set_permissions(&path, mode).unwrap();
    for overwrite in [Overwrite::IfUnchanged(&stamp), Overwrite::Anyway] {
        let error = save(&path, &survey, overwrite, &mut backups).unwrap_err();
        assert!(matches!(error, SaveError::ReadOnly { .. }), "{error:?}");
    }
    assert_eq!(fs::read_to_string(&path).unwrap(), known::FILE);
    assert_eq!(names(folder.path()), ["van.ron"]);
}

#[test]
fn a_survey_that_could_not_be_loaded_again_is_not_saved() {
    let (folder, path, stamp) = folder_with_file();
    let mut not_a_number = known::newest();
    not_a_number.vehicle.length_m = Some(f64::NAN);
    let mut leads_elsewhere = known::newest();
    leads_elsewhere.gaps[0]
        .photos
        .push(gapledger::survey::Photo::new("../x.jpg"));
    for (survey, part) in [
        (not_a_number, "this number is not finite"),
        (leads_elsewhere, "is not a plain file name"),
    ] {
        let overwrite = Overwrite::IfUnchanged(&stamp);
        let error = save(&path, &survey, overwrite, &mut Backups::default()).unwrap_err();
        assert!(error.to_string().contains(part), "{error}");
        let SaveError::WouldNotLoad { source } = error else {
            panic!("{error:?}");
        };
        assert!(matches!(source, ParseError::Wrong { .. }), "{source:?}");
    }
    assert_eq!(fs::read_to_string(&path).unwrap(), known::FILE);
    assert_eq!(names(folder.path()), ["van.ron"]);
}

#[cfg(unix)]
#[test]
fn the_mode_of_the_file_is_kept() {
    use std::os::unix::fs::PermissionsExt;
    let (_folder, path, stamp) = folder_with_file();
    for mode in [0o600, 0o640, 0o666] {
        fs::set_permissions(&path, fs::Permissions::from_mode(mode)).unwrap();
        let overwrite = match mode {
            0o600 => Overwrite::IfUnchanged(&stamp),
            _ => Overwrite::Anyway,
        };
        save(&path, &titled("mine"), overwrite, &mut Backups::default()).unwrap();
        for written in [path.clone(), backup_path(&path)] {
            let now = fs::metadata(&written).unwrap().permissions().mode();
            assert_eq!(now & 0o777, mode, "{written:?}");
        }
    }
}

#[cfg(unix)]
#[test]
fn a_symbolic_link_stays_and_its_file_is_written() {
    use std::os::unix::fs::symlink;
    let (folder, path, stamp) = folder_with_file();
    let desk = folder.path().join("desk");
    fs::create_dir(&desk).unwrap();
    let link = desk.join("link.ron");
    symlink("../van.ron", &link).unwrap();
    let mine = titled("mine");
    save_over(&link, &mine, &stamp);
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(load(&path).unwrap().survey, mine);
    assert_eq!(names(&desk), ["link.ron"]);
    assert_eq!(names(folder.path()), ["desk", "van.ron", "van.ron.bak"]);

    // A link to a file that is not there yet makes that file.
    let ahead = desk.join("ahead.ron");
    symlink(folder.path().join("later.ron"), &ahead).unwrap();
    save(&ahead, &mine, Overwrite::Never, &mut Backups::default()).unwrap();
    assert_eq!(load(&folder.path().join("later.ron")).unwrap().survey, mine);
    assert!(fs::symlink_metadata(&ahead).unwrap().is_symlink());

    // A link to itself ends.
    let ring = desk.join("ring.ron");
    symlink("ring.ron", &ring).unwrap();
    assert!(save(&ring, &mine, Overwrite::Never, &mut Backups::default()).is_err());
}
