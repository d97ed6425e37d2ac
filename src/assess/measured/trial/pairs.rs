//! Which period without a method each period with it is held against.

use super::compare::{Day, Effect, effect};
use crate::assess::answer::{Answer, NotKnown};
use crate::survey::{Period, PeriodId};

/// A period with when it was and its days.
pub(super) struct Timed<'a> {
    pub(super) period: &'a Period,
    pub(super) from_s: i64,
    pub(super) to_s: i64,
    pub(super) days: Answer<Vec<Day>>,
}

/// The periods without a method.
pub(super) struct Without<'t, 'a> {
    /// Those that were read, each with its days.
    read: Vec<(&'t Timed<'a>, &'t [Day])>,
    /// Whether any stands in the trial at all.
    any: bool,
}

impl<'t, 'a> Without<'t, 'a> {
    pub(super) fn of(timed: &'t [Timed<'a>], is_reference: impl Fn(&Period) -> bool) -> Self {
        let all: Vec<&Timed<'a>> = timed
            .iter()
            .filter(|one| is_reference(one.period))
            .collect();
        let with_days = |one: &'t Timed<'a>| Some((one, one.days.as_deref().ok()?));
        Self {
            any: !all.is_empty(),
            read: all.iter().filter_map(|one| with_days(one)).collect(),
        }
    }

    /// The days of each that was read.
    pub(super) fn days(&self) -> impl Iterator<Item = &'t [Day]> {
        self.read.iter().map(|(_, days)| *days)
    }

    /// The one that is nearest in time, was read and is not among those used; of two alike the earlier.
    ///
    /// # Errors
    /// Where there is none.
    pub(super) fn nearest(
        &self,
        one: &Timed<'_>,
        used: &[PeriodId],
    ) -> Answer<(PeriodId, &'t [Day])> {
        let between = |(off, _): &&(&Timed<'_>, &[Day])| {
            let (before, behind) = (one.from_s - off.to_s, off.from_s - one.to_s);
            before.max(behind)
        };
        let free = self
            .read
            .iter()
            .filter(|(off, _)| !used.contains(&off.period.id));
        match free.min_by_key(between) {
            Some((off, days)) => Ok((off.period.id, days)),
            None => Err(NotKnown::because(match (self.any, self.read.is_empty()) {
                (false, _) => "there is no period with nothing running to hold it against",
                (true, true) => "no period with nothing running was read to hold it against",
                (true, false) => {
                    "every period with nothing running that was read is held against another one already"
                }
            })),
        }
    }
}

/// Two periods that are held against each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The one with the method.
    pub with: PeriodId,
    /// The one without it.
    pub without: PeriodId,
}

/// All periods of a method that were read, each with one without it of its own.
pub(super) struct Paired {
    pub(super) effect: Answer<Effect>,
    pub(super) pairs: Vec<Pair>,
    /// Periods that do not count, and why.
    pub(super) left_out: Vec<(PeriodId, NotKnown)>,
}

impl Paired {
    pub(super) fn of(same: &[&Timed<'_>], without: &Without<'_, '_>, pressure: f64) -> Self {
        let (mut pairs, mut used, mut days) = (Vec::new(), Vec::new(), Vec::new());
        let mut left_out = Vec::new();
        for one in same {
            let with = one.period.id;
            let pair = one.days.as_deref().map_err(Clone::clone);
            match pair.and_then(|on| Ok((on, without.nearest(one, &used)?))) {
                Ok((on, (without, off))) => {
                    used.push(without);
                    pairs.push(Pair { with, without });
                    days.push((off, on));
                }
                Err(unknown) => left_out.push((with, unknown)),
            }
        }
        let effect = match left_out.first() {
            Some((_, unknown)) if days.is_empty() => Err(unknown.clone()),
            _ => effect(&days, pressure).ok_or_else(too_few),
        };
        Self {
            effect,
            pairs,
            left_out,
        }
    }
}

pub(super) fn too_few() -> NotKnown {
    NotKnown::because("too little was read inside or outside in it")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::STANDARD_PRESSURE;
    use crate::survey::Ran;

    const DAY_S: i64 = 86_400;

    fn days(rh_in: f64) -> Vec<Day> {
        let day = |wobble: f64| Day {
            t_in_c: 7.0,
            w_in: 0.0062 * (rh_in + wobble),
            t_out_c: 6.0,
            w_out: 0.0050,
        };
        [0.0, 0.01, -0.01, 0.005, -0.005].map(day).into()
    }

    fn unread() -> Answer<Vec<Day>> {
        Err(NotKnown::because("it was not read"))
    }

    /// Periods of five days one after another: whether the method ran, and how damp it was.
    fn timed(periods: &[Period], days: Vec<Answer<Vec<Day>>>) -> Vec<Timed<'_>> {
        let all = (0..).zip(periods.iter().zip(days));
        all.map(|(at, (period, days))| Timed {
            period,
            from_s: at * 5 * DAY_S,
            to_s: (at + 1) * 5 * DAY_S,
            days,
        })
        .collect()
    }

