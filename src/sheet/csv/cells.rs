//! What stands in a cell of a table.

use std::fmt::Display;

/// Writes the lines of a table.
pub(super) type Writer = csv::Writer<Vec<u8>>;

/// A number, or an empty cell.
pub(super) fn number(value: Option<impl Display>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

/// An amount of money to the cent, or an empty cell.
pub(super) fn money(value: Option<f64>) -> String {
    number(value.map(|value| (value * 100.0).round() / 100.0))
}

/// Yes or no, where it is known.
pub(super) fn flag(value: Option<bool>) -> String {
    value.map_or_else(String::new, |value| {
        if value { "yes" } else { "no" }.to_owned()
    })
}

/// Text that no spreadsheet runs as a formula: one that begins like a formula, also behind blanks
/// or a control character, gets an apostrophe in front. Numbers never come this way.
pub(super) fn harmless(text: &str) -> String {
    let begins = text
        .trim_start_matches(|c: char| c.is_whitespace() || c.is_control())
        .starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']);
    let control = text.starts_with(|c: char| c.is_control());
    if begins || control {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_has_cents_and_nothing_beyond() {
        assert_eq!(money(Some(0.1 + 0.2)), "0.3");
        assert_eq!(money(Some(22.666_666_666_7)), "22.67");
        assert_eq!(money(Some(15.0)), "15");
        assert_eq!(money(None), "");
    }

    #[test]
    fn cells_that_look_like_formulas_are_made_harmless() {
        for (text, cell) in [
            ("=1+1", "'=1+1"),
            ("+49 30", "'+49 30"),
            ("-5 % damp", "'-5 % damp"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("\t=1", "'\t=1"),
            ("\r\n=1", "'\r\n=1"),
            (" =1", "' =1"),
            ("＝1", "'＝1"),
            ("door = old", "door = old"),
            ("", ""),
        ] {
            assert_eq!(harmless(text), cell);
        }
    }
}
