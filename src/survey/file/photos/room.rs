//! Memory for pictures: however many threads read some, together they take no more than this.
//!
//! A small file may hold a picture that is large in memory. Whoever decodes one takes room for it
//! first, and waits where others have taken too much. A picture larger than all the room there is
//! is read alone.

use std::sync::{Condvar, Mutex, PoisonError};

/// Room for so many bytes.
pub(super) struct Room {
    most: u64,
    taken: Mutex<u64>,
    given_back: Condvar,
}

/// Room that was taken, given back when it is dropped.
pub(super) struct Taken<'a> {
    room: &'a Room,
    bytes: u64,
}

impl Room {
    pub(super) const fn new(most: u64) -> Self {
        Self {
            most,
            taken: Mutex::new(0),
            given_back: Condvar::new(),
        }
    }

    /// Takes room, once there is enough. Whoever holds some must not ask for more: both would wait.
    pub(super) fn take(&self, bytes: u64) -> Taken<'_> {
        let taken = self.taken.lock().unwrap_or_else(PoisonError::into_inner);
        let full = |taken: &mut u64| *taken > 0 && taken.saturating_add(bytes) > self.most;
        let mut taken = self
            .given_back
            .wait_while(taken, full)
            .unwrap_or_else(PoisonError::into_inner);
        *taken = taken.saturating_add(bytes);
        Taken { room: self, bytes }
    }
}

impl Drop for Taken<'_> {
    fn drop(&mut self) {
        let mut taken = self
            .room
            .taken
            .lock()
            .unwrap_or_else(PoisonError::into_inner);
        *taken = taken.saturating_sub(self.bytes);
        self.room.given_back.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicU64, Ordering};
    use std::thread;

    /// Most bytes in use at once by threads that take these.
    fn most_at_once(room: &Room, sizes: &[u64]) -> u64 {
        let (now, most) = (AtomicU64::new(0), AtomicU64::new(0));
        thread::scope(|scope| {
            for bytes in sizes {
                let (now, most) = (&now, &most);
                scope.spawn(move || {
                    let _taken = room.take(*bytes);
                    let all = now.fetch_add(*bytes, Ordering::SeqCst) + bytes;
                    most.fetch_max(all, Ordering::SeqCst);
                    thread::yield_now();
                    now.fetch_sub(*bytes, Ordering::SeqCst);
                });
            }
        });
        most.into_inner()
    }

    #[test]
    fn many_threads_never_take_more_than_there_is() {
        let room = Room::new(100);
        assert!(most_at_once(&room, &[40; 24]) <= 80);
        assert!(most_at_once(&room, &[60; 12]) <= 60);
    }

    #[test]
    fn what_is_larger_than_the_room_goes_alone_and_nobody_waits_for_ever() {
        let room = Room::new(100);
        assert_eq!(most_at_once(&room, &[250, 10, 250, 90]), 250);
        assert_eq!(*room.taken.lock().expect("nobody fell"), 0);
    }
}
