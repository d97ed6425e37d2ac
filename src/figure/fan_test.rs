//! A fan test: flow against pressure, both on logarithmic scales, with the survey's own curve.

use super::scene::{Anchor, Dash, Point, Role, Scene, Shape, Stroke};
use super::styles::{self, Marker, Style};
use crate::assess::measured::FanOutcome;
use crate::physics::measurement::fan_test::Direction;
use crate::physics::units::SECONDS_PER_HOUR;

/// Pressures at the ends of the drawing, Pa.
const PRESSURES: (f64, f64) = (3.0, 100.0);
/// Pressures that are marked, Pa.
const MARKED: [f64; 6] = [4.0, 10.0, 20.0, 30.0, 50.0, 80.0];
/// Room left of the drawing for its numbers, and below it, mm.
const ROOM: (f64, f64) = (18.0, 9.0);
/// Room above it for the legend, mm.
const LEGEND: f64 = 12.0;
/// Height of the letters, mm.
const LETTERS: f64 = 2.5;
/// Half the size of a marker, mm.
const MARKER: f64 = 1.0;

/// The survey's curve.
const SURVEY: Stroke = Stroke::dashed(Role::Faint, 0.7);

/// How the readings of a direction are drawn.
fn style(direction: Direction) -> Style {
    let (role, marker) = match direction {
        Direction::Depressurising => (Role::First, Marker::Circle),
        Direction::Pressurising => (Role::Second, Marker::Triangle),
    };
    Style {
        role,
        dash: Dash::Solid,
        marker,
        width: 0.6,
    }
}

/// Where pressures and flows stand.
struct Axes {
    width: f64,
    height: f64,
    flows: (f64, f64),
}

impl Axes {
    /// The place of a pressure, Pa, and a flow, m³/h.
    fn at(&self, pressure: f64, flow: f64) -> Point {
        let part = |value: f64, (low, high): (f64, f64)| (value / low).ln() / (high / low).ln();
        let (left, below) = ROOM;
        Point::new(
            left + part(pressure, PRESSURES) * (self.width - left - 3.0),
            LEGEND + (1.0 - part(flow, self.flows)) * (self.height - below - LEGEND),
        )
    }
}

/// Draws the readings of a test, the laws fitted to them and what the survey expects, `width` mm wide.
///
/// ```text
/// x = ln Δp     y = ln Q
/// ```
/// so that a power law is a straight line with the slope n.
#[must_use]
pub fn fan_test(outcome: &FanOutcome, width: f64) -> Scene {
    let height = (0.62 * width).min(110.0);
    let mut scene = Scene::new(width, height);
    scene.description =
        "Flow against pressure of the fan test on logarithmic scales: readings, the law fitted \
                         to them in each direction, and dashed what the survey expects"
            .to_owned();
    let lines = lines(outcome);
    let flows = || {
        lines
            .iter()
            .flat_map(|(_, points)| points.iter().map(|at| at.1))
    };
    let low = flows()
        .chain(readings(outcome))
        .fold(f64::INFINITY, f64::min);
    let high = flows().chain(readings(outcome)).fold(0.0, f64::max);
    if !(low > 0.0 && high.is_finite() && high > low) {
        let at = Point::new(width / 2.0, height / 2.0);
        scene.text(at, "not known", LETTERS, Role::Faint, Anchor::Middle);
        return scene;
    }
    let axes = Axes {
        width,
        height,
        flows: (low * 0.9, high * 1.1),
    };
    grid(&mut scene, &axes);
    for (stroke, points) in &lines {
        let points = points
            .iter()
            .map(|(pressure, flow)| axes.at(*pressure, *flow));
        scene.add(Shape::line(points.collect(), *stroke));
    }
    for fitted in &outcome.fits {
        for point in &fitted.fit.fitted {
            let at = axes.at(
                point.pressure_pa.clamp(PRESSURES.0, PRESSURES.1),
                point.flow * SECONDS_PER_HOUR,
            );
            styles::mark(&mut scene, at, MARKER, style(fitted.direction));
        }
    }
    legend(&mut scene, outcome);
    scene
}

/// Flows of the readings, m³/h.
fn readings(outcome: &FanOutcome) -> impl Iterator<Item = f64> {
    let points = outcome.fits.iter().flat_map(|fitted| &fitted.fit.fitted);
    points.map(|point| point.flow * SECONDS_PER_HOUR)
}

/// Points of a line: pressure, Pa, and flow, m³/h.
type Line = (Stroke, Vec<(f64, f64)>);

