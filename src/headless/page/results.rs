//! The headlines: leakage area, air change, water and heat, the weather cases side by side.

use super::layout::Page;
use super::old_table::{Set, Table};
use super::words::{self, compass, counted, degrees, figure, given};
use super::{Unknowns, total_figure};
use crate::assess::{
    Answer, Assessment, CaseAir, CaseAnswer, CaseDrying, CaseHeat, DirectionAnswer, HeatNeed,
    NotKnown,
};
use crate::survey::{GapId, Survey, WeatherCase};

const CM2: f64 = 1e4;

/// Weather cases that stand side by side within the margins.
const SIDE_BY_SIDE: usize = 3;

pub(super) fn print(page: &mut Page, survey: &Survey, assessment: &Assessment) {
    page.heading(&format!("Results, {}", assessment.set_up.name()));
    leakage_area(page, assessment);
    for cases in assessment.cases.chunks(SIDE_BY_SIDE) {
        page.blank();
        Cases {
            survey,
            cases,
            unknowns: Unknowns::default(),
        }
        .print(page);
    }
    page.blank();
    season(page, assessment);
    page.paragraph(
        "Means are over 16 wind directions relative to the vehicle; ACH counts the gross inflow of \
         outside air and is quoted at inside-air density. Directions are clockwise from the front: \
         90° is the offside, 180° the rear, 270° the nearside.",
    );
}

fn leakage_area(page: &mut Page, assessment: &Assessment) {
    let leakage = &assessment.leakage;
    let area = leakage
        .unintended
        .as_ref()
        .map_err(Clone::clone)
        .and_then(|total| total_figure(total, total.figures.eqla * CM2, 3));
    let lacks = leakage
        .unintended
        .as_ref()
        .is_ok_and(|total| total.not_sized > 0);
    let at_least = if lacks { "≥ " } else { "" };
    let words = match (&area, &leakage.square_side) {
        (Ok(area), Ok(side)) => format!(
            "EqLA {area} cm², as much as a square hole with sides of {at_least}{} mm",
            words::side_mm(*side)
        ),
        (Ok(area), Err(_)) => format!("EqLA {area} cm²"),
        (Err(unknown), _) => format!("EqLA not known: {}", unknown.reason),
    };
    page.hanging("Leakage area of unintended gaps   ", &words);
    if !leakage.not_sized.is_empty() {
        let ids: Vec<String> = leakage.not_sized.iter().map(GapId::to_string).collect();
        page.hanging(
            "                                  ",
            &format!(
                "{} not sized ({}): in no total, and air, water and heat below lack them",
                counted(ids.len(), "gap is", "gaps are"),
                ids.join(", ")
            ),
        );
    }
}

fn season(page: &mut Page, assessment: &Assessment) {
    let words = match &assessment.season_ach_per_h {
        Ok(ach) => format!("{} /h", words::air_changes(*ach)),
        Err(unknown) => format!("not known: {}", unknown.reason),
    };
    let shares: Vec<String> = assessment
        .cases
        .iter()
        .map(|case| format!("{} {} %", case.name, figure(case.share * 100.0, 2)))
        .collect();
    page.paragraph(&format!(
        "Mean air change over the season: {words} (weights: {}).",
        shares.join(", ")
    ));
}

/// Some weather cases side by side.
struct Cases<'a> {
    survey: &'a Survey,
    cases: &'a [CaseAnswer],
    unknowns: Unknowns,
}

