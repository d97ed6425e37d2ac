//! The options beside each other: the relative humidity each brings, from still to windy, against
//! the target.

use super::scene::{Anchor, Dash, Point, Role, Scene, Shape};
use crate::assess::drying::{Comparison, OptionAnswer, Verdict};

/// Height of an option's row, mm.
const ROW: f64 = 6.4;
/// Height of the head with the target's name, mm.
const HEAD: f64 = 9.0;
/// Height of the axis at the foot, mm.
const FOOT: f64 = 9.0;
/// Width of the figures and verdicts at the right, mm.
const RIGHT: f64 = 58.0;
/// Height of letters, mm.
const LETTER: f64 = 2.5;
/// Width of a letter on average, in heights of it.
const LETTER_WIDTH: f64 = 0.62;
/// Half the height of a band, mm.
const BAND: f64 = 1.5;

/// Draws the options `width` mm wide, one row each, in the comparison's order.
///
/// A row shows a hollow ring where it is calmest, a filled square where it is windiest, and a band
/// between the two; figures and the verdict in words stand beside it.
#[must_use]
pub fn options(comparison: &Comparison, width: f64) -> Scene {
    let rows: Vec<Row<'_>> = (1..)
        .zip(&comparison.options)
        .map(|(number, option)| Row {
            number,
            option,
            still: humidity(option, comparison.calmest),
            windy: humidity(option, comparison.windiest),
        })
        .collect();
    #[expect(clippy::cast_precision_loss, reason = "a dozen options")]
    let height = HEAD + ROW * rows.len() as f64 + FOOT;
    let mut scene = Scene::new(width, height);
    scene.description = description(comparison, &rows);
    let axis = Axis::new(comparison.target_rh, &rows, width, height - FOOT);
    axis.draw(&mut scene);
    heads(&mut scene, comparison, width);
    let mut y = HEAD + ROW / 2.0;
    for row in &rows {
        row.draw(&mut scene, &axis, y);
        y += ROW;
    }
    axis.target(&mut scene, comparison.target_rh);
    scene
}

fn humidity(option: &OptionAnswer, case: usize) -> Option<f64> {
    let case = option.cases.get(case)?.as_ref().ok()?;
    Some(case.rh)
}

fn percent(rh: f64) -> String {
    format!("{:.0} %", rh * 100.0)
}

/// Verdict in a sign and words, and the colour that says the same once more.
#[must_use]
pub fn verdict_words(option: &OptionAnswer) -> (&'static str, Role) {
    match option.verdict {
        Ok(Verdict::StillAndWindy) => ("✔ still and windy", Role::Second),
        Ok(Verdict::OnlyStill) => ("▲ only when still", Role::Third),
        Ok(Verdict::OnlyWindy) => ("▲ only when windy", Role::Third),
        Ok(Verdict::No) => ("✖ does not hold it", Role::Faint),
        Err(_) => ("ℹ not known", Role::Faint),
    }
}

