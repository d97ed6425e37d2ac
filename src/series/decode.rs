//! From bytes to text.

use std::borrow::Cow;

use encoding_rs::{UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};

/// How a text is encoded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Encoding {
    /// UTF-8.
    #[default]
    Utf8,
    /// UTF-16, low byte first.
    Utf16Low,
    /// UTF-16, high byte first.
    Utf16High,
    /// Windows-1252, of Western Europe.
    Windows1252,
}

impl Encoding {
    /// All, in the order offered.
    pub const ALL: [Self; 4] = [
        Self::Utf8,
        Self::Utf16Low,
        Self::Utf16High,
        Self::Windows1252,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Utf8 => "UTF-8",
            Self::Utf16Low => "UTF-16, low byte first",
            Self::Utf16High => "UTF-16, high byte first",
            Self::Windows1252 => "Windows-1252",
        }
    }

    fn standard(self) -> &'static encoding_rs::Encoding {
        match self {
            Self::Utf8 => UTF_8,
            Self::Utf16Low => UTF_16LE,
            Self::Utf16High => UTF_16BE,
            Self::Windows1252 => WINDOWS_1252,
        }
    }

    /// The encoding by its mark at the start, otherwise by its bytes: UTF-8 where they are that,
    /// UTF-16 where every other one of the first is zero, otherwise Windows-1252.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        if let Some((marked, _)) = encoding_rs::Encoding::for_bom(bytes) {
            return Self::ALL
                .into_iter()
                .find(|one| one.standard() == marked)
                .unwrap_or_default();
        }
        let start = bytes.get(..bytes.len().min(512)).unwrap_or_default();
        let zeros = |odd: usize| {
            start
                .iter()
                .skip(odd)
                .step_by(2)
                .filter(|byte| **byte == 0)
                .count()
        };
        let many = start.len() / 4;
        if start.len() >= 8 && zeros(1) > many && zeros(0) == 0 {
            return Self::Utf16Low;
        }
        if start.len() >= 8 && zeros(0) > many && zeros(1) == 0 {
            return Self::Utf16High;
        }
        if std::str::from_utf8(bytes).is_ok() {
            Self::Utf8
        } else {
            Self::Windows1252
        }
    }
}

/// A decoded text.
#[derive(Clone, Debug)]
pub struct Text<'a> {
    /// The text, without a mark at its start.
    pub text: Cow<'a, str>,
    /// Whether bytes were no text in this encoding and stand as replacement signs.
    pub has_replaced: bool,
}

/// Decodes bytes by a stated encoding.
#[must_use]
pub fn decode(bytes: &[u8], encoding: Encoding) -> Text<'_> {
    let (text, has_replaced) = encoding.standard().decode_with_bom_removal(bytes);
    Text { text, has_replaced }
}
