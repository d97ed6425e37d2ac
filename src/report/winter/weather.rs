//! Which weather a winter had, and what of it is missing or assumed.

use crate::assess::quantity::Kind;
use crate::assess::winter::Weathered;
use crate::assess::words::{capital, counted};
use crate::climate::{Day, LONGEST_GAP_H};
use crate::report::blocks::{Block, Section};
use crate::survey::{MonthDay, TypicalWinter};

/// The weather in sentences.
pub(super) fn weather(weathered: &Weathered, typical: Option<TypicalWinter>) -> Section {
    let rh = |value: f64| Kind::RelativeHumidity.text(value);
    let humidity = &weathered.humidity;
    let mut section = Section::new("The winter hour by hour");
    section.paragraph(format!(
        "{}, {}: {} hours, mean {} and {} outside; a tenth of the hours is below {} and a tenth {} {}. \
         The outside air is below freezing for {} on {}.",
        if weathered.place.is_empty() {
            "Weather of a place without a name".to_owned()
        } else {
            format!("Weather: {}", weathered.place)
        },
        days(weathered),
        weathered.hours,
        Kind::Celsius.text(weathered.mean_c),
        rh(humidity.mean),
        rh(humidity.low),
        // None is above what is told as saturated.
        if rh(humidity.high) == rh(1.0) {
            "at"
        } else {
            "above"
        },
        rh(humidity.high),
        counted(weathered.frost.hours, "hour", "hours"),
        counted(weathered.frost.nights, "night", "nights"),
    ));
    if let Some(typical) = typical {
        section.paragraph(typical.description());
    }
    if weathered.not_known > 0 {
        section.paragraph(format!(
            "{} of the weather {} not known; they do not count.",
            counted(weathered.not_known, "hour", "hours"),
            if weathered.not_known == 1 {
                "is"
            } else {
                "are"
            },
        ));
    }
    if weathered.filled > 0 {
        section.paragraph(format!(
            "In {} of the winter the weather leaves something out: gaps of up to {LONGEST_GAP_H} hours are \
             filled in from the hours beside them.",
            counted(weathered.filled, "hour", "hours"),
        ));
    }
    section.blocks.extend(no_direction(weathered));
    if weathered.clock_assumed {
        section.paragraph(
            "The weather file does not say how its clock stands to the sun: it counts as the sun's [A], with \
             the sun highest at 12. Where that is an hour or two off, as in summer time, the sun comes so \
             much too early or too late, and what it warms is less sure.",
        );
    }
    if weathered.several_years {
        section.paragraph(
            "The months of the weather file are from several years, put together as a typical year is: no \
             winter was like this one as a whole, and a worse one than usual is not in it.",
        );
    }
    if weathered.one_year && !weathered.several_years {
        section.paragraph(
            "The year of the weather file begins with January: its last months stand before its first, so these \
             are the halves of two winters.",
        );
    }
    if weathered.winters > 1 {
        section.paragraph(format!(
            "The weather file holds {} winters; this is the first of them. Another one may be colder or \
             damper: to see it, begin a file with it.",
            weathered.winters
        ));
    }
    if weathered.any_heading {
        section.paragraph(
            "The direction that the front points to is not given: sun and wind are means over all.",
        );
    }
    section
}

/// From which day to which.
fn days(weathered: &Weathered) -> String {
    let (first, last) = weathered.days;
    let plain = |day: Day| format!("{} {}", day.day, MonthDay::month_name(day.month));
    if weathered.invented || weathered.several_years {
        return format!("{} to {}", plain(first), plain(last));
    }
    if first.year == last.year {
        return format!("{} to {} {}", plain(first), plain(last), last.year);
    }
    format!(
        "{} {} to {} {}",
        plain(first),
        first.year,
        plain(last),
        last.year
    )
}

/// What is said where the weather does not tell where the wind comes from, and that would count.
fn no_direction(weathered: &Weathered) -> Option<Block> {
    let without = weathered.without_wind_direction;
    if without == 0 || weathered.any_heading {
        return None;
    }
    let when = if without + weathered.not_known == weathered.hours {
        String::new()
    } else {
        format!("In {}, ", counted(without, "hour", "hours"))
    };
    Some(Block::Plain {
        sentences: vec![capital(&format!(
            "{when}the weather does not say where the wind comes from: the air that it drives through is \
             then a mean over all directions."
        ))],
    })
}
