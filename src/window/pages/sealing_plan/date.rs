//! Today's date.

use std::time::{SystemTime, UNIX_EPOCH};

const DAY_SECONDS: u64 = 86_400;

/// Today as `2026-01-31`, by universal time; empty where the machine has no clock to go by.
pub(super) fn today() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    let days = since.ok().map(|since| since.as_secs() / DAY_SECONDS);
    days.and_then(|days| u32::try_from(days).ok())
        .map_or_else(String::new, written)
}

/// The date so many days after the first of January 1970.
///
/// The year is taken to begin in March, so that the leap day ends it; then every five months have
/// 153 days, and every 400 years 146 097.
fn written(days: u32) -> String {
    // From the first of March of the year 0.
    let days = days + 719_468;
    let (era, day_of_era) = (days / 146_097, days % 146_097);
    let year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let from_march = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 {
        from_march + 3
    } else {
        from_march - 9
    };
    let year = year_of_era + era * 400 + u32::from(month <= 2);
    format!("{year:04}-{month:02}-{day:02}")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Days counted by GNU coreutils' `date -d DATE +%s` divided by 86 400 \[S\].
    #[test]
    fn days_since_1970_are_dates() {
        for (days, date) in [
            (0, "1970-01-01"),
            (59, "1970-03-01"),
            (11_016, "2000-02-29"),
            (11_017, "2000-03-01"),
            (20_484, "2026-01-31"),
            (47_540, "2100-02-28"),
            (47_541, "2100-03-01"),
        ] {
            assert_eq!(written(days), date);
        }
    }

    #[test]
    fn today_is_a_date() {
        let today = today();
        assert_eq!(today.len(), 10);
        assert!(today.as_str() > "2024-01-01" && today.as_str() < "2500");
    }
}
