//! Ventilators of a space where nobody sleeps: they count for the sleepers only as far as their air gets
//! there whatever anybody shuts.

use super::{MM2, lasting_free_area};
use crate::assess::law::{GapLaw, free_area};
use crate::assess::words::figure;
use crate::survey::findings::called;
use crate::survey::gap::{LeadsTo, Purpose};
use crate::survey::{
    Field, Finding, Form, Gap, Item, Place, Severity, Space, SpaceId, Survey, WorkState,
};

/// What still gets from each other space into the first, m² of free area, by openings that do not close.
///
/// People sleep in the first space **\[A\]**. Cracks are no way for it, nor is anything that goes
/// through a third space **\[A\]**.
pub(super) struct Ways(Vec<(SpaceId, f64)>);

impl Ways {
    pub(super) fn new(survey: &Survey) -> Self {
        let Some((first, others)) = survey.spaces.split_first() else {
            return Self(Vec::new());
        };
        let into_first = |space: &Space| {
            let openings = survey.inner_openings.iter().filter(|opening| {
                let ends = [opening.from, opening.to];
                let crack = matches!(opening.form, Form::NarrowGap { .. });
                ends.contains(&first.id)
                    && ends.contains(&space.id)
                    && opening.closing.is_none()
                    && !crack
            });
            let areas =
                openings.filter_map(|one| Some(free_area(&one.form)? * f64::from(one.count)));
            (space.id, areas.sum())
        };
        Self(others.iter().map(into_first).collect())
    }

    /// How much of a ventilator's free area counts for the first space, m²; so much of the way is taken.
    pub(super) fn pass(&mut self, gap: &Gap, area: f64) -> f64 {
        let mut ways = self.0.iter_mut();
        match ways.find(|(space, _)| Some(*space) == gap.space) {
            None => area,
            Some((_, left)) => {
                let passes = area.min(*left);
                *left -= passes;
                passes
            }
        }
    }
}

/// Ventilators that do not count, or not with all they have, because they open into another space.
pub(super) fn findings(survey: &Survey, laws: &[GapLaw]) -> Vec<Finding> {
    let mut ways = Ways::new(survey);
    let first = survey.spaces.first();
    let mut findings = Vec::new();
    for (gap, law) in survey.gaps.iter().zip(laws) {
        let counts = gap.purpose == Purpose::SafetyVentilation
            && gap.leads_to == LeadsTo::LivingSpace
            && gap.state != WorkState::Sealed;
        let area = match lasting_free_area(survey, gap, law) {
            Ok(area) if counts => area,
            _ => continue,
        };
        let passes = ways.pass(gap, area);
        if passes >= area {
            continue;
        }
        let named = |space: Option<&Space>| {
            space.map_or_else(String::new, |one| called("space", &one.name))
        };
        let own = survey.spaces.iter().find(|one| Some(one.id) == gap.space);
        let how_much = if passes > 0.0 {
            format!("counts with {} mm²", figure(passes / MM2, 3))
        } else {
            "counts nothing".to_owned()
        };
        findings.push(Finding {
            severity: Severity::Warning,
            place: Place::at(Item::Gap(gap.id), Field::Space),
            sentence: format!(
                "safety ventilator {} opens into {}: it {how_much} for {}, where people sleep, since no more gets there through openings that never close [A]",
                gap.id,
                named(own),
                named(first),
            ),
            advice: "fit fixed ventilation where people sleep; if nothing can be shut between the two, write down the opening between them without a closing".to_owned(),
        });
    }
    findings
}
