//! The inside as the air balance sees it: one space or more, and what joins them.
#![expect(
    clippy::indexing_slicing,
    reason = "a place in the list is looked up in the same list"
)]

use super::answer::{Answer, NotKnown};
use super::law::{own_law, share_when_closing};
use super::sound::sound;
use crate::physics::network::Space;
use crate::physics::units::SECONDS_PER_HOUR;
use crate::physics::{Fan, FanWay, GapFlow, Gas, MoistAir, PlacedFlow};
use crate::survey::equipment::{FanDirection, USUAL_MOST_PRESSURE_PA};
use crate::survey::{self, Finding, InnerOpening, Item, Severity, SpaceId, Survey};

/// One space inside. A survey that lists none is of a single space.
#[derive(Clone, Default)]
pub(crate) struct InsideSpace {
    /// How much warmer than the first it is, K.
    warmer_by: f64,
}

/// A fan that runs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RunningFan {
    /// Its place in the survey.
    pub(super) listed: usize,
    /// Index of its space.
    space: usize,
    way: FanWay,
    /// Flow against no pressure, m³/s of the air it moves.
    free_flow: f64,
    /// Pressure that stops it, Pa.
    most_pressure: f64,
}

impl RunningFan {
    /// The fan as the balance takes it, between outside air and the airs of the spaces.
    pub(crate) fn between(&self, outside: &Gas, spaces: &[Space]) -> Fan {
        let moved = match self.way {
            FanWay::Supply => outside,
            FanWay::Extract => &spaces[self.space].gas,
        };
        Fan {
            space: self.space,
            way: self.way,
            free_flow: self.free_flow * moved.density,
            most_pressure: self.most_pressure,
        }
    }
}

impl InsideSpace {
    /// Its air, where `first` is that of the first space: the same water, so many kelvin warmer.
    /// In a colder space it may be more than the air can hold; for density and viscosity that
    /// makes no difference worth the name.
    pub(crate) fn air(&self, first: &MoistAir) -> MoistAir {
        MoistAir {
            t_c: first.t_c + self.warmer_by,
            ..*first
        }
    }
}

/// The spaces, at least one.
///
/// # Errors
/// [`NotKnown`] where a space or an inner opening cannot be.
pub(super) fn spaces(survey: &Survey, findings: &[Finding]) -> Answer<Vec<InsideSpace>> {
    sound(findings, |place| {
        matches!(place.item, Item::Space(_) | Item::InnerOpening(_))
    })?;
    let others = survey.spaces.iter().skip(1).map(|space| InsideSpace {
        warmer_by: space.warmer_by_k,
    });
    let mut spaces = vec![InsideSpace::default()];
    spaces.extend(others);
    Ok(spaces)
}

/// The fans that run in the set-up shown. Fans without a flow, and those of which something recorded
/// cannot be, are left out, and a finding says so.
///
/// # Errors
/// [`NotKnown`] where a fan names none of the spaces.
pub(super) fn fans(survey: &Survey, findings: &[Finding]) -> Answer<Vec<RunningFan>> {
    let mut fans = Vec::new();
    let is_wrong = |fan: &survey::Fan| {
        let own = |finding: &&Finding| finding.place.item == Item::Fan(fan.id);
        let mut found = findings.iter().filter(own);
        found.any(|finding| finding.severity == Severity::Error)
    };
    let sound = survey
        .fans
        .iter()
        .enumerate()
        .filter(|(_, fan)| !is_wrong(fan));
    for (listed, fan) in sound {
        let on = survey.set_up.choose(fan.on_laid_up, fan.on_in_use);
        if let (true, Some(flow)) = (on, fan.flow_m3_per_h) {
            fans.push(RunningFan {
                listed,
                space: place(survey, fan.space)?,
                way: match fan.direction {
                    FanDirection::Extract => FanWay::Extract,
                    FanDirection::Supply => FanWay::Supply,
                },
                free_flow: flow / SECONDS_PER_HOUR,
                most_pressure: fan.most_pressure_pa.unwrap_or(USUAL_MOST_PRESSURE_PA),
            });
        }
    }
    Ok(fans)
}

/// An inner opening in the set-up shown: the places of its spaces, its flow and the heights of
/// its ends. Where its height is not given it is taken at `middle`, m.
///
/// # Errors
/// [`NotKnown`] where it is not sized or cannot be.
pub(super) fn opening(
    survey: &Survey,
    opening: &InnerOpening,
    middle: f64,
) -> Answer<([usize; 2], PlacedFlow)> {
    let law = own_law(&opening.form)
        .ok_or_else(|| NotKnown::because(format!("inner opening {} is not sized", opening.id)))?;
    let share = share_when_closing(opening.closing, survey.set_up);
    let height = opening.height_m.unwrap_or(middle);
    let half_rise = opening.rise_m.map_or(0.0, |rise| rise / 2.0);
    let placed = PlacedFlow {
        flow: GapFlow::new(law)?.times(f64::from(opening.count) * share)?,
        z_low: height - half_rise,
        z_high: height + half_rise,
    };
    let from = place(survey, Some(opening.from))?;
    Ok(([from, place(survey, Some(opening.to))?], placed))
}

/// Place of a space in the list; that of the first where none is named.
///
/// # Errors
/// [`NotKnown`] where the list does not have it.
pub(super) fn place(survey: &Survey, space: Option<SpaceId>) -> Answer<usize> {
    let Some(id) = space else { return Ok(0) };
    let place = survey.spaces.iter().position(|known| known.id == id);
    place.ok_or_else(|| NotKnown::because(format!("there is no space {id}")))
}
