//! Every reading of a trial, a line each, with the period it falls in.

use super::cells::{Writer, harmless, number};
use crate::figure::trial::{Band, Lines, Quantity};
use crate::series::moment;

/// Heads of the columns, units in them.
const HEADS: [&str; 8] = [
    "time",
    "inside_c",
    "inside_rh_percent",
    "inside_g_per_kg",
    "outside_c",
    "outside_rh_percent",
    "outside_g_per_kg",
    "period",
];

/// A reading outside stands for the hour behind it, s.
const FOR_AN_HOUR: i64 = 3600;

/// The lines of the table. What is left out is an empty cell.
pub(super) fn lines(writer: &mut Writer, lines: &Lines, bands: &[Band]) -> Result<(), csv::Error> {
    writer.write_record(HEADS)?;
    for time in lines.inside.temperature.times() {
        let inside = |quantity| number(lines.inside.track(quantity).kept_at(*time, 0));
        let outside = |quantity| {
            let air = lines.outside.as_ref();
            number(air.and_then(|air| air.track(quantity).kept_at(*time, FOR_AN_HOUR)))
        };
        let mut bands = bands.iter();
        let band = bands.find(|band| (band.from_s..band.to_s).contains(time));
        writer.write_record([
            moment(*time),
            inside(Quantity::Temperature),
            inside(Quantity::Humidity),
            inside(Quantity::Water),
            outside(Quantity::Temperature),
            outside(Quantity::Humidity),
            outside(Quantity::Water),
            harmless(band.map_or("", |band| &band.label)),
        ])?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::{ByteOrderMark, trial};
    use super::*;
    use crate::figure::trial::{Air, Rows};
    use std::sync::Arc;

    #[test]
    fn every_reading_has_a_line_with_what_is_left_out_empty_and_its_period() {
        let air = |t_c: &[f64]| {
            Air::of(Rows {
                times_s: &Arc::new(vec![0, 3600, 7200]),
                t_c,
                rh: &[0.8, 0.81, 0.82],
                ratio: &[0.005; 3],
            })
        };
        let lines = Lines {
            inside: air(&[5.5, f64::NAN, 6.5]),
            outside: Some(air(&[1.0, 2.0, 3.0])),
            ..Lines::default()
        };
        let bands = [Band {
            label: "1: =tub".to_owned(),
            from_s: 3600,
            to_s: 7300,
            is_reference: false,
        }];
        let bytes = trial(&lines, &bands, ByteOrderMark::Without).unwrap();
        let text = String::from_utf8(bytes).unwrap();
        let rows: Vec<&str> = text.split("\r\n").collect();
        assert_eq!(rows[0], HEADS.join(","));
        assert_eq!(rows[1], "1970-01-01 00:00,5.5,80,5,1,80,5,");
        assert!(rows[2].starts_with("1970-01-01 01:00,,81,5,2,81,5,1: =tub"));
        assert_eq!(rows.len(), 5);
    }

    #[test]
    fn the_heads_stand_in_the_description() {
        for head in HEADS {
            assert!(
                include_str!("columns.md").contains(&format!("| `{head}` |")),
                "{head}"
            );
        }
    }
}
