//! A trial over time as a drawing: temperature, humidity and water below each other, with what cold
//! surfaces allow and the periods as bands.

use super::bands::Band;
use super::lines::{Lines, ODD, ODD_NAME, Quantity};
use super::time;
use super::track::Track;
use crate::figure::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::figure::styles::{Style, mark};
use crate::physics::counts::{count, seconds_as_f64, whole};

/// Height of a panel, of the words over it, and of the row of the periods' names, mm.
const PANEL: f64 = 34.0;
const HEAD: f64 = 7.5;
const NAMES: f64 = 6.0;
/// Room at the left for the numbers, at the right, and below for the days, mm.
const LEFT: f64 = 14.0;
const RIGHT: f64 = 2.0;
const FOOT: f64 = 6.0;
/// Height of letters, mm.
const LETTER: f64 = 2.4;
/// Half the width of the sign at an odd reading, mm.
const MARKER: f64 = 0.9;
/// Room between the edge of a period and its name, mm.
const BESIDE_EDGE: f64 = 0.4;
/// Room for a mark of time, mm.
const MARK: f64 = 17.0;

/// Where one panel stands and what it spans.
struct Panel {
    top: f64,
    width: f64,
    span: (f64, f64),
    range: (f64, f64),
}

impl Panel {
    fn x(&self, seconds: f64) -> f64 {
        let (from, to) = self.span;
        LEFT + (seconds - from) / (to - from) * (self.width - LEFT - RIGHT)
    }

    fn y(&self, value: f64) -> f64 {
        let (low, high) = self.range;
        self.top + PANEL * (1.0 - (value - low) / (high - low))
    }

    /// A line with its ends cut off at the edges.
    fn cut(&self, points: &[[f64; 2]]) -> Vec<Point> {
        let (from, to) = self.span;
        let inside = |x: f64| x.clamp(from, to);
        points
            .iter()
            .map(|[x, y]| Point::new(self.x(inside(*x)), self.y(*y)))
            .collect()
    }
}

/// Draws a span of a trial with its periods, `width` mm wide. Empty where there are no readings.
#[must_use]
pub fn drawing(lines: &Lines, periods: &[Band], (from, to): (i64, i64), width: f64) -> Scene {
    let height = NAMES + count(Quantity::ALL.len()) * (HEAD + PANEL) + FOOT;
    let mut scene = Scene::new(width, height);
    scene.description = told(lines, periods, (from, to));
    if to <= from {
        return scene;
    }
    let span = (seconds_as_f64(from), seconds_as_f64(to));
    let pairs = whole(3.0 * (width - LEFT - RIGHT));
    let mut top = NAMES + HEAD;
    for quantity in Quantity::ALL {
        let tracks = lines.tracks(quantity);
        let drawn: Vec<_> = tracks
            .iter()
            .map(|(name, track, look)| (*name, track.lines((from, to), pairs), *look))
            .collect();
        let all = drawn.iter().flat_map(|(_, lines, _)| lines);
        let range = round_range(quantity, Track::range(all));
        let panel = Panel {
            top,
            width,
            span,
            range,
        };
        let is_first = quantity == Quantity::Temperature;
        bands(&mut scene, &panel, periods, is_first);
        axes(&mut scene, &panel, (from, to), quantity);
        let names = drawn.iter().map(|(name, _, look)| (*name, *look));
        let mut end = head(&mut scene, &panel, quantity, names);
        let odd = lines.doubtful(quantity, (from, to), pairs);
        for (_, lines, look) in &drawn {
            let stroke = Stroke::new(look.role, 0.6 * look.width, look.dash);
            for line in lines.iter().filter(|line| line.len() > 1) {
                scene.add(Shape::line(panel.cut(line), stroke));
            }
        }
        if !odd.is_empty() {
            end.x += MARKER;
            mark(&mut scene, end, MARKER, ODD);
            let at = Point::new(end.x + MARKER + 0.6, end.y);
            scene.text(at, ODD_NAME, LETTER, Role::Ink, Anchor::Left);
            for at in panel.cut(&odd) {
                mark(&mut scene, at, MARKER, ODD);
            }
        }
        top += HEAD + PANEL;
    }
    scene
}

/// What the drawing shows, in words.
fn told(lines: &Lines, periods: &[Band], (from, to): (i64, i64)) -> String {
    let mut told = format!(
        "Temperature, relative humidity and water in the air from {} to {}",
        crate::series::moment(from),
        crate::series::moment(to)
    );
    told.push_str(match lines.outside {
        Some(_) => ", inside and outside",
        None => ", inside",
    });
    for band in periods {
        told.push_str("; period ");
        told.push_str(&band.label);
    }
    if Quantity::ALL
        .iter()
        .any(|one| !lines.doubtful(*one, (from, to), 1).is_empty())
    {
        told.push_str("; triangles mark odd readings that still count");
    }
    told
}

