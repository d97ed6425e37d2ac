//! Changes of several gaps at once. Each is one edit, and so one step for undo.

use super::ledger::{copied, mirrored};
use crate::survey::leave::{may_become, remedies};
use crate::survey::{
    Behind, Certainty, CostBasis, Edit, Facing, Form, Gap, GapId, GapPart, Purpose, RecordId,
    Remedy, RemedyKind, Survey, WorkState, ZoneId,
};
use std::collections::HashMap;

/// A change of several gaps and those that are selected after it.
#[derive(Clone, Debug, PartialEq)]
pub struct ChangeOfMany {
    /// The change.
    pub edit: Edit,
    /// The gaps to select.
    pub selected: Vec<GapId>,
}

/// All get another facing; where they are on it stays as it was recorded.
#[must_use]
pub fn facing(survey: &Survey, ids: &[GapId], facing: Facing) -> Edit {
    each(survey, ids, |gap| gap.facing = facing)
}

/// All are there for one thing.
#[must_use]
pub fn purpose(survey: &Survey, ids: &[GapId], purpose: Purpose) -> Edit {
    each(survey, ids, |gap| gap.purpose = purpose)
}

/// The gaps a row further up or down among those shown, `shown` from the top; none where they are
/// at the end. Gaps that lie apart come together.
#[must_use]
pub fn moved(survey: &Survey, ids: &[GapId], shown: &[GapId], down: bool) -> Option<Edit> {
    let chosen = |id: &GapId| ids.contains(id);
    let before = if down {
        let last = shown.iter().rposition(chosen)?;
        let over = shown.get(last + 1)?;
        let at = survey.gaps.iter().position(|gap| gap.id == *over)?;
        survey.gaps.get(at + 1).map(|gap| gap.id)
    } else {
        let first = shown.iter().position(chosen)?;
        Some(*shown.get(first.checked_sub(1)?)?)
    };
    let gaps = ids.to_vec();
    Some(Edit::MoveGaps { gaps, before })
}

/// Each of the gaps, changed.
fn each(survey: &Survey, ids: &[GapId], change: impl Fn(&mut Gap)) -> Edit {
    let gaps = ids.iter().filter_map(|&id| survey.gap(id));
    Edit::Several(
        gaps.map(|gap| {
            let mut gap = gap.clone();
            change(&mut gap);
            Edit::gap(gap)
        })
        .collect(),
    )
}

/// All go to one zone.
#[must_use]
pub fn zone(survey: &Survey, ids: &[GapId], zone: ZoneId) -> Edit {
    each(survey, ids, |gap| gap.zone = zone)
}

/// All get one state of the work, but for those that may not have it.
#[must_use]
pub fn state(survey: &Survey, ids: &[GapId], state: WorkState) -> Edit {
    each(survey, ids, |gap| {
        if may_become(survey, gap, state).is_ok() {
            gap.state = state;
        }
    })
}

/// All are the same part.
#[must_use]
pub fn part(survey: &Survey, ids: &[GapId], part: GapPart) -> Edit {
    each(survey, ids, |gap| gap.part = part)
}

/// The sizes of all were found in one way.
#[must_use]
pub fn certainty(survey: &Survey, ids: &[GapId], certainty: Certainty) -> Edit {
    each(survey, ids, |gap| gap.certainty = certainty)
}

/// All get one kind of remedy, or none, but for those that it does not suit.
#[must_use]
pub fn remedy(survey: &Survey, ids: &[GapId], kind: Option<RemedyKind>) -> Edit {
    each(survey, ids, |gap| {
        if kind.is_none_or(|kind| remedies(survey, gap).contains(&kind)) {
            gap.remedy = remedied(gap, kind);
        }
    })
}

/// The remedy of a gap with another kind: words, costs and time stay as they were.
#[must_use]
pub fn remedied(gap: &Gap, kind: Option<RemedyKind>) -> Option<Remedy> {
    let kind = kind?;
    Some(match gap.remedy.clone() {
        Some(old) => Remedy { kind, ..old },
        None => Remedy {
            kind,
            words: String::new(),
            leak_left_percent: None,
            material_cost: None,
            cost_basis: match gap.form {
                Form::NarrowGap { .. } => CostBasis::Metre,
                _ => CostBasis::Piece,
            },
            minutes: None,
        },
    })
}