fn description(comparison: &Comparison, rows: &[Row<'_>]) -> String {
    let mut words = format!(
        "Relative humidity that each option brings, still and windy, against the target of {}",
        percent(comparison.target_rh)
    );
    for row in rows {
        let verdict = verdict_words(row.option).0;
        let figure = |rh: Option<f64>| rh.map_or_else(|| "not known".to_owned(), percent);
        words.push_str(&format!(
            "; {}: still {}, windy {}, {}",
            row.option.name,
            figure(row.still),
            figure(row.windy),
            verdict.trim_start_matches(|sign: char| !sign.is_ascii())
        ));
    }
    words
}

struct Axis {
    left: f64,
    right: f64,
    bottom: f64,
    least: f64,
}

impl Axis {
    /// From a round tenth below everything shown up to saturation.
    fn new(target: f64, rows: &[Row<'_>], width: f64, bottom: f64) -> Self {
        let shown = rows.iter().flat_map(|row| [row.still, row.windy]).flatten();
        let least = shown.fold(target, f64::min);
        let least = ((least - 0.03) * 10.0).floor() / 10.0;
        let left = (width * 0.27).clamp(34.0, 66.0);
        Self {
            left,
            right: (width - RIGHT).max(left + 20.0),
            bottom,
            least: least.clamp(0.0, 0.9),
        }
    }

    fn x(&self, rh: f64) -> f64 {
        let share = (rh - self.least) / (1.0 - self.least);
        self.left + share.clamp(0.0, 1.0) * (self.right - self.left)
    }

    fn upright(&self, rh: f64, top: f64, role: Role, width: f64, dash: Dash) -> Shape {
        let x = self.x(rh);
        Shape::Polyline {
            points: vec![Point::new(x, top), Point::new(x, self.bottom)],
            role,
            width,
            dash,
        }
    }

    fn draw(&self, scene: &mut Scene) {
        for tenth in 0..=10 {
            let rh = f64::from(tenth) / 10.0;
            if rh < self.least - 1e-9 {
                continue;
            }
            scene.add(self.upright(rh, HEAD - 1.0, Role::Ground, 0.2, Dash::Solid));
            let at = Point::new(self.x(rh), self.bottom + 2.2);
            scene.text(at, percent(rh), 2.2, Role::Faint, Anchor::Middle);
        }
        let middle = f64::midpoint(self.left, self.right);
        let at = Point::new(middle, self.bottom + 6.0);
        scene.text(at, "RH inside", 2.2, Role::Faint, Anchor::Middle);
    }

    fn target(&self, scene: &mut Scene, target: f64) {
        scene.add(self.upright(target, HEAD - 2.0, Role::Own, 0.45, Dash::Dashed));
        let at = Point::new(self.x(target), 3.6);
        let words = format!("target {}", percent(target));
        scene.text(at, words, LETTER, Role::Own, Anchor::Middle);
    }
}

/// The heads over the figures, each behind its sign.
fn heads(scene: &mut Scene, comparison: &Comparison, width: f64) {
    let still = Point::new(width - RIGHT + 10.5, 3.6);
    let windy = Point::new(width - RIGHT + 23.0, 3.6);
    let name = |at: usize, usual: &str| {
        let case = comparison.cases.get(at);
        let name = case.map(|case| case.name.trim().to_owned());
        let name = name.filter(|name| !name.is_empty());
        shortened(&name.unwrap_or_else(|| usual.to_owned()), 9.0)
    };
    for (at, words) in [
        (still, name(comparison.calmest, "still")),
        (windy, name(comparison.windiest, "windy")),
    ] {
        scene.text(at, words, 2.2, Role::Faint, Anchor::Right);
    }
    ring(scene, Point::new(still.x - 1.2, 7.0), Role::Ink);
    square(scene, Point::new(windy.x - 1.2, 7.0), Role::Ink);
}

fn ring(scene: &mut Scene, centre: Point, role: Role) {
    scene.add(Shape::Circle {
        centre,
        radius: 1.15,
        fill: Some(Role::Body),
        outline: Some(role),
        width: 0.45,
        dash: Dash::Solid,
    });
}

fn square(scene: &mut Scene, centre: Point, role: Role) {
    scene.add(rectangle(centre, 1.05, 1.05, Some(role), None));
}

fn rectangle(
    centre: Point,
    half_width: f64,
    half_height: f64,
    fill: Option<Role>,
    outline: Option<Role>,
) -> Shape {
    let corner = |x: f64, y: f64| Point::new(centre.x + x, centre.y + y);
    Shape::Polygon {
        points: vec![
            corner(-half_width, -half_height),
            corner(half_width, -half_height),
            corner(half_width, half_height),
            corner(-half_width, half_height),
        ],
        fill,
        outline,
        width: 0.25,
        dash: Dash::Solid,
    }
}

/// Words cut to a width, mm, with a sign that something is missing.
fn shortened(words: &str, width: f64) -> String {
    let fit = (width / (LETTER * LETTER_WIDTH)).floor().max(1.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a number of letters"
    )]
    let fit = fit as usize;
    if words.chars().count() <= fit {
        words.to_owned()
    } else {
        let kept: String = words.chars().take(fit.saturating_sub(1)).collect();
        format!("{}…", kept.trim_end())
    }
}

struct Row<'a> {
    number: u32,
    option: &'a OptionAnswer,
    still: Option<f64>,
    windy: Option<f64>,
}