/// Steps that numbers on an upright axis may be apart.
const STEPS: [f64; 6] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0];

/// A range whose ends are round; that of humidity never goes above 100 % on its own.
#[must_use]
pub fn round_range(quantity: Quantity, range: Option<(f64, f64)>) -> (f64, f64) {
    let (low, high) = range.unwrap_or((0.0, 1.0));
    let step = step(high - low);
    let (low, high) = ((low / step).floor() * step, (high / step).ceil() * step);
    let high = if high > low { high } else { low + step };
    match quantity {
        Quantity::Water => (low.max(0.0), high),
        _ => (low, high),
    }
}

/// How far apart the numbers on an axis of this length are, some five of them.
fn step(long: f64) -> f64 {
    let fits = |step: &f64| long / step <= 5.0;
    STEPS.into_iter().find(fits).unwrap_or(100.0)
}

fn axes(scene: &mut Scene, panel: &Panel, (from, to): (i64, i64), quantity: Quantity) {
    let with_words = quantity == Quantity::Water;
    let thin = Stroke::solid(Role::Faint, 0.12);
    let (low, high) = panel.range;
    let (left, right) = (panel.x(panel.span.0), panel.x(panel.span.1));
    let step = step(high - low);
    let levels = whole(((high - low) / step).round());
    for level in 0..=levels {
        let value = low + count(level) * step;
        let y = panel.y(value);
        scene.add(Shape::line(
            vec![Point::new(left, y), Point::new(right, y)],
            thin,
        ));
        // The number has its unit, so that it is shown in the unit chosen.
        let words = format!("{value:.0}\u{a0}{}", quantity.unit()).replace('-', "\u{2212}");
        let at = Point::new(left - 1.0, y);
        scene.text(at, words, LETTER, Role::Faint, Anchor::Right);
    }
    let most = whole((right - left) / MARK).max(2);
    for (at, words) in time::marks((from, to), most) {
        let x = panel.x(seconds_as_f64(at));
        let ends = vec![Point::new(x, panel.top), Point::new(x, panel.top + PANEL)];
        scene.add(Shape::line(ends, thin));
        if with_words {
            let at = Point::new(x, panel.top + PANEL + 3.0);
            scene.text(at, words, LETTER, Role::Faint, Anchor::Middle);
        }
    }
}

/// The periods: every other one shaded, each with its ends; the first panel has their names.
fn bands(scene: &mut Scene, panel: &Panel, bands: &[Band], with_names: bool) {
    let (from, to) = panel.span;
    for (number, band) in bands.iter().enumerate() {
        let left = seconds_as_f64(band.from_s).max(from);
        let right = seconds_as_f64(band.to_s).min(to);
        if right <= left {
            continue;
        }
        let (left, right) = (panel.x(left), panel.x(right));
        let corners = (
            Point::new(left, panel.top),
            Point::new(right, panel.top + PANEL),
        );
        let fill = (number % 2 == 0).then_some(Role::Body);
        let edge = match band.is_reference {
            true => Stroke::solid(Role::Ink, 0.35),
            false => Stroke::dashed(Role::Ink, 0.2),
        };
        scene.add(Shape::rectangle(corners, fill, edge));
        if with_names {
            let room = right - left - 2.0 * BESIDE_EDGE;
            let at = Point::new(left + BESIDE_EDGE, NAMES / 2.0);
            let looks = (Role::Ink, Anchor::Left);
            scene.text_within(at, &band.label, LETTER, looks, room);
        }
    }
}

/// What a panel shows, and its lines by their looks; where the next of them would stand.
fn head<'a>(
    scene: &mut Scene,
    panel: &Panel,
    quantity: Quantity,
    names: impl Iterator<Item = (&'a str, Style)>,
) -> Point {
    let y = panel.top - 2.6;
    let words = quantity.name();
    let letters = |words: &str| count(words.chars().count()) * LETTER * 0.56;
    let mut x = LEFT + letters(words) + 5.0;
    scene.text(Point::new(LEFT, y), words, LETTER, Role::Ink, Anchor::Left);
    for (name, look) in names {
        let stroke = Stroke::new(look.role, look.width, look.dash);
        let ends = vec![Point::new(x, y), Point::new(x + 7.0, y)];
        scene.add(Shape::line(ends, stroke));
        let at = Point::new(x + 8.2, y);
        scene.text(at, name, LETTER, Role::Ink, Anchor::Left);
        x += 8.2 + letters(name) + 4.0;
    }
    Point::new(x, y)
}

#[cfg(test)]
mod tests {
    use super::super::lines::{Air, Rows};
    use super::*;
    use std::sync::Arc;

