//! The winter's calculation held against what loggers measured inside.

use crate::assess::quantity::Kind;
use crate::assess::winter::{Apart, Laid};
use crate::assess::words::{capital, counted};
use crate::report::blocks::{Align, Reasons, Section, Table};
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
    section.table(table, &reasons);
    section.points(laid.iter().filter_map(in_words));
    section.note(
        "The clock of the weather file counts as that of the trial, and fourteen days of its first weather \
         stand for the days before [A]. A mean far from nothing says that leakage, sources or sun are other \
         than surveyed; a wide spread, that the day's swing is.",
    );
    Some(section)
}

/// The mean with its sign, and the spread.
fn pair(apart: &Apart, scale: f64, digits: usize) -> String {
    let mean = signed(apart.mean * scale, digits);
    format!("{mean} \u{b1} {:.digits$}", apart.spread * scale)
}

fn in_words(one: &Laid) -> Option<String> {
    let over = one.over.as_ref().ok()?;
    let towards = |mean: f64, more: &'static str, less: &'static str| {
        if mean > 0.0 { more } else { less }
    };
    Some(format!(
        "{}: over {} the calculation is {} too {} and {} too {}, as far as the loggers are right.",
        capital(&one.ran),
        counted(over.hours, "hour", "hours"),
        Kind::Kelvin.text(over.t_c.mean.abs()),
        towards(over.t_c.mean, "warm", "cold"),
        format_args!("{:.1} points", over.rh.mean.abs() * POINTS),
        towards(over.rh.mean, "damp", "dry"),
    ))
}
