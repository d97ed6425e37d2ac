//! What of the sealing belongs to the order, by the dates of both.

use super::gap::Gap;
use super::{Survey, WorkState, date, leave};

impl Survey {
    /// Whether a gap was sealed as part of the order: it is sealed and may be, and not before the
    /// order was placed, as far as both dates are given.
    #[must_use]
    pub fn sealed_in_order(&self, gap: &Gap) -> bool {
        gap.state == WorkState::Sealed && !leave::never(self, gap) && !self.sealed_before_order(gap)
    }

    /// Whether a gap was sealed before the order was placed, so that it is on no bill of this order.
    #[must_use]
    pub fn sealed_before_order(&self, gap: &Gap) -> bool {
        let dates = (
            date::parse(&gap.state_date),
            date::parse(&self.job.order_date),
        );
        gap.state == WorkState::Sealed
            && matches!(dates, (Some(sealed), Some(placed)) if sealed < placed)
    }

    /// The survey as it was when the order was placed: what has been sealed since is planned. `None`
    /// where nothing has. While gaps are planned, only a date of the order tells what belongs to it:
    /// without one, what is sealed may be another order's, and nobody is to pay for it twice.
    #[must_use]
    pub fn as_ordered(&self) -> Option<Self> {
        let planned = self.gaps.iter().any(|gap| gap.state == WorkState::Planned);
        if planned && date::parse(&self.job.order_date).is_none() {
            return None;
        }
        let mut ordered = self.clone();
        let mut gaps = ordered.gaps.iter_mut().zip(&self.gaps);
        let done = gaps.by_ref().filter(|(_, gap)| self.sealed_in_order(gap));
        let mut any = false;
        for (gap, _) in done {
            gap.state = WorkState::Planned;
            any = true;
        }
        any.then_some(ordered)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file;

    #[test]
    fn what_was_sealed_before_the_order_is_no_part_of_it() {
        let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
        let mut survey = file::parse(text).unwrap();
        assert_eq!(survey.as_ordered(), None);
        for (id, date) in [(7, "2031-02-03"), (10, "2031-03-01"), (12, "")] {
            let gap = survey.gaps.iter_mut().find(|gap| gap.id.0 == id).unwrap();
            gap.state = WorkState::Sealed;
            gap.state_date = date.to_owned();
        }
        let planned = |survey: &Survey| -> Vec<u32> {
            let ordered = survey.as_ordered().unwrap();
            let both = ordered.gaps.iter().zip(&survey.gaps);
            both.filter(|(was, is)| was.state != is.state)
                .map(|(was, _)| was.id.0)
                .collect()
        };
        assert_eq!(planned(&survey), [7, 10, 12]);
        survey.job.order_date = "2031-03-01".to_owned();
        assert_eq!(planned(&survey), [10, 12]);
    }
}
