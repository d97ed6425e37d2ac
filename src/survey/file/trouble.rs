//! What the system says of a file that it does not read or write, in plain words.

use std::io::{Error, ErrorKind};

/// Why the system refused, without its numbers.
#[must_use]
pub fn in_plain_words(error: &Error) -> String {
    let words = match error.kind() {
        ErrorKind::NotFound => "there is no such file or folder",
        ErrorKind::PermissionDenied => "permission is missing",
        ErrorKind::NotADirectory => "what should be a folder is a file",
        ErrorKind::IsADirectory => "it is a folder",
        ErrorKind::StorageFull => "the disk is full",
        ErrorKind::ReadOnlyFilesystem => "the disk can be read but not written to",
        ErrorKind::InvalidData => "it is not text in UTF-8",
        _ => {
            let said = error.to_string();
            let words = said.split(" (os error").next().unwrap_or_default();
            return match words {
                "Too many levels of symbolic links" => "the link leads back to itself".to_owned(),
                "File name too long" => "the name is too long".to_owned(),
                other => other.to_owned(),
            };
        }
    };
    words.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_number_of_the_system_is_shown() {
        // Full disk, file for folder, name too long, link to itself, and one without words of its own.
        for number in [28, 20, 36, 40, 5] {
            let said = in_plain_words(&Error::from_raw_os_error(number));
            assert!(!said.is_empty() && !said.contains("os error"), "{said}");
        }
        let other = Error::other("it is no picture");
        assert_eq!(in_plain_words(&other), "it is no picture");
    }
}