    fn periods(with: &[bool]) -> Vec<Period> {
        let all = (1..).zip(with);
        all.map(|(id, with)| {
            let mut period = Period::new(PeriodId(id), None, None);
            period.ran = if *with { Ran::Other } else { Ran::Nothing };
            period
        })
        .collect()
    }

    fn without<'t, 'a>(timed: &'t [Timed<'a>]) -> Without<'t, 'a> {
        Without::of(timed, |period| period.ran == Ran::Nothing)
    }

    fn paired(timed: &[Timed<'_>]) -> Paired {
        let same: Vec<&Timed<'_>> = timed
            .iter()
            .filter(|one| one.period.ran == Ran::Other)
            .collect();
        Paired::of(&same, &without(timed), STANDARD_PRESSURE)
    }

    fn ids(paired: &Paired) -> (Vec<(u32, u32)>, Vec<u32>) {
        let pairs = paired.pairs.iter();
        (
            pairs.map(|pair| (pair.with.0, pair.without.0)).collect(),
            paired.left_out.iter().map(|(id, _)| id.0).collect(),
        )
    }

    #[test]
    fn a_pair_written_down_for_later_takes_nothing_from_the_one_that_was_read() {
        let periods = periods(&[false, true, false, true]);
        let first = || [Ok(days(0.8)), Ok(days(0.6))];
        let later = [unread(), unread()];
        let found = paired(&timed(&periods, first().into_iter().chain(later).collect()));
        assert_eq!(ids(&found), (vec![(2, 1)], vec![4]));
        let alone = paired(&timed(&periods[..2], first().into()));
        assert_eq!(found.effect, alone.effect);
        assert!(found.effect.unwrap().is_shown());
        assert_eq!(found.left_out[0].1.reason, "it was not read");
    }

    #[test]
    fn what_was_not_read_is_no_partner_although_it_is_nearer() {
        // Not read just before, read just behind, and read far before it.
        let periods = periods(&[false, false, true, false]);
        let some = vec![Ok(days(0.9)), unread(), Ok(days(0.6)), Ok(days(0.8))];
        let timed = timed(&periods, some);
        assert_eq!(ids(&paired(&timed)), (vec![(3, 4)], vec![]));
        let (nearest, _) = without(&timed).nearest(&timed[2], &[]).unwrap();
        assert_eq!(nearest, PeriodId(4));
    }

    #[test]
    fn a_period_not_read_uses_up_no_partner_and_one_without_a_partner_is_named() {
        let periods = periods(&[true, false, true, true]);
        let some = vec![unread(), Ok(days(0.8)), Ok(days(0.6)), Ok(days(0.6))];
        let found = paired(&timed(&periods, some));
        assert_eq!(ids(&found), (vec![(3, 2)], vec![1, 4]));
        let why = &found.left_out[1].1.reason;
        assert!(why.contains("held against another one already"), "{why}");
    }

    #[test]
    fn without_anything_read_to_hold_it_against_nothing_is_known_and_the_reason_is_the_right_one() {
        let why = |periods: &[Period], some: Vec<Answer<Vec<Day>>>| {
            let found = paired(&timed(periods, some));
            found.effect.unwrap_err().reason
        };
        let of_both = periods(&[false, true]);
        assert!(why(&of_both, vec![unread(), Ok(days(0.6))]).contains("was read to hold"));
        assert_eq!(
            why(&of_both, vec![Ok(days(0.8)), unread()]),
            "it was not read"
        );
        let alone = periods(&[true]);
        assert!(why(&alone, vec![Ok(days(0.6))]).contains("there is no period"));
    }
}
