//! What sealing each gap alone would save, shared out to threads.

use super::shared::{Watch, shared_out};
use crate::assess::Study;

/// Gaps tried in one piece, at least: so long a thread may still be busy after it was stopped.
const PIECE: usize = 8;
/// Pieces at most. Among many gaps each piece begins with what they have in common.
const PIECES: usize = 16;

/// Works out what sealing each gap alone comes to, one balance for each, on so many threads; and
/// beside it the comparison of drying and heating, which needs no more than one. Rankings by any
/// aim then need no balance. `None` where `watch` gave it up.
pub fn sealed_singly(study: &Study, threads: usize, watch: &impl Watch) -> Option<()> {
    let Ok(prospect) = study.prospect() else {
        // Whoever asks for the ranking is told why there is none.
        return Some(());
    };
    if prospect.knows_singly() {
        return Some(());
    }
    let gaps = prospect.sealables().len();
    let piece = gaps.div_ceil(PIECES).max(PIECE);
    let pieces = gaps.div_ceil(piece);
    let found = shared_out(pieces + 1, (threads, "sealing"), watch, |at, _| {
        // The longest piece first.
        let Some(at) = at.checked_sub(1) else {
            study.comparison();
            return Some(Ok(Vec::new()));
        };
        let from = at * piece;
        Some(prospect.singly(from..gaps.min(from + piece)))
    })?;
    // Where one is not known the ranking says so.
    if let Ok(all) = found.into_iter().collect::<Result<Vec<_>, _>>() {
        prospect.keep_singly(all.concat());
    }
    Some(())
}
