//! Spellings: what is accepted is what was meant, and everything else is refused whole.

use super::{LONGEST, Wanted, number};
use proptest::prelude::*;

fn mm(text: &str) -> Result<Option<f64>, String> {
    number(text, Wanted::stored("mm"))
}

fn plain(text: &str) -> Result<Option<f64>, String> {
    number(text, Wanted::stored(""))
}

/// The inch is 25.4 mm and the foot 304.8 mm exactly: NIST SP 811, appendix B.6 \[S\].
#[test]
fn a_length_takes_the_units_of_tapes_and_calipers() {
    for (text, meant) in [
        ("450", 450.0),
        ("30 cm", 300.0),
        ("30cm", 300.0),
        ("1.2 m", 1200.0),
        ("1,2 m", 1200.0),
        ("2 ft", 609.6),
        ("2'", 609.6),
        ("3/8 in", 9.525),
        ("3/8\"", 9.525),
        ("⅜ in", 9.525),
        ("1 1/2 in", 38.1),
        ("1½ in", 38.1),
        ("1' 6\"", 457.2),
        ("1'6\"", 457.2),
        ("1' 6''", 457.2),
        ("1\u{2032} 6\u{2033}", 457.2),
        ("1\u{2019} 6\u{201d}", 457.2),
        ("1'6", 457.2),
        ("1 ft 6 in", 457.2),
        ("1ft6in", 457.2),
        ("2' 3 1/2\"", 698.5),
        ("-1' 6\"", -457.2),
        ("1 m 20 cm", 1200.0),
        ("2*60 cm + 2*40 cm", 2000.0),
        ("2*(2 ft) + 1 in", 1244.6),
        ("60 cm / 2", 300.0),
        ("30\u{a0}MM", 30.0),
        ("0,234 m", 234.0),
    ] {
        assert_eq!(mm(text), Ok(Some(meant)), "{text}");
    }
}

#[test]
fn other_measures_take_their_units_too() {
    // NIST SP 811, appendix B.8 [S], to the digits printed there.
    for (text, unit, meant) in [
        ("1 in²", "mm²", 645.16),
        ("2 cm2", "mm²", 200.0),
        ("1 sq ft", "m²", 0.092_903_04),
        ("1 cfm", "m³/h", 1.699_010_8),
        ("10 L/s", "m³/h", 36.0),
        ("68 °F", "°C", 20.0),
        ("5F", "°C", -15.0),
        ("(68+50)/2 °F", "°C", 15.0),
        ("9 °F", "K", 5.0),
        ("5 °C", "K", 5.0),
        ("1 lb", "kg", 0.453_592_37),
        ("1.5 kW", "W", 1500.0),
        ("1 kW", "MJ/h", 3.6),
        ("10 mph", "m/s", 4.4704),
        ("36 km/h", "m/s", 10.0),
        ("1 gal", "L", 3.785_411_784),
        ("50 %", "%", 50.0),
        ("2 hours", "min", 120.0),
        ("0.30 /kWh", "/kWh", 0.3),
    ] {
        let read = number(text, Wanted::stored(unit)).unwrap().unwrap();
        assert!((read / meant - 1.0).abs() < 1e-7, "{text}: {read}");
    }
}

#[test]
fn a_number_without_a_unit_is_of_the_unit_shown() {
    let inches = Wanted::stored("mm").shown("in");
    assert_eq!(number("2", inches), Ok(Some(50.8)));
    assert_eq!(number("3/8", inches), Ok(Some(9.525)));
    assert_eq!(number("2 mm", inches), Ok(Some(2.0)));
    let fahrenheit = Wanted::stored("°C").shown("°F");
    assert_eq!(number("68", fahrenheit), Ok(Some(20.0)));
    let difference = Wanted::stored("K").shown("°F");
    assert_eq!(number("9", difference), Ok(Some(5.0)));
}

#[test]
fn signs_between_thousands_are_understood_or_all_is_refused() {
    for space in [" ", "\u{a0}", "\u{202f}", "\u{2009}"] {
        assert_eq!(mm(&format!("1{space}000")), Ok(Some(1000.0)));
        assert_eq!(mm(&format!("12{space}345,5 mm")), Ok(Some(12_345.5)));
        assert!(mm(&format!("1{space}00")).is_err());
        assert!(mm(&format!("1000{space}000")).is_err());
    }
    assert_eq!(mm("1.234,5"), Ok(Some(1234.5)));
    assert_eq!(mm("1,234.5"), Ok(Some(1234.5)));
    assert_eq!(mm("1'000'000"), Ok(Some(1e6)));
    assert_eq!(mm("1.000.000"), Ok(Some(1e6)));
    assert_eq!(plain("1'500"), Ok(Some(1500.0)));
    assert_eq!(plain("1\u{2019}500,5"), Ok(Some(1500.5)));
    for jumbled in [
        "1.2.3",
        "1,2,3",
        "1.23,456.7",
        "1 234 5",
        "1'000 000",
        "12,34.5",
    ] {
        assert!(mm(jumbled).is_err(), "{jumbled}");
    }
}

