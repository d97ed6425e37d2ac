//! The output paths that mean standard output.

use std::path::Path;

/// What standard output is called: `-`, and by the system.
const NAMES: [&str; 4] = ["-", "/dev/stdout", "/dev/fd/1", "/proc/self/fd/1"];

/// Whether a file to write is standard output, so that nothing else may be printed on it.
pub(super) fn is_standard_output(output: &Path) -> bool {
    NAMES.iter().any(|name| output.as_os_str() == *name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn standard_output_is_known_by_each_of_its_names() {
        for name in NAMES {
            assert!(is_standard_output(Path::new(name)), "{name}");
        }
        for other in ["./-", "x.csv", "/dev/stderr", ""] {
            assert!(!is_standard_output(Path::new(other)), "{other}");
        }
    }
}
