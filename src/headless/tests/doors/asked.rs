//! What is asked first, what is marked, and how what moves is closed.

use super::*;

#[test]
fn a_word_in_name_zone_or_note_only_ever_makes_it_ask() {
    for (name, note) in [
        ("cable beside the gas tap", ""),
        ("battery box, upper hole", ""),
        ("hole", "Behind the toilet."),
        ("hole", "Close to the flue."),
        ("hole by the fridge", ""),
        ("louvre", ""),
    ] {
        let mut survey = van();
        let gap = add(&mut survey, "cab", name, Facing::Offside, hole(20.0));
        (gap.part, gap.note) = (GapPart::Hole, note.to_owned());
        refused_everywhere(&survey, "confirm that it protects nobody");
        survey.gaps[1].purpose_confirmed = true;
        assert!(doors(&survey, OTHER).contains("ranking"), "{name} {note}");
        // No word makes anything sealable.
        survey.gaps[1].part = GapPart::NotSaid;
        survey.gaps[1].name.push_str(", surely only a leak");
        refused_everywhere(&survey, "what part it is, is not said");
    }
}

#[test]
fn nothing_is_offered_before_the_appliances_are_confirmed() {
    let mut survey = van();
    survey.appliances_confirmed = false;
    for state in WorkState::ALL {
        survey.gaps[0].state = state;
        assert_eq!(doors(&survey, JOINT), BTreeSet::new());
    }
    let safety = &Study::of(&survey).assessment().safety.clone();
    assert!(matches!(
        safety.verdict,
        crate::assess::SafetyVerdict::NotKnown(_)
    ));
    assert!(text_page(&survey).contains("which appliances burn in the vehicle is not confirmed"));
    // What is below the table for those listed so far stays a danger.
    assert_eq!(
        Outcome::of(&Study::of(&survey).assessment().findings).code(),
        3
    );
    // One more appliance: the list was not whole.
    survey.appliances_confirmed = true;
    let more = Appliance {
        id: ApplianceId(2),
        ..survey.appliances[0].clone()
    };
    survey
        .apply(Edit::Put(Record::Appliance(more)))
        .expect("one more");
    assert!(!survey.appliances_confirmed);
}

#[test]
fn a_moving_seal_gets_a_new_seal_however_narrow_it_is() {
    for width in [0.4, 1.0, 3.0, 12.0] {
        let mut survey = van();
        let gap = add(
            &mut survey,
            "doors",
            "door seal",
            Facing::Offside,
            slot(width),
        );
        gap.part = GapPart::MovingSeal;
        let kinds: BTreeSet<&str> = offered(&survey)
            .into_iter()
            .filter(|one| one.1 == OTHER && one.0 != "remedies on the Gaps page")
            .filter_map(|one| one.2.map(RemedyKind::name))
            .collect();
        assert!(
            kinds.iter().all(|kind| ["strip", "brush"].contains(kind)),
            "{kinds:?}"
        );
        assert!(!kinds.is_empty());
        survey.gaps[1].remedy = Some(remedy(RemedyKind::Sealant));
        let refused = Sealable::of(&survey, OTHER).expect_err("filler");
        assert!(refused.to_string().contains("never filler"), "{refused}");
    }
}

#[test]
fn round_a_refrigerator_only_what_bears_the_heat_and_towards_the_living_space() {
    let mut survey = van();
    let facing = Facing::Cavity(Cavity::RefrigeratorCompartment);
    let gap = add(&mut survey, "fridge vents", "surround", facing, slot(2.0));
    gap.part = GapPart::RefrigeratorSurround;
    refused_everywhere(&survey, "confirm that it protects nobody");
    survey.gaps[1].purpose_confirmed = true;
    survey.gaps[1].state = WorkState::Planned;
    let lines = plan_lines(&Study::of(&survey));
    let line = lines
        .iter()
        .find(|line| line["gap"] == "2")
        .expect("its line");
    assert!(line["remedy_words"].contains("heat-resisting"));
    assert!(line["heed"].contains("towards the living space only"));
    assert!(text_page(&survey).contains("nothing that narrows the refrigerator's own air"));
    // So does a joint that is only named so.
    survey.gaps[1].facing = Facing::Offside;
    survey.gaps[1].part = GapPart::FixedJoint;
    survey.gaps[1].name = "round the refrigerator".to_owned();
    let lines = plan_lines(&Study::of(&survey));
    assert!(
        lines
            .iter()
            .any(|line| line["remedy_words"].contains("heat-resisting"))
    );
    survey.gaps[1].remedy = Some(remedy(RemedyKind::CoverPlate));
    assert!(Sealable::of(&survey, OTHER).is_err());
}

