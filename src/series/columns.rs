//! What a column of numbers holds, by its heading and its cells.

use super::heading::{Doubt, Said, Says, Sign, behind, only_in_percent, said, says, zone};
use super::mapping::{Column, Mapping, Unit, What};
use super::number::{self, Decimal, Written};
use super::remark::{About, Remark};

/// What was found of a column of numbers.
pub(super) struct Found {
    pub(super) column: Column,
    /// Whether a unit is taken that the file does not say.
    pub(super) unit_not_said: bool,
    pub(super) about: Option<About>,
    /// Whether it has no cell so far: whether it holds readings is known when all of it was seen.
    pub(super) is_empty_yet: bool,
}

impl Found {
    fn left_out(about: Option<About>) -> Self {
        Self {
            column: Column::LeftOut,
            unit_not_said: false,
            about,
            is_empty_yet: false,
        }
    }
}

/// What the first cells of a column are.
#[derive(Default)]
struct Cells {
    numbers: Vec<f64>,
    /// Units behind numbers, each once.
    units: Vec<Sign>,
    /// Whether a number stands alone.
    has_bare: bool,
    /// Whether a cell that is no number holds a digit.
    other_with_digit: bool,
}

impl Cells {
    fn of<'a>(cells: impl Iterator<Item = &'a str>, decimal: Decimal) -> Self {
        let mut all = Self::default();
        for text in cells {
            match number::written(text, decimal) {
                Written::Number {
                    value,
                    behind: after,
                    ..
                } => {
                    all.numbers.push(value);
                    all.has_bare |= after.is_empty();
                    let unit = behind(after).filter(|unit| !all.units.contains(unit));
                    all.units.extend(unit);
                }
                Written::Missing => {}
                Written::Other => {
                    all.other_with_digit |= text.bytes().any(|byte| byte.is_ascii_digit());
                }
            }
        }
        all
    }

    /// Whether all lie between 0 and 1, and not at their ends only.
    fn are_shares(&self) -> bool {
        let inside = |value: &&f64| **value > 0.0 && **value < 1.0;
        self.numbers.iter().all(|value| (0.0..=1.0).contains(value))
            && self.numbers.iter().any(|value| inside(&value))
    }
}

/// What a column is whose cells are no times.
pub(super) fn of_numbers<'a>(
    heading: &str,
    cells: impl Iterator<Item = &'a str>,
    decimal: Decimal,
) -> Found {
    let cells = Cells::of(cells, decimal);
    let mut found = says(heading);
    let fits = |unit: &Unit| match &found {
        Says::Readings(said) => said.unit.is_some() || said.what.units().contains(unit),
        Says::StrangeUnit(_) => true,
        Says::Nothing => false,
    };
    if let [Sign::Ours(unit)] = cells.units.as_slice()
        && !fits(unit)
        && let Some(mut by_cells) = said(&format!("{heading} {}", unit.sign()))
    {
        if found == Says::Nothing {
            by_cells.doubt.get_or_insert(Doubt::ByUnitAlone);
        }
        found = Says::Readings(by_cells);
    }
    match found {
        Says::Nothing => Found::left_out(None),
        Says::StrangeUnit(unit) => Found::left_out(Some(About::StrangeUnit(unit))),
        Says::Readings(said) => of_quantity(said, &cells),
    }
}

fn of_quantity(said: Said, cells: &Cells) -> Found {
    let what = said.what;
    let mut behind = cells.units.iter().filter_map(|sign| match sign {
        Sign::Ours(unit) if what.units().contains(unit) => Some(*unit),
        _ => None,
    });
    let strange = cells.units.iter().find_map(|sign| match sign {
        Sign::Strange(unit) => Some(unit),
        Sign::Ours(_) => None,
    });
    let (of_cells, other) = (behind.next(), behind.next());
    // One strange cell among others is told by its place when all is read.
    if let (Some(strange), None, false) = (strange, of_cells, cells.has_bare) {
        return Found::left_out(Some(About::StrangeUnit(strange.clone())));
    }
    // Numbers alone are of the unit of the heading; those of others are told when all is read.
    let against = |heading: Unit| {
        let is_there = cells.units.contains(&Sign::Ours(heading));
        of_cells.filter(|_| !cells.has_bare && !is_there)
    };
    let is_fraction = what.units().contains(&Unit::Share) && cells.are_shares();
    let (taken, mut about) = match (said.unit, of_cells) {
        (Some(heading), _) => match against(heading) {
            Some(unit) => (Some(unit), Some(About::CellsSay(unit))),
            None => (Some(heading), None),
        },
        (None, None) if is_fraction => (Some(Unit::Share), Some(About::TakenAsShare(what))),
        (None, of_cells) => (of_cells, None),
    };
    let unit = taken.unwrap_or_else(|| what.held_in());
    if about.is_none() {
        about = match said.doubt {
            _ if is_fraction && unit == Unit::Percent => Some(About::PerhapsShare(what)),
            Some(Doubt::TwoUnits) if of_cells.is_none() => Some(About::TwoUnits(unit)),
            Some(Doubt::ByUnitAlone) => Some(About::ByUnitAlone(what)),
            _ => None,
        };
    }
    let is_mixed = said.unit.is_none() && other.is_some() && cells.has_bare;
    // Water in the air is also told in g/kg, sun by the hour.
    let told_otherwise = [
        What::AbsoluteHumidity,
        What::Global,
        What::Direct,
        What::Diffuse,
    ];
    let has_others = what.units().len() > 1 || told_otherwise.contains(&what);
    let is_told = matches!(about, Some(About::TwoUnits(_)));
    Found {
        column: Column::Readings {
            what,
            unit,
            sensor: said.sensor,
        },
        unit_not_said: is_mixed || (taken.is_none() && has_others && !is_told),
        about,
        is_empty_yet: cells.numbers.is_empty() && !cells.other_with_digit,
    }
}