/// The survey\u{2019}s curve below the laws fitted.
fn lines(outcome: &FanOutcome) -> Vec<Line> {
    let (low, high) = PRESSURES;
    let steps = || (0..=24).map(|step| low * (high / low).powf(f64::from(step) / 24.0));
    let survey = outcome.predicted.iter().map(|predicted| {
        let points =
            steps().map(|pressure| (pressure, predicted.flow_at(pressure) * SECONDS_PER_HOUR));
        (SURVEY, points.collect())
    });
    let fits = outcome.fits.iter().map(|fitted| {
        let look = style(fitted.direction);
        let points = steps().map(|pressure| {
            (
                pressure,
                fitted.fit.flow_at(pressure).value * SECONDS_PER_HOUR,
            )
        });
        (Stroke::solid(look.role, look.width), points.collect())
    });
    survey.chain(fits).collect()
}

fn grid(scene: &mut Scene, axes: &Axes) {
    let thin = Stroke::solid(Role::Faint, 0.15);
    let (low, high) = axes.flows;
    for pressure in MARKED {
        let (top, foot) = (axes.at(pressure, high), axes.at(pressure, low));
        scene.add(Shape::line(vec![top, foot], thin));
        let at = Point::new(foot.x, foot.y + 2.5);
        scene.text(
            at,
            format!("{pressure}"),
            LETTERS,
            Role::Faint,
            Anchor::Middle,
        );
    }
    let mut last = f64::INFINITY;
    for flow in round_between(low, high) {
        let (left, right) = (axes.at(PRESSURES.0, flow), axes.at(PRESSURES.1, flow));
        scene.add(Shape::line(vec![left, right], thin));
        if last - left.y < 4.0 {
            continue;
        }
        last = left.y;
        let at = Point::new(left.x - 1.0, left.y);
        // The number has its unit, so that it is shown in the unit chosen.
        let words = crate::assess::number::significant(flow, 2);
        let words = format!("{words}\u{a0}m³/h");
        scene.text(at, words, LETTERS, Role::Faint, Anchor::Right);
    }
    let corner = axes.at(PRESSURES.1, low);
    let at = Point::new(corner.x, corner.y + 6.0);
    scene.text(at, "pressure, Pa", LETTERS, Role::Ink, Anchor::Right);
    let at = Point::new(1.0, 2.5);
    scene.text(at, "flow", LETTERS, Role::Ink, Anchor::Left);
}

/// 1, 2, 3 and 5 times powers of ten between two numbers.
fn round_between(low: f64, high: f64) -> Vec<f64> {
    let first = low.log10().floor();
    let decades = (0..8).map(|decade| 10.0_f64.powf(first + f64::from(decade)));
    let all = decades.flat_map(|power| [1.0, 2.0, 3.0, 5.0].map(|part| part * power));
    all.filter(|flow| (low..=high).contains(flow)).collect()
}

fn legend(scene: &mut Scene, outcome: &FanOutcome) {
    let mut x = ROOM.0;
    let y = 7.5;
    let mut entry = |scene: &mut Scene, stroke: Stroke, marked: Option<Style>, words: &str| {
        let line = vec![Point::new(x, y), Point::new(x + 7.0, y)];
        scene.add(Shape::line(line, stroke));
        if let Some(look) = marked {
            styles::mark(scene, Point::new(x + 3.5, y), MARKER, look);
        }
        let at = Point::new(x + 8.5, y);
        scene.text(at, words, LETTERS, Role::Ink, Anchor::Left);
        let letters = crate::physics::counts::count(words.chars().count());
        x += 12.0 + letters * LETTERS * 0.55;
    };
    for fitted in &outcome.fits {
        let look = style(fitted.direction);
        let words = match fitted.direction {
            Direction::Depressurising => "blowing out",
            Direction::Pressurising => "blowing in",
        };
        entry(
            scene,
            Stroke::solid(look.role, look.width),
            Some(look),
            words,
        );
    }
    if outcome.predicted.is_ok() {
        entry(scene, SURVEY, None, "by the survey");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_flows_lie_between_the_ends() {
        assert_eq!(round_between(40.0, 320.0), [50.0, 100.0, 200.0, 300.0]);
        assert!(round_between(41.0, 43.0).is_empty());
    }

    #[test]
    fn a_power_law_stands_as_a_straight_line() {
        let axes = Axes {
            width: 120.0,
            height: 80.0,
            flows: (10.0, 1000.0),
        };
        let at = |pressure: f64| axes.at(pressure, 12.0 * pressure.powf(0.65));
        let (a, b, c) = (at(5.0), at(20.0), at(80.0));
        let slope = |one: Point, other: Point| (other.y - one.y) / (other.x - one.x);
        assert!((slope(a, b) - slope(b, c)).abs() < 1e-9);
        assert!(c.y < a.y && c.x > a.x);
    }
}
