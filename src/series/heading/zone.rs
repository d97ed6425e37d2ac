//! A time zone that stands in the heading of times.

/// Names of zones that are written as they are here, in capital letters.
const NAMES: [&str; 16] = [
    "UTC", "GMT", "CET", "CEST", "MEZ", "MESZ", "BST", "WET", "EET", "EST", "EDT", "CST", "CDT",
    "MST", "PST", "PDT",
];

/// The zone that a heading of times names, as it is written: `UTC`, `GMT+01:00`, `+01:00`.
pub(in crate::series) fn zone(heading: &str) -> Option<String> {
    heading
        .split(|sign: char| {
            sign.is_whitespace() || matches!(sign, '(' | ')' | '[' | ']' | ',' | ';' | '_')
        })
        .find(|word| {
            let name: String = word.chars().take_while(char::is_ascii_uppercase).collect();
            let behind = word.get(name.len()..).unwrap_or_default();
            let is_named = NAMES.contains(&name.as_str());
            (is_named && behind.is_empty())
                || ((is_named || name.is_empty()) && is_offset(behind, is_named))
        })
        .map(str::to_owned)
}

/// `+01:00`, `-0500`; behind a name `+1` too.
fn is_offset(text: &str, is_behind_a_name: bool) -> bool {
    let Some(digits) = text.strip_prefix(['+', '-', '\u{2212}']) else {
        return false;
    };
    let count = digits.bytes().filter(u8::is_ascii_digit).count();
    digits
        .bytes()
        .all(|byte| byte.is_ascii_digit() || byte == b':')
        && (count == 4 || (is_behind_a_name && (1..=2).contains(&count)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_zone_in_the_heading_of_times_is_found() {
        for (heading, zone_there) in [
            ("Date Time, GMT+01:00", Some("GMT+01:00")),
            ("Time (UTC)", Some("UTC")),
            ("time_utc+1", None),
            ("Time +0100", Some("+0100")),
            ("Timestamp", None),
            ("Date 24-12", None),
        ] {
            assert_eq!(zone(heading).as_deref(), zone_there, "{heading}");
        }
    }
}
