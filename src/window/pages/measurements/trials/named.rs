//! What a logger is called on the page.

use crate::survey::LoggerSeries;

/// What a logger is called: its name, its sensor, the file it came from, or its number.
pub(super) fn called(series: &LoggerSeries) -> String {
    let named = series.called().map(str::to_owned);
    named.unwrap_or_else(|| format!("Logger {}", series.id))
}
