//! Words of a file as a sentence shows them.

/// Most letters of a cell or a name that a sentence shows.
const MOST_SHOWN: usize = 40;

/// Words of a file in a sentence: in quotes, cut short, and nothing in them that steers a terminal or
/// turns the direction of the text around.
pub(super) fn shown(text: &str) -> String {
    let turns = |sign: char| {
        matches!(
            sign,
            '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}'
        )
    };
    let mut quoted = String::from("\u{201c}");
    for (at, sign) in text.chars().enumerate() {
        if at == MOST_SHOWN {
            quoted.push('\u{2026}');
            break;
        }
        if sign.is_control() || turns(sign) {
            quoted.extend(sign.escape_unicode());
        } else {
            quoted.push(sign);
        }
    }
    quoted.push('\u{201d}');
    quoted
}

/// Most names that a sentence shows.
const MOST_NAMES: usize = 8;

/// Names in a row, or that there are none.
pub(super) fn names(all: &[String]) -> String {
    let mut shown: Vec<String> = all
        .iter()
        .take(MOST_NAMES)
        .map(|name| shown(name))
        .collect();
    if all.len() > MOST_NAMES {
        shown.push(format!("{} more", all.len() - MOST_NAMES));
    }
    match (shown.pop(), shown.is_empty()) {
        (None, _) => String::from("no other"),
        (Some(only), true) => only,
        (Some(last), false) => format!("{} and {last}", shown.join(", ")),
    }
}
