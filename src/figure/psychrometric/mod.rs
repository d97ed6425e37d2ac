//! The psychrometric chart: temperature to the right, water in the air upwards, and every state
//! of the comparison in it.

mod names;

use self::names::{LETTER, Names};
use super::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::assess::drying::{Comparison, OptionAnswer};
use crate::assess::quantity::Kind;
use crate::assess::{Answer, NotKnown};
use crate::physics::MoistAir;
use crate::physics::units::GRAMS_PER_KG;

/// Room for the words at the left, right, top and bottom, mm.
const LEFT: f64 = 13.0;
const RIGHT: f64 = 26.0;
const TOP: f64 = 9.5;
const BOTTOM: f64 = 13.0;
/// Curves of equal relative humidity, %.
const CURVES: [u32; 4] = [20, 40, 60, 80];
/// States nearer than this share one mark, mm.
const TOGETHER: f64 = 3.2;
/// Arrows shorter than this are not drawn, mm.
const LEAST_ARROW: f64 = 1.2;

/// The chart, and where its states lie.
#[derive(Clone, Debug, PartialEq)]
pub struct Psychrometric {
    /// The drawing.
    pub scene: Scene,
    axes: Axes,
}

/// What a millimetre of the chart means.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Axes {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    coldest_c: f64,
    warmest_c: f64,
    /// Humidity ratio at the lower edge.
    least: f64,
    /// Humidity ratio at the upper edge.
    most: f64,
    /// Pressure, Pa.
    pressure: f64,
}

impl Psychrometric {
    /// Where air of this temperature and humidity ratio lies, mm.
    #[must_use]
    pub fn place(&self, t_c: f64, humidity_ratio: f64) -> Point {
        self.axes.place(t_c, humidity_ratio)
    }

    /// The air at a point, mm; `None` beside the chart and where no air can hold so much water.
    #[must_use]
    pub fn state_at(&self, point: Point) -> Option<MoistAir> {
        let axes = &self.axes;
        let beside = point.x < axes.left
            || point.x > axes.right
            || point.y < axes.top
            || point.y > axes.bottom;
        if beside {
            return None;
        }
        let t_c = axes.coldest_c
            + (point.x - axes.left) / (axes.right - axes.left) * (axes.warmest_c - axes.coldest_c);
        let up = (axes.bottom - point.y) / (axes.bottom - axes.top);
        let ratio = axes.least + up * (axes.most - axes.least);
        let air = MoistAir::new(t_c, ratio.max(0.0), axes.pressure).ok()?;
        (air.relative_humidity() <= 1.0).then_some(air)
    }
}

impl Axes {
    fn place(&self, t_c: f64, humidity_ratio: f64) -> Point {
        let right = (t_c - self.coldest_c) / (self.warmest_c - self.coldest_c);
        let up = (humidity_ratio - self.least) / (self.most - self.least);
        Point::new(
            self.left + right * (self.right - self.left),
            self.bottom - up * (self.bottom - self.top),
        )
    }

    /// Air at a relative humidity, in the chart or above it.
    fn ratio(&self, t_c: f64, rh: f64) -> Option<f64> {
        let air = MoistAir::from_relative_humidity(t_c, rh, self.pressure).ok()?;
        Some(air.humidity_ratio)
    }
}

/// Draws the chart of one weather case. `shown` is the option, by its place in the comparison,
/// whose way from doing nothing is drawn as two arrows: warming to the right, drying downwards.
///
/// # Errors
/// The outside air of the case is not known.
pub fn psychrometric(
    comparison: &Comparison,
    case: usize,
    shown: Option<usize>,
    size: (f64, f64),
) -> Answer<Psychrometric> {
    let weather = comparison
        .cases
        .get(case)
        .ok_or_else(|| NotKnown::because("there is no such weather case"))?;
    let outside = weather.outside.clone()?;
    let states: Vec<(usize, MoistAir)> = (1..)
        .zip(&comparison.options)
        .filter_map(|(number, option)| Some((number, inside(option, case)?)))
        .collect();
    let axes = axes(&outside, &states, size);
    let mut scene = Scene::new(size.0, size.1);
    scene.description = format!(
        "Psychrometric chart, {}: outside air and the inside air that each option brings, by temperature and by water in the air; the states stand in the table below",
        weather.name
    );
    grid(&mut scene, &axes);
    curves(&mut scene, &axes, comparison.target_rh);
    let mut names = Names::beside(
        states
            .iter()
            .map(|(_, air)| axes.place(air.t_c, air.humidity_ratio)),
    );
    outside_mark(&mut scene, &mut names, &axes, &outside);
    if let Some(option) = shown.and_then(|at| comparison.options.get(at)) {
        let nothing = comparison.options.first();
        let before = nothing.and_then(|option| inside(option, case));
        let after = inside(option, case);
        arrows(
            &mut scene,
            &mut names,
            &axes,
            before.unwrap_or(outside),
            after,
        );
    }
    marks(&mut scene, &mut names, &axes, &states);
    Ok(Psychrometric { scene, axes })
}

