//! How much a file may hold, and how it is read.

use ron::extensions::Extensions;

/// The newest format this program reads, and the one it writes.
pub const NEWEST_FORMAT: u32 = 2;

/// The largest file that is read, in bytes: 16 MiB. A survey of a thousand gaps with notes is
/// under one.
pub const LARGEST_FILE_BYTES: u64 = 16 * 1024 * 1024;

/// The longest text of a file, in bytes: 64 KiB. A page of notes is three.
pub const LONGEST_TEXT_BYTES: usize = 64 * 1024;

/// How files are read: an optional value may be written without `Some(…)`, also where the
/// line that says so is missing; nesting stops at a depth that no survey comes near.
pub(super) fn reading() -> ron::Options {
    ron::Options::default()
        .with_default_extension(Extensions::IMPLICIT_SOME)
        .with_recursion_limit(64)
}
