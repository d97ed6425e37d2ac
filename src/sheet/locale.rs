//! How the system writes dates.

use crate::survey::date::DateWay;

/// The settings that say it, the first that is set decides.
const SETTINGS: [&str; 3] = ["LC_ALL", "LC_TIME", "LANG"];

/// The way of the system's settings.
#[must_use]
pub fn dates_of_the_system() -> DateWay {
    let mut set = SETTINGS
        .iter()
        .filter_map(|name| std::env::var(name).ok())
        .filter(|value| !value.is_empty());
    set.next()
        .map_or(DateWay::YearMonthDay, |locale| DateWay::of_locale(&locale))
}
