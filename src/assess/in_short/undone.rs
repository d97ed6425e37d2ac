//! Whether sealing the first gaps undoes what keeps the vehicle dry.

use super::{First, Pick, pick};
use crate::assess::drying::{Comparison, OptionAnswer, OptionKind, Standing};

/// The option that is advised as the vehicle stands, doing nothing included, where it no longer suffices
/// with the first gaps sealed.
#[must_use]
pub fn undone<'a>(comparison: &'a Comparison, first: &First) -> Option<&'a OptionAnswer> {
    let at = match pick(comparison) {
        Pick::Take(at) => at,
        Pick::NothingNeeded => {
            let mut options = comparison.options.iter();
            options.position(|option| option.kind == OptionKind::Nothing)?
        }
        Pick::NoneSuffices(_) => return None,
    };
    let then = first.comparison.as_ref().ok()?.options.get(at)?;
    let fails = matches!(then.standing(), Standing::Partly | Standing::Not);
    comparison.options.get(at).filter(|_| fails)
}
