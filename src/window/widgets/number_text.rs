//! Reading what a person types for a direction, and writing a number back.

use crate::assess::words::point_degrees;
use crate::survey::typed::{Wanted, number};

/// Reads a direction: a point of the compass, or degrees clockwise from north, as
/// [`number`] reads them.
///
/// # Errors
/// A plain sentence that says why the text is no direction.
pub fn parse_direction(text: &str) -> Result<Option<f64>, String> {
    let text = text.trim();
    if let Some(degrees) = point_degrees(text) {
        return Ok(Some(degrees));
    }
    let degrees = text.strip_suffix('°').unwrap_or(text);
    if degrees.chars().any(char::is_alphabetic) {
        return Err(format!(
            "\u{201c}{text}\u{201d} is no direction: write a point of the compass such as N, NE or \
             NNE, or degrees clockwise from north"
        ));
    }
    number(degrees, Wanted::stored("°"))
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
        assert!(number("NW", Wanted::stored("°")).is_err());
    }

    #[test]
    fn what_is_written_reads_back() {
        for value in [0.0, 2.5, 600.0, 0.1, 1e-7, -12.25, 123_456.789] {
            assert_eq!(
                number(&format(Some(value)), Wanted::stored("mm")),
                Ok(Some(value))
            );
        }
        assert_eq!(format(None), "");
    }
}
