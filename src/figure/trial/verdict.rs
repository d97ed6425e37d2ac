//! What each period did against one without a method: warmth, water, and relative humidity at the
//! same outside, each with the interval that the days allow.

use crate::figure::letters::wide;
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};

/// A change with its 95 % limits, where there are days enough for them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// The change itself.
    pub value: f64,
    /// Lower and upper limit.
    pub limits: Option<(f64, f64)>,
}

impl Bar {
    /// Whether the data show that it is not nothing.
    fn shows(&self) -> bool {
        self.limits
            .is_some_and(|(low, high)| low > 0.0 || high < 0.0)
    }

    fn ends(&self) -> (f64, f64) {
        let (low, high) = self.limits.unwrap_or((self.value, self.value));
        (low.min(self.value), high.max(self.value))
    }
}

/// A row of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct VerdictRow {
    /// Which period or method: `2: salt tub, 7 days`.
    pub name: String,
    /// Change of how much warmer it is inside, K.
    pub warmth_k: Bar,
    /// Change of the water inside above that outside, g/kg.
    pub water_g: Bar,
    /// Change of relative humidity at the same outside, points.
    pub rh_points: Bar,
    /// What the data say in words.
    pub verdict: String,
}

/// Height of the heads, of a row, and from its top to its name and to its bars, mm.
const HEAD: f64 = 9.5;
const ROW: f64 = 10.5;
const NAME: f64 = 2.2;
const BARS: f64 = 6.8;
/// Height of the key below, mm.
const FOOT: f64 = 6.0;
/// Room between columns, mm.
const BETWEEN: f64 = 5.0;
/// Height of letters, mm.
const LETTER: f64 = 2.6;
/// Half the size of a mark, mm.
const MARK: f64 = 1.2;
/// From the middle of the zero to the number beside it, at least, mm.
const BESIDE_ZERO: f64 = 2.0;

/// The columns: head, unit of the numbers under it, and the least range either side of zero. Points are
/// the same in every system of units, and stand in the head.
const COLUMNS: [(&str, &str, f64); 3] = [
    ("warmer inside", "\u{a0}K", 1.0),
    ("water in the air", "\u{a0}g/kg", 0.2),
    ("relative humidity, points", "", 3.0),
];

/// One column: where it stands and what it spans.
struct Column {
    left: f64,
    width: f64,
    range: (f64, f64),
}

impl Column {
    fn x(&self, value: f64) -> f64 {
        let (low, high) = self.range;
        self.left + (value - low) / (high - low) * self.width
    }
}

/// Draws the rows, `width` mm wide.
#[must_use]
pub fn verdict(rows: &[VerdictRow], width: f64) -> Scene {
    let bars = |row: &VerdictRow| [row.warmth_k, row.water_g, row.rh_points];
    let count = crate::physics::counts::count;
    let foot = HEAD + count(rows.len()) * ROW;
    let mut scene = Scene::new(width, foot + FOOT);
    let each = (width - 2.0 * BETWEEN) / 3.0;
    let columns: Vec<Column> = COLUMNS
        .iter()
        .enumerate()
        .map(|(at, (_, _, least))| {
            let ends = rows
                .iter()
                .filter_map(|row| bars(row).get(at).map(Bar::ends));
            let (low, high) = ends.fold((-least, *least), |(low, high), (one, other)| {
                (low.min(one), high.max(other))
            });
            let room = 0.06 * (high - low);
            Column {
                left: count(at) * (each + BETWEEN),
                width: each,
                range: (low - room, high + room),
            }
        })
        .collect();
    for (column, (head, unit, _)) in columns.iter().zip(COLUMNS) {
        heads(&mut scene, column, (head, unit));
    }
    let mut top = HEAD;
    for row in rows {
        let at = Point::new(0.0, top + NAME);
        let words = format!("{}: {}", row.name, row.verdict);
        scene.text(at, words, LETTER, Role::Ink, Anchor::Left);
        for (column, bar) in columns.iter().zip(bars(row)) {
            // Between the words, not through them.
            let zero = column.x(0.0);
            let line = vec![
                Point::new(zero, top + BARS - 2.0),
                Point::new(zero, top + BARS + 2.0),
            ];
            scene.add(Shape::line(line, Stroke::solid(Role::Ink, 0.3)));
            draw(&mut scene, column, bar, top + BARS);
        }
        top += ROW;
    }
    key(&mut scene, foot + FOOT - 2.0);
    scene.description = told(rows);
    scene
}

/// The head of a column.
fn heads(scene: &mut Scene, column: &Column, (head, unit): (&str, &str)) {
    let at = Point::new(column.left, 2.2);
    scene.text(at, head, LETTER, Role::Ink, Anchor::Left);
    let (low, high) = column.range;
    let zero = column.x(0.0);
    for (value, x) in [
        (low, column.left),
        (0.0, zero),
        (high, column.left + column.width),
    ] {
        let anchor = match value {
            value if value < 0.0 => Anchor::Left,
            value if value > 0.0 => Anchor::Right,
            _ => Anchor::Middle,
        };
        // The number has its unit, so that it is shown in the unit chosen.
        let words = match signed(value) {
            zero if value == 0.0 => zero,
            number => format!("{number}{unit}"),
        };
        // Beside zero there may be no room for another number, with a letter more in another unit.
        let room = wide(&words, 0.9 * LETTER) + 0.9 * LETTER + BESIDE_ZERO;
        if value == 0.0 || (x - zero).abs() > room {
            let at = Point::new(x, 6.4);
            scene.text(at, words, 0.9 * LETTER, Role::Faint, anchor);
        }
    }
}

/// A number with its sign.
fn signed(value: f64) -> String {
    let digits = usize::from(value.abs() < 10.0);
    match value {
        value if value > 0.0 => format!("+{value:.digits$}"),
        value if value < 0.0 => format!("\u{2212}{:.digits$}", -value),
        _ => "0".to_owned(),
    }
}

