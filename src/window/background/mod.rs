//! Work in the background: the window never waits.
//!
//! One [`Task`] is one kind of work and all that the window needs to know of it. What is
//! submitted replaces what was submitted before: older work gives up at its next step and nothing
//! of it comes back. What is added stands in line instead, and all of it is done. The work tells
//! how far it is and sends its answer in parts; a panic in it becomes a sentence.

mod spawner;

#[cfg(test)]
pub(crate) use spawner::{Held, held};
pub use spawner::{Spawner, Wake, inline, on_a_thread, on_a_thread_named};

use crate::physics::counts::whole;
use std::collections::VecDeque;
use std::ops::ControlFlow;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicU64, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// The work itself: what was asked, and the line to the window.
pub type Work<I, O> = Arc<dyn Fn(I, &Line<'_, O>) + Send + Sync>;

/// The window is woken at each such part of the way, in thousandths.
const TOLD_EVERY: usize = 50;

/// Where a task stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Status {
    /// Nothing was asked, or all of it has come back.
    Idle,
    /// So much of it is done, 0…1.
    Working(f32),
    /// It was stopped before its end.
    Stopped,
}

/// How a kind of work is gone about.
#[derive(Clone, Copy, Debug)]
pub struct Manner {
    /// What could not be done where it fails, such as *The results could not be worked out*.
    pub fails: &'static str,
    /// It begins after so long without anything newer.
    pub pause: Duration,
}

impl Manner {
    /// Begun at once.
    #[must_use]
    pub fn at_once(fails: &'static str) -> Self {
        Self::after(Duration::ZERO, fails)
    }

    /// Begun after a pause.
    #[must_use]
    pub fn after(pause: Duration, fails: &'static str) -> Self {
        Self { fails, pause }
    }
}

/// One kind of work in the background.
pub struct Task<I, O> {
    spawner: Spawner,
    wake: Wake,
    manner: Manner,
    work: Work<I, O>,
    shared: Arc<Shared<I>>,
    sender: Sender<(u64, Message<O>)>,
    receiver: Receiver<(u64, Message<O>)>,
    /// Pieces of work that have not come back.
    working: usize,
    stopped: bool,
}

struct Shared<I> {
    waiting: Mutex<Waiting<I>>,
    woken: Condvar,
    /// Number of the newest work submitted; older work gives up.
    newest: AtomicU64,
    /// Thousandths done.
    done: AtomicUsize,
}

struct Waiting<I> {
    line: VecDeque<(u64, I)>,
    working: bool,
}

enum Message<O> {
    Part(O),
    Done,
    Failed,
}

/// Puts one thing into the line of those that wait.
type PutIn<T> = fn(&mut VecDeque<T>, T);