#[test]
fn what_can_be_read_in_two_ways_is_refused_with_both() {
    for (text, one, other) in [
        ("1,234", "1.234", "1234"),
        ("12,500 mm", "12.500", "12500"),
        ("1'500", "1500", "1 feet 500 inches"),
        ("1\u{2019}500.5", "1500.5", "1 feet 500.5 inches"),
        ("1 125/128 in", "1125 divided", "a fraction"),
        ("2'-6\"", "both together", "one less the other"),
        ("1·5", "a decimal point", "times"),
    ] {
        let refused = mm(text).unwrap_err();
        assert!(
            refused.contains(one) && refused.contains(other),
            "{refused}"
        );
    }
}

#[test]
fn what_is_not_understood_refuses_all_of_the_text() {
    for text in [
        "30 cn",
        "30 cm2",
        "1 m 20",
        "2' 14",
        "3 in 2 ft",
        "30 cm + 5",
        "30 cm * 2 m",
        "2 / 3 cm cm",
        "20 °C",
        "1e5",
        "NaN",
        "inf",
        "abc",
        "2*",
        "*2",
        "2 3",
        "1/0",
        "0/0",
        "()",
        "(2",
        "2)",
        ".",
        ",",
        "--",
        "sin(1)",
        "2**3",
        "3*2' 6\"",
        "1½½",
        "1 3/2 in",
        "١٢",
    ] {
        let refused = mm(text).unwrap_err();
        assert!(!refused.is_empty(), "{text}");
    }
    assert!(mm(&"1+".repeat(40)).unwrap_err().contains("64"));
    assert!(mm("30 cn").unwrap_err().contains("\u{201c}cn\u{201d}"));
    assert!(mm("30 cn").unwrap_err().contains("mm, cm, m, in, ft"));
    let temperature = number("20 °C + 5 °C", Wanted::stored("°C"));
    assert!(temperature.unwrap_err().contains("once"));
}

/// A whole part in groups of three, as people write it.
fn grouped(whole: u32, sign: &str) -> String {
    let digits = whole.to_string();
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push_str(sign);
        }
        out.push(digit);
    }
    out
}

proptest! {
    /// Every way of writing a number is read as that number, or refused.
    #[test]
    fn a_spelling_is_read_as_what_it_means_or_refused(
        whole in 0u32..10_000_000,
        cents in proptest::option::of(0u32..1000),
        apart in proptest::sample::select(vec!["", " ", "\u{a0}", "\u{202f}", "\u{2009}", "'", "\u{2019}", ".", ","]),
        decimal in proptest::sample::select(vec![".", ","]),
        unit in proptest::sample::select(vec![("", 1.0), (" mm", 1.0), ("cm", 10.0), ("\u{a0}m", 1000.0), (" in", 25.4)]),
    ) {
        // Nobody writes the same sign for both.
        prop_assume!(cents.is_none() || apart != decimal);
        let fraction = cents.map_or(String::new(), |cents| format!("{decimal}{cents:03}"));
        let text = format!("{}{fraction}{}", grouped(whole, apart), unit.0);
        let value = f64::from(whole) + cents.map_or(0.0, |cents| f64::from(cents) / 1000.0);
        match mm(&text) {
            Ok(read) => {
                let read = read.unwrap();
                let meant = value * unit.1;
                // One sign before three digits is a decimal point, which is how fields show it.
                let as_point = apart == "." && cents.is_none() && (1000..1_000_000).contains(&whole);
                let meant = if as_point { meant / 1000.0 } else { meant };
                prop_assert!((read - meant).abs() <= 1e-9 * meant.abs(), "{text}: {read}");
            }
            Err(why) => prop_assert!(!why.is_empty()),
        }
    }

    /// Where nothing is ambiguous, nothing is refused.
    #[test]
    fn plain_spellings_are_never_refused(
        whole in 0u32..1_000_000,
        apart in proptest::sample::select(vec!["", " ", "\u{a0}", "\u{202f}", "\u{2009}"]),
        decimal in proptest::sample::select(vec![".", ","]),
        tenths in 0u32..100,
    ) {
        let text = format!("{}{decimal}{tenths:02}", grouped(whole, apart));
        let meant = f64::from(whole) + f64::from(tenths) / 100.0;
        let read = mm(&text).unwrap().unwrap();
        prop_assert!((read - meant).abs() <= 1e-9 * meant.abs().max(1.0), "{text}: {read}");
    }

    /// Nothing is cut: in what is accepted, every digit counts.
    #[test]
    fn every_digit_of_an_accepted_text_counts(
        text in "[1-9][0-9 .,'\u{2019}\u{a0}\u{2009}\u{202f}\u{2032}\"]{0,9}(mm|cm|m|in|ft|'|\"| mm)?",
    ) {
        let Ok(Some(read)) = mm(&text) else { return Ok(()) };
        for (at, sign) in text.char_indices().filter(|(_, sign)| sign.is_ascii_digit()) {
            let other = if sign == '9' { "8" } else { "9" };
            let mut changed = text.clone();
            changed.replace_range(at..=at, other);
            prop_assert!(mm(&changed) != Ok(Some(read)), "{text:?} and {changed:?} are both {read}");
        }
    }

    /// Whatever is typed, reading it neither fails hard nor gives what is no finite number.
    #[test]
    fn anything_typed_is_read_or_refused(text in "\\PC{0,80}") {
        for unit in ["", "mm", "°C", "K", "W/(m² K)", "/kg"] {
            if let Ok(Some(read)) = number(&text, Wanted::stored(unit)) {
                prop_assert!(read.is_finite() && text.chars().count() <= LONGEST);
            }
        }
    }
}