/// No remedy, and every kind of one that suits any of the gaps or that it has.
#[must_use]
pub fn remedy_kinds(survey: &Survey, gaps: &[&Gap]) -> Vec<Option<RemedyKind>> {
    let has = |gap: &Gap, kind| gap.remedy.as_ref().is_some_and(|own| own.kind == kind);
    let suits = |gap: &Gap, kind| remedies(survey, gap).contains(&kind) || has(gap, kind);
    let kinds = RemedyKind::ALL.into_iter();
    let kinds = kinds.filter(|kind| gaps.iter().any(|gap| suits(gap, *kind)));
    std::iter::once(None).chain(kinds.map(Some)).collect()
}

/// A kind of remedy in words, or that there is none.
#[must_use]
pub fn remedy_words(kind: Option<RemedyKind>) -> &'static str {
    kind.map_or("none yet", RemedyKind::name)
}

/// Copies of all, as found.
#[must_use]
pub fn duplicate(survey: &Survey, ids: &[GapId]) -> Option<ChangeOfMany> {
    copies(survey, ids, |_| {})
}

/// Copies of all on the other side of the vehicle.
#[must_use]
pub fn mirror(survey: &Survey, ids: &[GapId]) -> Option<ChangeOfMany> {
    copies(survey, ids, |gap| mirrored(gap, survey))
}

fn copies(survey: &Survey, ids: &[GapId], change: impl Fn(&mut Gap)) -> Option<ChangeOfMany> {
    let mut free = survey.free_gap_id();
    let mut edits = Vec::new();
    let mut selected = Vec::new();
    for gap in ids.iter().filter_map(|&id| survey.gap(id)) {
        let mut gap = copied(gap, free);
        change(&mut gap);
        selected.push(gap.id);
        edits.push(Edit::gap(gap));
        free = GapId(free.0.checked_add(1)?);
    }
    (!selected.is_empty()).then_some(ChangeOfMany {
        edit: Edit::Several(edits),
        selected,
    })
}

/// Deletes all of them; the next row that stays is selected then, or else the one before. `shown`
/// is the order of the rows.
#[must_use]
pub fn delete(survey: &Survey, ids: &[GapId], shown: &[GapId]) -> Option<ChangeOfMany> {
    let going: Vec<GapId> = inner_first(survey, ids);
    if going.is_empty() {
        return None;
    }
    let first = shown.iter().position(|id| going.contains(id));
    let stays = |id: &&GapId| !going.contains(id);
    let (above, below) = shown.split_at(first.unwrap_or(0));
    let neighbour = below
        .iter()
        .find(stays)
        .or_else(|| above.iter().rfind(stays));
    let removals = going.iter().map(|&id| Edit::Remove(RecordId::Gap(id)));
    Some(ChangeOfMany {
        edit: Edit::Several(removals.collect()),
        selected: neighbour.copied().into_iter().collect(),
    })
}

