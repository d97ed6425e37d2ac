//! What a file held, told by its length and a hash.

use std::fmt;

/// What a file held when it was loaded or saved, to notice that somebody else has written it.
///
/// It compares contents, not times: a file that was only touched is not changed, and a change
/// within the clock's grain is noticed. As text it may be kept from one run of the program to
/// another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileStamp {
    length: u64,
    hash: blake3::Hash,
}

impl FileStamp {
    /// The stamp of a file with these bytes.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self {
            length: bytes.len() as u64,
            hash: blake3::hash(bytes),
        }
    }

    /// The stamp that [`Display`](fmt::Display) wrote: the length and the hash, with a hyphen
    /// between them.
    #[must_use]
    pub fn from_text(text: &str) -> Option<Self> {
        let (length, hash) = text.split_once('-')?;
        Some(Self {
            length: length.parse().ok()?,
            hash: blake3::Hash::from_hex(hash).ok()?,
        })
    }
}

impl fmt::Display for FileStamp {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}-{}", self.length, self.hash.to_hex())
    }
}