#[test]
fn a_safety_opening_called_unintended_stays_marked_and_asks() {
    let mut survey = van();
    let gap = add(&mut survey, "rooflights", "dome", Facing::Roof, hole(80.0));
    (gap.purpose, gap.part) = (Purpose::SafetyVentilation, GapPart::Hole);
    gap.purpose_confirmed = true;
    let mut changed = survey.gaps[1].clone();
    changed.purpose = Purpose::Unintended;
    let edit = Edit::Put(Record::Gap(Box::new(changed)));
    let given_up: Vec<GapId> = survey.given_up_by(&edit).iter().map(|gap| gap.id).collect();
    assert_eq!(given_up, [OTHER]);
    survey.apply(edit).expect("a change");
    assert_eq!(survey.gaps[1].purpose_was, Some(Purpose::SafetyVentilation));
    let words = "it was safety ventilation before its purpose was changed by hand";
    refused_everywhere(&survey, words);
    let ledger = contents(
        &Material::of(&Study::of(&survey), Kind::Report, &BTreeMap::new()),
        &Choices::new(Kind::Report),
    );
    let paper = format!("{:?}", ledger.text.sections);
    assert!(paper.contains("purpose changed by hand, it was safety ventilation"));
    // No later edit takes the mark away, but setting it back.
    let mut washed = survey.gaps[1].clone();
    (washed.purpose_was, washed.purpose_confirmed) = (None, true);
    survey
        .apply(Edit::Put(Record::Gap(Box::new(washed))))
        .expect("a change");
    assert_eq!(survey.gaps[1].purpose_was, Some(Purpose::SafetyVentilation));
    assert!(doors(&survey, OTHER).contains("ranking"));
    let words = "it was safety ventilation before its purpose was changed by hand";
    assert!(text_page(&survey).contains(words));
    let mut back = survey.gaps[1].clone();
    back.purpose = Purpose::SafetyVentilation;
    survey
        .apply(Edit::Put(Record::Gap(Box::new(back))))
        .expect("a change");
    assert_eq!(survey.gaps[1].purpose_was, None);
}

/// Both marks are dangers; the shortfall is stated as if it were closed already.
#[test]
fn a_ventilator_marked_sealed_counts_nothing_whatever_its_remedy_leaves() {
    // Over 10 m² up to 15 the table asks 12 500 mm² in the roof and 2 000 low [R].
    let mut survey = van();
    survey.vehicle.length_m = Some(6.0);
    survey.vehicle.width_m = Some(2.1);
    for (facing, diameter) in [(Facing::Roof, 130.0), (Facing::Underfloor, 60.0)] {
        let gap = add(
            &mut survey,
            "rooflights",
            "ventilator",
            facing,
            hole(diameter),
        );
        gap.purpose = Purpose::SafetyVentilation;
    }
    let of = |survey: &Survey| Study::of(survey).assessment().clone();
    assert_eq!(
        of(&survey).safety.verdict,
        crate::assess::SafetyVerdict::Meets
    );
    for left in [None, Some(90.0)] {
        survey.gaps[1].state = WorkState::Sealed;
        survey.gaps[1].remedy = Some(Remedy {
            leak_left_percent: left,
            ..remedy(RemedyKind::CoverPlate)
        });
        let found = of(&survey);
        let crate::assess::SafetyVerdict::Below {
            high_share,
            low_share,
        } = found.safety.verdict
        else {
            panic!("{:?}", found.safety.verdict);
        };
        // π/4 · 60² = 2827 mm² of 2000.
        assert!(high_share.abs() < 1e-12 && (low_share - 2827.433 / 2000.0).abs() < 1e-6);
        assert_eq!(Outcome::of(&found.findings).code(), 3);
    }
    survey.gaps[1].state = WorkState::Planned;
    let found = of(&survey);
    let dangers: Vec<&str> = found
        .findings
        .iter()
        .filter(|one| one.severity == Severity::Danger)
        .map(|one| one.sentence.as_str())
        .collect();
    let left = "closing the ventilators that are marked planned would leave only 0 % of the free area asked for high up";
    assert!(
        dangers.iter().any(|words| words.starts_with(left)),
        "{dangers:?}"
    );
    assert!(
        dangers
            .iter()
            .any(|words| words.contains("marked planned but must stay open"))
    );
}