    fn month() -> Lines {
        let times: Arc<Vec<i64>> = Arc::new((0..29 * 144).map(|at| at * 600).collect());
        let wave =
            |at: &i64| 5.0 + 4.0 * (seconds_as_f64(*at) / 86_400.0 * std::f64::consts::TAU).sin();
        let t_c: Vec<f64> = times.iter().map(wave).collect();
        let rh = vec![0.8; times.len()];
        let ratio: Vec<f64> = t_c.iter().map(|t| 0.004 + 0.0001 * t).collect();
        let rows = Rows {
            times_s: &times,
            t_c: &t_c,
            rh: &rh,
            ratio: &ratio,
        };
        Lines {
            inside: Air::of(rows),
            outside: Some(Air::of(rows)),
            ..Lines::default()
        }
    }

    fn period() -> Band {
        Band {
            label: "1: nothing".to_owned(),
            from_s: 86_400,
            to_s: 6 * 86_400,
            is_reference: true,
        }
    }

    #[test]
    fn everything_stands_within_the_drawing_and_is_told_in_words() {
        let lines = month();
        let span = lines.span().unwrap();
        let scene = drawing(&lines, &[period()], span, 180.0);
        for mark in &scene.marks {
            let points: Vec<Point> = match &mark.shape {
                Shape::Polyline { points, .. } | Shape::Polygon { points, .. } => points.clone(),
                Shape::Text { at, .. } => vec![*at],
                _ => Vec::new(),
            };
            for point in points {
                let inside = (-0.01..=180.01).contains(&point.x)
                    && (-0.01..=scene.height + 0.01).contains(&point.y);
                assert!(inside, "{point:?} of {:?}", mark.shape);
            }
        }
        assert!(scene.description.contains("inside and outside"));
        assert!(scene.description.contains("1: nothing"));
        let texts = scene
            .marks
            .iter()
            .filter(|mark| matches!(&mark.shape, Shape::Text { text, .. } if text == "1: nothing"));
        assert_eq!(texts.count(), 1);
    }

    #[test]
    fn a_drawing_of_a_month_has_no_more_points_than_it_can_show() {
        let lines = month();
        let scene = drawing(&lines, &[period()], lines.span().unwrap(), 180.0);
        let points: usize = scene
            .marks
            .iter()
            .map(|mark| match &mark.shape {
                Shape::Polyline { points, .. } => points.len(),
                _ => 0,
            })
            .sum();
        // Six lines of at most two points for each third of a millimetre, and the axes.
        assert!(points < 6 * 2 * 3 * 180 + 200, "{points}");
    }

    #[test]
    fn odd_readings_have_triangles_on_paper_too_and_words_for_them() {
        let mut lines = month();
        let span = lines.span().unwrap();
        let triangles = |lines: &Lines| {
            let scene = drawing(lines, &[period()], span, 180.0);
            let marks = scene.marks.iter();
            let corners = marks.filter_map(|mark| match &mark.shape {
                Shape::Polygon { points, .. } if points.len() == 3 => Some(points[0]),
                _ => None,
            });
            (corners.collect::<Vec<Point>>(), scene.description.clone())
        };
        let (none, told) = triangles(&lines);
        assert!(none.is_empty() && !told.contains("odd"), "{told}");
        lines.odd = vec![super::super::lines::Doubt {
            quantity: Quantity::Humidity,
            inside: true,
            span: (10 * 86_400, 10 * 86_400 + 1200),
        }];
        let (found, told) = triangles(&lines);
        // Three readings, and the one beside the words.
        assert_eq!(found.len(), 4, "{found:?}");
        assert!(told.contains("triangles mark odd readings that still count"));
        // Ten of 29 days, less the last step: by hand from the edges of the panel.
        let day_ten = 14.0 + 10.0 / (29.0 - 600.0 / 86_400.0) * (180.0 - 14.0 - 2.0);
        let near = found.iter().filter(|at| (at.x - day_ten).abs() < 0.1);
        assert_eq!(near.count(), 3, "{found:?} {day_ten}");
    }

    /// Four days of a month are a narrow band: 24 mm of A4.
    #[test]
    fn the_name_of_a_short_period_is_whole() {
        let lines = month();
        let mut short = period();
        short.label = "4: compressor, 280 W".to_owned();
        short.to_s = short.from_s + 4 * 86_400;
        let scene = drawing(&lines, &[short], lines.span().unwrap(), 176.0);
        let name = scene.marks.iter().find_map(|mark| match &mark.shape {
            Shape::Text { text, size, .. } if text.starts_with("4:") => Some((text, *size)),
            _ => None,
        });
        let (name, size) = name.unwrap();
        assert_eq!(name, "4: compressor, 280 W");
        assert!(size < LETTER && size > 1.8, "{size}");
    }

    #[test]
    fn ranges_are_round_and_never_empty() {
        let of = |range| round_range(Quantity::Temperature, range);
        assert_eq!(of(Some((-3.2, 18.9))), (-5.0, 20.0));
        assert_eq!(of(Some((7.0, 7.0))), (7.0, 8.0));
        assert_eq!(of(None), (0.0, 1.0));
        assert_eq!(round_range(Quantity::Water, Some((0.4, 7.3))), (0.0, 8.0));
    }
}
