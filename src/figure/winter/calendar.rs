//! The days of a winter, a month to a row: how damp each is inside, and on which it freezes there.

use super::Damp;
use crate::assess::quantity::Kind;
use crate::assess::winter::{Season, Throughout};
use crate::climate::{Day, MonthDay};
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::physics::counts::count;

/// Room for the month's name, mm.
const NAME: f64 = 11.0;
/// Height of a month's row, and of a day in it, mm.
const ROW: f64 = 8.2;
const DAY: f64 = 7.4;
/// Height of a day's strip of dampness, mm.
const STRIP: f64 = 3.0;
/// Height of the key with the numbers of the days, mm.
const HEAD: f64 = 12.5;
/// Days of the longest month.
const DAYS: f64 = 31.0;
/// Height of letters, mm.
const LETTER: f64 = 2.3;

/// One day inside.
struct Inside {
    day: Day,
    /// Mean humidity, 0 to 1.
    rh: f64,
    /// It freezes in some hour.
    freezes: bool,
}

/// Draws the days of one option's season `width` mm wide. Each has its mean humidity in figures and
/// as a pattern, and a heavy frame where the inside falls below 0 °C. Empty where the option has no
/// season.
#[must_use]
pub fn calendar(run: &Throughout, option: usize, width: f64) -> Scene {
    let Some((option, Ok(season))) = run.option(option) else {
        return Scene::new(width, 1.0);
    };
    let months = months(run, season);
    let mut scene = Scene::new(width, HEAD + ROW * count(months.len()));
    let wide = (width - NAME) / DAYS;
    key(&mut scene);
    for day in 1..=31u8 {
        let at = Point::new(NAME + (f64::from(day) - 0.5) * wide, HEAD - 1.8);
        scene.text(at, day.to_string(), LETTER, Role::Faint, Anchor::Middle);
    }
    let mut told = format!("Days of the winter with {}", option.name);
    let mut top = HEAD;
    for month in &months {
        let Some(first) = month.first() else { continue };
        let name = MonthDay::month_name(first.day.month);
        let short: String = name.chars().take(3).collect();
        let at = Point::new(0.0, top + DAY / 2.0);
        scene.text(at, short, LETTER, Role::Ink, Anchor::Left);
        for inside in month {
            let left = NAME + (f64::from(inside.day.day) - 1.0) * wide;
            cell(&mut scene, inside, (left, top), wide);
        }
        let wet = month.iter().filter(|day| Damp::of(day.rh) == Damp::Wet);
        let frost = month.iter().filter(|day| day.freezes);
        told.push_str(&format!(
            "; {name}: {} of {} days above 80 %, {} with frost inside",
            wet.count(),
            month.len(),
            frost.count()
        ));
        top += ROW;
    }
    scene.description = told;
    scene
}

fn key(scene: &mut Scene) {
    let mut left = 0.0;
    for damp in Damp::ALL {
        let (from, to) = (Point::new(left, 1.0), Point::new(left + 5.0, 4.0));
        damp.fill(scene, (from, to));
        let at = Point::new(left + 6.2, 2.5);
        scene.text(at, damp.words(), LETTER, Role::Ink, Anchor::Left);
        left += 24.0;
    }
    let (from, to) = (Point::new(left, 1.0), Point::new(left + 5.0, 4.0));
    scene.add(Shape::rectangle((from, to), None, frame(true)));
    let at = Point::new(left + 6.2, 2.5);
    scene.text(
        at,
        "heavy frame: frost inside",
        LETTER,
        Role::Ink,
        Anchor::Left,
    );
    let at = Point::new(0.0, 7.0);
    let words = "Figures: mean relative humidity inside of the day, %";
    scene.text(at, words, LETTER, Role::Faint, Anchor::Left);
}

fn frame(freezes: bool) -> Stroke {
    if freezes {
        Stroke::solid(Role::Ink, 0.7)
    } else {
        Stroke::solid(Role::Faint, 0.1)
    }
}

fn cell(scene: &mut Scene, inside: &Inside, (left, top): (f64, f64), wide: f64) {
    let right = left + wide - 0.5;
    let strip = (
        Point::new(left, top + DAY - STRIP),
        Point::new(right, top + DAY),
    );
    Damp::of(inside.rh).fill(scene, strip);
    let whole = (Point::new(left, top), Point::new(right, top + DAY));
    scene.add(Shape::rectangle(whole, None, frame(inside.freezes)));
    let at = Point::new(f64::midpoint(left, right), top + (DAY - STRIP) / 2.0);
    let figure = Kind::WholePercent.number(inside.rh);
    scene.text(at, figure, LETTER, Role::Ink, Anchor::Middle);
}

/// The days of the season by month.
fn months(run: &Throughout, season: &Season) -> Vec<Vec<Inside>> {
    let mut months: Vec<Vec<Inside>> = Vec::new();
    let mut hours = run.hours().iter().zip(&season.hours).peekable();
    while let Some((hour, _)) = hours.peek() {
        let day = hour.day;
        let (mut sum, mut there, mut freezes) = (0.0, 0usize, false);
        while let Some((_, inside)) = hours.next_if(|(hour, _)| hour.day == day) {
            sum += inside.rh;
            there += 1;
            freezes |= inside.t_c < 0.0;
        }
        let inside = Inside {
            day,
            rh: sum / count(there),
            freezes,
        };
        match months.last_mut() {
            Some(month) if month.last().is_some_and(|last| last.day.month == day.month) => {
                month.push(inside);
            }
            _ => months.push(vec![inside]),
        }
    }
    months
}
