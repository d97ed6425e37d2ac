//! The options of a winter below each other: for how much of it the inside is how damp, nights of
//! frost, mould, water, energy and money.

use super::Damp;
use crate::assess::Answer;
use crate::assess::quantity::{Kind, price};
use crate::assess::winter::{Season, Throughout};
use crate::assess::words::capital;
use crate::figure::scene::{Anchor, Point, Role, Scene};

/// Height of an option's row, mm.
const ROW: f64 = 9.4;
/// From the top of a row to the middle of its name, and to the top of its bar, mm.
const NAME: f64 = 2.0;
const BAR: f64 = 4.2;
/// Height of the bar, mm.
const BAR_HIGH: f64 = 3.4;
/// Height of the key with the heads of the columns, mm.
const HEAD: f64 = 15.5;
/// Height of letters, mm.
const LETTER: f64 = 2.6;
/// The columns at the right, each so wide, mm.
const COLUMNS: [(&str, f64); 6] = [
    ("above 80 %", 19.0),
    ("frost nights", 20.0),
    ("mould index", 21.0),
    ("water, L", 17.0),
    ("kWh", 14.0),
    ("cost", 26.0),
];
/// Least width of the bars, mm: below that the columns stand under each other's feet.
const BARS_LEAST: f64 = 30.0;

/// Draws the options `width` mm wide, one row each, in the comparison's order; money in this
/// currency.
#[must_use]
pub fn bands(run: &Throughout, currency: &str, width: f64) -> Scene {
    let rows = f64::from(u32::try_from(run.options().len()).unwrap_or(u32::MAX));
    let mut scene = Scene::new(width, HEAD + rows * ROW);
    let right: f64 = COLUMNS.iter().map(|(_, wide)| wide).sum();
    let bars = (width - right - 2.0).max(BARS_LEAST);
    key(&mut scene);
    let mut at = bars + 2.0;
    for (head, wide) in COLUMNS {
        at += wide;
        let place = Point::new(at, HEAD - 3.0);
        scene.text(place, head, LETTER, Role::Faint, Anchor::Right);
    }
    let mut told = String::from("Options through the winter");
    let mut top = HEAD;
    for (option, season) in run.options().iter().zip(run.seasons()) {
        let name = capital(&option.name);
        let at = Point::new(0.0, top + NAME);
        scene.text(at, name.as_str(), LETTER, Role::Ink, Anchor::Left);
        let cells = cells(season, currency);
        told.push_str(&format!("; {name}: {}", in_words(&cells)));
        if let Ok(season) = season {
            bar(&mut scene, season, (bars, top + BAR));
        }
        let mut right = bars + 2.0;
        for ((_, wide), cell) in COLUMNS.iter().zip(&cells) {
            right += wide;
            let at = Point::new(right, top + BAR + BAR_HIGH / 2.0);
            scene.text(at, cell.as_str(), LETTER, Role::Ink, Anchor::Right);
        }
        top += ROW;
    }
    scene.description = told;
    scene
}

fn key(scene: &mut Scene) {
    let head = Point::new(0.0, 2.0);
    let words = "Share of the hours by relative humidity inside:";
    scene.text(head, words, LETTER, Role::Faint, Anchor::Left);
    let mut left = 0.0;
    for damp in Damp::ALL {
        let (from, to) = (Point::new(left, 5.0), Point::new(left + 6.0, 8.0));
        damp.fill(scene, (from, to));
        let at = Point::new(left + 7.4, 6.5);
        scene.text(at, damp.words(), LETTER, Role::Ink, Anchor::Left);
        left += 27.0;
    }
}

/// The shares of a season side by side.
fn bar(scene: &mut Scene, season: &Season, (width, top): (f64, f64)) {
    let [fair, damp, wet] = season.humidity.share_above;
    let shares = [1.0 - fair, fair - damp, damp - wet, wet];
    let mut left = 0.0;
    for (damp, share) in Damp::ALL.into_iter().zip(shares) {
        let right = left + share * width;
        if share > 0.0 {
            let (from, to) = (Point::new(left, top), Point::new(right, top + BAR_HIGH));
            damp.fill(scene, (from, to));
        }
        left = right;
    }
}

/// What stands in the columns.
fn cells(season: &Answer<Season>, currency: &str) -> [String; 6] {
    let unknown = || "not known".to_owned();
    let Ok(season) = season else {
        return std::array::from_fn(|at| if at == 0 { unknown() } else { String::new() });
    };
    let cost = season.cost.as_ref();
    [
        Kind::WholePercent.text(season.humidity.share_above[2]),
        season.frost.nights.to_string(),
        season
            .worst_mould()
            .map_or_else(unknown, |index| Kind::MouldIndex.number(index)),
        Kind::Litres.number(season.removed_l),
        Kind::KilowattHours.number(season.machine_kwh + season.heater_kwh),
        cost.map_or_else(|_| unknown(), |cost| price(*cost, currency)),
    ]
}

fn in_words(cells: &[String; 6]) -> String {
    let pairs = COLUMNS.iter().zip(cells);
    let told = pairs.filter(|(_, cell)| !cell.is_empty());
    let told: Vec<String> = told
        .map(|((head, _), cell)| format!("{head} {cell}"))
        .collect();
    told.join(", ")
}