impl Row<'_> {
    fn draw(&self, scene: &mut Scene, axis: &Axis, y: f64) {
        let (words, role) = verdict_words(self.option);
        let number = Point::new(5.0, y);
        scene.text(
            number,
            self.number.to_string(),
            LETTER,
            Role::Faint,
            Anchor::Right,
        );
        let name = shortened(&self.option.name, axis.left - 9.0);
        scene.text(Point::new(6.5, y), name, LETTER, Role::Ink, Anchor::Left);
        if let (Some(still), Some(windy)) = (self.still, self.windy) {
            let (from, to) = (axis.x(still.min(windy)), axis.x(still.max(windy)));
            let centre = Point::new(f64::midpoint(from, to), y);
            let half = (to - from) / 2.0;
            scene.add(rectangle(centre, half, BAND, Some(Role::Glass), Some(role)));
            ring(scene, Point::new(axis.x(still), y), role);
            square(scene, Point::new(axis.x(windy), y), role);
        } else {
            let at = Point::new(axis.left + 2.0, y);
            scene.text(at, "not known", LETTER, Role::Faint, Anchor::Left);
        }
        let right = scene.width - RIGHT;
        for (x, rh) in [(10.5, self.still), (23.0, self.windy)] {
            if let Some(rh) = rh {
                let at = Point::new(right + x, y);
                scene.text(at, percent(rh), LETTER, Role::Ink, Anchor::Right);
            }
        }
        scene.text(
            Point::new(right + 26.0, y),
            words,
            LETTER,
            role,
            Anchor::Left,
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::compare;
    use crate::survey::file::parse;

    fn comparison() -> Comparison {
        let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
        compare(&parse(text).unwrap()).unwrap()
    }

    fn squares(scene: &Scene) -> Vec<Point> {
        let filled = scene.marks.iter().filter_map(|mark| match &mark.shape {
            Shape::Polygon {
                points,
                fill,
                outline: None,
                ..
            } if fill.is_some() => Some(Point::new(
                f64::midpoint(points[0].x, points[1].x),
                f64::midpoint(points[0].y, points[2].y),
            )),
            _ => None,
        });
        // The first one explains the sign in the head.
        filled.skip(1).collect()
    }

    #[test]
    fn the_windy_marks_stand_in_the_order_of_their_humidity_and_on_their_rows() {
        let comparison = comparison();
        let scene = options(&comparison, 240.0);
        let marks = squares(&scene);
        let rh: Vec<f64> = comparison
            .options
            .iter()
            .filter_map(|option| humidity(option, comparison.windiest))
            .collect();
        assert!(rh.len() >= 8);
        assert_eq!(marks.len(), rh.len());
        for (a, b) in marks.iter().zip(marks.iter().skip(1)) {
            assert!(b.y > a.y);
        }
        // Two marks fix the scale; every other one must lie on it.
        let (low, high) = (
            (0..rh.len())
                .min_by(|a, b| rh[*a].total_cmp(&rh[*b]))
                .unwrap(),
            (0..rh.len())
                .max_by(|a, b| rh[*a].total_cmp(&rh[*b]))
                .unwrap(),
        );
        let scale = (marks[high].x - marks[low].x) / (rh[high] - rh[low]);
        assert!(scale > 0.0);
        for (mark, rh_here) in marks.iter().zip(&rh) {
            let x = marks[low].x + scale * (rh_here - rh[low]);
            assert!((mark.x - x).abs() < 1e-6);
        }
    }

    #[test]
    fn what_is_held_stands_left_of_the_target_line() {
        let comparison = comparison();
        let scene = options(&comparison, 240.0);
        let line = scene.marks.iter().find_map(|mark| match &mark.shape {
            Shape::Polyline {
                points,
                role: Role::Own,
                ..
            } => Some(points[0].x),
            _ => None,
        });
        let line = line.unwrap();
        let with = comparison
            .options
            .iter()
            .filter(|option| humidity(option, comparison.windiest).is_some());
        let mut held = 0;
        for (mark, option) in squares(&scene).iter().zip(with) {
            let windy = option.cases[comparison.windiest].as_ref().unwrap();
            assert_eq!(mark.x <= line + 0.2, windy.holds, "{}", option.name);
            held += u32::from(windy.holds);
        }
        assert!(held > 0);
    }

    #[test]
    fn everything_stays_on_the_sheet_and_names_are_cut_rather_than_overprinted() {
        for width in [150.0, 240.0, 400.0] {
            let mut comparison = comparison();
            comparison.options[2].name = "a name that goes on ".repeat(12);
            let scene = options(&comparison, width);
            for mark in &scene.marks {
                if let Shape::Text {
                    at,
                    text,
                    size,
                    anchor,
                    ..
                } = &mark.shape
                {
                    #[expect(clippy::cast_precision_loss, reason = "a few letters")]
                    let long = text.chars().count() as f64 * size * LETTER_WIDTH;
                    let (from, to) = match anchor {
                        Anchor::Left => (at.x, at.x + long),
                        Anchor::Middle => (at.x - long / 2.0, at.x + long / 2.0),
                        Anchor::Right => (at.x - long, at.x),
                    };
                    assert!(from >= -1.0 && to <= width + 1.0, "{text}: {from} to {to}");
                }
            }
        }
    }

    #[test]
    fn the_description_tells_every_verdict_in_words() {
        let comparison = comparison();
        let words = options(&comparison, 240.0).description;
        for option in &comparison.options {
            assert!(words.contains(&option.name));
        }
        assert!(words.contains("still and windy") || words.contains("only when"));
        assert!(!words.contains('✔') && !words.contains('✖'));
    }
}
