//! What a method did, in one sentence.

use crate::assess::measured::trial::{Change, Effect, Method};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, counted};

/// What is said where the limits of a change hold zero.
pub(super) const NO_EFFECT: &str = "no effect on humidity that the data can show";

/// The verdict of a method.
#[must_use]
pub fn verdict(method: &Method) -> String {
    let name = capital(&method.words);
    match &method.effect {
        Ok(effect) => format!("{name}: {}", told(effect)),
        Err(unknown) => format!("{name}: what it did is not known: {}.", unknown.reason),
    }
}

/// The same in a few words, where there is no room for limits.
#[must_use]
pub fn brief(method: &Method) -> String {
    let name = &method.words;
    let Ok(effect) = &method.effect else {
        return format!("{name}: not known");
    };
    let days = counted(effect.fewest_days, "day", "days");
    let humidity = format!(
        "{} instead of {}",
        Kind::RelativeHumidity.text(effect.rh_with),
        Kind::RelativeHumidity.text(effect.rh_without)
    );
    match effect.rh.limits {
        None => format!("{name}, {days}: {humidity}, too few days to be sure"),
        Some(_) if effect.is_shown() => format!("{name}, {days}: {humidity}"),
        Some(_) => format!("{name}, {days}: {NO_EFFECT}"),
    }
}

fn told(effect: &Effect) -> String {
    let basis = basis(effect);
    let Some(limits) = effect.rh.limits else {
        return format!(
            "the air inside was {} at the same outside, {} instead of {}; with fewer than four days in a \
             period nobody can say how sure that is ({basis}).",
            points(effect.rh.value),
            Kind::RelativeHumidity.text(effect.rh_with),
            Kind::RelativeHumidity.text(effect.rh_without)
        );
    };
    if !effect.is_shown() {
        return format!(
            "{NO_EFFECT}: at the same outside the change lies between {} \
             and {} ({basis}).{}",
            points(limits.low),
            points(limits.high),
            warmth_alone(effect)
        );
    }
    format!(
        "the air inside was {} at the same outside ({}): {} instead of {} ({basis}).{}",
        points(effect.rh.value),
        between(&effect.rh),
        Kind::RelativeHumidity.text(effect.rh_with),
        Kind::RelativeHumidity.text(effect.rh_without),
        shares(effect)
    )
}

/// What it rests on.
fn basis(effect: &Effect) -> String {
    let days = counted(effect.fewest_days, "day", "days");
    match effect.pairs {
        1 => format!("one period of each, {days} or more"),
        pairs => format!("{pairs} pairs of periods, {days} or more each"),
    }
}

/// A change of humidity in points: `20 points drier`.
pub(super) fn points(change: f64) -> String {
    let kind = Kind::RelativeHumidity;
    let word = if change > 0.0 { "damper" } else { "drier" };
    match kind.number(change.abs()).as_str() {
        "1" => format!("1 point {word}"),
        "0" => "nothing".to_owned(),
        number => format!("{number} points {word}"),
    }
}

fn between(change: &Change) -> String {
    match change.limits {
        Some(limits) => format!("95 %: {} to {}", points(limits.low), points(limits.high)),
        None => String::new(),
    }
}

/// Shares of warmth and water where humidity fell.
fn shares(effect: &Effect) -> String {
    let Some(warmth) = effect.warmth_share else {
        return String::new();
    };
    let share = Kind::WholePercent;
    if warmth > 1.0 {
        let water = match effect.water.shows() {
            true => "the air held more water than without",
            false => "less water in the air than without is nothing that the data can show",
        };
        return format!(" Warmth goes along with all of that; {water}.");
    }
    if warmth < 0.0 {
        let warmth = match effect.warmth_k.shows() {
            true => "it was colder than without",
            false => "more warmth than without is nothing that the data can show",
        };
        return format!(" Less water in the air goes along with all of that; {warmth}.");
    }
    format!(
        " Warmth goes along with {} of that, less water in the air with {}.",
        share.text(warmth),
        share.text(1.0 - warmth)
    )
}

/// Warmth that shows although humidity does not.
fn warmth_alone(effect: &Effect) -> String {
    match effect.warmth_k.limits.filter(|limits| !limits.holds(0.0)) {
        Some(limits) => format!(
            " It was {} to {} {} than without.",
            Kind::Kelvin.number(limits.low.abs().min(limits.high.abs())),
            Kind::Kelvin.text(limits.low.abs().max(limits.high.abs())),
            if limits.value > 0.0 {
                "warmer"
            } else {
                "colder"
            }
        ),
        None => String::new(),
    }
}
