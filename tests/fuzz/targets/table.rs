//! The ledger as a table: whatever stands in a survey, each row of the table is read back whole.

#![no_main]

use gapledger::assess::Study;
use gapledger::sheet::csv::{ByteOrderMark, ledger};
use gapledger::survey::file::parse_bytes;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let Ok(survey) = parse_bytes(bytes) else { return };
    if survey.gaps.len() > 30 {
        return;
    }
    let study = Study::of(&survey);
    let table = ledger(&study, ByteOrderMark::asked(false)).expect("a ledger can be written");
    let mut reader = csv::Reader::from_reader(table.as_slice());
    let columns = reader.headers().expect("there are heads").len();
    let rows: Vec<_> = reader.records().map(|row| row.expect("a row can be read")).collect();
    assert_eq!(rows.len(), survey.gaps.len());
    assert!(rows.iter().all(|row| row.len() == columns));
});
