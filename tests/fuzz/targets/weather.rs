//! A weather file: read or refused; what is read has a whole number of hours.

#![no_main]

use gapledger::climate::epw;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    if let Ok(read) = epw::read(bytes) {
        let weather = read.weather();
        assert!(!weather.hours.is_empty());
    }
});