/// Takes what is in percent for the humidity of a sensor whose temperature stands under the same name:
/// `Cab °C` and `Cab %`.
pub(super) fn pair(columns: &mut [Column], headings: &[String], remarks: &mut Vec<Remark>) {
    let has = |columns: &[Column], wanted: What, name: &str| {
        columns.iter().any(|column| {
            matches!(column, Column::Readings { what, sensor, .. } if *what == wanted && sensor == name)
        })
    };
    for (at, heading) in headings.iter().enumerate() {
        if columns.get(at) != Some(&Column::LeftOut) {
            continue;
        }
        let (what, unit) = (What::RelativeHumidity, Unit::Percent);
        let name = only_in_percent(heading)
            .filter(|name| has(columns, What::Temperature, name) && !has(columns, what, name));
        if let (Some(sensor), Some(column)) = (name, columns.get_mut(at)) {
            *column = Column::Readings { what, unit, sensor };
            remarks.push(Remark::new(at, heading, About::ByUnitAlone(what)));
        }
    }
}

/// Leaves out columns that had no reading among the first rows and have none in all the rest either.
pub(super) fn drop_empty(
    rows: &str,
    mapping: &mut Mapping,
    mut empty: Vec<usize>,
    headings: &[String],
    remarks: &mut Vec<Remark>,
) {
    if empty.is_empty() {
        return;
    }
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(mapping.separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(rows.as_bytes());
    let mut record = csv::ByteRecord::new();
    while !empty.is_empty() && matches!(reader.read_byte_record(&mut record), Ok(true)) {
        empty.retain(|at| {
            let digits = record.get(*at).unwrap_or_default();
            !digits.iter().any(u8::is_ascii_digit)
        });
    }
    for at in empty {
        if let Some(column) = mapping.columns.get_mut(at)
            && let Column::Readings { what, .. } = column
        {
            let about = About::NoReadings(*what);
            let heading = headings.get(at).map_or("", String::as_str);
            remarks.push(Remark::new(at, heading, about));
            *column = Column::LeftOut;
        }
    }
}

/// The zone that the heading of a column of times names.
pub(super) fn zone_of(column: &Column, heading: &str) -> Option<About> {
    matches!(column, Column::Moment | Column::Date | Column::TimeOfDay)
        .then(|| zone(heading).map(About::Zone))
        .flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::series::{Guess, Note, ReadError, Series, guess, read};

    fn rows(heading: &str, number: usize, cells: impl Fn(usize) -> String) -> String {
        let row = |at: usize| {
            let (day, hour, minute) = (1 + at / 144, at / 6 % 24, at % 6 * 10);
            format!("2026-01-{day:02} {hour:02}:{minute:02};{}\n", cells(at))
        };
        format!("{heading}\n{}", (0..number).map(row).collect::<String>())
    }

    fn taken(text: &str) -> (Guess, Series) {
        let guess = guess(text.as_bytes()).expect("understood");
        let series = read(text.as_bytes(), &guess.mapping).expect("read");
        (guess, series)
    }

    fn abouts(guess: &Guess) -> Vec<About> {
        let remarks = guess.remarks.iter();
        remarks.map(|remark| remark.about.clone()).collect()
    }

    fn value(series: &Series, channel: usize, row: usize) -> f64 {
        series.channels[channel].values.get(row).expect("a row")
    }

    #[test]
    fn units_that_change_from_row_to_row_are_each_read_and_told() {
        let text = rows("Time;Temp;RH", 300, |at| match at {
            0..250 => String::from("10.0 °C;60%"),
            _ => String::from("50.0 °F;60%"),
        });
        let (guess, series) = taken(&text);
        assert!(guess.units_not_said.is_empty());
        assert!((value(&series, 0, 299) - 10.0).abs() < 1e-9);
        assert_eq!(series.notes, [Note::OtherUnits(50, 252, 2)]);
    }

    #[test]
    fn a_letter_behind_a_number_is_its_unit() {
        for cell in ["50 F", "50F", "50 °F", "50 deg F", "50 ℉"] {
            // The first row has no reading.
            let text = rows("Time;Temp;RH", 20, |at| match at {
                0 => String::from("--;60 %"),
                _ => format!("{cell};60 %"),
            });
            let (guess, series) = taken(&text);
            assert!(guess.units_not_said.is_empty(), "{cell}");
            assert!((value(&series, 0, 5) - 10.0).abs() < 1e-9, "{cell}");
        }
    }

    #[test]
    fn a_unit_that_is_not_read_is_told_and_its_column_left_out() {
        let strange = |text: &str| {
            let (guess, series) = taken(text);
            assert_eq!(series.channels.len(), 1);
            abouts(&guess)
        };
        let by_heading = rows("Time;Temp (°C);Pressure (kPa)", 9, |_| {
            String::from("10;101.3")
        });
        assert_eq!(
            strange(&by_heading),
            [About::StrangeUnit(String::from("kPa"))]
        );
        let by_cells = rows("Time;Temp;RH", 9, |_| String::from("283.1 K;60 %"));
        assert_eq!(strange(&by_cells), [About::StrangeUnit(String::from("k"))]);
        // One such cell is told by its place.
        let text = rows("Time;Temp °C", 9, |at| match at {
            5 => String::from("283.1 K"),
            _ => String::from("10"),
        });
        let mapping = guess(text.as_bytes()).expect("understood").mapping;
        let refused = read(text.as_bytes(), &mapping).expect_err("kelvin");
        assert_eq!(
            refused.to_string(),
            "line 7, column 2: a number in a unit that can be read was expected and \u{201c}283.1 \
             K\u{201d} stands there"
        );
    }

    #[test]
    fn a_share_of_one_is_taken_for_it_where_no_unit_is_said_and_told() {
        let shares = |heading: &str| rows(heading, 30, |at| format!("8.1;0.6{}", at % 10));
        let (guess, series) = taken(&shares("Time;Temp °C;RH"));
        assert_eq!(
            abouts(&guess),
            [About::TakenAsShare(What::RelativeHumidity)]
        );
        assert!((value(&series, 1, 3) - 63.0).abs() < 1e-9);
        assert!(guess.units_not_said.is_empty());
        let (guess, series) = taken(&shares("Time;Temp °C;RH %"));
        assert_eq!(
            abouts(&guess),
            [About::PerhapsShare(What::RelativeHumidity)]
        );
        assert!((value(&series, 1, 3) - 0.63).abs() < 1e-9);
        // Dry and damp to the last are no shares.
        let (guess, _) = taken(&rows("Time;Temp °C;RH", 30, |at| {
            format!("8.1;{}", at % 2)
        }));
        assert_eq!(abouts(&guess), []);
    }

    #[test]
    fn two_units_in_a_heading_are_told() {
        let (guess, _) = taken(&rows("Time;Temp °C/°F;RH %", 9, |_| {
            String::from("10;60")
        }));
        assert_eq!(abouts(&guess), [About::TwoUnits(Unit::Celsius)]);
        assert_eq!(
            guess.remarks[0].to_string(),
            "column 2, \u{201c}Temp °C/°F\u{201d}: two units stand in the heading; °C is taken. Look \
             whether the numbers fit"
        );
    }

    #[test]
    fn what_stands_behind_the_numbers_goes_before_the_heading_and_is_told() {
        let (guess, series) = taken(&rows("Time;Temp °C", 9, |_| String::from("50 °F")));
        assert_eq!(abouts(&guess), [About::CellsSay(Unit::Fahrenheit)]);
        assert!((value(&series, 0, 3) - 10.0).abs() < 1e-9);
    }

    #[test]
    fn numbers_alone_are_of_the_unit_of_the_heading() {
        let text = rows("Time;Temp °C", 30, |at| match at {
            7 => String::from("50 °F"),
            _ => String::from("12"),
        });
        let (guess, series) = taken(&text);
        assert_eq!(abouts(&guess), []);
        assert!((value(&series, 0, 3) - 12.0).abs() < 1e-9);
        assert!((value(&series, 0, 7) - 10.0).abs() < 1e-9);
        assert_eq!(series.notes, [Note::OtherUnits(1, 9, 2)]);
        // Where no heading says it, what stands alone may be of either.
        let text = text.replace("Temp °C", "Temp");
        let (guess, _) = taken(&text.replace("01:00;12", "01:00;12 °C"));
        assert_eq!(guess.units_not_said, [1]);
    }

    #[test]
    fn the_unit_behind_the_numbers_says_which_humidity_it_is() {
        let (_, series) = taken(&rows("Time;Temp;Humidity", 9, |_| {
            String::from("10 °C;7.1 g/m³")
        }));
        assert_eq!(series.channels[1].what, What::AbsoluteHumidity);
    }

    #[test]
    fn percent_beside_a_temperature_of_the_same_name_is_its_humidity_and_told() {
        let text = rows("Time;Cab °C;Cab %;Loft %;Cab fan %", 9, |_| {
            String::from("10;61;5;7")
        });
        let (guess, series) = taken(&text);
        let held: Vec<(What, &str)> = series
            .channels
            .iter()
            .map(|one| (one.what, one.sensor.as_str()))
            .collect();
        assert_eq!(
            held,
            [(What::Temperature, "Cab"), (What::RelativeHumidity, "Cab")]
        );
        assert_eq!(abouts(&guess), [About::ByUnitAlone(What::RelativeHumidity)]);
    }

    #[test]
    fn a_sensor_that_begins_late_is_read_and_one_that_never_does_is_told() {
        for none in ["", "--"] {
            let text = rows("Time;Inside °C;Outside °C;Loft °C", 400, |at| match at {
                0..260 => format!("10;{none};{none}"),
                _ => format!("10;3;{none}"),
            });
            let (guess, series) = taken(&text);
            let sensors: Vec<&str> = series
                .channels
                .iter()
                .map(|one| one.sensor.as_str())
                .collect();
            assert_eq!(sensors, ["Inside", "Outside"]);
            assert!((value(&series, 1, 399) - 3.0).abs() < 1e-9);
            assert_eq!(abouts(&guess), [About::NoReadings(What::Temperature)]);
        }
    }

    #[test]
    fn a_column_that_is_understood_is_not_dropped_for_its_cells() {
        let text = rows("Time;Temp °C;RH %", 9, |_| String::from("7.6 ±0.3;60"));
        let mapping = guess(text.as_bytes()).expect("understood").mapping;
        let refused = read(text.as_bytes(), &mapping).expect_err("no number");
        assert!(
            matches!(
                refused,
                ReadError::Cell {
                    line: 2,
                    column: 2,
                    ..
                }
            ),
            "{refused}"
        );
    }

    #[test]
    fn thousands_are_read_and_told() {
        for (t, carbon_dioxide) in [
            ("7,62", "1.200"),
            ("7.62", "1,200"),
            ("7,62", "1 200"),
            ("7,62", "1\u{202f}200"),
        ] {
            let (_, series) = taken(&rows("Time;Temp °C;CO2 (ppm)", 9, |_| {
                format!("{t};{carbon_dioxide}")
            }));
            assert!(
                (value(&series, 0, 3) - 7.62).abs() < 1e-9,
                "{carbon_dioxide}"
            );
            assert!(
                (value(&series, 1, 3) - 1200.0).abs() < 1e-9,
                "{carbon_dioxide}"
            );
            assert_eq!(series.notes, [Note::Thousands(9, 2, 3)], "{carbon_dioxide}");
        }
        // Three decimals everywhere are decimals.
        let (_, series) = taken(&rows("Time;Temp °C;RH (%)", 9, |_| {
            String::from("7,625;62,700")
        }));
        assert!((value(&series, 0, 3) - 7.625).abs() < 1e-9);
        assert_eq!(series.notes, []);
    }

    #[test]
    fn a_zone_in_the_heading_is_told() {
        let (guess, _) = taken(&rows("Time (UTC);Temp °C", 9, |_| String::from("7.6")));
        assert_eq!(abouts(&guess), [About::Zone(String::from("UTC"))]);
    }

    #[test]
    fn columns_without_headings_are_known_by_the_units_behind_their_numbers() {
        let text = rows("", 9, |_| String::from("7.6 °C;61 %"));
        let (guess, series) = taken(text.trim_start());
        let held: Vec<What> = series.channels.iter().map(|one| one.what).collect();
        assert_eq!(held, [What::Temperature, What::RelativeHumidity]);
        assert_eq!(
            abouts(&guess),
            [
                About::ByUnitAlone(What::Temperature),
                About::ByUnitAlone(What::RelativeHumidity)
            ]
        );
    }
}