impl<I: Send + 'static, O: Send + 'static> Task<I, O> {
    /// Nothing asked yet. `wake` is called whenever something has come back.
    #[must_use]
    pub fn new(
        spawner: &Spawner,
        wake: &Wake,
        manner: Manner,
        work: impl Fn(I, &Line<'_, O>) + Send + Sync + 'static,
    ) -> Self {
        let (sender, receiver) = channel();
        let waiting = Waiting {
            line: VecDeque::new(),
            working: false,
        };
        Self {
            spawner: Arc::clone(spawner),
            wake: Arc::clone(wake),
            manner,
            work: Arc::new(work),
            shared: Arc::new(Shared {
                waiting: Mutex::new(waiting),
                woken: Condvar::new(),
                newest: AtomicU64::new(0),
                done: AtomicUsize::new(0),
            }),
            sender,
            receiver,
            working: 0,
            stopped: false,
        }
    }

    /// Asks for it in place of everything asked before.
    ///
    /// # Errors
    /// A sentence, when no worker could be started.
    pub fn submit(&mut self, input: I) -> Result<(), String> {
        self.forget();
        let added = self.add(input);
        if added.is_err() {
            self.forget();
        }
        added
    }

    /// Asks for it after everything that waits. Where no worker could be started, it waits for
    /// the next that can.
    ///
    /// # Errors
    /// As [`Task::submit`].
    pub fn add(&mut self, input: I) -> Result<(), String> {
        self.put(input, VecDeque::push_back)
    }

    /// Asks for it before everything that waits.
    ///
    /// # Errors
    /// As [`Task::submit`].
    pub fn add_first(&mut self, input: I) -> Result<(), String> {
        self.put(input, VecDeque::push_front)
    }

    fn put(&mut self, input: I, at: PutIn<(u64, I)>) -> Result<(), String> {
        self.working += 1;
        self.stopped = false;
        let number = self.shared.newest.load(Ordering::SeqCst);
        let start = {
            let mut waiting = lock(&self.shared.waiting);
            at(&mut waiting.line, (number, input));
            !std::mem::replace(&mut waiting.working, true)
        };
        self.shared.woken.notify_all();
        if start { self.start() } else { Ok(()) }
    }

    fn start(&self) -> Result<(), String> {
        let worker = Worker {
            shared: Arc::clone(&self.shared),
            sender: self.sender.clone(),
            wake: Arc::clone(&self.wake),
            pause: self.manner.pause,
            work: Arc::clone(&self.work),
        };
        (self.spawner)(Box::new(move || worker.run())).map_err(|error| {
            lock(&self.shared.waiting).working = false;
            format!("{}, because no worker started: {error}.", self.manner.fails)
        })
    }

    /// Gives up what is being worked on, until it is asked for again.
    pub fn stop(&mut self) {
        if self.working > 0 {
            self.forget();
            self.stopped = true;
        }
    }

    /// Gives up what is being worked on, and drops what has come back of it.
    pub fn forget(&mut self) {
        self.shared.newest.fetch_add(1, Ordering::SeqCst);
        self.shared.done.store(0, Ordering::Relaxed);
        lock(&self.shared.waiting).line.clear();
        (self.working, self.stopped) = (0, false);
    }

    /// Takes in what has come back. A sentence says what went wrong.
    pub fn collect(&mut self) -> (Vec<O>, Option<String>) {
        let newest = self.shared.newest.load(Ordering::SeqCst);
        let (mut parts, mut sentence) = (Vec::new(), None);
        while let Ok((number, message)) = self.receiver.try_recv() {
            if number != newest {
                continue;
            }
            match message {
                Message::Part(part) => parts.push(part),
                Message::Done => self.working -= 1,
                Message::Failed => {
                    self.working -= 1;
                    sentence = Some(format!(
                        "{}: that failed inside the program. The survey is safe: save it, and \
                         report what you did last.",
                        self.manner.fails
                    ));
                }
            }
        }
        (parts, sentence)
    }

    /// Where it stands.
    #[must_use]
    pub fn status(&self) -> Status {
        if self.stopped {
            Status::Stopped
        } else if self.working > 0 {
            let done = self.shared.done.load(Ordering::Relaxed);
            #[expect(clippy::cast_precision_loss, reason = "thousandths")]
            Status::Working(done as f32 / 1000.0)
        } else {
            Status::Idle
        }
    }
}

impl<I, O> Drop for Task<I, O> {
    /// A worker that is still on its way stops at its next step.
    fn drop(&mut self) {
        self.shared.newest.fetch_add(1, Ordering::SeqCst);
        lock(&self.shared.waiting).line.clear();
        self.shared.woken.notify_all();
    }
}

/// A worker's line to the window.
pub struct Line<'a, O> {
    number: u64,
    newest: &'a AtomicU64,
    done: &'a AtomicUsize,
    sender: &'a Sender<(u64, Message<O>)>,
    wake: &'a (dyn Fn() + Send + Sync),
}

impl<O> Line<'_, O> {
    /// Whether nobody wants it any more.
    #[must_use]
    pub fn stopped(&self) -> bool {
        self.newest.load(Ordering::SeqCst) != self.number
    }

    /// Tells that so much is done, 0…1, and hears whether to go on.
    pub fn progress(&self, share: f64) -> ControlFlow<()> {
        if self.stopped() {
            return ControlFlow::Break(());
        }
        let done = whole(share.clamp(0.0, 1.0) * 1000.0);
        let before = self.done.fetch_max(done, Ordering::Relaxed);
        if done / TOLD_EVERY > before / TOLD_EVERY {
            (self.wake)();
        }
        ControlFlow::Continue(())
    }

    /// Sends a part of the answer.
    pub fn send(&self, part: O) {
        self.tell(Message::Part(part));
    }

    fn tell(&self, message: Message<O>) {
        if !self.stopped() && self.sender.send((self.number, message)).is_ok() {
            (self.wake)();
        }
    }
}

/// A poisoned lock only means that a worker panicked; what waits behind it is still whole.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// What does the work until nothing waits.
struct Worker<I, O> {
    shared: Arc<Shared<I>>,
    sender: Sender<(u64, Message<O>)>,
    wake: Wake,
    pause: Duration,
    work: Work<I, O>,
}

impl<I, O> Worker<I, O> {
    fn run(&self) {
        while let Some((number, input)) = self.next() {
            let line = Line {
                number,
                newest: &self.shared.newest,
                done: &self.shared.done,
                sender: &self.sender,
                wake: &*self.wake,
            };
            if line.stopped() {
                continue;
            }
            let ended = catch_unwind(AssertUnwindSafe(|| (self.work)(input, &line)));
            line.tell(match ended {
                Ok(()) => Message::Done,
                Err(_) => Message::Failed,
            });
        }
    }

    /// The next piece of work, once nothing newer came for the pause; `None` ends the worker.
    fn next(&self) -> Option<(u64, I)> {
        let mut waiting = lock(&self.shared.waiting);
        while !self.pause.is_zero() && !waiting.line.is_empty() {
            let newest = self.shared.newest.load(Ordering::SeqCst);
            let (guard, waited) = self
                .shared
                .woken
                .wait_timeout_while(waiting, self.pause, |_| {
                    self.shared.newest.load(Ordering::SeqCst) == newest
                })
                .unwrap_or_else(PoisonError::into_inner);
            waiting = guard;
            if waited.timed_out() {
                break;
            }
        }
        let next = waiting.line.pop_front();
        waiting.working = next.is_some();
        next
    }
}

#[cfg(test)]
mod tests;
