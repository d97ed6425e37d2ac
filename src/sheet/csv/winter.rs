//! Every hour of every option of a winter, a line each.

use super::cells::{Writer, harmless, number};
use crate::assess::Answer;
use crate::assess::winter::{Season, Winter};

/// Heads of the columns, units in them.
const HEADS: [&str; 15] = [
    "option",
    "year",
    "month",
    "day",
    "hour",
    "outside_c",
    "outside_rh_percent",
    "inside_c",
    "inside_rh_percent",
    "condensed_g",
    "run_off_g",
    "removed_g",
    "machine_w",
    "machine_share",
    "heater_w",
];
/// Grams in a kilogram, and points in the whole.
const GRAMS: f64 = 1000.0;
const PERCENT: f64 = 100.0;

/// The lines of the table; options that are not known have none.
pub(super) fn lines(
    writer: &mut Writer,
    winter: &Winter,
    seasons: &[Answer<Season>],
) -> Result<(), csv::Error> {
    writer.write_record(HEADS)?;
    for (option, season) in winter.options().iter().zip(seasons) {
        let Ok(season) = season else { continue };
        for ((hour, outside), inside) in winter.outside().zip(&season.hours) {
            let of = |value: f64| number(Some(value));
            writer.write_record([
                harmless(&option.name),
                hour.day.year.to_string(),
                hour.day.month.to_string(),
                hour.day.day.to_string(),
                hour.hour.to_string(),
                of(outside.t_c),
                of(outside.relative_humidity() * PERCENT),
                of(inside.t_c),
                of(inside.rh * PERCENT),
                of(inside.condensed * GRAMS),
                of(inside.run_off * GRAMS),
                of(inside.removed * GRAMS),
                of(inside.machine),
                of(inside.duty),
                of(inside.heater),
            ])?;
        }
    }
    Ok(())
}
