//! What a logger is called on the page.

use crate::survey::LoggerSeries;

/// What a logger is called: its name, its sensor, the file it came from, or its number.
pub(super) fn called(series: &LoggerSeries) -> String {
    let names = [&series.name, &series.sensor, &series.original];
    let name = names.into_iter().map(|name| name.trim());
    let name = name.filter(|name| !name.is_empty()).map(str::to_owned);
    name.into_iter()
        .next()
        .unwrap_or_else(|| format!("Logger {}", series.id))
}
