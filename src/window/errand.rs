//! Longer work on a worker: it waits until nothing new is asked for a moment, gives up as soon as
//! something newer is, tells how far it is, and can be stopped.

use super::jobs::Spawner;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicU32, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// The work itself: what was asked, and the line to the window.
pub type Work<I, O> = Arc<dyn Fn(&I, &Line<'_, O>) + Send + Sync>;

/// Messages that may wait for the window; the worker then waits too.
const MESSAGES_WAITING: usize = 16;
/// The window is woken at each such part of the way, in thousandths.
const TOLD_EVERY: u32 = 50;

/// Where the newest errand stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Status {
    /// Nothing was asked, or all of it has come back.
    Idle,
    /// So much of it is done, 0…1.
    Working(f32),
    /// It was stopped before its end.
    Stopped,
}

/// One kind of longer work.
pub struct Errand<I, O> {
    spawner: Spawner,
    wake: Arc<dyn Fn() + Send + Sync>,
    pause: Duration,
    name: &'static str,
    work: Work<I, O>,
    shared: Arc<Shared<I>>,
    sender: SyncSender<(u64, Message<O>)>,
    receiver: Receiver<(u64, Message<O>)>,
    working: bool,
    stopped: bool,
}

struct Shared<I> {
    waiting: Mutex<Waiting<I>>,
    woken: Condvar,
    /// Number of the newest errand; older ones give up.
    newest: AtomicU64,
    /// Thousandths done.
    done: AtomicU32,
}

struct Waiting<I> {
    next: Option<(u64, I)>,
    working: bool,
}

enum Message<O> {
    Part(O),
    Done,
    Failed,
}

impl<I: Send + 'static, O: Send + 'static> Errand<I, O> {
    /// Nothing asked yet. `name` says in messages what it is that failed; the work begins after
    /// `pause` without a newer errand.
    #[must_use]
    pub fn new(
        spawner: Spawner,
        wake: Arc<dyn Fn() + Send + Sync>,
        pause: Duration,
        name: &'static str,
        work: Work<I, O>,
    ) -> Self {
        let (sender, receiver) = sync_channel(MESSAGES_WAITING);
        let shared = Arc::new(Shared {
            waiting: Mutex::new(Waiting {
                next: None,
                working: false,
            }),
            woken: Condvar::new(),
            newest: AtomicU64::new(0),
            done: AtomicU32::new(0),
        });
        Self {
            spawner,
            wake,
            pause,
            name,
            work,
            shared,
            sender,
            receiver,
            working: false,
            stopped: false,
        }
    }

    /// Asks for it; what was asked before is given up.
    ///
    /// # Errors
    /// A sentence, when no worker could be started.
    pub fn submit(&mut self, input: I) -> Result<(), String> {
        let number = self.give_up();
        (self.working, self.stopped) = (true, false);
        self.shared.done.store(0, Ordering::Relaxed);
        let start = {
            let mut waiting = lock(&self.shared.waiting);
            waiting.next = Some((number, input));
            !std::mem::replace(&mut waiting.working, true)
        };
        self.shared.woken.notify_all();
        if !start {
            return Ok(());
        }
        let shared = Arc::clone(&self.shared);
        let sender = self.sender.clone();
        let wake = Arc::clone(&self.wake);
        let work = Arc::clone(&self.work);
        let pause = self.pause;
        let run = move || run(&shared, &sender, &*wake, pause, &*work);
        (self.spawner)(Box::new(run)).map_err(|error| {
            lock(&self.shared.waiting).working = false;
            self.working = false;
            format!(
                "{} could not be worked out, because no worker started: {error}.",
                self.name
            )
        })
    }

    /// Stops what is being worked on.
    pub fn stop(&mut self) {
        if self.working {
            self.give_up();
            lock(&self.shared.waiting).next = None;
            (self.working, self.stopped) = (false, true);
        }
    }

    /// Makes everything asked so far too old, and gives the next number.
    fn give_up(&self) -> u64 {
        self.shared.newest.fetch_add(1, Ordering::SeqCst) + 1
    }

    /// Takes in what has come back of the newest errand. A sentence says what went wrong.
    pub fn collect(&mut self) -> (Vec<O>, Option<String>) {
        let newest = self.shared.newest.load(Ordering::SeqCst);
        let (mut parts, mut sentence) = (Vec::new(), None);
        while let Ok((number, message)) = self.receiver.try_recv() {
            if number != newest {
                continue;
            }
            match message {
                Message::Part(part) => parts.push(part),
                Message::Done => self.working = false,
                Message::Failed => {
                    self.working = false;
                    sentence = Some(format!(
                        "{} could not be worked out: that failed inside the program. The survey \
                         is safe: save it, and report what you did last.",
                        self.name
                    ));
                }
            }
        }
        (parts, sentence)
    }

    /// Where the newest errand stands.
    #[must_use]
    pub fn status(&self) -> Status {
        if self.stopped {
            Status::Stopped
        } else if self.working {
            let done = self.shared.done.load(Ordering::Relaxed);
            #[expect(clippy::cast_precision_loss, reason = "thousandths")]
            Status::Working(done as f32 / 1000.0)
        } else {
            Status::Idle
        }
    }
}

impl<I, O> Drop for Errand<I, O> {
    /// A worker that is still on its way stops at its next step.
    fn drop(&mut self) {
        self.shared.newest.fetch_add(1, Ordering::SeqCst);
        lock(&self.shared.waiting).next = None;
        self.shared.woken.notify_all();
    }
}

/// A worker's line to the window.
pub struct Line<'a, O> {
    number: u64,
    newest: &'a AtomicU64,
    done: &'a AtomicU32,
    sender: &'a SyncSender<(u64, Message<O>)>,
    wake: &'a (dyn Fn() + Send + Sync),
}

