//! The order of the gaps in the ledger, which is the surveyor's own.

use super::Survey;
use super::edit::EditRefused;
use super::ids::GapId;

impl Survey {
    /// Takes gaps out of their places and puts them, in the order they have, in front of another
    /// gap; without one at the end. In front of one that moves itself is where it stands.
    pub(super) fn move_gaps(
        &mut self,
        moving: &[GapId],
        before: Option<GapId>,
    ) -> Result<(), EditRefused> {
        let named = moving.iter().copied().chain(before);
        for id in named {
            if self.gap(id).is_none() {
                return Err(EditRefused::NoSuchGap { gap: id });
            }
        }
        let at = before.and_then(|id| self.gaps.iter().position(|gap| gap.id == id));
        let (above, below) = self.gaps.split_at(at.unwrap_or(self.gaps.len()));
        let stays = |gap: &&super::Gap| !moving.contains(&gap.id);
        let moves = |gap: &&super::Gap| moving.contains(&gap.id);
        let order = above
            .iter()
            .filter(stays)
            .chain(self.gaps.iter().filter(moves))
            .chain(below.iter().filter(stays));
        self.gaps = order.cloned().collect();
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file::{parse, print};
    use crate::survey::{Edit, Facing, Form, Gap, History, VehicleKind};

    fn ids(numbers: &[u32]) -> Vec<GapId> {
        numbers.iter().map(|&number| GapId(number)).collect()
    }

    fn order(survey: &Survey) -> Vec<u32> {
        survey.gaps.iter().map(|gap| gap.id.0).collect()
    }

    fn five() -> Survey {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        for id in 1..=5 {
            let form = Form::RoundHole { diameter_mm: None };
            let gap = Gap::new(GapId(id), survey.zones[0].id, Facing::Roof, form);
            survey.apply(Edit::gap(gap)).unwrap();
        }
        survey
    }

    fn moved(numbers: &[u32], before: Option<u32>) -> Vec<u32> {
        let mut survey = five();
        let gaps = ids(numbers);
        let before = before.map(GapId);
        survey.apply(Edit::MoveGaps { gaps, before }).unwrap();
        order(&survey)
    }

    #[test]
    fn gaps_move_in_front_of_another_or_to_the_end_in_the_order_they_have() {
        assert_eq!(moved(&[4], Some(2)), [1, 4, 2, 3, 5]);
        assert_eq!(moved(&[5, 1], Some(3)), [2, 1, 5, 3, 4]);
        assert_eq!(moved(&[2], None), [1, 3, 4, 5, 2]);
        assert_eq!(moved(&[2, 4], Some(2)), [1, 2, 4, 3, 5]);
        assert_eq!(moved(&[], Some(2)), [1, 2, 3, 4, 5]);
    }

    #[test]
    fn the_order_is_kept_in_the_file_and_undone_in_one_step() {
        let mut history = History::new(five());
        let edit = Edit::MoveGaps {
            gaps: ids(&[5]),
            before: Some(GapId(1)),
        };
        history.apply(edit, None).unwrap();
        assert_eq!(history.last_step().as_deref(), Some("order of the gaps"));
        let read = parse(&print(history.survey())).unwrap();
        assert_eq!(order(&read), [5, 1, 2, 3, 4]);
        history.undo();
        assert_eq!(order(history.survey()), [1, 2, 3, 4, 5]);
    }

    #[test]
    fn a_gap_that_is_not_there_is_refused() {
        let mut survey = five();
        for (gaps, before) in [(ids(&[9]), None), (ids(&[1]), Some(GapId(9)))] {
            let refused = survey.apply(Edit::MoveGaps { gaps, before });
            assert!(refused.unwrap_err().to_string().contains("gap 9"));
        }
        assert_eq!(order(&survey), [1, 2, 3, 4, 5]);
    }
}
