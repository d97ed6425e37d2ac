//! Threads that decode pictures share the room there is for them.

use crate::survey::file::Room;
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
    // All of it was given back.
    drop(room.take(100));
}
