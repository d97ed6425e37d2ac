//! Papers for owners: in their words, with what was found beside what was done.

use super::papers::{priced, sealed};
use super::*;
use crate::survey::{Gap, Photo};
use std::sync::Arc;

const SAMPLES: [&str; 6] = [
    COACH_BUILT,
    CARAVAN,
    include_str!("../../../../sample-surveys/forest-integrated.ron"),
    include_str!("../../../../sample-surveys/street-panel-van.ron"),
    include_str!("../../../../sample-surveys/two-opening-check.ron"),
    include_str!("../../../../sample-surveys/vineyard-coachbuilt.ron"),
];

/// Words of the trade that an owner has no use for.
const NOT_FOR_OWNERS: [&str; 6] = ["EqLA", "ELA", "Pa", "Cd", "Cp", "n50"];

fn says_it_plainly(what: &str, sections: &[Section]) {
    assert!(!sections.is_empty(), "{what}");
    let text = serde_json::to_string(sections).expect("JSON");
    for mark in Mark::ALL {
        assert!(!text.contains(&mark.bracketed()), "{what}: {text}");
    }
    let words = text.split(|letter: char| !letter.is_alphanumeric());
    for word in words {
        assert!(!NOT_FOR_OWNERS.contains(&word), "{what}: {word} in {text}");
    }
}

#[test]
fn a_quotation_without_a_protective_opening_says_so_instead_of_listing_none() {
    let survey = file::parse(SAMPLES[4]).expect("a sample");
    let quotation = sheet(&survey, &Choices::new(Kind::Quotation));
    let open = section(&quotation, "What stays open").expect("what stays open");
    let text = serde_json::to_string(open).expect("JSON");
    assert!(
        text.contains("No opening that protects people is in the survey."),
        "{text}"
    );
    assert!(!text.contains("never closed, whatever they cost"), "{text}");
}

#[test]
fn an_owners_papers_speak_no_jargon() {
    for sample in SAMPLES {
        let survey = file::parse(sample).expect("a sample");
        let title = &survey.header.title;
        let mut planned = survey.clone();
        let study = Study::of(&survey);
        let steps = study.work().iter().flat_map(|work| &work.steps);
        let ids: Vec<_> = steps.map(|step| step.sealable.gap()).collect();
        for gap in planned.gaps.iter_mut().filter(|gap| ids.contains(&gap.id)) {
            gap.state = WorkState::Planned;
        }
        let done = sealed(planned.clone(), "2031-03-01");
        for (kind, survey) in [
            (Kind::Quotation, &planned),
            (Kind::Invoice, &done),
            (Kind::Completion, &done),
        ] {
            let sheet = sheet(survey, &Choices::new(kind));
            says_it_plainly(&format!("{title}, {kind:?}"), &sheet.text.sections);
        }
        let report = sheet(&survey, &Choices::new(Kind::Report));
        let first = section(&report, "In short")
            .expect("the first page")
            .clone();
        says_it_plainly(&format!("{title}, in short"), &[first]);
    }
}

/// Titles of all sections, where the workshop has all its own texts.
fn titles(survey: &Survey, kind: Kind) -> Vec<String> {
    let mut choices = Choices::new(kind);
    for text in &crate::sheet::WorkshopTexts::ALL {
        *(text.of)(&mut choices.workshop.texts) = "Some words.".to_owned();
    }
    let sections = sheet(survey, &choices).text.sections;
    sections.into_iter().map(|section| section.title).collect()
}

#[test]
fn nobody_signs_or_pays_what_holds_nothing() {
    let mut survey = priced(78.0, None);
    assert!(titles(&survey, Kind::Quotation).contains(&"Acceptance".to_owned()));
    assert_eq!(titles(&survey, Kind::Invoice), ["What was done"]);
    // A vehicle without a gap: nothing is offered either.
    survey.gaps.clear();
    assert_eq!(titles(&survey, Kind::Quotation), ["What is offered"]);
}

/// The kinds of photos of a sheet's rows, by what stands under them.
fn rows_of(survey: &Survey, kind: Kind) -> Vec<Vec<String>> {
    let picture = Picture {
        bytes: Arc::default(),
        width: 1200,
        height: 900,
    };
    let names = ["a", "b", "c", "d", "e"].map(|name| (name.to_owned(), picture.clone()));
    let (study, photos) = (Study::of(survey), BTreeMap::from(names));
    let sheet = contents(&Material::of(&study, kind, &photos), &Choices::new(kind));
    let blocks = sheet
        .text
        .sections
        .iter()
        .flat_map(|section| &section.blocks);
    let rows = blocks.filter_map(|block| match block {
        Block::Photos { rows } => Some(rows),
        _ => None,
    });
    rows.flatten()
        .map(|row| {
            let ends = row.iter().map(|photo| {
                let words = photo.caption.rsplit(" · ").next();
                words.unwrap_or_default().to_owned()
            });
            ends.collect()
        })
        .collect()
}

#[test]
fn a_photo_of_the_work_stands_beside_one_of_what_was_found() {
    let photo = |name: &str, after_work| Photo {
        after_work,
        ..Photo::new(name)
    };
    let mut survey = priced(78.0, None);
    let planned = |gap: &&mut Gap| gap.state == WorkState::Planned;
    let mut gaps = survey.gaps.iter_mut().filter(planned);
    gaps.next().expect("a gap").photos =
        vec![photo("a", true), photo("b", false), photo("c", false)];
    gaps.next().expect("a gap").photos = vec![photo("d", false), photo("e", true)];
    let done = sealed(survey.clone(), "2031-03-01");
    assert_eq!(
        rows_of(&done, Kind::Completion),
        [
            vec!["as found", "after the work"],
            vec!["as found", "after the work"],
            vec!["as found"],
        ]
    );
    // Before the work nobody sees what comes of it.
    let order = rows_of(&survey, Kind::WorkOrder).concat();
    assert_eq!(order.len(), 3);
    assert!(
        order.iter().all(|words| words != "after the work"),
        "{order:?}"
    );
}

#[test]
fn an_owner_reads_of_fan_tests_what_changed_and_what_was_uncovered() {
    let survey = file::parse(SAMPLES[5]).expect("a sample");
    let told = |survey: &Survey| {
        let completion = sheet(survey, &Choices::new(Kind::Completion));
        let section = section(&completion, "Tested with a fan").expect("the tests");
        serde_json::to_string(section).expect("JSON")
    };
    let both = told(&survey);
    // numpy: a straight line through the logarithms of each direction’s readings, the pressures with the
    // fan covered taken off, gives at 50 Pa 662 m³/h before and 535 after, means of both directions.
    assert!(both.contains("19\u{a0}% less air came through"), "{both}");
    assert!(both.contains("uncovered again: gap 11"), "{both}");
    assert!(!both.contains("closed and covered alike"), "{both}");
    let mut other = survey.clone();
    other.fan_tests[1].covered.remove(0);
    assert!(told(&other).contains("not closed and covered alike"));
    let mut only = survey.clone();
    only.fan_tests.truncate(1);
    assert!(told(&only).contains("not tested after the work"));
    // Whoever wants proof has the readings.
    let mut choices = Choices::new(Kind::Completion);
    choices.parts.insert(Part::Proof);
    let proof = sheet(&survey, &choices);
    let text = serde_json::to_string(&proof.text.sections).expect("JSON");
    assert!(text.contains("Air changes at 50") && !text.contains("\"Tested with a fan\""));
}
