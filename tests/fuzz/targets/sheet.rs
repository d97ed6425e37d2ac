//! Paper: whatever a person wrote, pages come of it, or a sentence.

#![no_main]

use gapledger::assess::Study;
use gapledger::sheet::{Choices, Kind, Material, contents, typeset};
use gapledger::survey::file::parse_bytes;
use libfuzzer_sys::fuzz_target;
use std::collections::BTreeMap;

fuzz_target!(|bytes: &[u8]| {
    let Ok(survey) = parse_bytes(bytes) else { return };
    if survey.gaps.len() > 6 {
        return;
    }
    let (study, photos) = (Study::of(&survey), BTreeMap::new());
    let sheet = contents(&Material::of(&study, Kind::WorkOrder, &photos), &Choices::new(Kind::WorkOrder));
    match typeset(&sheet) {
        Ok(pages) => assert!(pages.pages() > 0),
        Err(why) => assert!(!why.to_string().is_empty()),
    }
});
