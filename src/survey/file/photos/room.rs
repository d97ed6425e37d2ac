//! Memory for pictures: however many threads read some, together they take no more than this.
//!
//! A small file may hold a picture that is large in memory. Whoever decodes one takes room for it
//! first, and waits where others have taken too much. A picture larger than all the room there is
//! is read alone.

use std::sync::{Condvar, Mutex, PoisonError};

/// Room for so many bytes.
pub(crate) struct Room {
    most: u64,
    taken: Mutex<u64>,
    given_back: Condvar,
}

/// Room that was taken, given back when it is dropped.
pub(crate) struct Taken<'a> {
    room: &'a Room,
    bytes: u64,
}

impl Room {
    pub(crate) const fn new(most: u64) -> Self {
        Self {
            most,
            taken: Mutex::new(0),
            given_back: Condvar::new(),
        }
    }

    /// Takes room, once there is enough. Whoever holds some must not ask for more: both would wait.
    pub(crate) fn take(&self, bytes: u64) -> Taken<'_> {
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
