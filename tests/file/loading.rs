//! Loading from the disk: each way it can fail has its own sentence.

use crate::known;
use gapledger::survey::file::{
    DataError, LARGEST_FILE_BYTES, LoadError, ParseError, PhotoState, load, photo_state,
    photo_states, read_data_file,
};
use std::fs::{self, File};

#[test]
fn a_file_is_loaded() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("van.ron");
    fs::write(&path, known::FILE).unwrap();
    assert_eq!(load(&path).unwrap().survey, known::newest());
}

/// What a file of format 1 never said is asked, whatever it calls its gaps.
#[test]
fn an_old_file_keeps_what_it_says_and_is_asked_the_rest() {
    use gapledger::survey::leave::{Refusal, leave};
    use gapledger::survey::{GapPart, Purpose, Severity, file, findings};
    let text = "(format: 1, vehicle: (kind: panel_van), gaps: [
        (id: 1, zone: 4, facing: nearside, form: grille(material: metal), purpose: unintended),
        (id: 2, zone: 4, facing: nearside, form: round_hole(diameter_mm: 20), state: planned),
        (id: 3, zone: 5, facing: nearside, form: round_hole(diameter_mm: 20), state: planned),
        (id: 4, zone: 5, facing: roof, form: round_hole(), purpose: safety_ventilation),
    ])";
    let survey = file::parse(text).unwrap();
    let why: Vec<Refusal> = survey
        .gaps
        .iter()
        .map(|gap| leave(&survey, gap).unwrap_err())
        .collect();
    assert_eq!(
        why,
        [
            Refusal::PurposeNotConfirmed,
            Refusal::PurposeNotConfirmed,
            Refusal::PartNotSaid,
            Refusal::ProtectsPeople(Purpose::SafetyVentilation),
        ]
    );
    for gap in &survey.gaps[..3] {
        assert_eq!(
            (gap.part, gap.purpose),
            (GapPart::NotSaid, Purpose::Unintended)
        );
    }
    assert!(!survey.appliances_confirmed);
    let found = findings::find(&survey);
    let told = |severity, words: &str| {
        let mut all = found.iter();
        all.any(|one| one.severity == severity && one.sentence.contains(words))
    };
    assert!(told(
        Severity::Danger,
        "gap 2: it is marked planned, but grilles, and gaps among vents"
    ));
    assert!(told(
        Severity::Warning,
        "gap 1: grilles, and gaps among vents, are rarely unintended"
    ));
    assert!(told(
        Severity::Warning,
        "what part it is, is not said of gap 3"
    ));
    assert!(told(
        Severity::Warning,
        "which appliances burn in the vehicle is not confirmed"
    ));
    // What somebody then says is kept by the newest format.
    assert_eq!(file::parse(&file::print(&survey)).unwrap(), survey);
}

#[test]
fn a_missing_file_is_missing() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["none.ron", "none/none.ron"] {
        let error = load(&folder.path().join(name)).unwrap_err();
        assert!(matches!(error, LoadError::Missing { .. }), "{error:?}");
        let sentence = error.to_string();
        assert!(sentence.starts_with("there is no file"), "{sentence}");
        assert!(sentence.contains("none.ron"), "{sentence}");
    }
}

#[test]
fn a_folder_is_a_folder() {
    let folder = tempfile::tempdir().unwrap();
    let error = load(folder.path()).unwrap_err();
    assert!(matches!(error, LoadError::IsFolder { .. }), "{error:?}");
    assert!(
        error
            .to_string()
            .contains("is a folder: choose the survey file")
    );
}

#[test]
fn a_file_of_300_megabytes_is_refused_unread() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("large.ron");
    // Sparse: it takes no room on the disk.
    File::create(&path).unwrap().set_len(300_000_000).unwrap();
    let error = load(&path).unwrap_err();
    assert!(matches!(error, LoadError::TooLarge { .. }), "{error:?}");
    assert!(error.to_string().contains("larger than 16 MiB"), "{error}");
}

#[test]
fn the_largest_size_is_read_and_one_byte_more_is_not() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("large.ron");
    let mut text = known::FILE.to_owned();
    text.push_str(&" ".repeat(usize::try_from(LARGEST_FILE_BYTES).unwrap() - text.len()));
    fs::write(&path, &text).unwrap();
    assert_eq!(load(&path).unwrap().survey, known::newest());
    text.push(' ');
    fs::write(&path, &text).unwrap();
    let error = load(&path).unwrap_err();
    assert!(matches!(error, LoadError::TooLarge { .. }), "{error:?}");
}

#[test]
fn what_is_wrong_inside_is_said_with_file_line_and_column() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("wrong.ron");
    fs::write(&path, "(format: 2,\n vehicle: (kind: other, colour: 3))").unwrap();
    let error = load(&path).unwrap_err();
    let sentence = error.to_string();
    assert!(sentence.contains("wrong.ron"), "{sentence}");
    assert!(
        sentence.contains("line 2, column 25: there is no field `colour`"),
        "{sentence}"
    );

    fs::write(&path, b"(format: 2, \xff").unwrap();
    let error = load(&path).unwrap_err();
    let LoadError::Content { source, .. } = error else {
        panic!("{error:?}");
    };
    assert_eq!(
        source,
        ParseError::NotUtf8 {
            line: 1,
            column: 13
        }
    );
}

#[cfg(unix)]
#[test]
fn what_is_neither_file_nor_folder_is_not_waited_for() {
    let folder = tempfile::tempdir().unwrap();
    let pipe = folder.path().join("pipe.ron");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.unwrap().success());
    for path in [pipe.as_path(), std::path::Path::new("/dev/zero")] {
        let error = load(path).unwrap_err();
        assert!(matches!(error, LoadError::NotAFile { .. }), "{error:?}");
        let error = read_data_file(path).unwrap_err();
        assert!(matches!(error, DataError::NotAFile { .. }), "{error:?}");
    }
}

#[test]
fn photos_are_present_missing_or_unreadable() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("van.ron");
    assert_eq!(photo_state(&path, "1.jpg"), PhotoState::Missing);
    let photos = folder.path().join("van.photos");
    fs::create_dir_all(photos.join("folder.jpg")).unwrap();
    image::RgbImage::new(3, 2)
        .save(photos.join("1.jpg"))
        .unwrap();
    fs::write(photos.join("words.jpg"), b"no picture").unwrap();
    fs::write(folder.path().join("secret"), b"no picture").unwrap();
    assert_eq!(photo_state(&path, "1.jpg"), PhotoState::Present);
    assert_eq!(photo_state(&path, "2.jpg"), PhotoState::Missing);
    assert_eq!(photo_state(&path, "words.jpg"), PhotoState::Broken);
    assert_eq!(photo_state(&path, "folder.jpg"), PhotoState::Unreadable);
    assert_eq!(photo_state(&path, "../secret"), PhotoState::Unreadable);

    let states = photo_states(&path, &known::newest());
    let states: Vec<(&str, PhotoState)> = states
        .iter()
        .map(|(name, state)| (name.as_str(), *state))
        .collect();
    assert_eq!(
        states,
        [
            ("1.jpg", PhotoState::Present),
            ("door seal.png", PhotoState::Missing)
        ]
    );
}
