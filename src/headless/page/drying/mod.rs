//! Drying and heating: the options side by side with their verdicts, then what to look for.

mod sizes;

use super::Unknowns;
use super::layout::Page;
use super::old_table::{Set, Table};
use super::words::{self, figure, given};
use crate::assess::drying::{Comparison, OptionAnswer, OptionCase, Supply, WarmUp};
use crate::assess::{Answer, NotKnown};
use crate::survey::Survey;

const L_PER_DAY: f64 = 86_400.0;
const G_PER_H: f64 = 3.6e6;

pub(super) fn print(page: &mut Page, survey: &Survey, comparison: &Answer<Comparison>) {
    page.heading("Drying and heating compared");
    match comparison {
        Ok(comparison) => {
            let section = Section {
                survey,
                comparison,
                when: "",
            };
            section.print(page);
        }
        Err(unknown) => page.hanging("not known: ", &unknown.reason),
    }
}

struct Section<'a> {
    survey: &'a Survey,
    comparison: &'a Comparison,
    /// Behind the heads of tables: as surveyed, or after the plan.
    when: &'static str,
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
        self.after_plan(page);
        page.paragraph(
            "Machines and heaters marked * are generic sizes, not makers: assumptions. What the inside \
             comes to follows from heat and water together, at the mean air flow over 16 wind \
             directions.",
        );
    }

    /// Plain sentences first.
    fn verdicts(&self, page: &mut Page) {
        for option in &self.comparison.options {
            page.hanging("  ", &option.starred_name());
            page.hanging("      ", &option.sentence);
        }
    }

    /// The same once the planned gaps are sealed.
    fn after_plan(&self, page: &mut Page) {
        let Some(plan) = &self.comparison.after_plan else {
            return;
        };
        let gaps: Vec<String> = plan.gaps.iter().map(ToString::to_string).collect();
        page.blank();
        page.hanging(
            "After the plan: ",
            &format!(
                "the same once the planned gaps are sealed to what their remedies leave ({})",
                gaps.join(", ")
            ),
        );
        match &plan.comparison {
            Err(unknown) => page.hanging("  not known: ", &unknown.reason),
            Ok(then) => {
                let then = Section {
                    survey: self.survey,
                    comparison: then,
                    when: ", after the plan",
                };
                then.verdicts(page);
                page.blank();
                then.options(page);
                page.blank();
                then.capacities(page);
                page.blank();
                then.heaters(page);
            }
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
                .column(
                    format!("{}{}", self.case_name(index), self.when),
                    Set::Words,
                    30,
                )
                .column("°C", Set::Numbers, 15)
                .column("RH %", Set::Numbers, 15)
                .column("dew °C", Set::Numbers, 15)
                .column("L/day", Set::Numbers, 15)
                .column("W", Set::Numbers, 15)
                .column("a month", Set::Numbers, 15)
                .column("warmth : water", Set::Words, 14);
            for option in &self.comparison.options {
                let name = option.starred_name();
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
        if !unknowns.reasons.is_empty() {
            page.blank();
        }
        self.months_and_supply(page);
        page.hanging(
            "  ",
            &format!(
                "Target {} %. L/day: removed by the machine. W: electricity and heat of the heater. A \
                 month: cost in {}. Warmth : water: what the fall of the humidity is owed to.",
                given(self.survey.targets.rh_percent),
                self.survey.tariffs.currency
            ),
        );
        self.condensation(page);
    }

    /// Where the air cannot hold its water.
    fn condensation(&self, page: &mut Page) {
        for (at, case) in self.comparison.cases.iter().enumerate() {
            let wet = |option: &OptionAnswer| {
                let wet = option.cases.get(at)?.as_ref().ok()?.condensation_kg_s;
                let grams = figure(wet * G_PER_H, 2);
                (wet > 0.0).then(|| format!("{} {grams}", option.name))
            };
            let wet: Vec<String> = self.comparison.options.iter().filter_map(wet).collect();
            if !wet.is_empty() {
                let head = format!("  Condenses inside, g/h, {}: ", case.name);
                page.hanging(&head, &wet.join("; "));
            }
        }
    }

    /// What each option draws over a month of all weather, and what it asks of the supply.
    fn months_and_supply(&self, page: &mut Page) {
        let mut unknowns = Unknowns::default();
        let mut table = Table::default()
            .column(
                format!("a month of the weather by its shares{}", self.when),
                Set::Words,
                30,
            )
            .column("kWh", Set::Numbers, 12)
            .column("cost", Set::Numbers, 12)
            .column("A at 230 V", Set::Numbers, 12)
            .column("hook-up", Set::Words, 14)
            .column("battery days", Set::Numbers, 12)
            .column("fan, room's air /h", Set::Numbers, 12);
        let dash = || "–".to_owned();
        for option in &self.comparison.options {
            let mut cells = vec![
                option.starred_name(),
                unknowns.or(&option.kwh_per_month, |kwh| figure(*kwh, 2)),
                unknowns.or(&option.cost_per_month, |cost| format!("{cost:.2}")),
            ];
            match &option.supply {
                None => cells.extend([dash(), dash(), dash()]),
                Some(Err(unknown)) => cells.extend([unknowns.mark(unknown), dash(), dash()]),
                Some(Ok(supply)) => cells.extend([
                    figure(supply.current_a, 2),
                    hook_up(supply).to_owned(),
                    supply
                        .battery_days
                        .map_or_else(dash, |days| figure(days, 2)),
                ]),
            }
            cells.push(match &option.room_volumes_per_h {
                None => dash(),
                Some(volumes) => unknowns.or(volumes, |volumes| figure(*volumes, 2)),
            });
            table.row(cells);
        }
        table.print(page);
        unknowns.print(page);
        page.blank();
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
            words::watts(state.machine_w + state.heater_w),
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

/// What supply it asks for.
fn hook_up(supply: &Supply) -> &'static str {
    match (supply.within_own, supply.within_10_a, supply.within_16_a) {
        (Some(false), _, _) => "more than yours",
        (_, true, _) => "10 A will do",
        (_, false, true) => "needs 16 A",
        (_, false, false) => "over 16 A",
    }
}

fn whole_tenths(value: f64) -> String {
    // No minus before a zero.
    format!("{:.1}", (value * 10.0).round() / 10.0 + 0.0)
}

fn litres(kg_s: &f64) -> String {
    figure(kg_s * L_PER_DAY, 2)
}
