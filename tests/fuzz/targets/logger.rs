//! A logger's file: guessed at, read as guessed, its doubtful readings found.

#![no_main]

use gapledger::series::{DateOrder, doubtful, guess, read};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let Ok(guess) = guess(bytes) else { return };
    let mut mapping = guess.mapping;
    mapping.order.get_or_insert(DateOrder::DayMonthYear);
    if let Ok(series) = read(bytes, &mapping) {
        let sorted = series.times_s.windows(2).all(|pair| pair[0] <= pair[1]);
        assert!(sorted, "rows are in the order of time");
        let _ = doubtful(&series);
    }
});
