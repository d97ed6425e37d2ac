//! Times and differences in words.

use super::offer::Difference;
use std::time::SystemTime;

/// How long ago something was: *12 minutes ago*. The clock of the machine may have been set in
/// between; a time to come is told as such.
#[must_use]
pub fn ago(then: SystemTime, now: SystemTime) -> String {
    let Ok(gone) = now.duration_since(then) else {
        return "at a time ahead of this machine's clock".to_owned();
    };
    let minutes = gone.as_secs() / 60;
    match (minutes, minutes / 60, minutes / 1440) {
        (0, _, _) => "less than a minute ago".to_owned(),
        (minutes, 0, _) => format!("{} ago", count(minutes, "minute")),
        (_, hours, 0) => format!("{} ago", count(hours, "hour")),
        (_, _, days) => format!("{} ago", count(days, "day")),
    }
}

/// A number with its word: *1 gap*, *3 gaps*.
#[must_use]
pub fn count(number: u64, word: &str) -> String {
    match number {
        1 => format!("1 {word}"),
        _ => format!("{number} {word}s"),
    }
}

/// What rescued work has over the file it belongs to.
#[must_use]
pub fn difference(difference: &Difference) -> String {
    match difference {
        Difference::NeverSaved => "It was never saved to a file.".to_owned(),
        Difference::FileMissing => "Its file no longer exists.".to_owned(),
        Difference::FileUnreadable => "Its file cannot be read.".to_owned(),
        Difference::Gaps {
            more,
            fewer,
            changed,
            elsewhere,
            file_changed,
        } => {
            let gaps = |number: usize| count(number as u64, "gap");
            let mut parts = Vec::new();
            if *more > 0 {
                parts.push(format!("{} more than", gaps(*more)));
            }
            if *fewer > 0 {
                parts.push(format!("{} fewer than", gaps(*fewer)));
            }
            let first = match (parts.is_empty(), *changed) {
                (true, 0) if *elsewhere => {
                    "The same gaps as the saved file; something else has changed.".to_owned()
                }
                (true, 0) => "The same as the saved file.".to_owned(),
                (true, changed) => {
                    format!(
                        "The same number of gaps as the saved file, {} changed.",
                        gaps(changed)
                    )
                }
                (false, 0) => format!("{} the saved file.", parts.join(", ")),
                (false, changed) => {
                    format!(
                        "{} the saved file, {} changed.",
                        parts.join(", "),
                        gaps(changed)
                    )
                }
            };
            match file_changed {
                true => format!("{first} The saved file has changed since."),
                false => first,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::{Duration, UNIX_EPOCH};

    #[test]
    fn times_are_told_in_the_largest_whole_unit() {
        let now = UNIX_EPOCH + Duration::from_secs(10_000_000);
        for (seconds, words) in [
            (0, "less than a minute ago"),
            (59, "less than a minute ago"),
            (60, "1 minute ago"),
            (3599, "59 minutes ago"),
            (3600, "1 hour ago"),
            (86_399, "23 hours ago"),
            (86_400, "1 day ago"),
            (1_000_000, "11 days ago"),
        ] {
            assert_eq!(ago(now - Duration::from_secs(seconds), now), words);
        }
        assert!(ago(now + Duration::from_secs(1), now).contains("clock"));
    }

    #[test]
    fn differences_read_as_sentences() {
        let gaps = |more, fewer, changed, elsewhere, file_changed| {
            difference(&Difference::Gaps {
                more,
                fewer,
                changed,
                elsewhere,
                file_changed,
            })
        };
        for (told, words) in [
            (
                gaps(3, 0, 0, true, false),
                "3 gaps more than the saved file.",
            ),
            (
                gaps(0, 1, 0, false, false),
                "1 gap fewer than the saved file.",
            ),
            (
                gaps(2, 1, 1, false, false),
                "2 gaps more than, 1 gap fewer than the saved file, 1 gap changed.",
            ),
            (
                gaps(0, 0, 2, false, true),
                "The same number of gaps as the saved file, 2 gaps changed. The saved file has changed since.",
            ),
            (
                gaps(0, 0, 0, true, false),
                "The same gaps as the saved file; something else has changed.",
            ),
            (gaps(0, 0, 0, false, false), "The same as the saved file."),
        ] {
            assert_eq!(told, words);
        }
    }
}
