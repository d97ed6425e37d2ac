//! The winter's calculation held against what loggers measured inside.

use crate::assess::NotKnown;
use crate::assess::quantity::Kind;
use crate::assess::winter::{Apart, Laid, LaidOver};
use crate::assess::words::counted;
use crate::physics::counts::count;
use crate::report::blocks::{Align, Reasons, Section, Table};
use crate::report::words::not_known;
use crate::survey::number::signed;

/// Points of humidity in the whole, and grams in a kilogram.
const POINTS: f64 = 100.0;
const GRAMS: f64 = 1000.0;

/// How far the calculation lies from what was measured, period by period; nothing where no trial was
/// worked out.
#[must_use]
pub fn laid(laid: &[Laid]) -> Option<Section> {
    if laid.is_empty() {
        return None;
    }
    let mut section = Section::new("Held against what was measured");
    section.paragraph(
        "Before anything is said of options: the same calculation, run on the temperature and humidity \
         measured outside, with wind and sun of the weather file. The figures are what it gives inside \
         less what the loggers read there: the mean of the hours, and behind it their standard deviation.",
    );
    // The same reason in every row of a table is one sentence.
    if let Some(unknown) = of_all(laid) {
        section.paragraph(not_known(unknown));
        return Some(section);
    }
    let mut table = Table::default()
        .wide("What ran", Align::Left, 3)
        .column("temperature, K", Align::Right)
        .column("RH, points", Align::Right)
        .column("water in the air, g/kg", Align::Right)
        .column("hours", Align::Right);
    let mut reasons = Reasons::default();
    for one in laid {
        let name = format!("Period {} of trial {}: {}", one.period, one.trial, one.ran);
        match &one.over {
            Err(unknown) => {
                let mark = reasons.mark(unknown);
                table.row([name, mark]);
            }
            Ok(over) => {
                table.row([
                    name,
                    pair(&over.t_c, 1.0, 1),
                    pair(&over.rh, POINTS, 1),
                    pair(&over.water, GRAMS, 2),
                    over.hours.to_string(),
                ]);
            }
        };
    }
    if let Some(sum) = sum(laid) {
        section.paragraph(sum);
    }
    section.table(table, &reasons);
    section.note(
        "The clock of the weather file counts as that of the trial [A]. Each period begins with what was \
         measured inside in its first hour; what the contents hold counts as even with it [A]. A mean far from nothing says that leakage, sources or sun are other \
         than surveyed; a wide spread, that the day's swing is.",
    );
    Some(section)
}

/// Why none of the periods is known, where that is the same for all.
fn of_all(laid: &[Laid]) -> Option<&NotKnown> {
    let first = laid.first()?.over.as_ref().err()?;
    let same = |one: &Laid| one.over.as_ref().is_err_and(|other| other == first);
    laid.iter().all(same).then_some(first)
}

/// The mean with its sign, and the spread.
fn pair(apart: &Apart, scale: f64, digits: usize) -> String {
    let mean = signed(apart.mean * scale, digits);
    format!("{mean} \u{b1} {:.digits$}", apart.spread * scale)
}

/// All periods together: how far the means of temperature and humidity lie off, by hours.
fn sum(laid: &[Laid]) -> Option<String> {
    let all: Vec<&LaidOver> = laid
        .iter()
        .filter_map(|one| one.over.as_ref().ok())
        .collect();
    let hours = all.iter().map(|over| over.hours).sum::<usize>();
    if hours == 0 {
        return None;
    }
    let mean = |of: fn(&LaidOver) -> f64| {
        let each = all.iter().map(|over| count(over.hours) * of(over).abs());
        each.sum::<f64>() / count(hours)
    };
    Some(format!(
        "Over {} of {} the calculation is {} and {:.1} points of humidity off on average, whichever way, as far \
         as the loggers are right.",
        counted(hours, "hour", "hours"),
        counted(all.len(), "period", "periods"),
        Kind::Kelvin.text(mean(|over| over.t_c.mean)),
        mean(|over| over.rh.mean) * POINTS,
    ))
}
