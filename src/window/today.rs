//! Today's date.

use jiff::Timestamp;
use jiff::tz::TimeZone;

/// Today where the machine stands, as `2026-01-31`.
pub(super) fn today() -> String {
    let now = TimeZone::system().to_datetime(Timestamp::now());
    now.date().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::date;

    #[test]
    fn today_is_a_date() {
        let today = today();
        assert!(date::parse(&today).is_some(), "{today}");
        assert!(today.as_str() > "2024-01-01");
    }
}
