//! How unsaved work is written down.
//!
//! A rescue file is a survey file like any other, so that it can be opened by hand too. Its first
//! line is a comment that says where the survey belongs:
//!
//! ```text
//! // Gapledger rescue 1 (file:Some("/home/ada/van.ron"),stamp:Some("812-5f…"),gaps:3,unix_s:1922837465)
//! #![enable(implicit_some)]
//! (
//!   format: 2,
//!   …
//! ```

use crate::assess::words::counted;
use crate::survey::Survey;
use crate::survey::file::{
    FileStamp, LARGEST_FILE_BYTES, LoadError, ParseError, parse, parse_bytes, print, read_file,
};
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// The first line begins so; the number is the version of what follows.
const MARK: &str = "// Gapledger rescue 1 ";

/// Where a rescued survey belongs, and when it was written down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Belongs {
    /// The file it was opened from or last saved to; `None` if it never had one.
    pub file: Option<PathBuf>,
    /// What that file held then.
    pub stamp: Option<FileStamp>,
    /// When the last change was made.
    pub when: SystemTime,
}

/// The first line as it is written. Frozen: a change needs another number in [`MARK`].
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct FirstLine {
    file: Option<String>,
    /// The file's name in bytes, where it is no text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    file_bytes: Option<Vec<u8>>,
    stamp: Option<String>,
    gaps: usize,
    unix_s: u64,
}

/// The text of a rescue file.
///
/// # Errors
/// A sentence, when the text would not give this very survey back.
pub fn text(belongs: &Belongs, survey: &Survey) -> Result<String, String> {
    let since = belongs.when.duration_since(UNIX_EPOCH).unwrap_or_default();
    let first = FirstLine {
        file: belongs
            .file
            .as_deref()
            .map(|file| file.to_string_lossy().into_owned()),
        file_bytes: belongs.file.as_deref().and_then(bytes_of_no_text),
        stamp: belongs.stamp.as_ref().map(FileStamp::to_string),
        gaps: survey.gaps.len(),
        unix_s: since.as_secs(),
    };
    let first = ron::to_string(&first).map_err(|error| error.to_string())?;
    let body = print(survey);
    match parse(&body) {
        Ok(back) if back == *survey => Ok(format!("{MARK}{first}\n{body}")),
        Ok(_) => Err("it would not read back as it is".to_owned()),
        Err(error) => Err(error.to_string()),
    }
}

/// Reads a rescue file from its text.
///
/// # Errors
/// A sentence that says what is wrong with it.
pub fn read_text(bytes: &[u8]) -> Result<(Belongs, Survey), String> {
    let survey = parse_bytes(bytes).map_err(damage)?;
    let line = bytes
        .split(|&byte| byte == b'\n')
        .next()
        .unwrap_or_default();
    let line = std::str::from_utf8(line).unwrap_or_default();
    let first = line
        .strip_prefix(MARK)
        .ok_or("its first line does not say which file it belongs to")?;
    let first: FirstLine =
        ron::from_str(first).map_err(|error| format!("its first line cannot be read ({error})"))?;
    if first.gaps != survey.gaps.len() {
        return Err(format!(
            "it should hold {} and holds {}",
            counted(first.gaps, "gap", "gaps"),
            survey.gaps.len()
        ));
    }
    let when = UNIX_EPOCH.checked_add(Duration::from_secs(first.unix_s));
    let belongs = Belongs {
        file: first
            .file_bytes
            .map_or_else(|| first.file.map(PathBuf::from), path_of_bytes),
        stamp: first.stamp.as_deref().and_then(FileStamp::from_text),
        when: when.unwrap_or(UNIX_EPOCH),
    };
    Ok((belongs, survey))
}

/// What is wrong, without the advice for survey files: a rescue file has no `.bak`.
fn damage(error: ParseError) -> String {
    match error {
        ParseError::Empty => "it is empty".to_owned(),
        ParseError::Wrong { line, column, .. } | ParseError::NotUtf8 { line, column } => {
            format!("it is cut short or damaged at line {line}, column {column}")
        }
        other => other.to_string(),
    }
}

