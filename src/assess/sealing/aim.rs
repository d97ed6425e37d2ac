//! What a plan is for.
#![expect(
    clippy::indexing_slicing,
    reason = "inflows and cases are parallel; a missing number must never turn into a silent default"
)]

use crate::assess::answer::{Answer, NotKnown};
use crate::assess::model::{Inflow, Model, Want};
use crate::assess::possible::possible;
use crate::assess::quantity::{Kind, price_about};
use crate::physics::units::LITRES_PER_DAY;
use crate::survey::word::Word;
use crate::survey::{Field, Survey};
use std::ops::Range;

/// Days of heating that the cost of a winter counts, November to March \[A\].
pub use crate::assess::drying::WINTER_DAYS;

/// What a plan is to save most of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Aim {
    /// Air change in the windiest weather case.
    AchWindy,
    /// Water to remove at the set temperature, mean over the weather cases by their weights.
    Water,
    /// Heat that the air takes along at the set temperature, likewise.
    Heat,
    /// What that heat costs in a winter, by electricity. What a drying machine draws ends as
    /// heat inside and is in it already.
    WinterCost,
}

impl Word for Aim {
    fn word(&self) -> &'static str {
        match self {
            Self::AchWindy => "ach_windy",
            Self::Water => "water",
            Self::Heat => "heat",
            Self::WinterCost => "winter_cost",
        }
    }
}

impl Aim {
    /// Every aim, in the order offered.
    pub const ALL: [Self; 4] = [Self::AchWindy, Self::Water, Self::Heat, Self::WinterCost];

    /// Words for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::AchWindy => "air change with most wind",
            Self::Water => "water to remove",
            Self::Heat => "heat",
            Self::WinterCost => "cost of a winter",
        }
    }

    /// What its figure is.
    #[must_use]
    pub fn kind(self) -> Kind {
        match self {
            Self::AchWindy => Kind::AirChanges,
            Self::Water => Kind::LitresPerDay,
            Self::Heat => Kind::Watts,
            Self::WinterCost => Kind::MoneyAbout,
        }
    }

    /// Its unit; that of the cost is the survey's currency.
    #[must_use]
    pub fn unit(self, currency: &str) -> &str {
        match self {
            Self::WinterCost => currency.trim(),
            _ => self.kind().unit(),
        }
    }

    /// A figure of it with its unit.
    #[must_use]
    pub fn text(self, value: f64, currency: &str) -> String {
        match self {
            Self::WinterCost => price_about(value, currency),
            _ => self.kind().text(value),
        }
    }

    pub(super) fn wants(self) -> Want {
        match self {
            Self::AchWindy => Want::Recorded,
            Self::Water | Self::Heat | Self::WinterCost => Want::SetTemperature,
        }
    }
}

/// The headlines that sealing changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// Mean air change in the calmest weather case, per hour.
    pub ach_calm_per_h: Answer<f64>,
    /// The same in the windiest.
    pub ach_windy_per_h: Answer<f64>,
    /// The same over all cases by their weights.
    pub ach_season_per_h: Answer<f64>,
    /// Water to remove at the set temperature, over all cases by their weights, L/day.
    pub removal_l_per_day: Answer<f64>,
    /// Heat that the air takes along at the set temperature, likewise, W. What the fabric loses
    /// comes on top and does not change.
    pub air_heat_w: f64,
    /// What that heat costs in a winter, in the survey's currency.
    pub winter_cost: Answer<f64>,
}

impl Figures {
    /// The figure that an aim is about.
    ///
    /// # Errors
    /// [`NotKnown`] where it is not known.
    pub fn of(&self, aim: Aim) -> Answer<f64> {
        match aim {
            Aim::AchWindy => self.ach_windy_per_h.clone(),
            Aim::Water => self.removal_l_per_day.clone(),
            Aim::Heat => Ok(self.air_heat_w),
            Aim::WinterCost => self.winter_cost.clone(),
        }
    }