fn inside(option: &OptionAnswer, case: usize) -> Option<MoistAir> {
    Some(option.cases.get(case)?.as_ref().ok()?.inside)
}

/// Edges at round values, with room around every state.
fn axes(outside: &MoistAir, states: &[(usize, MoistAir)], (width, height): (f64, f64)) -> Axes {
    let all = || states.iter().map(|(_, air)| air).chain([outside]);
    let coldest = all().map(|air| air.t_c).fold(f64::INFINITY, f64::min);
    let warmest = all().map(|air| air.t_c).fold(f64::NEG_INFINITY, f64::max);
    let coldest_c = ((coldest - 1.0) / 2.0).floor() * 2.0;
    let warmest_c = (((warmest + 1.5) / 2.0).ceil() * 2.0).max(coldest_c + 8.0);
    let ratios = || all().map(|air| air.humidity_ratio * GRAMS_PER_KG);
    let driest = ratios().fold(f64::INFINITY, f64::min);
    let wettest = ratios().fold(0.0, f64::max);
    let least = (driest - 0.7).floor().max(0.0);
    let most = (wettest + 0.8).ceil().max(least + 3.0);
    Axes {
        left: LEFT,
        right: width - RIGHT,
        top: TOP,
        bottom: height - BOTTOM,
        coldest_c,
        warmest_c,
        least: least / 1e3,
        most: most / 1e3,
        pressure: outside.pressure,
    }
}

/// Whole numbers from one to another by steps.
fn steps(from: f64, to: f64, step: f64) -> impl Iterator<Item = f64> {
    let first = (from / step).ceil();
    (0..200)
        .map(move |at| (first + f64::from(at)) * step)
        .take_while(move |value| *value <= to + 1e-9)
}

fn grid(scene: &mut Scene, axes: &Axes) {
    let span = axes.warmest_c - axes.coldest_c;
    let step = if span > 24.0 { 5.0 } else { 2.0 };
    for t_c in steps(axes.coldest_c, axes.warmest_c, step) {
        let (foot, head) = (axes.place(t_c, axes.least), axes.place(t_c, axes.most));
        scene.add(Shape::line(
            vec![foot, head],
            Stroke::solid(Role::Ground, 0.2),
        ));
        let at = Point::new(foot.x, foot.y + 2.8);
        // The number has its unit, so that it is shown in the unit chosen.
        let words = format!("{t_c:.0}\u{a0}°C").replace('-', "\u{2212}");
        scene.text(at, words, LETTER, Role::Faint, Anchor::Middle);
    }
    let span = (axes.most - axes.least) * 1e3;
    let step = if span > 12.0 { 2.0 } else { 1.0 };
    for grams in steps(axes.least * 1e3, axes.most * 1e3, step) {
        let (from, to) = (
            axes.place(axes.coldest_c, grams / 1e3),
            axes.place(axes.warmest_c, grams / 1e3),
        );
        scene.add(Shape::line(
            vec![from, to],
            Stroke::solid(Role::Ground, 0.2),
        ));
        let at = Point::new(from.x - 1.6, from.y);
        scene.text(
            at,
            format!("{grams:.0}"),
            LETTER,
            Role::Faint,
            Anchor::Right,
        );
    }
    let at = Point::new(f64::midpoint(axes.left, axes.right), axes.bottom + 8.4);
    scene.text(at, "temperature", LETTER, Role::Ink, Anchor::Middle);
    let at = Point::new(1.0, 1.9);
    let words = "water in the air, g per kg of dry air";
    scene.text(at, words, LETTER, Role::Ink, Anchor::Left);
}

fn curves(scene: &mut Scene, axes: &Axes, target: f64) {
    let near_target = |rh: f64| (rh - target).abs() < 0.045;
    for percent in CURVES {
        let rh = f64::from(percent) / 100.0;
        if !near_target(rh) {
            let words = format!("{} RH", Kind::RelativeHumidity.text(rh));
            curve(scene, axes, rh, Stroke::solid(Role::Faint, 0.25), &words);
        }
    }
    let words = format!("target {}", Kind::RelativeHumidity.text(target));
    curve(scene, axes, target, Stroke::dashed(Role::Own, 0.6), &words);
    let words = "100\u{a0}%, condenses";
    curve(scene, axes, 1.0, Stroke::solid(Role::Ink, 0.6), words);
}

