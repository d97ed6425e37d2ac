//! The workshop's own texts, read from a file.

use super::choices::WorkshopTexts;
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// The largest file that is read, bytes: terms are no book.
const LARGEST: u64 = 64 * 1024;

/// Why a profile cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum ProfileError {
    /// It cannot be read.
    #[error("the workshop's profile {path:?} could not be read: {source}")]
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
    let about = path.metadata().map_err(failed)?;
    if !about.is_file() || about.len() > LARGEST {
        return Err(no_text());
    }
    let mut text = String::new();
    let read = File::open(path).and_then(|file| file.take(LARGEST).read_to_string(&mut text));
    read.map_err(failed)?;
    serde_json::from_str(&text).map_err(|error| ProfileError::Json {
        path: path.to_owned(),
        why: error.to_string(),
    })
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
            ("", "EOF"),
            ("[1]", "understood"),
        ] {
            let sentence = read(wrong).unwrap_err().to_string();
            assert!(
                sentence.contains(said) && sentence.contains("acceptance"),
                "{sentence}"
            );
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
