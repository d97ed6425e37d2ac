//! Dates as a survey holds them.

/// Year, month and day of a calendar date written `YYYY-MM-DD`.
#[must_use]
pub fn parse(text: &str) -> Option<(u16, u8, u8)> {
    let text = text.trim();
    let mut parts = text.splitn(3, '-');
    let year: u16 = parts.next()?.parse().ok()?;
    let month: u8 = parts.next()?.parse().ok()?;
    let day: u8 = parts.next()?.parse().ok()?;
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    let days = match month {
        2 => 28 + u8::from(leap),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => return None,
    };
    // Written back it must be the same: no sign, no digit too few.
    let plain = text == format!("{year:04}-{month:02}-{day:02}");
    (plain && (1..=days).contains(&day)).then_some((year, month, day))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_days_of_the_calendar_are_dates() {
        assert_eq!(parse("2031-02-03"), Some((2031, 2, 3)));
        assert_eq!(parse(" 2028-02-29 "), Some((2028, 2, 29)));
        assert_eq!(parse("2000-02-29"), Some((2000, 2, 29)));
        for wrong in [
            "2031-02-29",
            "2100-02-29",
            "2031-13-01",
            "2031-00-10",
            "2031-04-31",
            "2031-2-3",
            "2031/02/03",
            "2031-02-+3",
            "2031-02-03 ?",
            "spring",
            "frühling 31",
            "",
            "99-1-1",
        ] {
            assert_eq!(parse(wrong), None, "{wrong}");
        }
    }
}