/// Reads a rescue file.
///
/// # Errors
/// A sentence that says what is wrong with it.
pub fn read(path: &Path) -> Result<(Belongs, Survey), String> {
    match read_file(path, LARGEST_RESCUE_BYTES) {
        Ok(bytes) => read_text(&bytes),
        Err(LoadError::TooLarge { .. }) => Err("it is larger than any survey".to_owned()),
        Err(LoadError::Unreadable { source, .. }) => Err(source.to_string()),
        Err(LoadError::NoPermission { .. }) => Err("reading it is not allowed".to_owned()),
        Err(LoadError::Missing { .. }) => Err("it is not there any more".to_owned()),
        Err(_) => Err("it is no file".to_owned()),
    }
}

/// A survey with its first line.
const LARGEST_RESCUE_BYTES: u64 = LARGEST_FILE_BYTES + 64 * 1024;

#[cfg(unix)]
fn bytes_of_no_text(path: &Path) -> Option<Vec<u8>> {
    use std::os::unix::ffi::OsStrExt;
    match path.to_str() {
        Some(_) => None,
        None => Some(path.as_os_str().as_bytes().to_vec()),
    }
}

#[cfg(unix)]
fn path_of_bytes(bytes: Vec<u8>) -> Option<PathBuf> {
    use std::os::unix::ffi::OsStringExt;
    Some(PathBuf::from(std::ffi::OsString::from_vec(bytes)))
}

/// Elsewhere such a name cannot be kept; the survey is then offered as one without a file.
#[cfg(not(unix))]
fn bytes_of_no_text(path: &Path) -> Option<Vec<u8>> {
    path.to_str().is_none().then(Vec::new)
}

#[cfg(not(unix))]
fn path_of_bytes(_bytes: Vec<u8>) -> Option<PathBuf> {
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::VehicleKind;

    fn belongs(file: Option<PathBuf>) -> Belongs {
        Belongs {
            file,
            stamp: Some(FileStamp::of(b"what stood there")),
            when: UNIX_EPOCH + Duration::from_secs(1_922_837_465),
        }
    }

    #[test]
    fn what_is_written_is_read_back_and_is_a_survey_file() {
        let survey = Survey::new(VehicleKind::PanelVan);
        for file in [None, Some("/far/\"quoted\"\nline.ron".into())] {
            let belongs = belongs(file);
            let text = text(&belongs, &survey).unwrap();
            assert_eq!(
                read_text(text.as_bytes()).unwrap(),
                (belongs, survey.clone())
            );
            assert_eq!(parse(&text).unwrap(), survey);
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_path_that_is_no_text_is_kept() {
        use std::os::unix::ffi::OsStringExt;
        let path = std::ffi::OsString::from_vec(b"/far/\xff\xfe.ron".to_vec());
        let belongs = belongs(Some(path.into()));
        let text = text(&belongs, &Survey::new(VehicleKind::Other)).unwrap();
        assert_eq!(read_text(text.as_bytes()).unwrap().0, belongs);
    }

    #[test]
    fn a_damaged_one_is_told_in_words_wherever_it_is_cut() {
        let text = text(&belongs(None), &Survey::new(VehicleKind::Other)).unwrap();
        let whole = text.trim_end().len();
        for cut in 0..whole {
            assert!(read_text(&text.as_bytes()[..cut]).is_err(), "cut at {cut}");
        }
        assert!(read_text(b"\xff\x00").is_err());
        let other = text.replace("gaps:0", "gaps:4");
        let told = read_text(other.as_bytes()).unwrap_err();
        assert!(told.contains("should hold 4 gaps"), "{told}");
        let unmarked = text.split_once('\n').unwrap().1;
        assert!(
            read_text(unmarked.as_bytes())
                .unwrap_err()
                .contains("first line")
        );
    }
}
