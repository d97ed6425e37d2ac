//! Openings that were offered once, and are no more.

use super::*;

#[test]
fn a_grille_among_the_fridge_vents_asks_its_purpose_before_it_counts() {
    let mut survey = van();
    add(
        &mut survey,
        "fridge vents",
        "grille",
        Facing::Nearside,
        grille(),
    );
    assert_eq!(survey.gaps[1].purpose, Purpose::NotSaid);
    refused_everywhere(&survey, "its purpose is not said");
    // It is in the total of all gaps alone, and its air in the balance.
    let study = Study::of(&survey);
    let leakage = &study.assessment().leakage;
    let gaps = |total: &crate::assess::Answer<crate::assess::LeakageTotal>| {
        total.as_ref().expect("sized").gaps
    };
    assert_eq!((gaps(&leakage.all), gaps(&leakage.unintended)), (2, 1));
    assert_eq!(gaps(&leakage.safety_ventilation), 0);
    assert!(text_page(&survey).contains("is for is not said: it counts in all gaps"));
    let air = |survey: &Survey| study_ach(survey);
    let mut without = survey.clone();
    without.gaps.truncate(1);
    assert!(air(&survey) > 2.0 * air(&without));
    // An old file calls it unintended: it is asked about all the same, until somebody confirms it.
    survey.gaps[1].purpose = Purpose::Unintended;
    survey.gaps[1].part = GapPart::Grille;
    refused_everywhere(&survey, "confirm that it protects nobody");
    let leakage = &Study::of(&survey).assessment().leakage.clone();
    assert_eq!((gaps(&leakage.all), gaps(&leakage.unintended)), (2, 1));
    survey.gaps[1].purpose_confirmed = true;
    assert!(doors(&survey, OTHER).contains("ranking"));
}

fn study_ach(survey: &Survey) -> f64 {
    let study = Study::of(survey);
    let found = study.ranking(Aim::AchWindy).clone().expect("a ranking");
    found.before.ach_windy_per_h.expect("an air change")
}

#[test]
fn a_gas_pipes_passage_is_told_apart_as_work_for_a_licensed_fitter() {
    for (name, part) in [
        ("gas pipe through the locker's bulkhead", GapPart::Passage),
        ("pipe through the bulkhead", GapPart::GasPassage),
    ] {
        let mut survey = van();
        let facing = Facing::Cavity(Cavity::Locker);
        let gap = add(
            &mut survey,
            "lockers & service holes",
            name,
            facing,
            hole(22.0),
        );
        gap.part = part;
        // Not even somebody's word makes it the workshop's.
        gap.purpose_confirmed = true;
        refused_everywhere(&survey, "is work for a licensed gas fitter");
        let study = Study::of(&survey);
        let order = contents(
            &Material::of(&study, Kind::WorkOrder, &BTreeMap::new()),
            &Choices::new(Kind::WorkOrder),
        );
        let heading = "For a licensed gas fitter, not for the workshop";
        let told = |block: &crate::report::Block| format!("{block:?}").contains(heading);
        assert!(
            order
                .text
                .sections
                .iter()
                .any(|one| one.blocks.iter().any(told))
        );
        // What the fitter has closed is closed.
        let mut done = survey.gaps[1].clone();
        done.state = WorkState::Sealed;
        survey
            .apply(Edit::Put(Record::Gap(Box::new(done))))
            .expect("a record of it");
    }
}

#[test]
fn a_floor_drain_gets_a_trap_and_is_never_blinded() {
    let mut survey = van();
    let gap = add(
        &mut survey,
        "floor edge",
        "drain",
        Facing::Underfloor,
        hole(20.0),
    );
    (gap.purpose, gap.part) = (Purpose::Drain, GapPart::Drain);
    refused_everywhere(&survey, "openings in the floor may be drop-outs");
    survey.gaps[1].purpose_confirmed = true;
    let remedies: BTreeSet<&str> = offered(&survey)
        .into_iter()
        .filter(|one| one.1 == OTHER)
        .filter_map(|one| one.2.map(RemedyKind::name))
        .collect();
    assert_eq!(remedies, BTreeSet::from(["trap or one-way valve"]));
    survey.gaps[1].remedy = Some(remedy(RemedyKind::CoverPlate));
    let refused = Sealable::of(&survey, OTHER).expect_err("blinded");
    assert_eq!(
        refused,
        StaysOpen::RemedyUnsuited {
            kind: RemedyKind::CoverPlate,
            manner: Manner::Trap
        }
    );
    assert!(refused.to_string().contains("never blind it"));
}

#[test]
fn a_floor_opening_of_a_gas_locker_is_a_drop_out_whatever_it_is_called() {
    for (purpose, part) in [
        (Purpose::Unintended, GapPart::Hole),
        (Purpose::Drain, GapPart::Drain),
        (Purpose::Unintended, GapPart::Passage),
    ] {
        let mut survey = van();
        let name = "drain of the gas locker";
        let gap = add(
            &mut survey,
            "floor edge",
            name,
            Facing::Underfloor,
            hole(30.0),
        );
        (gap.purpose, gap.part) = (purpose, part);
        gap.purpose_confirmed = true;
        refused_everywhere(&survey, "lets leaked gas fall out");
    }
}

#[test]
fn dash_vents_are_closed_by_their_own_lever_and_never_sealed() {
    for (purpose, closing) in [
        (Purpose::UserVentilation, None),
        (Purpose::Unintended, Some(Closing::CLOSED)),
    ] {
        let mut survey = van();
        let facing = Facing::Cavity(Cavity::EngineBay);
        let gap = add(&mut survey, "cab", "dash outlets", facing, hole(60.0));
        (gap.purpose, gap.closing, gap.part) = (purpose, closing, GapPart::Hole);
        gap.purpose_confirmed = true;
        refused_everywhere(&survey, "that is a setting and no remedy");
    }
}

#[test]
fn vents_of_batteries_and_toilets_and_flues_are_never_closed() {
    for part in [GapPart::BatteryVent, GapPart::ToiletVent, GapPart::Flue] {
        let mut survey = van();
        let gap = add(
            &mut survey,
            "floor edge",
            "outlet",
            Facing::Offside,
            hole(40.0),
        );
        (gap.part, gap.purpose_confirmed) = (part, true);
        refused_everywhere(&survey, "must stay open");
    }
}
