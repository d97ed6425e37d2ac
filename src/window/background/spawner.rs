//! Where work runs: on a thread of its own or, in tests, at once.

use std::sync::Arc;

/// Runs a piece of work, on a thread of its own or, in tests, at once.
pub type Spawner = Arc<dyn Fn(Box<dyn FnOnce() + Send>) -> std::io::Result<()> + Send + Sync>;

/// Has the window draw its next frame.
pub type Wake = Arc<dyn Fn() + Send + Sync>;

/// Runs each piece of work on a named thread.
#[must_use]
pub fn on_a_thread() -> Spawner {
    on_a_thread_named("results")
}

/// Runs each piece of work on a thread of this name.
#[must_use]
pub fn on_a_thread_named(name: &'static str) -> Spawner {
    Arc::new(move |work| {
        std::thread::Builder::new()
            .name(name.to_owned())
            .spawn(work)
            .map(|_| ())
    })
}

/// Runs each piece of work at once, for tests.
#[must_use]
pub fn inline() -> Spawner {
    Arc::new(|work| {
        work();
        Ok(())
    })
}

/// Work kept until a test runs it.
#[cfg(test)]
#[derive(Default)]
pub(crate) struct Held(std::sync::Mutex<Vec<Box<dyn FnOnce() + Send>>>);

#[cfg(test)]
impl Held {
    /// Runs what was kept, and says how many pieces of work that was.
    pub(crate) fn run_all(&self) -> usize {
        let work = std::mem::take(&mut *self.0.lock().unwrap());
        let count = work.len();
        for piece in work {
            piece();
        }
        count
    }
}

/// A spawner that keeps the work.
#[cfg(test)]
pub(crate) fn held() -> (Arc<Held>, Spawner) {
    let held = Arc::new(Held::default());
    let kept = Arc::clone(&held);
    let spawner: Spawner = Arc::new(move |work| {
        kept.0.lock().unwrap().push(work);
        Ok(())
    });
    (held, spawner)
}
