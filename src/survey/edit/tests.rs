use super::*;
use crate::survey::{Facing, Form, VehicleKind};

fn survey_with_gap() -> (Survey, GapId) {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    let id = survey.free_gap_id();
    let zone = survey.zones[0].id;
    let gap = Gap::new(
        id,
        zone,
        Facing::Front,
        Form::RoundHole {
            diameter_mm: Some(20.0),
        },
    );
    survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
    (survey, id)
}

#[test]
fn a_zone_that_holds_gaps_stays() {
    let (mut survey, _) = survey_with_gap();
    let before = survey.clone();
    let zone = survey.zones[0].id;
    let refused = survey
        .apply(Edit::Remove(RecordId::Zone(zone)))
        .unwrap_err();
    assert!(refused.to_string().contains("still holds 1 gap"));
    assert_eq!(survey, before);
}

#[test]
fn an_outer_gap_stays_while_another_lies_behind_it() {
    let (mut survey, outer) = survey_with_gap();
    let inner = survey.free_gap_id();
    let mut gap = survey.gap(outer).unwrap().clone();
    gap.id = inner;
    gap.behind = Some(Behind::Gap(outer));
    survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
    let refused = survey
        .apply(Edit::Remove(RecordId::Gap(outer)))
        .unwrap_err();
    assert_eq!(
        refused,
        EditRefused::GapInFront {
            gap: outer,
            behind: inner
        }
    );
    survey.apply(Edit::Remove(RecordId::Gap(inner))).unwrap();
    survey.apply(Edit::Remove(RecordId::Gap(outer))).unwrap();
    assert!(survey.gaps.is_empty());
}

#[test]
fn a_space_stays_while_something_names_it() {
    let (mut survey, id) = survey_with_gap();
    let space = |id| {
        Record::Space(Space {
            id: SpaceId(id),
            name: "cab".to_owned(),
            volume_m3: None,
            warmer_by_k: 0.0,
        })
    };
    let both = vec![Edit::Put(space(1)), Edit::Put(space(2))];
    survey.apply(Edit::Several(both)).unwrap();
    let mut gap = survey.gap(id).unwrap().clone();
    gap.space = Some(SpaceId(2));
    survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
    let refused = survey.apply(Edit::Remove(RecordId::Space(SpaceId(2))));
    assert!(
        refused
            .unwrap_err()
            .to_string()
            .contains("while gap 1 names it")
    );
    survey
        .apply(Edit::Remove(RecordId::Space(SpaceId(1))))
        .unwrap();
    assert_eq!(survey.spaces.len(), 1);
}

#[test]
fn several_edits_are_made_all_or_none() {
    let (mut survey, id) = survey_with_gap();
    let before = survey.clone();
    let zone = survey.zones[0].id;
    let edit = Edit::Several(vec![
        Edit::SetUp(SetUp::InUse),
        Edit::Remove(RecordId::Zone(zone)),
        Edit::Remove(RecordId::Gap(id)),
    ]);
    assert!(survey.apply(edit).is_err());
    assert_eq!(survey, before);
}

#[test]
fn putting_a_known_id_replaces_in_place() {
    let (mut survey, id) = survey_with_gap();
    let mut gap = survey.gap(id).unwrap().clone();
    gap.count = 3;
    survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
    assert_eq!(survey.gaps.len(), 1);
    assert_eq!(survey.gaps[0].count, 3);
}
