//! What a method did, in one sentence.

use crate::assess::measured::trial::{Change, Effect, Method};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, counted, listed};
use crate::physics::measurement::Limits;

/// What is said where the limits of a change hold zero.
pub(super) const NO_EFFECT: &str = "no effect on humidity that the data can show";

/// The verdict of a method.
#[must_use]
pub fn verdict(method: &Method) -> String {
    let name = capital(&method.words);
    match &method.effect {
        Ok(effect) => format!("{name}: {}{}", told(effect), left_out(method)),
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

/// The periods that do not count, those with one reason together.
fn left_out(method: &Method) -> String {
    let mut by_reason: Vec<(&str, Vec<String>)> = Vec::new();
    for (id, unknown) in &method.left_out {
        let reason = unknown.reason.as_str();
        match by_reason.iter_mut().find(|(other, _)| *other == reason) {
            Some((_, ids)) => ids.push(id.to_string()),
            None => by_reason.push((reason, vec![id.to_string()])),
        }
    }
    let each = by_reason.into_iter().map(|(reason, ids)| {
        let (periods, are) = match ids.len() {
            1 => ("Period", "is"),
            _ => ("Periods", "are"),
        };
        format!(" {periods} {} {are} left out: {reason}.", listed(ids))
    });
    each.collect()
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
            "{NO_EFFECT}: at the same outside the change {} ({basis}).{}",
            lies(limits),
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
    let word = if change > 0.0 { "damper" } else { "drier" };
    match whole(change).as_str() {
        "0" => format!("{HALF_A_POINT} {word}"),
        "1" => format!("1 point {word}"),
        number => format!("{number} points {word}"),
    }
}

/// What is said of a change that rounds to none.
const HALF_A_POINT: &str = "less than half a point";

/// A change in whole points, without its sign.
fn whole(change: f64) -> String {
    Kind::RelativeHumidity.number(change.abs())
}

/// Where a change lies whose limits hold zero.
fn lies(limits: Limits) -> String {
    match [limits.low, limits.high].map(|end| whole(end) == "0") {
        [true, true] => format!("is {HALF_A_POINT} either way"),
        _ => format!(
            "lies between {} and {}",
            points(limits.low),
            points(limits.high)
        ),
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
