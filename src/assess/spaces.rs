//! What closing an inner opening does: a curtain drawn across the cab, a door shut.

use super::answer::Answer;
use super::factors::Factors;
use super::prepared::Prepared;
use super::weather::air_states;
use crate::physics::units::SECONDS_PER_HOUR;
use crate::physics::wind::speed_at_body;
use crate::survey::{InnerOpeningId, SetUp, Survey, WeatherId};

/// An inner opening that closes, open and closed.
#[derive(Clone, Debug, PartialEq)]
pub struct ClosingEffect {
    /// The opening.
    pub id: InnerOpeningId,
    /// Its name.
    pub name: String,
    /// Whether it stands open in the set-up shown.
    pub stands_open: bool,
    /// One for each weather case.
    pub cases: Vec<ClosingCase>,
}

/// The same in one weather case. Closing an inner opening may raise the gross inflow of outside
/// air: then what it saves is below zero.
#[derive(Clone, Debug, PartialEq)]
pub struct ClosingCase {
    /// The weather case.
    pub id: WeatherId,
    /// Gross inflow of outside air with it open and with it closed, mean over the directions,
    /// kg/s.
    pub inflow_kg_s: Answer<(f64, f64)>,
    /// Air changes per hour of the whole inside, likewise.
    pub ach_per_h: Answer<(f64, f64)>,
}

/// Every inner opening that closes, with all else as it stands.
pub(super) fn closing_effects(survey: &Survey, factors: &Factors) -> Vec<ClosingEffect> {
    let openings = survey.inner_openings.iter();
    openings
        .filter_map(|opening| {
            let closing = opening.closing?;
            let with = |open: bool| {
                let mut changed = survey.clone();
                for other in changed.inner_openings.iter_mut() {
                    if other.id == opening.id
                        && let Some(closing) = &mut other.closing
                    {
                        (closing.open_laid_up, closing.open_in_use) = (open, open);
                    }
                }
                inflows(&changed, factors)
            };
            let stands_open = match survey.set_up {
                SetUp::LaidUp => closing.open_laid_up,
                SetUp::InUse => closing.open_in_use,
            };
            let (open, closed) = (with(true), with(false));
            let cases = survey.weather.iter().zip(open.into_iter().zip(closed));
            Some(ClosingEffect {
                id: opening.id,
                name: opening.name.clone(),
                stands_open,
                cases: cases
                    .map(|(case, (open, closed))| both(case.id, open, closed))
                    .collect(),
            })
        })
        .collect()
}

/// Inflow, kg/s, and air changes per hour for each kg/s.
type CaseInflow = Answer<(f64, Answer<f64>)>;

fn both(id: WeatherId, open: CaseInflow, closed: CaseInflow) -> ClosingCase {
    let pair = open.and_then(|open| Ok((open, closed?)));
    ClosingCase {
        id,
        inflow_kg_s: pair.clone().map(|(open, closed)| (open.0, closed.0)),
        ach_per_h: pair.and_then(|(open, closed)| {
            let per = open.1?;
            Ok((open.0 * per, closed.0 * per))
        }),
    }
}

/// Mean air changes per hour of a survey in each weather case, and nothing else of it.
pub(super) fn air_changes(survey: &Survey, factors: &Factors) -> Vec<Answer<f64>> {
    let cases = inflows(survey, factors).into_iter();
    cases
        .map(|case| case.and_then(|(inflow, per)| Ok(inflow * per?)))
        .collect()
}

fn inflows(survey: &Survey, factors: &Factors) -> Vec<CaseInflow> {
    let prepared = Prepared::new(survey, factors);
    let vehicle = prepared.vehicle(survey);
    let cases = survey.weather.iter();
    cases
        .map(|case| {
            vehicle.first_error(case)?;
            let envelope = prepared.envelope.as_ref().map_err(Clone::clone)?;
            let (outside, inside) = air_states(survey, case)?;
            let in_air = envelope.at(&outside, &inside);
            let wind = speed_at_body(survey.site.terrain, case.wind_m_s, envelope.roof());
            let per = prepared
                .volume_m3
                .clone()
                .map(|volume| SECONDS_PER_HOUR / (in_air.density_in() * volume));
            Ok((in_air.mean_inflow(wind)?, per))
        })
        .collect()
}
