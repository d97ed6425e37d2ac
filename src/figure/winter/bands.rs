//! The options of a winter below each other: for how much of it the inside is how damp, nights of
//! frost, mould, water, energy and money, and how far each may be off.

use super::Damp;
use crate::assess::Answer;
use crate::assess::quantity::{Kind, price_about};
use crate::assess::winter::{Band, Bands, Doubted, Figure, Season, Throughout};
use crate::assess::words::capital;
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};

/// Height of an option's row, mm; and what is more where the draws stand in it.
const ROW: f64 = 9.4;
const DRAWN: f64 = 3.4;
/// From the top of a row to the middle of its name, and to the top of its bar, mm.
const NAME: f64 = 2.0;
const BAR: f64 = 4.2;
/// Height of the bar, mm.
const BAR_HIGH: f64 = 3.4;
/// From the foot of the bar to the line of the draws, and half the height of its ends, mm.
const BELOW: f64 = 1.7;
const END: f64 = 0.8;
/// Height of the key with the heads of the columns, mm; and of the key to the draws.
const HEAD: f64 = 15.5;
const DRAWN_KEY: f64 = 4.5;
/// Height of letters, and of those that tell the draws, mm.
const LETTER: f64 = 2.6;
const SMALL: f64 = 2.2;
/// The columns at the right, each so wide, mm, with the number whose draws stand in them: wide
/// enough for headings and spans not to touch, in the wider letters of the screen too.
const COLUMNS: [(&str, f64, Figure); 6] = [
    ("above 80 %", 19.0, Figure::Above80),
    ("frost nights", 20.0, Figure::FrostNights),
    ("mould index", 22.5, Figure::Mould),
    ("water, L", 19.0, Figure::Water),
    ("kWh", 20.5, Figure::Energy),
    ("cost", 24.5, Figure::Cost),
];
/// Least width of the bars, mm: as much as the columns leave of the narrowest drawing.
const BARS_LEAST: f64 = 22.0;
/// What a number leaves of its column to the one before, mm.
const BETWEEN: f64 = 1.2;

/// A row: an option in a winter.
struct Row<'a> {
    name: String,
    season: &'a Answer<Season>,
    bands: Option<&'a Bands>,
}

/// Draws the options `width` mm wide, one row each, in the comparison's order, with the draws where
/// they were made; money in this currency.
#[must_use]
pub fn bands(run: &Throughout, doubted: Option<&Doubted>, currency: &str, width: f64) -> Scene {
    let options = run.options().iter().zip(run.seasons()).enumerate();
    let rows: Vec<Row<'_>> = options
        .map(|(at, (option, season))| Row {
            name: capital(&option.name),
            season,
            bands: doubted.and_then(|doubted| doubted.bands.get(at)?.as_ref().ok()),
        })
        .collect();
    drawn("Options through the winter", &rows, currency, width)
}

/// Draws some of the options `width` mm wide, each as it stands and below that with the planned gaps
/// sealed; money in this currency.
#[must_use]
pub fn before_and_after(
    (run, planned): (&Throughout, &Throughout),
    options: &[usize],
    currency: &str,
    width: f64,
) -> Scene {
    let mut rows = Vec::new();
    for (option, season) in options.iter().filter_map(|at| run.option(*at)) {
        let name = capital(&option.name);
        let mut after = planned.options().iter().zip(planned.seasons());
        let same = after.find(|(own, _)| own.kind == option.kind && own.name == option.name);
        let sealed = same.map(|(_, season)| Row {
            name: format!("{name}, once the planned gaps are sealed"),
            season,
            bands: None,
        });
        rows.push(Row {
            name: format!("{name}, as it stands"),
            season,
            bands: None,
        });
        rows.extend(sealed);
    }
    drawn("Before and after the plan", &rows, currency, width)
}

