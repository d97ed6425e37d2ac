//! Which numbers come from a test and not from sizes.

use crate::assess::words::given;
use crate::survey::{Form, Gap};

/// The test of a gap: flow and pressure.
fn test(gap: &Gap) -> Option<(f64, f64)> {
    match gap.form {
        Form::FlowTest {
            flow_m3_per_h,
            at_pa,
            ..
        } => Some((flow_m3_per_h?, at_pa?)),
        _ => None,
    }
}

/// Whether the gap's number comes from a test.
pub(crate) fn is_by_test(gap: &Gap) -> bool {
    test(gap).is_some()
}

/// A sentence about the gaps of some whose numbers come from a test, if any do.
pub(crate) fn by_test<'a>(gaps: impl Iterator<Item = &'a Gap>) -> Option<String> {
    let tests: Vec<String> = gaps
        .filter_map(|gap| {
            let (flow, at) = test(gap)?;
            Some(format!(
                "gap {}, {}\u{a0}m³/h at {}\u{a0}Pa",
                gap.id,
                given(flow),
                given(at)
            ))
        })
        .collect();
    if tests.is_empty() {
        return None;
    }
    Some(format!(
        "Measured by a flow test, as found: {}. All other gaps are worked out from sizes and stated \
         areas.",
        tests.join("; ")
    ))
}