    /// What remains of these after taking others away: what was saved.
    #[must_use]
    pub fn less(&self, after: &Self) -> Self {
        let less = |before: &Answer<f64>, after: &Answer<f64>| {
            let before = before.clone()?;
            after.clone().map(|after| before - after)
        };
        Self {
            ach_calm_per_h: less(&self.ach_calm_per_h, &after.ach_calm_per_h),
            ach_windy_per_h: less(&self.ach_windy_per_h, &after.ach_windy_per_h),
            ach_season_per_h: less(&self.ach_season_per_h, &after.ach_season_per_h),
            removal_l_per_day: less(&self.removal_l_per_day, &after.removal_l_per_day),
            air_heat_w: self.air_heat_w - after.air_heat_w,
            winter_cost: less(&self.winter_cost, &after.winter_cost),
        }
    }
}

/// What turns inflows into figures.
pub(super) struct Scales {
    calm: usize,
    windy: usize,
    cost_per_w: Answer<f64>,
}

impl Scales {
    pub(super) fn new(survey: &Survey, model: &Model) -> Self {
        let (calm, windy) = model.calmest_and_windiest();
        let price = possible(Field::Electricity, survey.tariffs.electricity_per_kwh);
        let price = price.and_then(|price| {
            price.ok_or_else(|| {
                NotKnown::because("the price of electricity is not given, so heat has no cost")
            })
        });
        Self {
            calm,
            windy,
            cost_per_w: price.map(|price| price * WINTER_DAYS * 24.0 / 1000.0),
        }
    }

    /// The cases an aim looks at.
    pub(super) fn cases(&self, model: &Model, aim: Aim) -> Range<usize> {
        match aim {
            Aim::AchWindy => self.windy..self.windy + 1,
            _ => 0..model.cases.len(),
        }
    }

    /// Everything, from inflows at both inside airs.
    ///
    /// ```text
    /// ACH = 3600 m/(ρ_i V),   season = Σ w ACH
    /// cost = Σ w q · 151 d · 24 h · p/1000
    /// ```
    /// where m is a case's outside air coming in, kg/s, mean over the directions, w its weight, q the
    /// heat that the air takes at the set temperature, W, and p the price of a kilowatt hour.
    pub(super) fn figures(&self, model: &Model, inflows: &[Inflow]) -> Figures {
        let ach = |at: usize| {
            let per = model.ach_per_kg_s(&model.cases[at])?;
            Ok(per * inflows[at].recorded)
        };
        let mut season = Ok(0.0);
        for (at, case) in model.cases.iter().enumerate() {
            season = season.and_then(|sum: f64| Ok(sum + case.share * ach(at)?));
        }
        let air_heat_w = self.heat(model, inflows);
        Figures {
            ach_calm_per_h: ach(self.calm),
            ach_windy_per_h: ach(self.windy),
            ach_season_per_h: season,
            removal_l_per_day: self.removal(model, inflows),
            air_heat_w,
            winter_cost: self.cost_per_w.clone().map(|per_w| per_w * air_heat_w),
        }
    }

    /// The one figure an aim is about.
    ///
    /// # Errors
    /// [`NotKnown`] where it is not known.
    pub(super) fn of(&self, model: &Model, inflows: &[Inflow], aim: Aim) -> Answer<f64> {
        match aim {
            Aim::AchWindy => {
                let per = model.ach_per_kg_s(&model.cases[self.windy])?;
                Ok(per * inflows[self.windy].recorded)
            }
            Aim::Water => self.removal(model, inflows),
            Aim::Heat => Ok(self.heat(model, inflows)),
            Aim::WinterCost => Ok(self.cost_per_w.clone()? * self.heat(model, inflows)),
        }
    }

    /// Heat that the air takes at the set temperature, over all cases by their weights, W.
    fn heat(&self, model: &Model, inflows: &[Inflow]) -> f64 {
        let cases = model.cases.iter().zip(inflows);
        cases
            .map(|(case, inflow)| case.share * model.air_heat_w(case, inflow.at_set_temperature))
            .sum()
    }

    /// Water to remove at the set temperature, over all cases by their weights, L/day.
    ///
    /// # Errors
    /// [`NotKnown`] where the water of a case is not known.
    fn removal(&self, model: &Model, inflows: &[Inflow]) -> Answer<f64> {
        let mut sum = 0.0;
        for (case, inflow) in model.cases.iter().zip(inflows) {
            sum += case.share * model.removal_kg_s(case, inflow.at_set_temperature)?;
        }
        Ok(sum * LITRES_PER_DAY)
    }
}