impl<O> Line<'_, O> {
    /// Whether nobody wants it any more.
    #[must_use]
    pub fn stopped(&self) -> bool {
        self.newest.load(Ordering::SeqCst) != self.number
    }

    /// Tells that so much is done, 0…1.
    pub fn progress(&self, share: f64) {
        if self.stopped() {
            return;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held to 0 to 1000"
        )]
        let done = (share.clamp(0.0, 1.0) * 1000.0) as u32;
        let before = self.done.fetch_max(done, Ordering::Relaxed);
        if done / TOLD_EVERY > before / TOLD_EVERY {
            (self.wake)();
        }
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

/// The newest errand once nothing newer came for the pause; `None` ends the worker.
fn next<I>(shared: &Shared<I>, pause: Duration) -> Option<(u64, I)> {
    let mut waiting = lock(&shared.waiting);
    let mut taken = None;
    while let Some(newer) = waiting.next.take() {
        taken = Some(newer);
        if pause.is_zero() {
            break;
        }
        let (guard, _) = shared
            .woken
            .wait_timeout_while(waiting, pause, |waiting| waiting.next.is_none())
            .unwrap_or_else(PoisonError::into_inner);
        waiting = guard;
    }
    waiting.working = taken.is_some();
    taken
}

fn run<I, O>(
    shared: &Shared<I>,
    sender: &SyncSender<(u64, Message<O>)>,
    wake: &(dyn Fn() + Send + Sync),
    pause: Duration,
    work: &(dyn Fn(&I, &Line<'_, O>) + Send + Sync),
) {
    while let Some((number, input)) = next(shared, pause) {
        let line = Line {
            number,
            newest: &shared.newest,
            done: &shared.done,
            sender,
            wake,
        };
        if line.stopped() {
            continue;
        }
        let ended = catch_unwind(AssertUnwindSafe(|| work(&input, &line)));
        line.tell(match ended {
            Ok(()) => Message::Done,
            Err(_) => Message::Failed,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::jobs::{inline, on_a_thread};
    use std::time::Instant;

    fn errand(spawner: Spawner, pause_ms: u64, work: Work<u32, u32>) -> Errand<u32, u32> {
        let pause = Duration::from_millis(pause_ms);
        Errand::new(spawner, Arc::new(|| {}), pause, "The thing", work)
    }

    fn wait(errand: &mut Errand<u32, u32>) -> Vec<u32> {
        let begun = Instant::now();
        let mut all = Vec::new();
        while matches!(errand.status(), Status::Working(_)) {
            assert!(begun.elapsed() < Duration::from_secs(20), "it never ends");
            all.extend(errand.collect().0);
            std::thread::sleep(Duration::from_millis(1));
        }
        all
    }

    #[test]
    fn parts_come_back_and_then_it_rests() {
        let work: Work<u32, u32> = Arc::new(|input, line| {
            line.send(input * 2);
            line.send(input * 3);
        });
        let mut errand = errand(inline(), 0, work);
        assert_eq!(errand.status(), Status::Idle);
        errand.submit(7).unwrap();
        let (parts, sentence) = errand.collect();
        assert_eq!((parts, sentence), (vec![14, 21], None));
        assert_eq!(errand.status(), Status::Idle);
    }

    #[test]
    fn what_is_asked_in_quick_succession_is_worked_out_once() {
        let count = Arc::new(AtomicU32::new(0));
        let counted = Arc::clone(&count);
        let work: Work<u32, u32> = Arc::new(move |input, line| {
            counted.fetch_add(1, Ordering::SeqCst);
            line.send(*input);
        });
        let mut errand = errand(on_a_thread(), 60, work);
        for input in 1..=5 {
            errand.submit(input).unwrap();
        }
        assert_eq!(wait(&mut errand), [5]);
        assert_eq!(count.load(Ordering::SeqCst), 1);
    }

    #[test]
    fn stopping_ends_the_work_and_nothing_of_it_comes_back() {
        let ended = Arc::new(AtomicU32::new(0));
        let seen = Arc::clone(&ended);
        let work: Work<u32, u32> = Arc::new(move |_, line| {
            line.progress(0.5);
            while !line.stopped() {
                std::thread::yield_now();
            }
            line.send(1);
            seen.store(1, Ordering::SeqCst);
        });
        let mut errand = errand(on_a_thread(), 0, work);
        errand.submit(1).unwrap();
        let begun = Instant::now();
        while errand.status() != Status::Working(0.5) {
            assert!(begun.elapsed() < Duration::from_secs(20));
        }
        errand.stop();
        assert_eq!(errand.status(), Status::Stopped);
        while ended.load(Ordering::SeqCst) == 0 {
            assert!(begun.elapsed() < Duration::from_secs(20));
        }
        assert_eq!(errand.collect(), (Vec::new(), None));
        assert_eq!(errand.status(), Status::Stopped);
    }

    #[test]
    fn a_panic_becomes_a_sentence() {
        let work: Work<u32, u32> = Arc::new(|_, _| std::panic::resume_unwind(Box::new(())));
        let mut errand = errand(inline(), 0, work);
        errand.submit(1).unwrap();
        let (_, sentence) = errand.collect();
        assert!(sentence.unwrap().contains("The survey is safe"));
        assert_eq!(errand.status(), Status::Idle);
    }

    #[test]
    fn a_worker_that_cannot_start_is_told() {
        let refusing: Spawner = Arc::new(|_| Err(std::io::Error::other("no threads left")));
        let mut errand = errand(refusing, 0, Arc::new(|_, _| {}));
        assert!(errand.submit(1).unwrap_err().contains("no threads left"));
        assert_eq!(errand.status(), Status::Idle);
    }
}
