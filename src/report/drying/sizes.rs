//! Sizes to look for when buying: machines and heaters.

use super::names::Stage;
use crate::assess::drying::{Capacity, Comparison, Offer, SizedFor};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, listed};
use crate::assess::{DryingTopic, Topic};
use crate::physics::units::LITRES_PER_DAY;
use crate::report::blocks::{Align, Reasons, Section, Table};
use crate::survey::{MachineKind, Survey};

fn litres(kg_s: &f64) -> String {
    Kind::LitresPerDay.number(kg_s * LITRES_PER_DAY)
}

/// Rated capacities of machines to look for.
pub(crate) fn machines(survey: &Survey, comparison: &Comparison) -> Section {
    let mut section = Section::new("Dehumidifiers to look for");
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .wide("Machine", Align::Left, 1)
        .column("Rated at", Align::Left)
        .column("For", Align::Left)
        .column("To remove, L/day", Align::Decimal)
        .column("Rating to look for, L/day", Align::Decimal);
    for stage in Stage::all(comparison) {
        stage.head(&mut table, comparison);
        for (at, size) in stage.comparison.sizing.capacities.iter().enumerate() {
            let row = table.row([
                size.kind.name().to_owned(),
                format!(
                    "{} {}",
                    Kind::Celsius.typed(size.rated_c),
                    Kind::RelativeHumidity.text(size.rated_rh)
                ),
                weather(comparison, size.sized_for).to_owned(),
                reasons.or(&size.needed_kg_s, litres),
                rating(size, &mut reasons),
            ]);
            if !stage.after_plan {
                row.worked_out(Topic::Drying(DryingTopic::Capacity(at)));
            }
        }
    }
    section.table(table, &reasons);
    for stage in Stage::all(comparison) {
        for words in no_such_machine(stage) {
            section.paragraph(words);
        }
    }
    let targets = &survey.targets;
    section.note(format!(
        "The smallest rating that holds {} at {} inside, with a quarter added [A]. Compare it with the \
         maker’s figure at the same temperature and RH. {}: {} outside in the wind of “{}”.",
        Kind::RelativeHumidity.typed(targets.rh_percent),
        Kind::Celsius.typed(comparison.inside_c),
        capital(DESIGN),
        Kind::Celsius.typed(targets.design_outside_c),
        comparison.case_name(comparison.windiest)
    ));
    section
}

/// What the coldest weather that heaters are sized for is called.
const DESIGN: &str = "design";

/// The weather that a size is for.
fn weather(comparison: &Comparison, sized_for: SizedFor) -> &str {
    match sized_for {
        SizedFor::Case(id) => comparison
            .case_index(id)
            .map_or("", |case| comparison.case_name(case)),
        SizedFor::Design => DESIGN,
    }
}

/// The rating to look for, or why there is none.
fn rating(size: &Capacity, reasons: &mut Reasons) -> String {
    match size.offer {
        Ok(Offer::NoneNeeded) => "none needed".to_owned(),
        Ok(Offer::LessAir { .. } | Offer::LessWater { .. }) => "no such machine".to_owned(),
        Ok(Offer::Offered) | Err(_) => reasons.or(&size.rated_kg_s, litres),
    }
}

/// For each kind whose size nobody offers, what would have to be reached first.
fn no_such_machine(stage: Stage<'_>) -> Vec<String> {
    let sizes = &stage.comparison.sizing.capacities;
    let mut kinds: Vec<MachineKind> = sizes.iter().map(|size| size.kind).collect();
    kinds.dedup();
    let words = kinds.into_iter().filter_map(|kind| too_large(stage, kind));
    words.collect()
}

/// What would have to be reached for the largest machine of a kind, where that is too small.
fn too_large(stage: Stage<'_>, kind: MachineKind) -> Option<String> {
    let all = stage.comparison;
    let mut largest = None;
    let [mut less_air, mut never, mut more_air, mut less_water] = [const { Vec::new() }; 4];
    for size in all
        .sizing
        .capacities
        .iter()
        .filter(|size| size.kind == kind)
    {
        let case = format!("“{}”", weather(all, size.sized_for));
        match size.offer {
            Ok(Offer::LessAir {
                largest_kg_s,
                now_per_h,
                at_most_per_h,
                least_per_h,
            }) => {
                largest = Some(largest_kg_s);
                let air = |per_h| Kind::AirChanges.text(per_h);
                if least_per_h <= at_most_per_h {
                    let (now, most) = (air(now_per_h), air(at_most_per_h));
                    less_air.push(format!("from {now} to {most} in {case}"));
                } else {
                    let (most, least) = (air(at_most_per_h), air(least_per_h));
                    never.push(format!("{case}, {most} and {least}"));
                }
            }
            Ok(Offer::LessWater {
                largest_kg_s,
                air_dries,
            }) => {
                largest = Some(largest_kg_s);
                let list = if air_dries {
                    &mut more_air
                } else {
                    &mut less_water
                };
                list.push(case);
            }
            Ok(Offer::NoneNeeded | Offer::Offered) | Err(_) => {}
        }
    }
    let largest = Kind::LitresPerDay.text(largest? * LITRES_PER_DAY);
    let mut words = stage.named(&format!("▲ No {} above {largest} is made [A]", kind.name()));
    words.push('.');
    for (cases, does) in [
        (
            less_air,
            "Lessen the air first: the largest just holds it with the air change brought",
        ),
        (
            never,
            "No sealing comes to what the largest could hold; that, and what is left with every gap sealed that \
             may be:",
        ),
        (
            more_air,
            "What is given off inside is too much for the largest, and outside air carries it off: let more in, \
             in",
        ),
        (
            less_water,
            "What is given off inside is too much for the largest, whatever is sealed, in",
        ),
    ] {
        if !cases.is_empty() {
            words.push_str(&format!(" {does} {}.", listed(cases)));
        }
    }
    Some(words)
}

/// What no heater replaces.
pub(crate) const NOT_BY_HEAT: &str = "Frost guard does not replace draining the water system.";

/// Ratings of heaters to look for.
pub(crate) fn heaters(survey: &Survey, comparison: &Comparison) -> Section {
    let mut section = Section::new("Heaters to look for");
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .wide("Heater", Align::Left, 1)
        .column("Air, W", Align::Decimal)
        .column("Fabric, W", Align::Decimal)
        .column("Rating to look for, W", Align::Decimal)
        .column("kWh a month", Align::Decimal);
    for stage in Stage::all(comparison) {
        stage.head(&mut table, comparison);
        for (at, size) in stage.comparison.sizing.heaters.iter().enumerate() {
            let row = table.row([
                format!(
                    "{}, {} inside",
                    capital(size.heater_for.name()),
                    Kind::Celsius.typed(size.inside_c)
                ),
                reasons.or(&size.air_w, |watts| Kind::Watts.number(*watts)),
                Kind::Watts.number(size.fabric_w),
                reasons.or(&size.rating_w, |watts| Kind::Watts.number(*watts)),
                reasons.or(&size.kwh_per_month, |kwh| Kind::KilowattHours.number(*kwh)),
            ]);
            if !stage.after_plan {
                row.worked_out(Topic::Drying(DryingTopic::Heater(at)));
            }
        }
    }
    section.table(table, &reasons);
    section.note(format!(
        "Ratings for {} outside in the wind of “{}”, with a quarter added [A]; the heat of a month is \
         over the weather cases by their shares. {NOT_BY_HEAT}",
        Kind::Celsius.typed(survey.targets.design_outside_c),
        comparison.case_name(comparison.windiest)
    ));
    section
}