/// A change with its interval: full where the data show it, hollow where they do not, a cross where
/// there are too few days for an interval.
fn draw(scene: &mut Scene, column: &Column, bar: Bar, y: f64) {
    let at = Point::new(column.x(bar.value), y);
    let Some((low, high)) = bar.limits else {
        for side in [-1.0, 1.0] {
            let ends = vec![
                Point::new(at.x - MARK, y - side * MARK),
                Point::new(at.x + MARK, y + side * MARK),
            ];
            scene.add(Shape::line(ends, Stroke::solid(Role::Faint, 0.4)));
        }
        return;
    };
    let shows = bar.shows();
    let role = if shows { Role::First } else { Role::Faint };
    let (left, right) = (column.x(low), column.x(high));
    let mut line = |from: Point, to: Point| {
        scene.add(Shape::line(vec![from, to], Stroke::solid(role, 0.5)));
    };
    line(Point::new(left, y), Point::new(right, y));
    for x in [left, right] {
        line(Point::new(x, y - 1.0), Point::new(x, y + 1.0));
    }
    let fill = if shows { role } else { Role::Ground };
    scene.add(Shape::circle(at, MARK, fill, Stroke::solid(role, 0.4)));
}

/// What the marks mean.
fn key(scene: &mut Scene, y: f64) {
    let sample = |left: f64| Column {
        left,
        width: 8.0,
        range: (-1.0, 1.0),
    };
    let bars = [
        (
            Bar {
                value: 0.0,
                limits: Some((0.01, 0.01)),
            },
            "the data show it",
        ),
        (
            Bar {
                value: 0.0,
                limits: Some((-0.9, 0.9)),
            },
            "they do not: the interval holds no change",
        ),
        (
            Bar {
                value: 0.0,
                limits: None,
            },
            "too few days for an interval",
        ),
    ];
    let mut left = 0.0;
    for (at, (bar, words)) in bars.into_iter().enumerate() {
        let column = sample(left);
        if at == 0 {
            let ends = vec![Point::new(left, y), Point::new(left + 8.0, y)];
            scene.add(Shape::line(ends, Stroke::solid(Role::First, 0.5)));
            let middle = Point::new(left + 4.0, y);
            let edge = Stroke::solid(Role::First, 0.4);
            scene.add(Shape::circle(middle, MARK, Role::First, edge));
        } else {
            draw(scene, &column, bar, y);
        }
        let words_at = Point::new(left + 9.2, y);
        scene.text(words_at, words, 0.9 * LETTER, Role::Faint, Anchor::Left);
        let letters = crate::physics::counts::count(words.chars().count());
        left += 9.2 + 0.9 * LETTER * 0.56 * letters + 4.0;
    }
}

fn told(rows: &[VerdictRow]) -> String {
    let change = |bar: Bar, unit: &str| {
        let limits = bar.limits.map_or_else(
            || ", without an interval".to_owned(),
            |(low, high)| format!(" ({}{unit} to {}{unit})", signed(low), signed(high)),
        );
        format!("{}{unit}{limits}", signed(bar.value))
    };
    let rows: Vec<String> = rows
        .iter()
        .map(|row| {
            format!(
                "{}: warmer {}, water {}, relative humidity {}: {}",
                row.name,
                change(row.warmth_k, " K"),
                change(row.water_g, " g/kg"),
                change(row.rh_points, " points"),
                row.verdict
            )
        })
        .collect();
    format!("What each period did. {}", rows.join(". "))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(name: &str, rh: Bar) -> VerdictRow {
        let small = Bar {
            value: 0.1,
            limits: Some((-0.2, 0.4)),
        };
        VerdictRow {
            name: name.to_owned(),
            warmth_k: small,
            water_g: small,
            rh_points: rh,
            verdict: "no effect that the data can show".to_owned(),
        }
    }

    fn filled(scene: &Scene) -> usize {
        let marks = scene.marks.iter();
        marks
            .filter(|mark| {
                matches!(
                    mark.shape,
                    Shape::Circle {
                        fill: Some(Role::First),
                        ..
                    }
                )
            })
            .count()
    }

    #[test]
    fn what_the_data_show_is_full_and_what_they_do_not_is_hollow() {
        let none = Bar {
            value: -1.0,
            limits: Some((-4.0, 2.0)),
        };
        let some = Bar {
            value: -18.0,
            limits: Some((-22.0, -14.0)),
        };
        // One of them is the key's.
        assert_eq!(filled(&verdict(&[row("1", none)], 150.0)), 1);
        assert_eq!(
            filled(&verdict(&[row("1", none), row("2", some)], 150.0)),
            2
        );
        let few = Bar {
            value: -18.0,
            limits: None,
        };
        let scene = verdict(&[row("3", few)], 150.0);
        assert_eq!(filled(&scene), 1);
        assert!(
            scene
                .description
                .contains("\u{2212}18 points, without an interval")
        );
    }

    #[test]
    fn everything_stands_within_the_picture() {
        let wide = Bar {
            value: -18.0,
            limits: Some((-60.0, 24.0)),
        };
        let scene = verdict(&[row("1", wide), row("2", wide)], 120.0);
        for mark in &scene.marks {
            let points = match &mark.shape {
                Shape::Polyline { points, .. } => points.clone(),
                Shape::Circle { centre, .. } => vec![*centre],
                Shape::Text { at, .. } => vec![*at],
                _ => Vec::new(),
            };
            for at in points {
                let inside =
                    (-0.01..=120.01).contains(&at.x) && at.y <= scene.height && at.y >= 0.0;
                assert!(inside, "{at:?}");
            }
        }
    }
}
