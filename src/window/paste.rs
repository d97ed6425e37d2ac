//! Gaps from the clipboard, made gaps of a survey: with numbers, zones and spaces of its own.

use super::changes_of_many::ChangeOfMany;
use super::clipboard::Copied;
use super::ledger::copied;
use crate::assess::words::counted;
use crate::survey::{Behind, Edit, Gap, GapId, Record, SpaceId, Survey, Zone, ZoneId};
use std::collections::HashMap;

/// What pasting changes, and what is to be told of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pasted {
    /// The change.
    pub change: ChangeOfMany,
    /// Sentences.
    pub told: String,
}

/// The gaps as they are added to a survey, as found: photos and the state of the work belong to the
/// gaps they were copied from. A zone or space of the same name is the same; a zone that is missing
/// is added. What lies behind another gap keeps that only where the other was copied too: the same
/// number is another gap in another survey.
#[must_use]
pub fn paste(survey: &Survey, from: &Copied) -> Option<Pasted> {
    let mut edits = Vec::new();
    let zones = zones(survey, from, &mut edits)?;
    let spaces = spaces(survey, from);
    let mut free = survey.free_gap_id();
    let mut numbers = HashMap::new();
    for gap in &from.gaps {
        numbers.insert(gap.id, free);
        free = GapId(free.0.checked_add(1)?);
    }
    let (mut alone, mut elsewhere) = (0, 0);
    let mut selected = Vec::new();
    for gap in &from.gaps {
        let mut new: Gap = copied(gap, *numbers.get(&gap.id)?);
        new.zone = *zones.get(&gap.zone)?;
        if let Some(space) = gap.space {
            new.space = spaces.get(&space).copied();
            elsewhere += usize::from(new.space.is_none());
        }
        if let Some(Behind::Gap(outer)) = gap.behind {
            new.behind = numbers.get(&outer).copied().map(Behind::Gap);
            alone += usize::from(new.behind.is_none());
        }
        selected.push(new.id);
        edits.push(Edit::gap(new));
    }
    let told = told(selected.len(), alone, elsewhere);
    let edit = Edit::Several(edits);
    (!selected.is_empty()).then_some(Pasted {
        change: ChangeOfMany { edit, selected },
        told,
    })
}

/// The zone of the survey for each that was copied; those it lacks are added.
fn zones(survey: &Survey, from: &Copied, edits: &mut Vec<Edit>) -> Option<HashMap<ZoneId, ZoneId>> {
    let mut free = survey.free_zone_id();
    let mut all = survey.zones.clone();
    let mut zones = HashMap::new();
    for zone in &from.zones {
        if !from.gaps.iter().any(|gap| gap.zone == zone.id) {
            continue;
        }
        let there = all.iter().find(|old| is_same(&old.name, &zone.name));
        let id = match there {
            Some(old) => old.id,
            None => {
                let id = free;
                let name = zone.name.clone();
                let new = Zone { id, name };
                free = ZoneId(free.0.checked_add(1)?);
                all.push(new.clone());
                edits.push(Edit::Put(Record::Zone(new)));
                id
            }
        };
        zones.insert(zone.id, id);
    }
    Some(zones)
}

fn spaces(survey: &Survey, from: &Copied) -> HashMap<SpaceId, SpaceId> {
    let spaces = from.spaces.iter().filter_map(|space| {
        let mut own = survey.spaces.iter();
        let own = own.find(|own| is_same(&own.name, &space.name))?;
        Some((space.id, own.id))
    });
    spaces.collect()
}

