//! Numbers with their units: a line does not end between them, and below zero they have a minus
//! sign.

/// Units that stay with the number before them.
const UNITS: [&str; 42] = [
    "%",
    "°C",
    "K",
    "Pa",
    "kPa",
    "mm",
    "mm²",
    "cm",
    "cm²",
    "m",
    "m²",
    "m³",
    "m³/h",
    "m³/s",
    "m/s",
    "L",
    "L/day",
    "L/s",
    "/h",
    "h",
    "min",
    "s",
    "W",
    "kW",
    "Wh",
    "kWh",
    "W/K",
    "W/m²",
    "W/(m²·K)",
    "V",
    "A",
    "Ah",
    "kg",
    "kg/h",
    "kg/s",
    "kg/m³",
    "g",
    "g/h",
    "g/kg",
    "g/m³",
    "ppm",
    "€",
];

/// What may stand behind a unit.
const AFTER: [char; 6] = [',', '.', ';', ':', ')', ']'];

/// A text whose numbers keep their units at the end of a line.
pub(super) fn kept_together(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(' ') {
        let (before, after) = rest.split_at(at);
        let after = after.strip_prefix(' ').unwrap_or(after);
        out.push_str(before);
        let ends_in_digit = before.ends_with(|last: char| last.is_ascii_digit());
        if ends_in_digit && begins_with_unit(after) {
            real_minus(&mut out);
            out.push('\u{a0}');
        } else {
            out.push(' ');
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

fn begins_with_unit(text: &str) -> bool {
    let word = text.split([' ', '\n', '\u{a0}']).next().unwrap_or(text);
    UNITS.contains(&word) || UNITS.contains(&word.trim_end_matches(AFTER))
}

/// Turns the hyphen before the number at the end into a minus sign.
fn real_minus(text: &mut String) {
    let number = text.trim_end_matches(|letter: char| letter.is_ascii_digit() || letter == '.');
    let Some(before) = number.strip_suffix('-') else {
        return;
    };
    // Behind a letter or a digit it joins or means *to*.
    if before.is_empty() || before.ends_with([' ', '\n', '\u{a0}', '(', '[', '=']) {
        let at = before.len();
        text.replace_range(at..=at, "−");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_keep_their_units() {
        let text = "still 100 % at -6.1 °C, 10 L/day: (-2 K) 4 gaps of 3 mm, 5 m from the front";
        assert_eq!(
            kept_together(text),
            "still 100\u{a0}% at −6.1\u{a0}°C, 10\u{a0}L/day: (−2\u{a0}K) 4 gaps of 3\u{a0}mm, \
             5\u{a0}m from the front"
        );
    }

    #[test]
    fn what_is_no_number_with_a_unit_stays() {
        for text in [
            "2031-02-03",
            "A-5 m",
            "a  b ",
            "",
            " 5",
            "-5 gaps",
            "door 7 shut",
            "9-12 mo",
        ] {
            assert_eq!(kept_together(text).replace('\u{a0}', " "), text);
        }
        assert_eq!(kept_together("-4 °C\n-3 gaps"), "−4\u{a0}°C\n-3 gaps");
    }
}
