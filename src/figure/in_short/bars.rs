//! Options of drying and heating, a bar each: for how much of the season it holds the target, what it
//! costs to buy, and to run.

use crate::assess::drying::Standing;
use crate::figure::options::role;
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::physics::counts::count;

/// One option.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// Its name.
    pub name: String,
    /// Share of the season over which it holds the target, 0 to 1, where that is known.
    pub share: Option<f64>,
    /// How well it does.
    pub standing: Standing,
    /// The same in words.
    pub held: String,
    /// What it costs to buy, in words.
    pub to_buy: String,
    /// What a month costs.
    pub a_month: String,
    /// What a winter costs.
    pub a_winter: String,
}

/// What stands above the amounts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Heads<'a> {
    /// What they are in.
    pub currency: &'a str,
    /// What the last of them are for: a winter, or the days that were run.
    pub season: &'a str,
}

/// Height of an option's row, mm.
const ROW: f64 = 6.4;
/// Height of the head, mm.
const HEAD: f64 = 6.0;
/// Height of letters, mm.
const LETTER: f64 = 2.6;
/// Height of the letters of the head, mm.
const SMALL: f64 = 2.3;
/// Half the height of a bar, mm.
const HALF: f64 = 1.9;
/// Shares of the width: where the bar begins, where it ends, and where the amounts end.
const BAR: (f64, f64) = (0.40, 0.59);
const AMOUNTS: [f64; 3] = [0.8, 0.9, 1.0];
/// Space between a bar and the words behind it, mm.
const BESIDE: f64 = 1.0;
/// Space between a name and its bar, mm.
const BEFORE: f64 = 4.0;

/// Draws the options `width` mm wide, in their order.
#[must_use]
pub fn bars(options: &[Bar], heads: &Heads<'_>, width: f64) -> Scene {
    let mut scene = Scene::new(width, HEAD + count(options.len()) * ROW);
    head(&mut scene, heads);
    let mut told = Vec::new();
    for (at, option) in options.iter().enumerate() {
        let y = HEAD + (count(at) + 0.5) * ROW;
        row(&mut scene, option, y);
        told.push(format!(
            "{}: held {}, to buy {}, a month {}, {} {}",
            option.name, option.held, option.to_buy, option.a_month, heads.season, option.a_winter
        ));
    }
    scene.description = format!(
        "For how much of the season each option holds the target, and what it costs{}; {}",
        in_currency(" in ", heads.currency),
        told.join("; ")
    );
    scene
}

fn in_currency(before: &str, currency: &str) -> String {
    match currency.trim() {
        "" => String::new(),
        currency => format!("{before}{currency}"),
    }
}

fn head(scene: &mut Scene, heads: &Heads<'_>) {
    let y = HEAD / 2.0;
    let at = Point::new(BAR.0 * scene.width, y);
    scene.text(at, "dry so long", SMALL, Role::Faint, Anchor::Left);
    // The currency once: three times side by side it would run into one.
    let first = match heads.currency {
        "" => "to buy".to_owned(),
        currency => format!("{currency} to buy"),
    };
    for (x, words) in AMOUNTS
        .into_iter()
        .zip([first.as_str(), "a month", heads.season])
    {
        let at = Point::new(x * scene.width, y);
        scene.text(at, words, SMALL, Role::Faint, Anchor::Right);
    }
}

