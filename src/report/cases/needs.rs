//! Rows of water to remove and heat to hold temperatures.

use super::columns::Columns;
use crate::assess::quantity::Kind;
use crate::assess::reach::COLDEST_C;
use crate::assess::words::capital;
use crate::assess::{CaseAnswer, CaseDrying, CaseHeat, HeatNeed, NotKnown, RequiredRemoval, Topic};
use crate::physics::units::GRAMS_PER_HOUR;
use crate::report::results::{drying, heat, needs, water};
use crate::survey::findings::called;

impl Columns<'_> {
    pub(super) fn water(&mut self) {
        let targets = &self.told.survey.targets;
        let rh = Kind::RelativeHumidity.typed(targets.rh_percent);
        let set = Kind::Celsius.typed(targets.set_temperature_c);
        let set = format!("Inside held at {set}");
        let (per_day, per_hour) = (Kind::LitresPerDay, Kind::GramsPerHour);
        self.table
            .group(format!("Water to remove to hold {rh} relative humidity"));
        self.of_water("Water given off inside", per_hour, |drying| {
            drying.source_kg_s * GRAMS_PER_HOUR
        });
        let cold = "Inside as cold as outside";
        self.of_water(cold, per_day, |drying| {
            drying.at_outside_temperature.l_per_day()
        });
        self.of_water(cold, per_hour, |drying| {
            drying.at_outside_temperature.g_per_h()
        });
        self.humidity(|drying| &drying.at_outside_temperature);
        self.result(&set, Topic::Removal, water);
        self.of_water(&set, per_hour, |drying| drying.at_set_temperature.g_per_h());
        self.humidity(|drying| &drying.at_set_temperature);
    }

    /// Relative humidity inside without any removal; at saturation water condenses.
    fn humidity(&mut self, of: fn(&CaseDrying) -> &RequiredRemoval) {
        self.row("Relative humidity there if nothing is removed, %", |case| {
            let rh = of(drying(case)?).rh_without_removal;
            Ok(if rh >= 1.0 {
                "100, water condenses".to_owned()
            } else {
                Kind::RelativeHumidity.number(rh)
            })
        });
    }

    pub(super) fn heat(&mut self) {
        let (targets, fabric) = (&self.told.survey.targets, &self.told.assessment.fabric);
        let design = Kind::Celsius.typed(targets.design_outside_c);
        let cold = |name: &str, inside: f64| {
            let inside = Kind::Celsius.typed(inside);
            format!("{name}: {inside} inside at {design} outside, in this wind")
        };
        let set = Kind::Celsius.typed(targets.set_temperature_c);
        let set = format!("Heat to hold {set} inside in this weather");
        self.air_and_fabric(set, |heat| &heat.set_temperature);
        self.result("Together", Topic::Heat, heat);
        let frost = cold("Frost guard", targets.frost_guard_c);
        self.air_and_fabric(frost, |heat| &heat.frost_guard);
        self.numbers("Frost guard together", Kind::Watts, |case| {
            needs(case)?.frost_guard.total_w()
        });
        self.worked_out(Topic::FrostGuard);
        self.air_and_fabric(cold("Comfort", targets.comfort_c), |heat| &heat.comfort);
        self.numbers("Comfort together", Kind::Watts, |case| {
            needs(case)?.comfort.total_w()
        });
        self.heaters();
        self.numbers(
            "Loss of the fabric with thermal bridges",
            Kind::WattsPerKelvin,
            |_| Ok(fabric.clone()?.ua_w_per_k),
        );
    }

    /// Down to which outside temperature each heater holds its set point.
    fn heaters(&mut self) {
        let survey = self.told.survey;
        if survey.heaters.is_empty() {
            return;
        }
        let design = Kind::Celsius.typed(survey.targets.design_outside_c);
        self.table.group(format!(
            "Coldest outside air in which each heater holds its set point ({design} is the coldest to last for)"
        ));
        for (at, heater) in survey.heaters.iter().enumerate() {
            let own = move |case: &CaseAnswer| {
                let own = case.heaters.get(at).cloned();
                own.ok_or_else(|| NotKnown::because("it was not worked out"))
            };
            let holds = self.told.assessment.cases.first().and_then(|case| {
                let own = case.heaters.get(at)?;
                Some(format!(", {} inside", Kind::Celsius.typed(own.inside_c)))
            });
            let rating = heater
                .rating_w
                .map(|rating| format!(", {}", Kind::Watts.typed(rating)));
            let name = capital(&called("heater", &heater.name));
            let words = [rating, holds].into_iter().flatten().collect::<String>();
            self.row(format!("{name}{words}: down to, °C"), move |case| {
                let lowest = own(case)?.lowest_outside_c?;
                Ok(if lowest <= COLDEST_C {
                    format!("below {}", Kind::Celsius.number(COLDEST_C))
                } else {
                    Kind::Celsius.number(lowest)
                })
            });
        }
    }

    fn air_and_fabric(&mut self, group: String, of: fn(&CaseHeat) -> &HeatNeed) {
        self.table.group(group);
        self.numbers("Air changes", Kind::AirChanges, |case| {
            of(needs(case)?).ach_per_h.clone()
        });
        self.numbers("With the air", Kind::Watts, |case| {
            Ok(of(needs(case)?).air_w)
        });
        self.numbers("Through the fabric", Kind::Watts, |case| {
            of(needs(case)?).fabric_w.clone()
        });
    }
}
