//! The lines above the readings that head the columns: names, units, groups.

use super::units::of_cell;
use super::{Says, said, says, zone};

/// Lines above the readings among which the headings are looked for; empty ones and rules do not count.
const LINES: usize = 8;

/// The headings of the columns, from the lines above the readings.
///
/// Of the lines nearest to the readings the one counts in which most columns are understood. Units below
/// it are put behind the names; names of groups above it are put before them where without them two
/// columns would be told alike.
pub(in crate::series) fn headings(above: &[Vec<String>], width: usize) -> Vec<String> {
    let lines: Vec<&Vec<String>> = above
        .iter()
        .rev()
        .filter(|line| !is_rule(line))
        .take(LINES)
        .collect();
    let wide: Vec<usize> = (0..lines.len())
        .filter(|at| lines.get(*at).is_some_and(|line| is_wide(line, width)))
        .collect();
    let Some(at) = best(&lines, &wide, width) else {
        return Vec::new();
    };
    let Some(line) = lines.get(at) else {
        return Vec::new();
    };
    let mut names: Vec<String> = line.iter().map(|cell| cell.trim().to_owned()).collect();
    for below in (0..at).rev().filter_map(|below| lines.get(below)) {
        put_units(&mut names, below);
    }
    if let Some(groups) = lines.get(at + 1) {
        put_groups(&mut names, groups);
    }
    names
}

/// Whether a line is drawn with strokes, or empty.
fn is_rule(line: &[String]) -> bool {
    line.iter().all(|cell| {
        cell.trim().chars().all(|sign| {
            matches!(
                sign,
                '-' | '=' | '_' | '+' | '|' | '*' | '~' | '–' | '—' | ' '
            )
        })
    })
}

fn is_wide(line: &[String], width: usize) -> bool {
    line.len() >= width.min(2) && line.iter().filter(|cell| !cell.trim().is_empty()).count() > 1
}

/// How many columns of a line are understood, and how many of those are nothing but a unit.
fn understood(line: &[String], width: usize) -> (usize, usize) {
    let (mut number, mut pure) = (0, 0);
    for cell in line.iter().take(width).filter(|cell| !is_value(cell)) {
        let is_unit = of_cell(cell).is_some();
        pure += usize::from(is_unit);
        number += usize::from(is_unit || says(cell) != Says::Nothing);
    }
    (number, pure)
}

/// Whether a cell is a number with its unit, such as stand in preambles.
fn is_value(cell: &str) -> bool {
    let is_of_number = |sign: char| sign.is_ascii_digit() || matches!(sign, '+' | '-' | '.' | ',');
    let behind = cell.trim().trim_start_matches(is_of_number);
    behind.len() < cell.trim().len() && of_cell(behind).is_some()
}

/// The line that names the columns.
fn best(lines: &[&Vec<String>], wide: &[usize], width: usize) -> Option<usize> {
    let score = |at: usize| lines.get(at).map_or((0, 0), |line| understood(line, width));
    let most = wide.iter().map(|at| score(*at).0).max()?;
    let at = *wide.iter().find(|at| score(**at).0 == most)?;
    let (number, pure) = score(at);
    let Some(names) = wide.iter().find(|one| **one > at).copied() else {
        return Some(at);
    };
    // A line with units for names: what they belong to stands above it.
    let (named, named_pure) = score(names);
    let all_are_units = pure == number && are_units_of(lines.get(at)?, lines.get(names)?);
    let are_named_above = named == number && named_pure == 0;
    Some(if pure > 0 && (all_are_units || are_named_above) {
        names
    } else {
        at
    })
}

/// Whether most cells of a line are units, and the line above has as many cells.
fn are_units_of(line: &[String], names: &[String]) -> bool {
    let filled = |line: &[String]| line.iter().filter(|cell| !cell.trim().is_empty()).count();
    let units = line.iter().filter(|cell| of_cell(cell).is_some()).count();
    2 * units >= filled(line) && names.len() >= line.len() && filled(names) >= filled(line)
}

