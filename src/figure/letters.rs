//! How wide words are in drawings, and what becomes of them where they have less room.

/// The first of the East Asian letters, each of which is as wide as it is high.
const EAST_ASIAN: u32 = 0x2e80;

/// How wide words are in the bundled font, mm, with letters of this height: by kinds of letters, each as
/// wide as the widest of its kind or nearly so.
#[must_use]
pub(crate) fn wide(words: &str, size: f64) -> f64 {
    let ems = words.chars().map(|letter| match letter {
        ' ' | '\u{a0}' | 'i' | 'I' | 'j' | 'l' | '.' | ',' | ':' | ';' | '!' | '|' | '\'' => 0.35,
        't' | 'f' | 'r' | '(' | ')' => 0.4,
        'm' | 'w' | 'M' | 'W' | 'O' | 'Q' => 0.92,
        'c' | 's' | 'z' => 0.5,
        'a' | 'e' | 'k' | 'v' | 'x' | 'y' => 0.55,
        'b'..='u' | '-' | '\u{2013}' => 0.6,
        '0'..='9' => 0.65,
        letter if u32::from(letter) < EAST_ASIAN => 0.7,
        _ => 1.0,
    });
    size * ems.sum::<f64>()
}

/// Words cut to a width, mm, with a sign that something is missing.
#[must_use]
fn shortened(words: &str, size: f64, width: f64) -> String {
    if wide(words, size) <= width {
        return words.to_owned();
    }
    let mut kept = words.to_owned();
    while kept.pop().is_some() && wide(&kept, size) + wide("…", size) > width {}
    format!("{}…", kept.trim_end())
}

/// The least part of their size that letters are made smaller to, before words are cut.
const LEAST_LETTERS: f64 = 0.8;

/// Words with the size of their letters so that they fit a width, mm: somewhat smaller, and only then
/// cut.
#[must_use]
pub(crate) fn fitted(words: &str, size: f64, width: f64) -> (String, f64) {
    let part = (width / wide(words, size)).clamp(LEAST_LETTERS, 1.0);
    let size = part * size;
    // A hair wider, for what rounding leaves.
    (shortened(words, size, width + 1e-6), size)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Advance widths of the bundled font, summed with fontTools: in letter heights.
    #[test]
    fn words_are_reckoned_as_wide_as_they_are_set_and_at_most_a_tenth_wider() {
        for (words, set) in [
            ("9 body-to-cab joint, hole at the foot, nearside", 22.225),
            ("electric frost guard + small compressor, 10 L/day", 23.925),
            ("27 bedroom rooflight, frame and forced ventilation", 24.875),
        ] {
            let reckoned = wide(words, 1.0);
            assert!((set..1.1 * set).contains(&reckoned), "{words}: {reckoned}");
        }
        assert_eq!(shortened("sill", 2.5, 40.0), "sill");
        let cut = shortened("habitation door, upright edges", 2.5, 20.0);
        assert!(cut.ends_with('…') && wide(&cut, 2.5) <= 20.0, "{cut}");
    }

    #[test]
    fn words_get_smaller_letters_before_they_are_cut() {
        assert_eq!(fitted("sill", 2.5, 40.0), ("sill".to_owned(), 2.5));
        let words = "gas warm-water heater + small compressor, 10 L/day";
        let room = 0.9 * wide(words, 2.6);
        let (all, size) = fitted(words, 2.6, room);
        assert_eq!(all, words);
        assert!(size < 2.6 && wide(&all, size) <= room + 1e-3, "{size}");
        let (cut, size) = fitted(words, 2.6, 0.5 * room);
        assert!(
            cut.ends_with('…') && (size - 0.8 * 2.6).abs() < 1e-9,
            "{cut}, {size}"
        );
    }
}
