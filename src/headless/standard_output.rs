//! The output path that means standard output.

use std::path::Path;

/// Whether a file to write is named `-`, which is standard output.
pub(super) fn is_standard_output(output: &Path) -> bool {
    output.as_os_str() == "-"
}
