//! A survey made ready once: what every study of it stands on.

use super::answer::{Answer, Fabric, GapAnswer, Leakage, NotKnown};
use super::envelope::Envelope;
use super::factors::Factors;
use super::law::{GapLaw, laws};
use super::sound::sound;
use super::weather::Vehicle;
use super::{fabric, leakage};
use crate::survey::{Field, Finding, Item, Survey, findings};

/// Findings, laws of the gaps, leakage, envelope and fabric of one survey.
pub(crate) struct Prepared {
    /// What is wrong, dangerous, doubtful or worth knowing in the survey itself.
    pub(crate) findings: Vec<Finding>,
    /// What measurements make of the flow of each gap.
    pub(crate) factors: Factors,
    /// The law of every gap, in the ledger's order.
    pub(crate) laws: Vec<GapLaw>,
    /// Gross internal volume, m³.
    pub(crate) volume_m3: Answer<f64>,
    /// The leakage of every gap, in the ledger's order.
    pub(crate) gaps: Vec<GapAnswer>,
    pub(crate) leakage: Leakage,
    pub(crate) envelope: Answer<Envelope>,
    pub(crate) fabric: Answer<Fabric>,
}

impl Prepared {
    /// With the flow of each gap as measurements make it.
    pub(crate) fn new(survey: &Survey, factors: &Factors) -> Self {
        let findings = findings::find(survey);
        let laws = factors.on(survey, laws(survey, &findings));
        let volume_m3 = volume_m3(survey, &findings);
        let gaps = leakage::gaps(survey, &laws);
        Self {
            leakage: leakage::leakage(survey, &gaps, &volume_m3),
            envelope: Envelope::new(survey, &findings, &laws),
            fabric: fabric::fabric(survey, &findings),
            findings,
            factors: factors.clone(),
            laws,
            volume_m3,
            gaps,
        }
    }

    /// All that the weather cases need to know. `survey` is the one this was made from.
    pub(crate) fn vehicle<'a>(&'a self, survey: &'a Survey) -> Vehicle<'a> {
        Vehicle {
            survey,
            findings: &self.findings,
            envelope: &self.envelope,
            volume_m3: &self.volume_m3,
            leakage: &self.leakage,
            fabric: &self.fabric,
        }
    }
}

/// Gross internal volume, m³, unless a size it needs is missing or impossible.
fn volume_m3(survey: &Survey, findings: &[Finding]) -> Answer<f64> {
    const FIELDS: [Field; 4] = [
        Field::Volume,
        Field::InsideLength,
        Field::InsideWidth,
        Field::InsideHeight,
    ];
    sound(findings, |place| {
        place.item == Item::Vehicle && FIELDS.iter().any(|&field| place.is_at(field))
    })?;
    survey
        .vehicle
        .gross_volume_m3()
        .ok_or_else(|| NotKnown::because("neither the volume nor all three inside sizes are given"))
}