fn is_same(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

fn told(pasted: usize, alone: usize, elsewhere: usize) -> String {
    let pasted = counted(pasted, "gap", "gaps");
    let mut told = format!(
        "{pasted} pasted, as found: photos and the state of the work stay with what was copied."
    );
    if alone > 0 {
        let gaps = counted(alone, "gap", "gaps");
        told = format!("{told} What {gaps} lay behind was not copied: say it again in the form.");
    }
    if elsewhere > 0 {
        let gaps = counted(elsewhere, "gap", "gaps");
        told = format!("{told} The space of {gaps} is not in this survey: choose one.");
    }
    told
}

#[cfg(test)]
mod tests {
    use super::super::clipboard::{read, text};
    use super::*;
    use crate::survey::limits::MOST_GAPS;
    use crate::survey::{Facing, Form, LeadsTo, Photo, Purpose, Space, VehicleKind, WorkState};

    fn with_gaps(kind: VehicleKind, gaps: u32) -> Survey {
        let mut survey = Survey::new(kind);
        for id in 1..=gaps {
            let form = Form::RoundHole {
                diameter_mm: Some(10.0),
            };
            let gap = Gap::new(GapId(id), survey.zones[0].id, Facing::Roof, form);
            survey.apply(Edit::gap(gap)).unwrap();
        }
        survey
    }

    fn over(from: &Survey, ids: &[u32], to: &mut Survey) -> Pasted {
        let ids: Vec<GapId> = ids.iter().map(|&id| GapId(id)).collect();
        let copied = read(&text(from, &ids)).unwrap();
        let pasted = paste(to, &copied).unwrap();
        to.apply(pasted.change.edit.clone()).unwrap();
        pasted
    }

    #[test]
    fn zones_and_spaces_are_found_by_name_and_missing_zones_are_added() {
        let mut from = with_gaps(VehicleKind::PanelVan, 3);
        from.zones[0].name = "Boot room".to_owned();
        from.gaps[1].zone = from.zones[2].id;
        from.spaces = vec![Space {
            id: SpaceId(4),
            name: "cab".to_owned(),
            volume_m3: None,
            warmer_by_k: 0.0,
        }];
        from.gaps[0].space = Some(SpaceId(4));
        let mut to = with_gaps(VehicleKind::PanelVan, 2);
        let known = to.zones.len();
        let pasted = over(&from, &[1, 2, 3], &mut to);
        assert_eq!(pasted.change.selected, [GapId(3), GapId(4), GapId(5)]);
        assert_eq!(to.zones.len(), known + 1);
        assert_eq!(to.zones[known].name, "Boot room");
        assert_eq!(to.gaps[2].zone, to.zones[known].id);
        assert_eq!(to.gaps[3].zone, to.zones[2].id);
        assert_eq!(to.gaps[4].zone, to.gaps[2].zone, "added once");
        assert_eq!(to.gaps[2].space, None);
        assert!(pasted.told.contains("The space of 1 gap is not"));
        to.spaces = from.spaces.clone();
        to.spaces[0].id = SpaceId(9);
        over(&from, &[1], &mut to);
        assert_eq!(to.gaps[5].space, Some(SpaceId(9)));
    }

    #[test]
    fn what_lies_behind_another_keeps_only_what_was_copied_with_it() {
        let mut from = with_gaps(VehicleKind::PanelVan, 2);
        from.gaps[0].leads_to = LeadsTo::Compartment;
        from.gaps[1].behind = Some(Behind::Gap(GapId(1)));
        let mut to = with_gaps(VehicleKind::PanelVan, 5);
        over(&from, &[1, 2], &mut to);
        assert_eq!(to.gaps[6].behind, Some(Behind::Gap(GapId(6))));
        let pasted = over(&from, &[2], &mut to);
        assert_eq!(to.gaps[7].behind, None);
        assert!(pasted.told.contains("What 1 gap lay behind was not copied"));
    }

    #[test]
    fn nothing_pasted_is_sealed_confirmed_or_takes_photos_and_protection_stays() {
        let mut from = with_gaps(VehicleKind::PanelVan, 1);
        let gap = &mut from.gaps[0];
        gap.photos.push(Photo::new("one.jpg"));
        (gap.state, gap.purpose_confirmed) = (WorkState::Sealed, true);
        gap.purpose_was = Some(Purpose::GasDropOut);
        let mut to = Survey::new(VehicleKind::PanelVan);
        over(&from, &[1], &mut to);
        let gap = &to.gaps[0];
        assert!(gap.photos.is_empty() && !gap.purpose_confirmed);
        assert_eq!(gap.state, WorkState::Open);
        assert_eq!(gap.purpose_was, Some(Purpose::GasDropOut));
    }

    #[test]
    fn more_gaps_than_a_file_holds_are_refused_all_together() {
        let from = with_gaps(VehicleKind::PanelVan, 2);
        let mut to = with_gaps(VehicleKind::PanelVan, 1);
        let most = u32::try_from(MOST_GAPS).unwrap();
        let more = (2..most).map(|id| {
            let mut gap = to.gaps[0].clone();
            gap.id = GapId(id);
            gap
        });
        to.gaps = to.gaps.iter().cloned().chain(more).collect();
        let copied = read(&text(&from, &[GapId(1), GapId(2)])).unwrap();
        let pasted = paste(&to, &copied).unwrap();
        let refused = to.apply(pasted.change.edit).unwrap_err();
        assert!(refused.to_string().contains("at most 5000 gaps"));
        assert_eq!(to.gaps.len(), MOST_GAPS - 1);
    }
}
