//! The workshop's own texts, read from a file.

use super::choices::WorkshopTexts;
use crate::survey::file::{LoadError, in_plain_words, read_file};
use serde_json::error::Category;
use std::io;
use std::path::{Path, PathBuf};

/// The largest file that is read, bytes: terms are no book.
const LARGEST: u64 = 64 * 1024;

/// Why a profile cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum ProfileError {
    /// It cannot be read.
    #[error("the workshop's profile {path:?} could not be read: {}", in_plain_words(.source))]
    Io {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// It is too large, or no ordinary file.
    #[error("the workshop's profile {path:?} is no text file of at most 64 kB")]
    NoText {
        /// The file.
        path: PathBuf,
    },
    /// It is not what a profile is.
    #[error(
        "the workshop's profile {path:?} could not be understood ({why}): write {{\"name\": \"…\", \"terms\": \"…\"}} \
         with any of name, address, tax_number, payment, terms, warranty, acceptance"
    )]
    Json {
        /// The file.
        path: PathBuf,
        /// What is wrong, and where.
        why: String,
    },
}

/// Reads a profile.
///
/// # Errors
/// [`ProfileError`].
pub fn profile(path: &Path) -> Result<WorkshopTexts, ProfileError> {
    let failed = |source| ProfileError::Io {
        path: path.to_owned(),
        source,
    };
    let no_text = || ProfileError::NoText {
        path: path.to_owned(),
    };
    let bytes = read_file(path, LARGEST).map_err(|error| match error {
        LoadError::Missing { .. } => failed(io::ErrorKind::NotFound.into()),
        LoadError::NoPermission { .. } => failed(io::ErrorKind::PermissionDenied.into()),
        LoadError::Unreadable { source, .. } => failed(source),
        _ => no_text(),
    })?;
    let text = std::str::from_utf8(&bytes).map_err(|_| no_text())?;
    // Some editors put a byte order mark in front; it means nothing in UTF-8.
    let text = text.trim_start_matches('\u{feff}');
    serde_json::from_str(text).map_err(|error| ProfileError::Json {
        path: path.to_owned(),
        why: why(&error),
    })
}

/// Most letters of a word of the file that are repeated.
const MOST_REPEATED: usize = 60;

/// What is wrong with a profile, and where.
fn why(error: &serde_json::Error) -> String {
    let (line, column) = (error.line(), error.column());
    match error.classify() {
        Category::Eof => "it ends too early: a quote or a bracket is missing".to_owned(),
        Category::Data => {
            let said = error.to_string();
            // The reader puts the name of a field, and nothing else, in such quotes first.
            let word = said.split('`').nth(1).unwrap_or_default();
            let word: String = word.escape_debug().take(MOST_REPEATED).collect();
            if said.starts_with("unknown field") {
                format!("line {line}: it has no text called \u{201c}{word}\u{201d}")
            } else if said.starts_with("duplicate field") {
                format!("line {line}: \u{201c}{word}\u{201d} stands twice")
            } else {
                format!(
                    "line {line}: a text in double quotes should stand in front of column {column}"
                )
            }
        }
        Category::Syntax | Category::Io => format!(
            "line {line}, column {column}: a quote, comma, colon or bracket is missing or too many here"
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_profile_holds_any_of_the_texts_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("workshop.json");
        let read = |text: &str| {
            std::fs::write(&path, text).unwrap();
            profile(&path)
        };
        let texts = read(r#"{"name": "Invented Workshop", "terms": "Paid\nwhen done."}"#).unwrap();
        assert_eq!(
            (texts.name.as_str(), texts.terms.as_str()),
            ("Invented Workshop", "Paid\nwhen done.")
        );
        assert_eq!(texts.warranty, "");
        for (wrong, said) in [
            ("{\"owner\": \"x\"}", "owner"),
            ("", "ends too early"),
            ("{\"name\": \"x", "ends too early"),
            ("[1]", "text in double quotes"),
            ("{\"name\": 1}", "text in double quotes"),
            ("{name: 1}", "line 1, column 2"),
            ("{\"name\": \"x\", \"name\": \"y\"}", "stands twice"),
        ] {
            let sentence = read(wrong).unwrap_err().to_string();
            assert!(
                sentence.contains(said) && sentence.contains("acceptance"),
                "{sentence}"
            );
        }
        assert_eq!(read("\u{feff}{\"name\": \"x\"}").unwrap().name, "x");
        #[cfg(target_os = "linux")]
        {
            // What calls itself empty and is not may make a reader wait for ever.
            let version = profile(Path::new("/proc/version")).unwrap_err();
            assert!(version.to_string().contains("ends too early"), "{version}");
        }
        assert!(matches!(
            profile(folder.path()),
            Err(ProfileError::NoText { .. })
        ));
        assert!(matches!(
            profile(&folder.path().join("gone")),
            Err(ProfileError::Io { .. })
        ));
        for one in WorkshopTexts::ALL {
            let mut texts = read(&format!("{{\"{}\": \"own\"}}", one.key)).unwrap();
            assert_eq!((one.of)(&mut texts), "own", "{}", one.key);
        }
    }
}
