//! Pieces of work shared out to threads, with somebody who watches.

use crate::physics::counts::count;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

/// Threads that can work at once.
#[must_use]
pub fn processors() -> usize {
    thread::available_parallelism().map_or(1, usize::from)
}

/// Whether to go on, told the share that is done.
pub trait Watch: Fn(f64) -> ControlFlow<()> + Sync {}

impl<T: Fn(f64) -> ControlFlow<()> + Sync> Watch for T {}

/// A watch that never gives up.
pub fn to_the_end(_share: f64) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// Pieces of work numbered from 0, worked out on so many threads of that name and put in their order;
/// `None` where `watch` gave it up. `work` may ask how things stand as it goes.
pub(super) fn shared_out<T: Send>(
    pieces: usize,
    (threads, name): (usize, &str),
    watch: &impl Watch,
    work: impl Fn(usize, &dyn Fn() -> ControlFlow<()>) -> Option<T> + Sync,
) -> Option<Vec<T>> {
    let (next, done) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let found: Mutex<Vec<(usize, T)>> = Mutex::default();
    let share = || count(done.load(Ordering::Relaxed)) / count(pieces.max(1));
    let progress = || watch(share());
    let work = || {
        while progress().is_continue() {
            let at = next.fetch_add(1, Ordering::Relaxed);
            if at >= pieces {
                return;
            }
            let Some(piece) = work(at, &progress) else {
                return;
            };
            let mut found = found.lock().unwrap_or_else(PoisonError::into_inner);
            found.push((at, piece));
            done.fetch_add(1, Ordering::Relaxed);
        }
    };
    thread::scope(|scope| {
        for _ in 1..threads {
            // Without a helper the work takes longer and comes to the same.
            let _ = thread::Builder::new()
                .name(name.to_owned())
                .spawn_scoped(scope, work);
        }
        work();
    });
    let mut found = found.into_inner().unwrap_or_else(PoisonError::into_inner);
    found.sort_by_key(|(at, _)| *at);
    let all = found.len() == pieces;
    all.then(|| found.into_iter().map(|(_, piece)| piece).collect())
}
