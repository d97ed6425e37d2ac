//! `gapledger measured`: what the measurements in a survey say.

use super::page;
use crate::assess::Study;
use crate::assess::shown::Shown;
use crate::report::{Material, measured};

/// The page: what came of each fan test and trial, and what to heed before a test.
pub(super) fn text(study: &Study, shown: Shown) -> String {
    let told = Material::of(study);
    let before = measured::before_a_test(study.measured());
    let mut sections = vec![measured::section(&told)];
    let more = [measured::air_tests(&told), measured::calibration(&told)];
    sections.extend(more.into_iter().filter(|one| !one.blocks.is_empty()));
    let checks = measured::checks_of_loggers(&told);
    sections.extend((!checks.blocks.is_empty()).then_some(checks));
    sections.extend(measured::trial::sections(&told));
    sections.extend([before, measured::before_an_air_test()]);
    page::together(&sections, shown)
}
