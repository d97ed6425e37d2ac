//! The sample surveys: they open, say that they are invented, and are fit to draw and assess.
//!
//! `UPDATE_SAMPLES=1 cargo test --test layers samples` writes them anew as the program itself
//! would save them, after somebody has edited one by hand.

use std::collections::BTreeSet;
use std::error::Error;
use std::fs;

use gapledger::survey::file::{parse, print};
use gapledger::survey::findings::{self, Severity};
use gapledger::survey::{Form, LeadsTo, Purpose, Survey};

use super::{files_under, package};

/// A sample: its file name, its text, and the survey in it.
type Sample = (String, String, Survey);

/// Every sample.
fn samples() -> Result<Vec<Sample>, Box<dyn Error>> {
    let mut samples = Vec::new();
    for file in files_under("sample-surveys", &["ron"])? {
        let text = fs::read_to_string(package().join(&file))?;
        let name = file
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let survey = parse(&text).map_err(|error| format!("{name}: {error}"))?;
        samples.push((name, text, survey));
    }
    assert!(samples.len() >= 5, "only {} sample surveys", samples.len());
    Ok(samples)
}

/// Opening and saving a sample unchanged leaves its file as it was.
#[test]
fn samples_stand_as_the_program_saves_them() -> Result<(), Box<dyn Error>> {
    let update = std::env::var_os("UPDATE_SAMPLES").is_some();
    for (name, text, survey) in samples()? {
        let saved = print(&survey);
        if update {
            fs::write(package().join("sample-surveys").join(&name), &saved)?;
        } else {
            assert_eq!(
                text, saved,
                "{name} differs from what the program saves: UPDATE_SAMPLES=1 writes it anew"
            );
        }
    }
    Ok(())
}

#[test]
fn samples_say_that_they_are_invented_and_differ() -> Result<(), Box<dyn Error>> {
    let mut scenes = BTreeSet::new();
    let mut kinds = BTreeSet::new();
    let mut sites = BTreeSet::new();
    for (name, _, survey) in samples()? {
        assert!(
            survey.header.scene.starts_with("Invented"),
            "{name}: its scene must begin by saying that it is invented"
        );
        scenes.insert(survey.header.scene);
        kinds.insert(survey.vehicle.kind.name());
        sites.insert(format!(
            "{:?} {:?}",
            survey.site.terrain, survey.site.shelter
        ));
    }
    assert!(scenes.len() >= 5, "two samples share a scene");
    assert_eq!(
        kinds.len(),
        5,
        "every kind of vehicle has a sample: {kinds:?}"
    );
    assert!(
        sites.len() >= 4,
        "the samples stand in different places: {sites:?}"
    );
    Ok(())
}

#[test]
fn samples_hold_no_errors_and_every_gap_has_its_place() -> Result<(), Box<dyn Error>> {
    for (name, _, survey) in samples()? {
        for finding in findings::find(&survey) {
            assert_ne!(
                finding.severity,
                Severity::Error,
                "{name}: {}",
                finding.sentence
            );
        }
        for gap in &survey.gaps {
            let place = gap.position;
            assert!(
                place.along_m.is_some() && place.across_m.is_some() && place.height_m.is_some(),
                "{name}: gap {} cannot be drawn",
                gap.id
            );
        }
    }
    Ok(())
}

#[test]
fn the_farmyard_caravan_shows_what_a_survey_holds() -> Result<(), Box<dyn Error>> {
    let all = samples()?;
    let (_, _, survey) = all
        .iter()
        .find(|(name, _, _)| name == "farmyard-caravan.ron")
        .ok_or("there is no farmyard caravan")?;
    let used: BTreeSet<u32> = survey.gaps.iter().map(|gap| gap.zone.0).collect();
    assert_eq!(used, (1..=7).collect(), "gaps in all seven default zones");
    assert!((30..=38).contains(&survey.gaps.len()));
    let has = |purpose| survey.gaps.iter().any(|gap| gap.purpose == purpose);
    assert!(has(Purpose::SafetyVentilation));
    assert!(has(Purpose::GasDropOut));
    assert!(has(Purpose::UserVentilation));
    let behind_grille = survey.gaps.iter().any(|gap| {
        gap.purpose == Purpose::ApplianceAir
            && gap.leads_to == LeadsTo::Compartment
            && matches!(gap.form, Form::Grille { .. })
    });
    assert!(
        behind_grille,
        "a refrigerator grille that leads to its compartment"
    );
    let unsized_gaps = findings::find(survey)
        .iter()
        .filter(|finding| finding.sentence.contains("not sized"))
        .count();
    assert_eq!(unsized_gaps, 1, "one gap is left without a size on purpose");
    Ok(())
}
