//! What people wrote in a survey: names and notes stay as they are in whatever units results are
//! shown.

use super::cell::unit_in;
use super::dates;
use super::text::rewritten;
use crate::survey::Survey;
use std::borrow::Cow;

/// The texts of a survey that translating would change, the longest first.
pub(super) fn of(survey: &Survey) -> Vec<String> {
    let header = &survey.header;
    let mut texts: Vec<&str> = vec![
        &header.title,
        &header.scene,
        &header.surveyor,
        &header.reference,
        &header.note,
    ];
    for gap in &survey.gaps {
        texts.extend([&gap.name, &gap.note, &gap.damp].map(String::as_str));
        texts.extend(gap.remedy.iter().map(|remedy| remedy.words.as_str()));
        texts.extend(gap.photos.iter().map(|photo| photo.caption.as_str()));
    }
    texts.extend(survey.zones.iter().map(|one| one.name.as_str()));
    texts.extend(survey.weather.iter().map(|one| one.name.as_str()));
    texts.extend(survey.fabric.iter().map(|one| one.name.as_str()));
    texts.extend(survey.appliances.iter().map(|one| one.name.as_str()));
    texts.extend(survey.machines.iter().map(|one| one.name.as_str()));
    texts.extend(survey.heaters.iter().map(|one| one.name.as_str()));
    texts.extend(survey.fans.iter().map(|one| one.name.as_str()));
    texts.extend(survey.sources.iter().map(|one| one.name.as_str()));
    texts.extend(survey.spaces.iter().map(|one| one.name.as_str()));
    texts.extend(survey.inner_openings.iter().map(|one| one.name.as_str()));
    for test in &survey.fan_tests {
        texts.extend([&test.name, &test.instrument, &test.closed, &test.note].map(String::as_str));
        texts.extend(test.covered.iter().map(|one| one.what.as_str()));
    }
    for test in &survey.air_tests {
        texts.extend([&test.name, &test.instrument, &test.closed, &test.note].map(String::as_str));
    }
    for series in &survey.series {
        texts.extend(
            [&series.name, &series.place, &series.note, &series.original].map(String::as_str),
        );
        texts.extend(series.left_out.iter().map(|one| one.why.as_str()));
    }
    for trial in &survey.trials {
        texts.extend([&trial.name, &trial.note].map(String::as_str));
        let periods = trial.periods.iter();
        texts.extend(periods.flat_map(|one| [one.words.as_str(), one.note.as_str()]));
    }
    let changes = |text: &&str| {
        matches!(rewritten(text), Cow::Owned(_)) || unit_in(text).is_some() || dates::any(text)
    };
    let mut kept: Vec<String> = texts
        .into_iter()
        .map(str::trim)
        .filter(|text| !text.is_empty())
        .filter(changes)
        .map(str::to_owned)
        .collect();
    kept.sort_by_key(|text| std::cmp::Reverse(text.len()));
    kept.dedup();
    kept
}
