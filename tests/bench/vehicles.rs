//! The vehicles that several benchmarks are run on.

use gapledger::survey::{Survey, file};

/// The farmyard caravan, laid up.
pub(crate) const CARAVAN: &str = include_str!("../../sample-surveys/farmyard-caravan.ron");

/// A sample with its gaps repeated until there are so many.
#[expect(
    clippy::unwrap_used,
    reason = "a benchmark stops where a sample cannot be read"
)]
pub(crate) fn with_gaps(sample: &str, gaps: usize) -> Survey {
    let mut survey = file::parse(sample).unwrap();
    // What lies behind an opening would have to name its own copy: leave those out.
    let plain: Vec<_> = std::mem::take(&mut survey.gaps)
        .into_iter()
        .filter(|gap| gap.behind.is_none())
        .collect();
    for gap in plain.iter().cycle().take(gaps) {
        let mut gap = gap.clone();
        gap.id = survey.free_gap_id();
        survey.gaps.push(gap);
    }
    survey
}