/// The gaps in an order in which they can be removed: what lies behind another goes before it.
fn inner_first(survey: &Survey, ids: &[GapId]) -> Vec<GapId> {
    let outer: HashMap<GapId, GapId> = survey
        .gaps
        .iter()
        .filter_map(|gap| match gap.behind {
            Some(Behind::Gap(outer)) => Some((gap.id, outer)),
            _ => None,
        })
        .collect();
    let depth = |id: GapId| {
        let steps = std::iter::successors(outer.get(&id), |id| outer.get(id));
        // A ring of gaps, each behind the next, has no end.
        steps.take(outer.len()).count()
    };
    let mut going: Vec<GapId> = survey
        .gaps
        .iter()
        .map(|gap| gap.id)
        .filter(|id| ids.contains(id))
        .collect();
    going.sort_by_key(|&id| std::cmp::Reverse(depth(id)));
    going
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{LeadsTo, VehicleKind};

    fn survey(gaps: u32) -> Survey {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        for id in 1..=gaps {
            let form = Form::RoundHole {
                diameter_mm: Some(10.0),
            };
            let gap = Gap::new(GapId(id), survey.zones[0].id, Facing::Roof, form);
            survey.apply(Edit::gap(gap)).unwrap();
        }
        survey
    }

    fn ids(numbers: &[u32]) -> Vec<GapId> {
        numbers.iter().map(|&number| GapId(number)).collect()
    }

    #[test]
    fn what_lies_behind_is_removed_first_however_deep() {
        let mut survey = survey(4);
        for (inner, outer) in [(1, 2), (2, 4)] {
            let mut gap = survey.gap(GapId(inner)).unwrap().clone();
            gap.behind = Some(Behind::Gap(GapId(outer)));
            gap.leads_to = LeadsTo::Compartment;
            survey.apply(Edit::gap(gap)).unwrap();
        }
        let change = delete(&survey, &ids(&[4, 2, 1]), &ids(&[1, 2, 3, 4])).unwrap();
        survey.apply(change.edit).unwrap();
        assert_eq!(survey.gaps.len(), 1);
        assert_eq!(change.selected, ids(&[3]));
    }

    #[test]
    fn the_next_row_shown_is_selected_after_deleting() {
        let survey = survey(5);
        let after = |going: &[u32], shown: &[u32]| {
            delete(&survey, &ids(going), &ids(shown)).map(|change| change.selected)
        };
        assert_eq!(after(&[2, 3], &[5, 3, 2, 1]), Some(ids(&[1])));
        assert_eq!(after(&[1, 2], &[5, 3, 2, 1]), Some(ids(&[3])));
        assert_eq!(after(&[1], &[1]), Some(Vec::new()));
        assert_eq!(after(&[77], &[1]), None);
    }

    #[test]
    fn gaps_move_by_a_row_shown_and_not_out_of_the_ledger() {
        let all = [1, 2, 3, 4, 5];
        let after = |moving: &[u32], shown: &[u32], down| {
            let mut survey = survey(5);
            let edit = moved(&survey, &ids(moving), &ids(shown), down)?;
            survey.apply(edit).unwrap();
            Some(survey.gaps.iter().map(|gap| gap.id.0).collect::<Vec<_>>())
        };
        assert_eq!(after(&[3], &all, false), Some(vec![1, 3, 2, 4, 5]));
        assert_eq!(after(&[3], &all, true), Some(vec![1, 2, 4, 3, 5]));
        assert_eq!(after(&[4], &all, true), Some(vec![1, 2, 3, 5, 4]));
        assert_eq!(after(&[2, 4], &all, false), Some(vec![2, 4, 1, 3, 5]));
        assert_eq!(after(&[1], &all, false), None);
        assert_eq!(after(&[2, 5], &all, true), None);
        // Among rows that others lie between unseen, it goes past the next one seen.
        assert_eq!(after(&[1], &[1, 4], true), Some(vec![2, 3, 4, 1, 5]));
        assert_eq!(after(&[4], &[1, 4], false), Some(vec![4, 1, 2, 3, 5]));
    }

    #[test]
    fn copies_get_numbers_of_their_own() {
        let mut survey = survey(3);
        let change = duplicate(&survey, &ids(&[1, 3])).unwrap();
        assert_eq!(change.selected, ids(&[4, 5]));
        survey.apply(change.edit).unwrap();
        assert_eq!(survey.gaps.len(), 5);
        assert_eq!(duplicate(&survey, &[]), None);
    }

    #[test]
    fn another_kind_of_remedy_keeps_words_and_costs() {
        let mut gap = survey(1).gaps.remove(0);
        gap.remedy = remedied(&gap, Some(RemedyKind::Brush));
        gap.remedy.as_mut().unwrap().material_cost = Some(4.5);
        let second = remedied(&gap, Some(RemedyKind::Strip)).unwrap();
        assert_eq!(second.material_cost, Some(4.5));
        assert_eq!(second.kind, RemedyKind::Strip);
        assert_eq!(second.cost_basis, CostBasis::Piece);
        assert_eq!(remedied(&gap, None), None);
    }

    #[test]
    fn a_first_remedy_of_a_narrow_gap_is_counted_by_the_metre() {
        let mut gap = survey(1).gaps.remove(0);
        let [narrow, ..] = Form::blanks();
        assert!(matches!(narrow, Form::NarrowGap { .. }));
        gap.form = narrow;
        let remedy = remedied(&gap, Some(RemedyKind::Strip)).unwrap();
        assert_eq!(remedy.cost_basis, CostBasis::Metre);
    }
}
