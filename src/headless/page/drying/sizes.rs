//! Cold surfaces, and the machines and heaters to look for.

use super::super::Unknowns;
use super::super::layout::Page;
use super::super::old_table::{Set, Table};
use super::super::words::{figure, given, watts};
use super::{Section, litres, whole_tenths};
use crate::assess::drying::{Capacity, HeaterFor, SizedFor, Spot};

impl Section<'_> {
    /// Cold surfaces with nothing done, in the calmest case.
    pub(super) fn surfaces(&self, page: &mut Page) {
        let states = self.comparison.options.first();
        let state = states.and_then(|option| option.cases.get(self.comparison.calmest));
        let Some(Ok(state)) = state else { return };
        if state.surfaces.is_empty() {
            return;
        }
        let mut table = Table::default()
            .column(
                format!(
                    "cold surfaces, nothing done, {}",
                    self.case_name(self.comparison.calmest)
                ),
                Set::Words,
                40,
            )
            .column("°C", Set::Numbers, 15)
            .column("RH % there", Set::Numbers, 15)
            .column("limit", Set::Numbers, 15)
            .column("", Set::Words, 12)
            .column("K warmer", Set::Numbers, 12)
            .column("or RH % inside", Set::Numbers, 10)
            .column("or L/day more", Set::Numbers, 10);
        for surface in &state.surfaces {
            let spot = match surface.spot {
                Spot::Plain => "",
                Spot::Bridge => ", thermal bridge",
                Spot::Glass => ", glass",
                Spot::Metal => ", bare metal",
            };
            let verdict = if surface.condenses {
                "condenses"
            } else if surface.exceeds {
                "too humid"
            } else {
                "clear"
            };
            let clears = |words: String| {
                if surface.exceeds {
                    words
                } else {
                    String::new()
                }
            };
            let kelvin = match surface.kelvin_to_clear {
                Some(kelvin) if kelvin > 0.0 => whole_tenths(kelvin),
                Some(_) => String::new(),
                None => "out of reach".to_owned(),
            };
            table.row([
                format!("  {}{spot}", surface.name),
                whole_tenths(surface.temperature_c),
                format!("{:.0}", surface.surface_rh * 100.0),
                format!("{:.0}", surface.limit * 100.0),
                verdict.to_owned(),
                kelvin,
                clears(format!("{:.0}", surface.rh_to_clear * 100.0)),
                clears(litres(&surface.removal_to_clear_kg_s)),
            ]);
        }
        table.print(page);
        page.hanging(
            "  ",
            "Each of the last three clears the surface by itself. Limits: 80 % against mould, 60 % \
             against rust on bare metal, water on glass.",
        );
    }

    pub(super) fn capacities(&self, page: &mut Page) {
        let capacities = &self.comparison.sizing.capacities;
        let Some(first) = capacities.first() else {
            return;
        };
        let mut unknowns = Unknowns::default();
        let mut table = Table::default()
            .column(
                format!(
                    "capacity to look for, {} °C inside{}",
                    given(first.inside_c),
                    self.when
                ),
                Set::Words,
                40,
            )
            .column("rated at", Set::Words, 14)
            .column(SizedFor::Still.name(), Set::Numbers, 15)
            .column(SizedFor::Windy.name(), Set::Numbers, 15)
            .column(SizedFor::Design.name(), Set::Numbers, 15);
        let mut needed = vec!["  water to remove, L/day".to_owned(), String::new()];
        for capacity in capacities.iter().take(3) {
            needed.push(unknowns.or(&capacity.needed_kg_s, litres));
        }
        table.row(needed);
        for kind in capacities.chunks(3) {
            let Some(one) = kind.first() else { continue };
            let mut cells = vec![
                format!("  {}, L/day", one.kind.name()),
                format!("{} °C {:.0} %", given(one.rated_c), one.rated_rh * 100.0),
            ];
            let rated = |capacity: &Capacity| capacity.rated_kg_s.clone();
            for capacity in kind {
                cells.push(unknowns.or(&rated(capacity), litres));
            }
            table.row(cells);
        }
        table.print(page);
        unknowns.print(page);
    }

    pub(super) fn heaters(&self, page: &mut Page) {
        let design = given(self.survey.targets.design_outside_c);
        let mut unknowns = Unknowns::default();
        let mut table = Table::default()
            .column(
                format!("heater to look for, {design} °C outside{}", self.when),
                Set::Words,
                40,
            )
            .column("air, W", Set::Numbers, 15)
            .column("fabric, W", Set::Numbers, 15)
            .column("rating, W", Set::Numbers, 15)
            .column("kWh a month", Set::Numbers, 15);
        for size in &self.comparison.sizing.heaters {
            let what = match size.heater_for {
                HeaterFor::FrostGuard => "frost guard",
                HeaterFor::SetTemperature => "set temperature",
                HeaterFor::Comfort => "comfort",
            };
            table.row([
                format!("  {what}, {} °C inside", given(size.inside_c)),
                unknowns.or(&size.air_w, |air_w| watts(*air_w)),
                watts(size.fabric_w),
                unknowns.or(&size.rating_w, |rating_w| watts(*rating_w)),
                unknowns.or(&size.kwh_per_month, |kwh| figure(*kwh, 2)),
            ]);
        }
        table.print(page);
        unknowns.print(page);
        page.hanging("  ", "Capacities and ratings hold a margin of a quarter; the heat of a month is in the weather cases by their shares.");
    }
}
