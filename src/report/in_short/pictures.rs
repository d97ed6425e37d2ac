//! The pictures of the page in short, as scenes.

use super::page::Picture;
use super::{buy, leak};
use crate::assess::in_short::BySeason;
use crate::figure::Scene;
use crate::figure::in_short::{bars, hole, stay_open};
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
            let season = BySeason::of(material.study);
            let comparison = season.comparison().as_ref().ok()?;
            let options = buy::bars(comparison);
            Some(bars(&options, &survey.tariffs.currency, width))
        }
        Picture::StayOpen => Some(stay_open(survey, material.assessment, width)),
    }
}
