//! A picture: decoded within its bounds, or refused.

#![no_main]

use gapledger::sheet::photos::logo;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let path = std::env::temp_dir().join(format!("gapledger-fuzz-{}", std::process::id()));
    if std::fs::write(&path, bytes).is_ok()
        && let Ok(picture) = logo(&path)
    {
        assert!(picture.width > 0 && picture.height > 0);
    }
});
