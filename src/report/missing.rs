//! What is still missing, for which results, and where it is entered.

use crate::assess::Assessment;
use crate::survey::{Field, Item, Place, Survey};

/// The results that wait for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum For {
    /// Air changes.
    AirChange,
    /// Water, heat, and what would dry it.
    DryingHeat,
    /// What may be sealed.
    SealingPlan,
}

impl For {
    /// What they are called, as the page that shows them.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::AirChange => "Air change",
            Self::DryingHeat => "Drying & heat",
            Self::SealingPlan => "Sealing plan",
        }
    }
}

/// One thing that is missing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// The results that wait for it.
    pub results: For,
    /// What it is, in few words.
    pub words: &'static str,
    /// Where it is entered.
    pub place: Place,
    /// What is usual for such a vehicle would do for a beginning.
    pub usual_would_do: bool,
}

/// Everything that is missing, in the order of the job.
#[must_use]
pub fn missing(survey: &Survey, found: &Assessment) -> Vec<Missing> {
    let mut all = Vec::new();
    let mut lacks = |results, words, place, usual_would_do| {
        all.push(Missing {
            results,
            words,
            place,
            usual_would_do,
        });
    };
    let vehicle = &survey.vehicle;
    let at = |field| Place::at(Item::Vehicle, field);
    let sized = found.leakage.not_sized.len() + found.leakage.left_out.len();
    if survey.gaps.len() <= sized {
        let ledger = Place::whole(Item::Ledger);
        lacks(For::AirChange, "a gap with its sizes", ledger, false);
    }
    let without = [
        vehicle.length_m,
        vehicle.width_m,
        vehicle.height_m,
        vehicle.floor_height_m,
        vehicle.gross_volume_m3(),
    ]
    .iter()
    .all(Option::is_none);
    if vehicle.gross_volume_m3().is_none() {
        let place = at(Field::InsideLength);
        lacks(For::AirChange, "the inside sizes", place, without);
    }
    if vehicle.height_m.is_none() || vehicle.floor_height_m.is_none() {
        let place = at(Field::RoofHeight);
        lacks(
            For::AirChange,
            "the heights of roof and floor",
            place,
            without,
        );
    }
    if survey.weather.is_empty() {
        let place = Place::whole(Item::Weather(survey.free_weather_id()));
        lacks(For::AirChange, "a weather case", place, true);
    }
    if survey.fabric.is_empty() {
        let place = Place::whole(Item::Fabric(survey.free_fabric_id()));
        lacks(For::DryingHeat, "the fabric", place, true);
    }
    let mut fabric = survey.fabric.iter();
    if let Some(element) = fabric.find(|element| element.area_m2.is_none()) {
        let place = Place::at(Item::Fabric(element.id), Field::Area);
        lacks(For::DryingHeat, "areas of the fabric", place, false);
    }
    if !survey.appliances_confirmed {
        let place = at(Field::AppliancesConfirmed);
        let words = "that all appliances are listed";
        lacks(For::SealingPlan, words, place, false);
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::survey::{Edit, Facing, Form, Gap, GapId, TypicalWinter, VehicleKind};

    fn words(survey: &Survey) -> Vec<(For, &'static str)> {
        let all = missing(survey, &assess(survey));
        all.into_iter()
            .map(|one| (one.results, one.words))
            .collect()
    }

    #[test]
    fn what_is_missing_goes_as_it_is_entered_and_its_results_are_then_known() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        assert_eq!(words(&survey).len(), 5);
        survey.apply(Edit::Usual(TypicalWinter::Alpine)).unwrap();
        let left = [
            (For::AirChange, "a gap with its sizes"),
            (For::SealingPlan, "that all appliances are listed"),
        ];
        assert_eq!(words(&survey), left);
        let form = Form::RoundHole {
            diameter_mm: Some(30.0),
        };
        let gap = Gap::new(GapId(1), survey.zones[0].id, Facing::Rear, form);
        survey.apply(Edit::gap(gap)).unwrap();
        assert_eq!(words(&survey), left[1..]);
        let found = assess(&survey);
        assert!(found.season_ach_per_h.is_ok() && found.fabric.is_ok());
        let study = crate::assess::Study::of(&survey);
        assert!(study.comparison().is_ok());
        survey.apply(Edit::AppliancesConfirmed(true)).unwrap();
        assert!(words(&survey).is_empty());
    }
}
