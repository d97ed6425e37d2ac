//! The pictures of the page in short, as scenes.

use super::page::Picture;
use super::{buy, leak, season};
use crate::assess::in_short::BySeason;
use crate::figure::Scene;
use crate::figure::in_short::{Heads, bars, hole, stay_open};
use crate::report::Material;

/// Draws a picture `width` mm wide; nothing where what it shows is not known.
#[must_use]
pub fn scene(material: &Material<'_>, picture: Picture, width: f64) -> Option<Scene> {
    let survey = material.survey;
    match picture {
        Picture::Hole => {
            let side = material.assessment.leakage.square_side.as_ref().ok()?;
            let words = leak::hole(material).ok()?;
            Some(hole(survey, *side, &words, width))
        }
        Picture::Options => {
            let told = BySeason::of(material.study);
            let comparison = told.comparison().as_ref().ok()?;
            let options = buy::bars(comparison);
            let heads = Heads {
                currency: survey.tariffs.currency.trim(),
                season: &season::name(material, comparison),
            };
            Some(bars(&options, &heads, width))
        }
        Picture::StayOpen => Some(stay_open(survey, material.assessment, width)),
    }
}
