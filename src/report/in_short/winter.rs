//! Frost and mould through the winter, where one was run: what the weather cases cannot tell. What an
//! option holds and costs is then the winter's too, so that no share is told twice.

use super::page::{Leads, Part};
use crate::report::{Material, winter_short};

/// Frost and mould; nothing where no winter was run, and why where it is not known.
pub(super) fn part(material: &Material<'_>) -> Option<Part> {
    let run = material.study.winter()?;
    let mut part = Part::new("Frost and mould through the winter");
    match run {
        Ok(run) => {
            for sentence in winter_short::without_options(run) {
                part.line(sentence, Leads::Winter);
            }
        }
        Err(unknown) => part.line(
            format!("Not known: {}.", unknown.reason.trim_end_matches('.')),
            Leads::Winter,
        ),
    }
    Some(part)
}
