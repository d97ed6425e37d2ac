//! Memory that every frame takes and gives back stays with the program between frames.

use std::hint::black_box;

/// Twice as much as this is kept, in bytes: what several frames take, since the renderer gives some of
/// it back only frames later.
const BLOCK: usize = 16 << 20;

/// Has the allocator keep what a frame gives back, so that the next frame finds it.
///
/// Drawn without graphics hardware, a frame takes some 4 MB in small blocks and gives them all back.
/// The C library of Linux then returns the end of its heap to the system, and the next frame pays
/// for a thousand pages anew: a third of the time of the window's thread. It keeps twice the largest
/// block that was ever given back, up to 32 MB (mallopt(3), `M_MMAP_THRESHOLD`); one that nobody
/// wrote to takes no memory itself.
pub(super) fn keep_between_frames() {
    drop(black_box(Vec::<u8>::with_capacity(BLOCK)));
}

#[cfg(all(test, target_os = "linux", target_env = "gnu"))]
mod tests {
    use super::*;

    /// Pages that this thread had to ask the system for: the tenth field of proc(5), the second in
    /// brackets and with spaces of its own.
    fn pages_asked_for() -> u64 {
        let told = std::fs::read_to_string("/proc/thread-self/stat").unwrap();
        let (_, behind) = told.rsplit_once(')').unwrap();
        behind.split_whitespace().nth(7).unwrap().parse().unwrap()
    }

    fn frame() {
        let blocks: Vec<Vec<u8>> = (0..64).map(|number| vec![number; 64 << 10]).collect();
        drop(black_box(blocks));
    }

    #[test]
    fn a_frame_finds_the_memory_of_the_frame_before() {
        keep_between_frames();
        frame();
        let before = pages_asked_for();
        frame();
        let pages = pages_asked_for() - before;
        assert!(pages < 100, "{pages} of 1024 pages");
    }
}
