//! Bytes with their length before them, as one process hands them to another.

use std::io::{self, ErrorKind, Read, Write};

/// Writes the length, then the bytes.
pub(super) fn write_bytes(to: &mut impl Write, bytes: &[u8]) -> io::Result<()> {
    let length = u64::try_from(bytes.len()).map_err(|error| wrong(&error))?;
    to.write_all(&length.to_le_bytes())?;
    to.write_all(bytes)
}

/// Reads what was written so. Nothing is set aside for a length that only claims to follow.
pub(super) fn read_bytes(from: &mut impl Read) -> io::Result<Vec<u8>> {
    let length = read_number(from)?;
    let mut bytes = Vec::new();
    from.take(length).read_to_end(&mut bytes)?;
    match u64::try_from(bytes.len()) {
        Ok(read) if read == length => Ok(bytes),
        _ => Err(ErrorKind::UnexpectedEof.into()),
    }
}

/// The same as text.
pub(super) fn read_text(from: &mut impl Read) -> io::Result<String> {
    String::from_utf8(read_bytes(from)?).map_err(|error| wrong(&error))
}

/// A whole number.
pub(super) fn read_number(from: &mut impl Read) -> io::Result<u64> {
    let mut number = [0; 8];
    from.read_exact(&mut number)?;
    Ok(u64::from_le_bytes(number))
}

/// What was read cannot be what was written.
pub(super) fn wrong(why: &dyn std::fmt::Display) -> io::Error {
    io::Error::new(ErrorKind::InvalidData, why.to_string())
}
