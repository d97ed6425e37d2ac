//! A survey file: whatever its bytes, it is read or refused, and what is read is printed so that
//! it is read as the same survey.

#![no_main]

use gapledger::survey::file::{parse, parse_bytes, print};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    if let Ok(survey) = parse_bytes(bytes) {
        let text = print(&survey);
        let again = parse(&text).expect("what was printed can be read");
        assert_eq!(print(&again), text);
    }
});
