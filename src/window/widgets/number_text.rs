//! Reading what a person types for a number, and writing a number back.

use crate::assess::words::point_degrees;

/// Longest text that is read as a sum.
pub const LONGEST_SUM: usize = 64;

/// Reads a number, or a simple sum such as `2*600+2*400`. Comma and point are both decimal
/// marks; nothing typed is no number.
///
/// # Errors
/// A plain sentence that says why the text is not a number.
pub fn parse(text: &str) -> Result<Option<f64>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    if text.chars().count() > LONGEST_SUM {
        return Err(format!("longer than {LONGEST_SUM} characters"));
    }
    let plain = plain_signs(text)?;
    let value = match plain.parse::<f64>() {
        Ok(value) => value,
        Err(_) => sum(&plain)?,
    };
    if value.is_finite() {
        Ok(Some(value))
    } else {
        Err("that does not come to a finite number".to_owned())
    }
}

/// Reads a direction: a point of the compass, or degrees clockwise from north as [`parse`] reads
/// them.
///
/// # Errors
/// A plain sentence that says why the text is no direction.
pub fn parse_direction(text: &str) -> Result<Option<f64>, String> {
    let text = text.trim();
    if let Some(degrees) = point_degrees(text) {
        return Ok(Some(degrees));
    }
    let number = text.strip_suffix('°').unwrap_or(text);
    if number.chars().any(char::is_alphabetic) {
        return Err(format!(
            "\u{201c}{text}\u{201d} is no direction: write a point of the compass such as N, NE or \
             NNE, or degrees clockwise from north"
        ));
    }
    parse(number)
}

/// Digits, decimal points and operators in one spelling each; everything else is refused.
fn plain_signs(text: &str) -> Result<String, String> {
    let mut plain = String::with_capacity(text.len());
    let mut gap_after_digit = false;
    for sign in text.chars() {
        let spelled = match sign {
            '0'..='9' | '.' | '+' | '-' | '*' | '/' | '(' | ')' => sign,
            ',' => '.',
            '−' | '–' => '-',
            '×' | '·' => '*',
            '÷' | ':' => '/',
            ' ' | '\u{a0}' | '\u{202f}' => {
                gap_after_digit = plain.ends_with(|last: char| last.is_ascii_digit());
                continue;
            }
            other => return Err(format!("\u{201c}{other}\u{201d} is not part of a number")),
        };
        if gap_after_digit && (spelled.is_ascii_digit() || spelled == '.') {
            return Err("leave out spaces inside a number".to_owned());
        }
        gap_after_digit = false;
        plain.push(spelled);
    }
    Ok(plain)
}

fn sum(plain: &str) -> Result<f64, String> {
    let starts_or_ends_open =
        plain.starts_with(['*', '/']) || plain.ends_with(['+', '-', '*', '/']);
    let two_points = plain
        .split(['+', '-', '*', '/', '(', ')'])
        .any(|number| number.matches('.').count() > 1 || number == ".");
    if two_points {
        return Err("a number has one decimal comma or point".to_owned());
    }
    if starts_or_ends_open {
        return Err("the sum is not finished".to_owned());
    }
    let value = exmex::eval_str::<f64>(plain)
        .map_err(|_| "this is neither a number nor a simple sum".to_owned())?;
    Ok(rounded(value))
}

/// Twelve significant digits: `0.1+0.2` is 0.3.
fn rounded(value: f64) -> f64 {
    format!("{value:.11e}").parse().unwrap_or(value)
}

/// Writes a number the shortest way that reads back as the same number.
#[must_use]
pub fn format(value: Option<f64>) -> String {
    value.map_or_else(String::new, |value| {
        if value.is_finite() {
            format!("{value}")
        } else {
            String::new()
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comma_and_point_are_both_decimal_marks() {
        assert_eq!(parse(" 2,5 "), Ok(Some(2.5)));
        assert_eq!(parse("2.5"), Ok(Some(2.5)));
        assert_eq!(parse("−5"), Ok(Some(-5.0)));
        assert_eq!(parse(""), Ok(None));
    }

    #[test]
    fn simple_sums_are_added_up() {
        assert_eq!(parse("2*600+2*400"), Ok(Some(2000.0)));
        assert_eq!(parse("2 × 600 + 2 × 400"), Ok(Some(2000.0)));
        assert_eq!(parse("(1,2+1,4)/2"), Ok(Some(1.3)));
        assert_eq!(parse("0.1+0.2"), Ok(Some(0.3)));
        assert_eq!(parse("2*-3"), Ok(Some(-6.0)));
    }

    #[test]
    fn what_is_not_a_finite_number_is_refused_in_words() {
        for text in [
            "NaN", "inf", "1e5", "abc", "2*", "*2", "1.2.3", "1,234.5", "2 3", "1/0", "0/0", "()",
            "(2", "2)", ".", "--", "sin(1)", "2**3",
        ] {
            let refused = parse(text).unwrap_err();
            assert!(!refused.is_empty(), "{text}");
        }
        assert!(parse(&"1+".repeat(40)).unwrap_err().contains("64"));
        assert!(parse("12 m").unwrap_err().contains("\u{201c}m\u{201d}"));
    }

    #[test]
    fn a_direction_is_a_compass_point_or_degrees() {
        assert_eq!(parse_direction(" nw "), Ok(Some(315.0)));
        assert_eq!(parse_direction("North-East"), Ok(Some(45.0)));
        assert_eq!(parse_direction("292,5°"), Ok(Some(292.5)));
        assert_eq!(parse_direction("270-45"), Ok(Some(225.0)));
        assert_eq!(parse_direction(""), Ok(None));
        for text in ["NN", "left", "1e2"] {
            let refused = parse_direction(text).unwrap_err();
            assert!(
                refused.contains("compass") && refused.contains(text),
                "{refused}"
            );
        }
        // Only a direction may be a compass point.
        assert!(parse("NW").is_err());
    }

    #[test]
    fn what_is_written_reads_back() {
        for value in [0.0, 2.5, 600.0, 0.1, 1e-7, -12.25, 123_456.789] {
            assert_eq!(parse(&format(Some(value))), Ok(Some(value)));
        }
        assert_eq!(format(None), "");
    }
}
