//! A gap in words, as the ledger shows it.

use crate::survey::Gap;

/// The gap's name, or what it is where it has none.
#[must_use]
pub(super) fn name(gap: &Gap) -> &str {
    if gap.name.trim().is_empty() {
        gap.form.name()
    } else {
        gap.name.trim()
    }
}
