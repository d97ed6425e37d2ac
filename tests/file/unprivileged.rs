//! What the system's permissions refuse, tried by a user who has none.
//!
//! Root is refused nothing by file modes. So the test starts itself again as another user, who
//! first makes sure that a plain write really is refused.

#![cfg(unix)]

use crate::known;
use crate::saving::names;
use gapledger::survey::file::{
    Backups, LoadError, Overwrite, PhotoState, SaveError, SaveStep, load, photo_state, protection,
    save,
};
use std::fs;
use std::io::ErrorKind::PermissionDenied;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Names the folder to the second start.
const FOLDER: &str = "GAPLEDGER_TEST_FOLDER";

fn set_mode(path: &Path, mode: u32) {
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
}

fn is_root() -> bool {
    let answer = Command::new("id").arg("-u").output().unwrap();
    answer.stdout.trim_ascii() == b"0"
}

#[test]
fn permissions_are_respected() {
    if let Some(folder) = std::env::var_os(FOLDER) {
        tried_by_another(&PathBuf::from(folder));
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    set_mode(folder.path(), 0o755);
    let secret = folder.path().join("secret.ron");
    let protected = folder.path().join("protected.ron");
    let locked = folder.path().join("locked");
    let open = folder.path().join("open");
    let photos = folder.path().join("secret.photos");
    fs::create_dir(&locked).unwrap();
    fs::create_dir(&open).unwrap();
    set_mode(&open, 0o777);
    fs::create_dir(&photos).unwrap();
    let in_locked = locked.join("van.ron");
    let foreign = open.join("foreign.ron");
    for (path, mode) in [
        (&secret, 0o000),
        (&protected, 0o444),
        (&in_locked, 0o666),
        (&foreign, 0o644),
    ] {
        fs::write(path, known::FILE).unwrap();
        set_mode(path, mode);
    }
    fs::write(photos.join("1.jpg"), b"picture").unwrap();
    set_mode(&photos.join("1.jpg"), 0o000);
    set_mode(&locked, 0o555);

    // The other user may not get into the folder that this program was built in.
    let program = folder.path().join("again");
    fs::copy(std::env::current_exe().unwrap(), &program).unwrap();
    set_mode(&program, 0o755);
    let mut command = match is_root() {
        true => {
            let mut command = Command::new("setpriv");
            command.args(["--reuid=65534", "--regid=65534", "--clear-groups"]);
            command.arg(&program);
            command
        }
        false => Command::new(&program),
    };
    let answer = command
        .args(["--exact", "unprivileged::permissions_are_respected"])
        .current_dir(folder.path())
        .env(FOLDER, folder.path())
        .output()
        .unwrap();
    // So that the folder can be removed by who made it.
    set_mode(&locked, 0o755);
    let said = String::from_utf8_lossy(&answer.stdout);
    assert!(answer.status.success(), "{said}");
    assert!(said.contains("1 passed"), "it was not tried: {said}");

    assert_eq!(names(&locked), ["van.ron"]);
    set_mode(&secret, 0o644);
    assert_eq!(names(&open), ["foreign.ron"]);
    for path in [&secret, &protected, &in_locked, &foreign] {
        assert_eq!(fs::read_to_string(path).unwrap(), known::FILE);
    }
}

/// Runs as a user without permissions.
fn tried_by_another(folder: &Path) {
    let secret = folder.join("secret.ron");
    let protected = folder.join("protected.ron");
    let in_locked = folder.join("locked").join("van.ron");
    // Without this the rest would prove nothing.
    assert_eq!(
        fs::write(&protected, "x").unwrap_err().kind(),
        PermissionDenied
    );
    assert_eq!(fs::read(&secret).unwrap_err().kind(), PermissionDenied);
    let beside = in_locked.with_extension("new");
    assert_eq!(fs::write(beside, "x").unwrap_err().kind(), PermissionDenied);

    let error = load(&secret).unwrap_err();
    assert!(matches!(error, LoadError::NoPermission { .. }), "{error:?}");
    assert!(
        error.to_string().starts_with("no permission to read"),
        "{error}"
    );

    let refused = protection(&protected);
    assert!(
        matches!(refused, Some(SaveError::ReadOnly { .. })),
        "{refused:?}"
    );
    let refused = protection(&in_locked);
    assert!(
        matches!(refused, Some(SaveError::ReadOnlyFolder { .. })),
        "{refused:?}"
    );

    let survey = known::newest();
    let mut backups = Backups::default();
    let stamp = load(&protected).unwrap().stamp;
    let error = save(
        &protected,
        &survey,
        Overwrite::IfUnchanged(&stamp),
        &mut backups,
    );
    assert!(matches!(error.unwrap_err(), SaveError::ReadOnly { .. }));

    // The folder would let a rename get round the owner's protection. The owner is somebody else
    // only where root has started the test.
    let foreign = folder.join("open").join("foreign.ron");
    if fs::File::options().write(true).open(&foreign).is_err() {
        let stamp = load(&foreign).unwrap().stamp;
        let overwrite = Overwrite::IfUnchanged(&stamp);
        let error = save(&foreign, &survey, overwrite, &mut backups).unwrap_err();
        assert!(matches!(error, SaveError::ReadOnly { .. }), "{error:?}");
    }

    let stamp = load(&in_locked).unwrap().stamp;
    let error = save(
        &in_locked,
        &survey,
        Overwrite::IfUnchanged(&stamp),
        &mut backups,
    );
    let error = error.unwrap_err();
    let SaveError::Failed { step, .. } = &error else {
        panic!("{error:?}");
    };
    assert_eq!(*step, SaveStep::KeepPrevious);
    assert!(
        error
            .to_string()
            .contains("The file on the disk is unchanged"),
        "{error}"
    );

    let new = folder.join("locked").join("new.ron");
    let error = save(&new, &survey, Overwrite::Never, &mut backups).unwrap_err();
    assert!(
        matches!(
            error,
            SaveError::Failed {
                step: SaveStep::Create,
                ..
            }
        ),
        "{error:?}"
    );
    assert_eq!(photo_state(&secret, "1.jpg"), PhotoState::Unreadable);
}
