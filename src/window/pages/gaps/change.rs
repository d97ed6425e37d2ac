//! The change of a gap that a field of its form asks for.

use crate::survey::{Edit, Gap, Record};
use crate::window::request::Queue;

/// Queues a change of a gap that a field has just reported.
pub(super) fn change(queue: &mut Queue, gap: &Gap, change: impl FnOnce(&mut Gap)) {
    let mut changed = gap.clone();
    change(&mut changed);
    queue.typed(Edit::Put(Record::Gap(Box::new(changed))));
}