fn row(scene: &mut Scene, option: &Bar, y: f64) {
    let (left, right) = (BAR.0 * scene.width, BAR.1 * scene.width);
    let colour = role(option.standing);
    let sign = Point::new(0.0, y);
    scene.text(sign, option.standing.sign(), LETTER, colour, Anchor::Left);
    let (at, looks) = (Point::new(5.0, y), (Role::Ink, Anchor::Left));
    scene.text_within(at, &option.name, LETTER, looks, left - 5.0 - BEFORE);
    let ends = |to: f64| (Point::new(left, y - HALF), Point::new(to, y + HALF));
    scene.add(Shape::rectangle(ends(right), Role::Ground, None));
    let filled = option
        .share
        .map_or(left, |share| left + share.clamp(0.0, 1.0) * (right - left));
    if filled > left {
        let outline = Stroke::solid(colour, 0.2);
        scene.add(Shape::rectangle(ends(filled), colour, outline));
    }
    // Behind the bar, so that no words stand on a colour.
    let at = Point::new(right + BESIDE, y);
    let percent = option.share.map_or_else(
        || "?".to_owned(),
        |share| crate::assess::quantity::Kind::WholePercent.text(share),
    );
    scene.text(at, percent, LETTER, Role::Ink, Anchor::Left);
    let amounts = [&option.to_buy, &option.a_month, &option.a_winter];
    for (x, words) in AMOUNTS.into_iter().zip(amounts) {
        let at = Point::new(x * scene.width, y);
        scene.text(at, words.as_str(), LETTER, Role::Ink, Anchor::Right);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEADS: Heads<'static> = Heads {
        currency: "EUR",
        season: "151 days",
    };

    /// The page at half as large again, and in a small window.
    #[test]
    fn the_heads_stand_clear_of_each_other_and_the_names_of_their_bars() {
        use crate::figure::letters::wide;
        for width in [120.0, 140.0, 200.0] {
            let option = Bar {
                name: "gas warm-water heater + small compressor, 10 L/day".to_owned(),
                share: Some(1.0),
                standing: Standing::Well,
                held: String::new(),
                to_buy: "170".to_owned(),
                a_month: "570".to_owned(),
                a_winter: "2800".to_owned(),
            };
            let scene = bars(&[option], &HEADS, width);
            let texts = scene.marks.iter().filter_map(|mark| match &mark.shape {
                Shape::Text {
                    at,
                    text,
                    anchor,
                    size,
                    ..
                } => {
                    let wide = wide(text, *size);
                    let from = if *anchor == Anchor::Left {
                        at.x
                    } else {
                        at.x - wide
                    };
                    Some((at.y, from, from + wide, text.clone()))
                }
                _ => None,
            });
            let texts: Vec<(f64, f64, f64, String)> = texts.collect();
            for (at, (y, _, to, words)) in texts.iter().enumerate() {
                for (other_y, from, _, other) in texts.iter().skip(at + 1) {
                    assert!(y < other_y || *from >= to + 0.8, "{width}: {words} {other}");
                }
            }
            let name = texts
                .iter()
                .find(|one| one.3.starts_with("gas"))
                .expect("its name");
            assert!(name.2 <= BAR.0 * width - 3.0, "{name:?}");
            // Where letters are set wider, as on the screen, they give way and not the bar.
            let room = scene.marks.iter().find_map(|mark| match &mark.shape {
                Shape::Text { text, room, .. } if text.starts_with("gas") => *room,
                _ => None,
            });
            assert!(room.is_some_and(|room| 5.0 + room <= BAR.0 * width - 3.0));
        }
    }

    /// The width of the text on A4, mm, and a machine beside the seals that go with it.
    #[test]
    fn what_is_bought_twice_stands_clear_of_the_bar() {
        let option = Bar {
            name: "electric oil radiator + compressor, 20 L".to_owned(),
            share: Some(1.0),
            standing: Standing::Well,
            held: "all season".to_owned(),
            to_buy: "1310.00 + 1463.62".to_owned(),
            a_month: "1070.31".to_owned(),
            a_winter: "13348.80".to_owned(),
        };
        let scene = bars(std::slice::from_ref(&option), &HEADS, 176.0);
        let wide = |text: &str| crate::figure::letters::wide(text, LETTER);
        let ends = |words: &str| {
            let found = scene.marks.iter().find_map(|mark| match &mark.shape {
                Shape::Text {
                    at, text, anchor, ..
                } if text == words => Some((at.x, *anchor)),
                _ => None,
            });
            let (x, anchor) = found.expect("the words");
            match anchor {
                Anchor::Left => (x, x + wide(words)),
                _ => (x - wide(words), x),
            }
        };
        let row = [
            option.name.as_str(),
            "100\u{a0}%",
            &option.to_buy,
            &option.a_month,
            &option.a_winter,
        ];
        for pair in row.windows(2) {
            let (first, second) = (ends(pair[0]), ends(pair[1]));
            assert!(first.1 < second.0, "{pair:?}: {first:?} {second:?}");
        }
    }
}
