//! What the choice of wind pressures does: the sets for walls and roof, and how the space under the
//! floor stands to the wind.

use super::answer::{Answer, Assessment};
use super::factors::Factors;
use super::spaces::air_changes;
use crate::physics::{PressureSet, Underside};
use crate::survey::{Facing, Survey};

/// Mean ACH of each weather case by one choice of wind pressures.
#[derive(Clone, Debug, PartialEq)]
pub struct WindChoice {
    /// The set for walls and roof.
    pub set: PressureSet,
    /// How the space under the floor stands to the wind.
    pub underside: Underside,
    /// Whether gaps under an open floor go by their place there.
    pub by_place: bool,
    /// Whether the survey says so.
    pub chosen: bool,
    /// Mean ACH of each weather case, in the survey's order.
    pub mean_ach_per_h: Vec<Answer<f64>>,
}

/// What each choice does by itself: everything else stays as surveyed.
#[derive(Clone, Debug, PartialEq)]
pub struct WindChoices {
    /// The sets of coefficients for walls and roof.
    pub sets: Vec<WindChoice>,
    /// How the space under the floor stands to the wind.
    pub undersides: Vec<WindChoice>,
}

/// The survey's mean air change by every set of pressure coefficients and by every way the space
/// under the floor may stand to the wind: how much hangs on the choice.
///
/// Tight skirts are tried only where the area of their gaps is given, and the floor by place only
/// where a gap under it has a place.
pub(super) fn wind_choices(
    survey: &Survey,
    factors: &Factors,
    assessment: &Assessment,
) -> WindChoices {
    let vehicle = &survey.vehicle;
    let sets = PressureSet::ALL.into_iter().map(|set| {
        let (underside, by_place) = (vehicle.underside, vehicle.underfloor_by_place);
        choice(survey, factors, assessment, (set, underside, by_place))
    });
    let tight_known = vehicle.skirt_free_area_mm2.is_some();
    let ways = Underside::ALL
        .into_iter()
        .filter(|way| *way != Underside::SkirtedTight || tight_known || vehicle.underside == *way);
    let mut under: Vec<(Underside, bool)> = ways.map(|way| (way, false)).collect();
    if has_place_under_floor(survey) {
        under.insert(1, (Underside::Open, true));
    }
    let undersides = under.into_iter().map(|(underside, by_place)| {
        choice(
            survey,
            factors,
            assessment,
            (survey.site.pressure_set, underside, by_place),
        )
    });
    WindChoices {
        sets: sets.collect(),
        undersides: undersides.collect(),
    }
}

fn has_place_under_floor(survey: &Survey) -> bool {
    let mut under = survey
        .gaps
        .iter()
        .filter(|gap| gap.facing == Facing::Underfloor);
    under.any(|gap| gap.position.along_m.is_some() || gap.position.across_m.is_some())
}

fn choice(
    survey: &Survey,
    factors: &Factors,
    assessment: &Assessment,
    (set, underside, by_place): (PressureSet, Underside, bool),
) -> WindChoice {
    let mut other = survey.clone();
    other.site.pressure_set = set;
    other.vehicle.underside = underside;
    other.vehicle.underfloor_by_place = by_place;
    // Places count only under an open floor.
    let open = underside == Underside::Open;
    let places_agree = !open || by_place == survey.vehicle.underfloor_by_place;
    let chosen = set == survey.site.pressure_set
        && underside == survey.vehicle.underside
        && (places_agree || !has_place_under_floor(survey));
    let mean_ach_per_h = if chosen {
        let cases = assessment.cases.iter();
        let air = cases.map(|case| case.air.as_ref().map_err(Clone::clone));
        air.map(|air| air?.mean_ach_per_h.clone()).collect()
    } else {
        air_changes(&other, factors)
    };
    WindChoice {
        set,
        underside,
        by_place,
        chosen,
        mean_ach_per_h,
    }
}
