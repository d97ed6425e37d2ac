//! What sealing each gap alone would save, and sealing one after another, shared out to threads.

use super::shared::{Watch, shared_out};
use crate::assess::sealing::{Aim, Order, Prospect};
use crate::assess::{Answer, Study};

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

/// Share of the whole work at which the sequence of an order is known.
const SEQUENCE: f64 = 0.7;

/// The order of most saving for the money. Which gap comes next hangs on those before; what each step
/// comes to is then worked out on so many threads. `None` where `watch` gave it up.
pub fn order<'a>(
    study: &'a Study,
    aim: Aim,
    threads: usize,
    watch: &impl Watch,
) -> Option<&'a Answer<Order>> {
    study.order_by(aim, |prospect| ordered(prospect, aim, threads, watch))
}

fn ordered(
    prospect: &Prospect,
    aim: Aim,
    threads: usize,
    watch: &impl Watch,
) -> Option<Answer<Order>> {
    let mut given_up = false;
    let sequence = prospect.sequence_watched(aim, &mut |share| {
        let on = watch(SEQUENCE * share);
        given_up |= on.is_break();
        on
    });
    if given_up {
        return None;
    }
    let sequence = match sequence {
        Ok(sequence) => sequence,
        Err(unknown) => return Some(Err(unknown)),
    };
    let watch = |share: f64| watch(SEQUENCE + (1.0 - SEQUENCE) * share);
    let steps = sequence.steps();
    let piece = steps.div_ceil(PIECES).max(PIECE);
    let found = shared_out(
        steps.div_ceil(piece),
        (threads, "order"),
        &watch,
        |at, _| {
            let from = at * piece;
            Some(prospect.along(&sequence, from..steps.min(from + piece)))
        },
    )?;
    let after: Answer<Vec<_>> = found.into_iter().collect();
    Some(after.map(|after| prospect.order_of(&sequence, after.concat())))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file;
    use crate::tasks::to_the_end;
    use std::ops::ControlFlow;

    fn sample() -> Study {
        let text = include_str!("../../sample-surveys/coastal-coachbuilt.ron");
        Study::of(&file::parse(text).expect("a sample"))
    }

    #[test]
    fn an_order_is_the_same_on_any_number_of_threads() {
        let (alone, shared, whole) = (sample(), sample(), sample());
        let of = |study, threads| order(study, Aim::Heat, threads, &to_the_end).cloned();
        let found = of(&alone, 1).expect("an order");
        assert!(found.as_ref().is_ok_and(|order| order.steps.len() > PIECE));
        assert_eq!(Some(&found), of(&shared, 3).as_ref());
        assert_eq!(&found, whole.order(Aim::Heat));
    }

    #[test]
    fn an_order_given_up_at_any_time_leaves_nothing() {
        for end in [0.0, 0.5, 0.75] {
            let study = sample();
            let watch = |share: f64| {
                if share >= end {
                    ControlFlow::Break(())
                } else {
                    ControlFlow::Continue(())
                }
            };
            assert!(order(&study, Aim::Heat, 1, &watch).is_none());
            assert_eq!(study.count(crate::assess::Part::Order), 0);
        }
    }
}