fn drawn(title: &str, rows: &[Row<'_>], currency: &str, width: f64) -> Scene {
    let draws = rows.iter().any(|row| row.bands.is_some());
    let (row_high, head) = if draws {
        (ROW + DRAWN, HEAD + DRAWN_KEY)
    } else {
        (ROW, HEAD)
    };
    let count = f64::from(u32::try_from(rows.len()).unwrap_or(u32::MAX));
    let mut scene = Scene::new(width, head + count * row_high);
    let right: f64 = COLUMNS.iter().map(|(_, wide, _)| wide).sum();
    let bars = (width - right - 2.0).max(BARS_LEAST);
    key(&mut scene);
    if draws {
        draws_key(&mut scene);
    }
    let mut at = bars + 2.0;
    for (words, wide, _) in COLUMNS {
        at += wide;
        let place = Point::new(at, head - 3.0);
        scene.text(place, words, LETTER, Role::Faint, Anchor::Right);
    }
    let mut told = String::from(title);
    let mut top = head;
    for row in rows {
        let at = Point::new(0.0, top + NAME);
        scene.text(at, row.name.as_str(), LETTER, Role::Ink, Anchor::Left);
        let cells = cells(row.season, currency);
        told.push_str(&format!("; {}: {}", row.name, in_words(&cells, row.bands)));
        if let Ok(season) = row.season {
            bar(&mut scene, season, (bars, top + BAR));
        }
        let foot = top + BAR + BAR_HIGH;
        if let Some(band) = row.bands.and_then(|bands| bands.of(Figure::Above80)) {
            whisker(&mut scene, &band, (bars, foot + BELOW));
        }
        let mut right = bars + 2.0;
        for ((_, wide, figure), cell) in COLUMNS.iter().zip(&cells) {
            right += wide;
            let (at, room) = (
                Point::new(right, top + BAR + BAR_HIGH / 2.0),
                wide - BETWEEN,
            );
            let looks = |role| (role, Anchor::Right);
            scene.text_within(at, cell, LETTER, looks(Role::Ink), room);
            if let Some(band) = row.bands.and_then(|bands| bands.of(*figure)) {
                let at = Point::new(right, foot + BELOW);
                let span = figure.span(&band);
                scene.text_within(at, &span, SMALL, looks(Role::Faint), room);
            }
        }
        top += row_high;
    }
    scene.description = told;
    scene
}

/// What the lines and the small figures below are.
fn draws_key(scene: &mut Scene) {
    let words = "Small figures: where nine draws in ten lie. The line below a bar: the same for the hours \
                 above 80 %, with the middle of the draws.";
    let at = Point::new(0.0, 10.6);
    scene.text(at, words, SMALL, Role::Faint, Anchor::Left);
}

/// Where the limit of 80 % lies in nine draws of ten, with a stroke at their middle.
fn whisker(scene: &mut Scene, band: &Band, (width, y): (f64, f64)) {
    // The bar ends with the hours above the limit.
    let at = |share: f64| (1.0 - share) * width;
    let stroke = Stroke::solid(Role::Ink, 0.3);
    let (left, right) = (at(band.high), at(band.low));
    let along = vec![Point::new(left, y), Point::new(right, y)];
    scene.add(Shape::line(along, stroke));
    for (x, half) in [(left, END), (right, END), (at(band.median), 1.6 * END)] {
        let up = vec![Point::new(x, y - half), Point::new(x, y + half)];
        scene.add(Shape::line(up, stroke));
    }
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
        cost.map_or_else(|_| unknown(), |cost| price_about(*cost, currency)),
    ]
}

fn in_words(cells: &[String; 6], bands: Option<&Bands>) -> String {
    let pairs = COLUMNS.iter().zip(cells);
    let told = pairs.filter(|(_, cell)| !cell.is_empty());
    let told: Vec<String> = told
        .map(|((head, _, figure), cell)| {
            let band = bands.and_then(|bands| bands.of(*figure));
            let span = band.map(|band| figure.span(&band));
            let span = span.map_or_else(String::new, |span| format!(" (nine in ten draws {span})"));
            format!("{head} {cell}{span}")
        })
        .collect();
    told.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::letters::wide;

    /// Letters of the screen beside those of paper, that widths are reckoned for.
    const SCREEN: f64 = 1.25;

    #[test]
    fn the_longest_usual_span_of_a_column_stands_clear_of_the_column_before() {
        for (figure, span) in [
            (Figure::FrostNights, "105 to 107"),
            (Figure::Water, "120 to 1300"),
            (Figure::Energy, "1000 to 1100"),
            (Figure::Cost, "1000 to 1100"),
        ] {
            let column = COLUMNS.iter().find(|(_, _, of)| *of == figure);
            let (head, room, _) = column.expect("a column");
            assert!(SCREEN * wide(span, SMALL) + 1.0 <= *room, "{head}: {span}");
        }
    }

    #[test]
    fn every_column_lies_within_the_narrowest_drawing() {
        let scene = drawn("Options", &[], "EUR", 150.0);
        let heads = scene.marks.iter().filter_map(|mark| match &mark.shape {
            Shape::Text {
                at, text, anchor, ..
            } if *anchor == Anchor::Right => Some((at.x, text)),
            _ => None,
        });
        let heads: Vec<_> = heads.collect();
        assert_eq!(heads.len(), COLUMNS.len());
        for (right, head) in heads {
            assert!(right <= 150.0, "{head}: {right}");
        }
    }
}
