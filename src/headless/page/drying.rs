//! Drying and heating: the options side by side with their verdicts, then what to look for.

use super::Unknowns;
use super::layout::Page;
use super::table::{Set, Table};
use super::words::{figure, given};
use crate::assess::drying::{
    Capacity, Comparison, HeaterFor, OptionAnswer, OptionCase, SizedFor, Spot, WarmUp,
};
use crate::assess::{Answer, NotKnown};
use crate::survey::Survey;

const L_PER_DAY: f64 = 86_400.0;

pub(super) fn print(page: &mut Page, survey: &Survey, comparison: &Answer<Comparison>) {
    page.heading("Drying and heating compared");
    match comparison {
        Ok(comparison) => {
            Section { survey, comparison }.print(page);
        }
        Err(unknown) => page.hanging("not known: ", &unknown.reason),
    }
}

struct Section<'a> {
    survey: &'a Survey,
    comparison: &'a Comparison,
}

impl Section<'_> {
    fn print(&self, page: &mut Page) {
        self.verdicts(page);
        page.blank();
        self.options(page);
        self.findings(page);
        page.blank();
        self.surfaces(page);
        page.blank();
        self.capacities(page);
        page.blank();
        self.heaters(page);
        self.beyond(page);
        page.paragraph(
            "Machines and heaters marked * are generic sizes, not makers: assumptions. What the inside \
             comes to follows from heat and water together, at the mean air flow over 16 wind \
             directions.",
        );
    }

    /// Plain sentences first.
    fn verdicts(&self, page: &mut Page) {
        for option in &self.comparison.options {
            page.hanging("  ", &format!("{}{}", option.name, star(option)));
            page.hanging("      ", &option.sentence);
        }
    }

    fn case_name(&self, index: usize) -> String {
        let case = self.comparison.cases.get(index);
        case.map_or_else(String::new, |case| case.name.clone())
    }

    fn options(&self, page: &mut Page) {
        let mut unknowns = Unknowns::default();
        for index in self.still_and_windy() {
            let mut table = Table::default()
                .column(self.case_name(index), Set::Words, 30)
                .column("°C", Set::Numbers, 15)
                .column("RH %", Set::Numbers, 15)
                .column("dew °C", Set::Numbers, 15)
                .column("L/day", Set::Numbers, 15)
                .column("W", Set::Numbers, 15)
                .column("a month", Set::Numbers, 15)
                .column("warmth : water", Set::Words, 14);
            for option in &self.comparison.options {
                let name = format!("{}{}", option.name, star(option));
                let state = match option.cases.get(index) {
                    Some(state) => state.clone(),
                    None => Err(NotKnown::because("there is no such weather case")),
                };
                table.row(self.option_row(name, &state, &mut unknowns));
            }
            table.print(page);
            page.blank();
        }
        unknowns.print(page);
        page.hanging(
            "  ",
            &format!(
                "Target {} %. L/day: removed by the machine. W: electricity and heat of the heater. A \
                 month: cost in {}. Warmth : water: what the fall of the humidity is owed to.",
                given(self.survey.targets.rh_percent),
                self.survey.tariffs.currency
            ),
        );
    }

    fn still_and_windy(&self) -> Vec<usize> {
        let mut both = vec![self.comparison.calmest];
        if self.comparison.windiest != self.comparison.calmest {
            both.push(self.comparison.windiest);
        }
        both
    }

    fn option_row(
        &self,
        name: String,
        state: &Answer<OptionCase>,
        unknowns: &mut Unknowns,
    ) -> Vec<String> {
        let state = match state {
            Ok(state) => state,
            Err(unknown) => return vec![name, unknowns.mark(unknown)],
        };
        let dew = state
            .dew_point_c
            .map_or_else(|| "none".to_owned(), whole_tenths);
        let watts = state.machine_w + state.heater_w;
        let owed = state.fall.map_or_else(
            || "none".to_owned(),
            |fall| {
                let warmth = fall.warmth_share * 100.0;
                format!("{warmth:.0} : {:.0}", 100.0 - warmth)
            },
        );
        vec![
            name,
            whole_tenths(state.inside.t_c),
            format!("{:.0}", state.rh * 100.0),
            dew,
            figure(state.removal_kg_s * L_PER_DAY, 2),
            format!("{watts:.0}"),
            unknowns.or(&state.energy.cost_per_month, |cost| format!("{cost:.2}")),
            owed,
        ]
    }

    fn findings(&self, page: &mut Page) {
        for finding in &self.comparison.findings {
            page.hanging(
                &format!("  {}: ", finding.severity.name()),
                &format!("{}; {}", finding.sentence, finding.advice),
            );
        }
    }

    /// Cold surfaces with nothing done, in the calmest case.
    fn surfaces(&self, page: &mut Page) {
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
            .column("K warmer clears it", Set::Numbers, 18);
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
            ]);
        }
        table.print(page);
    }

    fn capacities(&self, page: &mut Page) {
        let capacities = &self.comparison.sizing.capacities;
        let Some(first) = capacities.first() else {
            return;
        };
        let mut unknowns = Unknowns::default();
        let mut table = Table::default()
            .column(
                format!("capacity to look for, {} °C inside", given(first.inside_c)),
                Set::Words,
                40,
            )
            .column("rated at", Set::Words, 14)
            .column(heading(SizedFor::Still), Set::Numbers, 15)
            .column(heading(SizedFor::Windy), Set::Numbers, 15)
            .column(heading(SizedFor::Design), Set::Numbers, 15);
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

    fn heaters(&self, page: &mut Page) {
        let design = given(self.survey.targets.design_outside_c);
        let mut unknowns = Unknowns::default();
        let mut table = Table::default()
            .column(
                format!("heater to look for, {design} °C outside"),
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
                unknowns.or(&size.air_w, |watts| figure(*watts, 3)),
                figure(size.fabric_w, 3),
                unknowns.or(&size.rating_w, |watts| figure(*watts, 2)),
                unknowns.or(&size.kwh_per_month, |kwh| figure(*kwh, 2)),
            ]);
        }
        table.print(page);
        unknowns.print(page);
        page.hanging("  ", "Capacities and ratings hold a margin of a quarter; the heat of a month is in the weather cases by their shares.");
    }

    /// Warming up, drying out, air at night.
    fn beyond(&self, page: &mut Page) {
        page.blank();
        for warm_up in &self.comparison.warm_up {
            self.warm_up(page, warm_up);
        }
        for option in &self.comparison.options {
            let state = option.cases.get(self.comparison.calmest);
            if let Some(Ok(OptionCase {
                dry_out: Some(found),
                ..
            })) = state
                && let Some(days) = found.days
            {
                page.hanging(
                    &format!("Drying out with {}: ", option.name),
                    &format!(
                        "{} L above the balance with the target, gone in {} days at least in {}",
                        figure(found.water_kg, 2),
                        figure(days, 2),
                        self.case_name(self.comparison.calmest)
                    ),
                );
            }
        }
        match &self.comparison.night_air {
            Ok(night) => page.hanging(
                "Air at night: ",
                &format!(
                    "{} m³/h for each of {} sleepers in the calmest weather, carbon dioxide settles at \
                     {} ppm; it says nothing about carbon monoxide: keep fixed ventilators open and \
                     fit a CO alarm",
                    figure(night.per_sleeper_m3_s * 3600.0, 2),
                    night.sleepers,
                    figure(night.carbon_dioxide_ppm, 2)
                ),
            ),
            Err(unknown) => page.hanging("Air at night: not known: ", &unknown.reason),
        }
    }

    fn warm_up(&self, page: &mut Page, warm_up: &WarmUp) {
        let name = self
            .comparison
            .cases
            .iter()
            .find(|case| case.id == warm_up.id)
            .map_or("", |case| case.name.as_str());
        let power = match &warm_up.power_for_an_hour_w {
            Ok(watts) => format!("{} W within an hour", figure(*watts, 2)),
            Err(unknown) => format!("not known: {}", unknown.reason),
        };
        let heaters: Vec<String> = warm_up
            .heaters
            .iter()
            .map(|(heater, takes)| match takes {
                Ok(Some(seconds)) => format!("{heater} {} min", figure(seconds / 60.0, 2)),
                Ok(None) => format!("{heater} never gets there"),
                Err(unknown) => format!("{heater} not known: {}", unknown.reason),
            })
            .collect();
        page.hanging(
            &format!(
                "Warming up, {name}, {} to {} °C: ",
                given(warm_up.from_c),
                given(warm_up.to_c)
            ),
            &format!("{power}; {}", heaters.join(", ")),
        );
    }
}

fn heading(sized_for: SizedFor) -> &'static str {
    match sized_for {
        SizedFor::Still => "still",
        SizedFor::Windy => "windy",
        SizedFor::Design => "design",
    }
}

fn star(option: &OptionAnswer) -> &'static str {
    if option.generic { "*" } else { "" }
}

fn whole_tenths(value: f64) -> String {
    // No minus before a zero.
    format!("{:.1}", (value * 10.0).round() / 10.0 + 0.0)
}

fn litres(kg_s: &f64) -> String {
    figure(kg_s * L_PER_DAY, 2)
}
