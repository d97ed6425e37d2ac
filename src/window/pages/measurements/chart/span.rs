//! Which time a chart shows, moved and zoomed within all there is.

/// Seconds between two moments.
pub(super) type Span = (i64, i64);

/// The shortest time shown, s.
const SHORTEST: i64 = 3600;
/// What is marked by hand is rounded to so many seconds: in a view of days and in one of hours.
const ROUGH: i64 = 600;
const FINE: i64 = 60;
/// Longest view that is marked finely, s.
const HOURS: i64 = 2 * 86_400;

fn long((from, to): Span) -> i64 {
    to - from
}

/// A span moved so that it lies within all, and is no longer than that.
#[must_use]
pub(super) fn within((from, to): Span, all: Span) -> Span {
    let long = long((from, to)).clamp(SHORTEST.min(long(all)), long(all));
    let from = from.clamp(all.0, all.1 - long);
    (from, from + long)
}

/// A span moved by so many seconds.
#[must_use]
pub(super) fn moved((from, to): Span, by: i64, all: Span) -> Span {
    within((from.saturating_add(by), to.saturating_add(by)), all)
}

/// A span made `factor` times as long; what was at a moment stays there.
#[must_use]
pub(super) fn zoomed(span: Span, around: i64, factor: f64, all: Span) -> Span {
    let around = around.clamp(span.0, span.1);
    let longer = |part: i64| {
        let seconds = crate::physics::counts::seconds_as_f64(part) * factor;
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a part of what a logger read"
        )]
        let whole = seconds.round() as i64;
        whole
    };
    let before = longer(around - span.0);
    let after = longer(span.1 - around);
    if before + after < SHORTEST {
        let from = around - SHORTEST / 2;
        return within((from, from + SHORTEST), all);
    }
    within((around - before, around + after), all)
}

/// A span with a moment in sight.
#[must_use]
pub(super) fn showing((from, to): Span, moment: i64, all: Span) -> Span {
    if moment < from {
        moved((from, to), moment - from, all)
    } else if moment > to {
        moved((from, to), moment - to, all)
    } else {
        (from, to)
    }
}

/// A moment marked by hand in such a view.
#[must_use]
pub(super) fn rounded(moment: i64, view: Span) -> i64 {
    let step = if long(view) > HOURS { ROUGH } else { FINE };
    (moment + step / 2).div_euclid(step) * step
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn whatever_is_done_the_view_stays_within_all_there_is(
            long in 2_i64..40_000_000, from in 0_i64..1000, part in 0_i64..1000,
            by in -90_000_000_i64..90_000_000, factor in 0.01..50.0_f64, around in 0_i64..1000
        ) {
            let all = (1_700_000_000, 1_700_000_000 + long);
            let at = |share: i64| all.0 + share * long / 1000;
            let span = within((at(from), at(from) + part * long / 1000), all);
            for view in [
                span,
                moved(span, by, all),
                zoomed(span, at(around), factor, all),
                showing(span, at(around), all),
            ] {
                prop_assert!(all.0 <= view.0 && view.1 <= all.1, "{view:?} in {all:?}");
                prop_assert!(view.1 - view.0 >= SHORTEST.min(long), "{view:?}");
            }
            let view = showing(span, at(around), all);
            prop_assert!(view.0 <= at(around) && at(around) <= view.1);
        }
    }

    #[test]
    fn zooming_keeps_what_is_under_the_pointer() {
        let all = (0, 1_000_000);
        assert_eq!(
            zoomed((0, 1_000_000), 250_000, 0.5, all),
            (125_000, 625_000)
        );
        assert_eq!(zoomed((125_000, 625_000), 250_000, 2.0, all), all);
    }

    #[test]
    fn what_is_marked_is_round() {
        let month = (0, 29 * 86_400);
        assert_eq!(rounded(86_400 + 250, month), 86_400);
        assert_eq!(rounded(86_400 + 350, month), 87_000);
        assert_eq!(rounded(350, (0, 3600)), 360);
    }
}