/// Puts units behind names that have none, and a zone behind the name of the times.
fn put_units(names: &mut Vec<String>, units: &[String]) {
    for (at, cell) in units.iter().enumerate() {
        let cell = cell.trim();
        if of_cell(cell).is_none() && zone(cell).is_none() {
            continue;
        }
        if at >= names.len() {
            names.resize(at + 1, String::new());
        }
        if let Some(name) = names.get_mut(at) {
            let has_one = said(name).is_some_and(|said| said.unit.is_some());
            if !has_one {
                // A letter alone is a unit in brackets only.
                let unit = match cell.as_bytes() {
                    [letter] if letter.is_ascii_alphabetic() => format!("({cell})"),
                    _ => cell.to_owned(),
                };
                *name = format!("{name} {unit}").trim().to_owned();
            }
        }
    }
}

/// Puts the names of groups, each over its first column, before the names of all its columns.
fn put_groups(names: &mut [String], groups: &[String]) {
    let keys: Vec<_> = names
        .iter()
        .map(|name| said(name).map(|said| (said.what, said.sensor)))
        .collect();
    let are_alike = keys
        .iter()
        .enumerate()
        .any(|(at, key)| key.is_some() && keys.iter().skip(at + 1).any(|other| other == key));
    let over: Vec<usize> = (0..groups.len())
        .filter(|at| groups.get(*at).is_some_and(|cell| !cell.trim().is_empty()))
        .collect();
    let readings = |at: &usize| keys.get(*at).is_some_and(Option::is_some);
    // A name for each column, or two cells of a preamble, are no groups.
    let spans = over.iter().filter(|at| readings(at)).count() >= 2
        && over.iter().all(|at| *at < names.len())
        && over
            .iter()
            .any(|at| readings(at) && readings(&(at + 1)) && !over.contains(&(at + 1)));
    if !are_alike || !spans {
        return;
    }
    let mut group = String::new();
    for (at, name) in names.iter_mut().enumerate() {
        let cell = groups.get(at).map_or("", |cell| cell.trim());
        if !cell.is_empty() {
            cell.clone_into(&mut group);
        }
        if keys.get(at).is_some_and(Option::is_some) {
            *name = format!("{group} {name}").trim().to_owned();
        } else if name.is_empty() {
            cell.clone_into(name);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str) -> Vec<Vec<String>> {
        let cells = |line: &str| line.split(';').map(str::to_owned).collect();
        text.lines().map(cells).collect()
    }

    #[test]
    fn names_and_units_are_found_among_the_lines_above() {
        for (above, expected) in [
            ("Time;Temp;RH\n---;---;---", "Time;Temp;RH"),
            ("Time;Temp °C;RH %\nOffset;0.0;0.0", "Time;Temp °C;RH %"),
            (
                "Time;Temperature;Humidity\nyyyy-mm-dd hh:mm:ss;°C;%",
                "Time;Temperature °C;Humidity %",
            ),
            (
                "Time;Temperature;Humidity\n;C;RH",
                "Time;Temperature (C);Humidity",
            ),
            (
                "Time;Temperature;Humidity\nUTC;F;%",
                "Time UTC;Temperature (F);Humidity %",
            ),
            (
                "Time;Temperature;Abs\n;°C;g/m3",
                "Time;Temperature °C;Abs g/m3",
            ),
            ("Time;Kanal 1;Kanal 2\n;°C;%", "Time;Kanal 1 °C;Kanal 2 %"),
            ("Logger;Model X\nTime;°C;%", "Time;°C;%"),
            (
                "Alarm;30 °C;5 °C;60 %\nTime;Temp;RH;Note",
                "Time;Temp;RH;Note",
            ),
            (
                "F5;st1;CR6;123\nSTAMP;RECORD;AirT_Avg;RH\nTS;RN;Deg C;%\n;;Avg;Smp",
                "STAMP;RECORD;AirT_Avg Deg C;RH %",
            ),
        ] {
            let above = lines(above);
            let width = above.last().map_or(0, Vec::len);
            assert_eq!(headings(&above, width).join(";"), expected);
        }
    }

    #[test]
    fn names_of_groups_tell_columns_apart_that_are_headed_alike() {
        let above = lines("Time;Inside;;Outside;\n;Temp °C;RH %;Temp °C;RH %");
        let found = headings(&above, 5);
        assert_eq!(
            found.join(";"),
            "Time;Inside Temp °C;Inside RH %;Outside Temp °C;Outside RH %"
        );
        // What stands above a table otherwise is no name of a group.
        let above = lines("Alarm high;30.0;;on;\nTime;Temp °C;RH %;Dew °C;CO2 ppm");
        assert_eq!(
            headings(&above, 5).join(";"),
            "Time;Temp °C;RH %;Dew °C;CO2 ppm"
        );
    }
}
