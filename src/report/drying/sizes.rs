//! Sizes to look for when buying: machines and heaters.

use super::names::Stage;
use crate::assess::drying::{Comparison, SizedFor};
use crate::assess::quantity::Kind;
use crate::assess::words::capital;
use crate::assess::{DryingTopic, Topic};
use crate::physics::units::LITRES_PER_DAY;
use crate::report::blocks::{Align, Reasons, Section, Table};
use crate::survey::Survey;

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
                size.sized_for.name().to_owned(),
                reasons.or(&size.needed_kg_s, litres),
                match size.needed_kg_s {
                    Ok(needed) if needed <= 0.0 => "none needed".to_owned(),
                    _ => reasons.or(&size.rated_kg_s, litres),
                },
            ]);
            if !stage.after_plan {
                row.worked_out(Topic::Drying(DryingTopic::Capacity(at)));
            }
        }
    }
    section.table(table, &reasons);
    let targets = &survey.targets;
    section.note(format!(
        "The smallest rating that holds {} at {} inside, with a quarter added [A]. Compare it with the \
         maker’s figure at the same temperature and RH. Still: the weather with least wind; windy: with \
         most; {}: {} outside in the wind of the windiest.",
        Kind::RelativeHumidity.typed(targets.rh_percent),
        Kind::Celsius.typed(targets.set_temperature_c),
        SizedFor::Design.name(),
        Kind::Celsius.typed(targets.design_outside_c)
    ));
    section
}

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
        "Ratings for {} outside in the windiest weather, with a quarter added [A]; the heat of a month is \
         over the weather cases by their shares. Frost guard does not replace draining the water system.",
        Kind::Celsius.typed(survey.targets.design_outside_c)
    ));
    section
}