impl Cases<'_> {
    fn print(mut self, page: &mut Page) {
        let mut table = Table::default()
            .column("weather case", Set::Words, 40)
            .column("", Set::Words, 6);
        for case in self.cases {
            table = table.column(case.name.clone(), Set::Numbers, 15);
        }
        self.weather(&mut table);
        self.air_change(&mut table);
        self.spaces(&mut table);
        self.water(&mut table);
        self.heat(&mut table);
        table.print(page);
        self.unknowns.print(page);
    }

    /// One row: label, unit, and a figure or a mark for each case.
    fn row(
        &mut self,
        table: &mut Table,
        label: &str,
        unit: &str,
        cell: impl Fn(&CaseAnswer) -> Answer<String>,
    ) {
        let cases = self.cases;
        let mut cells = vec![label.to_owned(), unit.to_owned()];
        for case in cases {
            cells.push(self.unknowns.or(&cell(case), String::clone));
        }
        table.row(cells);
    }

    fn weather(&mut self, table: &mut Table) {
        let survey = self.survey;
        let recorded = |case: &CaseAnswer, words: fn(&WeatherCase) -> String| {
            survey
                .weather_case(case.id)
                .map(words)
                .ok_or_else(|| NotKnown::because("the survey holds no such weather case"))
        };
        self.row(table, "  wind at the weather station", "m/s", |case| {
            recorded(case, |case| given(case.wind_m_s))
        });
        self.row(table, "  wind used, at the roof's height", "m/s", |case| {
            air(case).map(|air| figure(air.wind_used, 2))
        });
        self.row(table, "  outside air", "°C", |case| {
            recorded(case, |case| given(case.outside_c))
        });
        self.row(table, "  outside relative humidity", "%", |case| {
            recorded(case, |case| given(case.outside_rh_percent))
        });
        self.row(table, "  inside air", "°C", |case| {
            recorded(case, |case| given(case.inside_c()))
        });
    }

    fn air_change(&mut self, table: &mut Table) {
        table.group("air changes per hour, ACH");
        self.extreme(table, "  lowest", |air| air.lowest);
        self.row(table, "  mean", "/h", |case| {
            air(case)?.mean_ach_per_h.clone().map(words::air_changes)
        });
        self.extreme(table, "  highest", |air| air.highest);
        self.row(table, "  basic model, as a cross-check", "/h", |case| {
            air(case)?
                .cross_check
                .clone()
                .map(|check| words::air_changes(check.ach_per_h))
        });
    }

    /// The air change in one wind direction, and which that is.
    fn extreme(&mut self, table: &mut Table, label: &str, which: fn(&CaseAir) -> usize) {
        self.row(table, label, "/h", |case| {
            let air = air(case)?;
            direction(air, which(air))?
                .ach_per_h
                .clone()
                .map(words::air_changes)
        });
        self.row(table, "    with wind from, off the front", "", |case| {
            let air = air(case)?;
            Ok(degrees(direction(air, which(air))?.from_front_deg))
        });
        if self.survey.site.heading_deg.is_some() {
            self.row(table, "    by compass", "", |case| {
                let air = air(case)?;
                direction(air, which(air))?
                    .compass_deg
                    .map(compass)
                    .ok_or_else(|| NotKnown::because("the heading is not given"))
            });
        }
    }

    /// Air into each space, where there is more than one.
    fn spaces(&mut self, table: &mut Table) {
        let survey = self.survey;
        if survey.spaces.len() < 2 {
            return;
        }
        table.group("air into each space, mean; that from other spaces is no outside air");
        for (at, space) in survey.spaces.iter().enumerate() {
            let name = survey.space_name(space.id);
            let own = move |case: &CaseAnswer| {
                let found = air(case)?.spaces.get(at).cloned();
                found.ok_or_else(|| NotKnown::because("the spaces were not worked out"))
            };
            let outside = format!("  {name}: outside air");
            self.row(table, &outside, "/h", |case| {
                own(case)?.ach_per_h.map(|ach| figure(ach, 2))
            });
            self.row(table, "", "kg/h", |case| {
                Ok(figure(own(case)?.mean_inflow_kg_s * 3600.0, 3))
            });
            let others = format!("  {name}: from other spaces");
            self.row(table, &others, "/h", |case| {
                own(case)?.from_spaces_per_h.map(|ach| figure(ach, 2))
            });
            self.row(table, "", "kg/h", |case| {
                Ok(figure(own(case)?.mean_from_spaces_kg_s * 3600.0, 3))
            });
        }
    }

    fn water(&mut self, table: &mut Table) {
        let target = given(self.survey.targets.rh_percent);
        table.group(format!(
            "water to remove to hold {target} % relative humidity"
        ));
        let set = given(self.survey.targets.set_temperature_c);
        self.row(table, "  water given off inside", "g/h", |case| {
            drying(case).map(|drying| figure(drying.source_kg_s * 3.6e6, 2))
        });
        for (label, unit, which) in [
            (
                "  inside as cold as outside".to_owned(),
                "L/day",
                (|drying| drying.at_outside_temperature.l_per_day()) as fn(&CaseDrying) -> f64,
            ),
            (String::new(), "g/h", |drying| {
                drying.at_outside_temperature.g_per_h()
            }),
            (format!("  inside held at {set} °C"), "L/day", |drying| {
                drying.at_set_temperature.l_per_day()
            }),
            (String::new(), "g/h", |drying| {
                drying.at_set_temperature.g_per_h()
            }),
        ] {
            self.row(table, &label, unit, |case| {
                drying(case).map(|d| figure(which(d), 2))
            });
        }
        self.row(table, "  RH there if nothing is removed", "%", |case| {
            drying(case).map(|drying| {
                let rh = drying.at_set_temperature.rh_without_removal;
                if rh >= 1.0 {
                    "wet, 100".to_owned()
                } else {
                    figure(rh * 100.0, 2)
                }
            })
        });
    }

    fn heat(&mut self, table: &mut Table) {
        let targets = &self.survey.targets;
        let set = format!(
            "heat to hold {} °C inside in this weather",
            given(targets.set_temperature_c)
        );
        let design = given(targets.design_outside_c);
        let frost = format!(
            "frost guard: {} °C inside at {design} °C outside, in this wind",
            given(targets.frost_guard_c)
        );
        let comfort = format!(
            "comfort: {} °C inside at {design} °C outside, in this wind",
            given(targets.comfort_c)
        );
        for (words, which) in [
            (
                set,
                (|heat| &heat.set_temperature) as fn(&CaseHeat) -> &HeatNeed,
            ),
            (frost, |heat| &heat.frost_guard),
            (comfort, |heat| &heat.comfort),
        ] {
            table.group(words);
            self.row(table, "  with the air", "W", |case| {
                heat(case).map(|all| words::watts(which(all).air_w))
            });
            self.row(table, "  through the fabric", "W", |case| {
                which(heat(case)?).fabric_w.clone().map(words::watts)
            });
            self.row(table, "  together", "W", |case| {
                which(heat(case)?).total_w().map(words::watts)
            });
        }
    }
}

fn air(case: &CaseAnswer) -> Answer<&CaseAir> {
    case.air.as_ref().map_err(Clone::clone)
}

fn drying(case: &CaseAnswer) -> Answer<&CaseDrying> {
    case.drying.as_ref().map_err(Clone::clone)
}

fn heat(case: &CaseAnswer) -> Answer<&CaseHeat> {
    case.heat.as_ref().map_err(Clone::clone)
}

fn direction(air: &CaseAir, index: usize) -> Answer<&DirectionAnswer> {
    air.directions
        .get(index)
        .ok_or_else(|| NotKnown::because("no wind direction was worked out"))
}