/// A curve of equal relative humidity from edge to edge; its name stands where it ends.
fn curve(scene: &mut Scene, axes: &Axes, rh: f64, stroke: Stroke, words: &str) {
    let points = curve_points(axes, rh);
    let (Some(start), Some(end)) = (points.first().copied(), points.last().copied()) else {
        return;
    };
    if start.distance(end) < 4.0 {
        return;
    }
    scene.add(Shape::line(points, stroke));
    let role = stroke.role;
    if end.x >= axes.right - 1e-6 {
        let at = Point::new(end.x + 1.2, end.y);
        scene.text(at, words, LETTER, role, Anchor::Left);
    } else {
        // The words of saturation lean away from the curves to their right.
        let (shift, anchor) = if rh >= 1.0 && end.x > 34.0 {
            (2.0, Anchor::Right)
        } else {
            (0.0, Anchor::Middle)
        };
        let at = Point::new(end.x + shift, axes.top - 1.8);
        scene.text(at, words, LETTER, role, anchor);
    }
}

/// The points of a curve between the lower and the upper edge.
fn curve_points(axes: &Axes, rh: f64) -> Vec<Point> {
    const PIECES: u32 = 80;
    let span = axes.warmest_c - axes.coldest_c;
    let mut points: Vec<Point> = Vec::new();
    let mut before: Option<(f64, f64)> = None;
    for piece in 0..=PIECES {
        let t_c = axes.coldest_c + span * f64::from(piece) / f64::from(PIECES);
        let Some(ratio) = axes.ratio(t_c, rh) else {
            break;
        };
        let crossing = |edge: f64| {
            let (cold, dry) = before?;
            let inside = dry < edge && edge < ratio;
            let share = (edge - dry) / (ratio - dry);
            inside.then(|| axes.place(cold + share * (t_c - cold), edge))
        };
        points.extend(crossing(axes.least));
        points.extend(crossing(axes.most));
        if ratio > axes.most {
            break;
        }
        if ratio >= axes.least {
            points.push(axes.place(t_c, ratio));
        }
        before = Some((t_c, ratio));
    }
    points
}

/// From doing nothing to the option: first warmer with the same water, then drier.
fn arrows(
    scene: &mut Scene,
    names: &mut Names,
    axes: &Axes,
    before: MoistAir,
    after: Option<MoistAir>,
) {
    let Some(after) = after else { return };
    let from = axes.place(before.t_c, before.humidity_ratio);
    let corner = axes.place(after.t_c, before.humidity_ratio);
    let to = axes.place(after.t_c, after.humidity_ratio);
    let ways = [
        (from, corner, Role::Third, "warming"),
        (corner, to, Role::First, "drying"),
    ];
    let drawn = || {
        ways.iter()
            .filter(|(tail, head, ..)| tail.distance(*head) >= LEAST_ARROW)
    };
    for (tail, head, ..) in drawn() {
        names.keep_clear(*tail, *head);
    }
    for &(tail, head, role, words) in drawn() {
        scene.add(Shape::arrow(tail, head, role, 0.7));
        let middle = Point::new(f64::midpoint(tail.x, head.x), f64::midpoint(tail.y, head.y));
        names.write(scene, middle, words, role);
    }
}

/// The inside states; numbers of options that lie together stand together.
fn marks(scene: &mut Scene, names: &mut Names, axes: &Axes, states: &[(usize, MoistAir)]) {
    let mut groups: Vec<(Point, Vec<usize>)> = Vec::new();
    for (number, air) in states {
        let at = axes.place(air.t_c, air.humidity_ratio);
        match groups
            .iter_mut()
            .find(|(first, _)| first.distance(at) < TOGETHER)
        {
            Some((_, numbers)) => numbers.push(*number),
            None => groups.push((at, vec![*number])),
        }
        scene.add(Shape::circle(
            at,
            0.9,
            Role::Body,
            Stroke::solid(Role::Ink, 0.4),
        ));
    }
    for (at, numbers) in groups {
        let words: Vec<String> = numbers.iter().map(ToString::to_string).collect();
        names.write(scene, at, &words.join(", "), Role::Ink);
    }
}

fn outside_mark(scene: &mut Scene, names: &mut Names, axes: &Axes, outside: &MoistAir) {
    const REACH: f64 = 2.1;
    let centre = axes.place(outside.t_c, outside.humidity_ratio);
    let corner = |x: f64, y: f64| Point::new(centre.x + x, centre.y + y);
    scene.add(Shape::polygon(
        vec![
            corner(0.0, -REACH),
            corner(REACH, 0.0),
            corner(0.0, REACH),
            corner(-REACH, 0.0),
        ],
        Role::Own,
        None,
    ));
    names.write(scene, centre, "outside", Role::Own);
}

#[cfg(test)]
mod tests;
