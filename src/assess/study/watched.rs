//! Searches that are given up keep nothing.

use crate::assess::answer::Answer;
use crate::assess::sealing::Watch;

/// The answer, unless the watch gave it up half-way.
pub(super) fn unless_given_up<T>(
    watch: Watch<'_>,
    work: impl FnOnce(Watch<'_>) -> Answer<T>,
) -> Option<Answer<T>> {
    let mut given_up = false;
    let answer = work(&mut |share| {
        let on = watch(share);
        given_up |= on.is_break();
        on
    });
    (!given_up).then_some(answer)
}
