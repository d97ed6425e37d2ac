//! Amounts below each other as bars, to be compared at a glance.

use super::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::physics::counts::count;

/// One amount.
#[derive(Clone, Debug, PartialEq)]
pub struct Amount {
    /// What it is of.
    pub name: String,
    /// How much; at least zero.
    pub value: f64,
    /// The same in words, with its unit.
    pub words: String,
    /// Colour of its bar.
    pub role: Role,
}

/// Height of a row, mm.
const ROW: f64 = 5.2;
/// Half the height of a bar, mm.
const HALF: f64 = 1.6;
/// Height of letters, mm.
const LETTER: f64 = 2.5;
/// Width of a letter on average, in heights of it.
const LETTER_WIDTH: f64 = 0.6;
/// Where bars begin, share of the width.
const BEGINS: f64 = 0.42;
/// Space between a bar and the words beside it, mm.
const BESIDE: f64 = 1.2;

/// Draws amounts `width` mm wide in their order, all to one scale from zero. `of` says what they are.
#[must_use]
pub fn ranked(amounts: &[Amount], of: &str, width: f64) -> Scene {
    let mut scene = Scene::new(width, count(amounts.len().max(1)) * ROW);
    let wide = |words: &str| count(words.chars().count()) * LETTER * LETTER_WIDTH;
    let words = amounts.iter().map(|one| wide(&one.words));
    let left = BEGINS * width;
    let room = (width - left - 2.0 * BESIDE - words.fold(0.0, f64::max)).max(0.1 * width);
    let most = amounts.iter().map(|one| one.value).fold(0.0, f64::max);
    let mut told = Vec::new();
    for (at, one) in amounts.iter().enumerate() {
        let y = (count(at) + 0.5) * ROW;
        let (at, looks) = (Point::new(0.0, y), (Role::Ink, Anchor::Left));
        scene.text_within(at, &one.name, LETTER, looks, left - BESIDE);
        let share = if most > 0.0 { one.value / most } else { 0.0 };
        let end = left + share.clamp(0.0, 1.0) * room;
        if end > left {
            let corners = (Point::new(left, y - HALF), Point::new(end, y + HALF));
            scene.add(Shape::rectangle(
                corners,
                one.role,
                Stroke::solid(one.role, 0.2),
            ));
        }
        let at = Point::new(end + BESIDE, y);
        scene.text(at, one.words.as_str(), LETTER, Role::Ink, Anchor::Left);
        told.push(format!("{}: {}", one.name, one.words));
    }
    let ends = (Point::new(left, 0.0), Point::new(left, scene.height));
    scene.add(Shape::line(
        vec![ends.0, ends.1],
        Stroke::solid(Role::Ink, 0.25),
    ));
    scene.description = format!("{of} as bars; {}", told.join("; "));
    scene
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Lengths by hand: 170 mm wide, bars from 71.4 mm; the longest words take 9 × 1.5 mm.
    #[test]
    fn bars_are_as_long_as_their_amounts_and_the_longest_leaves_room_for_its_words() {
        let amount = |name: &str, value: f64, words: &str| Amount {
            name: name.to_owned(),
            value,
            words: words.to_owned(),
            role: Role::Leak,
        };
        let long =
            "a name that is much too long to stand beside its own bar, whatever the letters are";
        let scene = ranked(
            &[
                amount(long, 40.0, "40.0 cm²*"),
                amount("half", 20.0, "20.0 cm²"),
                amount("none", 0.0, "0 cm²"),
            ],
            "Leaks",
            170.0,
        );
        let bars: Vec<f64> = scene
            .marks
            .iter()
            .filter_map(|mark| match &mark.shape {
                Shape::Polygon { points, .. } => {
                    let across = points.iter().map(|point| point.x);
                    let ends = across.clone().fold(f64::INFINITY, f64::min);
                    Some(across.fold(f64::NEG_INFINITY, f64::max) - ends)
                }
                _ => None,
            })
            .collect();
        let longest = 170.0 - 71.4 - 2.4 - 9.0 * 1.5;
        assert_eq!(bars.len(), 2, "nothing leaks has no bar");
        assert!((bars[0] - longest).abs() < 1e-9, "{bars:?}");
        assert!((bars[1] - longest / 2.0).abs() < 1e-9, "{bars:?}");
        let cut = scene.marks.iter().any(|mark| {
            matches!(&mark.shape, Shape::Text { text, .. } if text.ends_with('…') && long.starts_with(text.trim_end_matches('…')))
        });
        assert!(cut);
        assert!(scene.description.contains(long), "{}", scene.description);
    }
}
