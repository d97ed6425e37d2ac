//! The options beside each other: the relative humidity each brings, from still to windy, against
//! the target.

use super::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::assess::drying::{Comparison, OptionAnswer, Verdict};
use crate::assess::quantity::Kind;

/// Height of an option's row, mm.
const ROW: f64 = 6.4;
/// Height of the line below it for the same option after the plan, mm.
const AFTER: f64 = 4.6;
/// Height of the head with the target's name, mm.
const HEAD: f64 = 9.0;
/// Height of the axis at the foot, mm.
const FOOT: f64 = 9.0;
/// Width of the figures and verdicts at the right, mm.
const RIGHT: f64 = 58.0;
/// Room for a mark at the right end of the scale, mm.
const CLEAR: f64 = 4.0;
/// Right ends of the figures for still and windy weather from the left of those, mm.
const STILL: f64 = 10.5;
const WINDY: f64 = 23.0;
/// Height of letters, mm.
const LETTER: f64 = 2.5;
/// Width of a letter on average, in heights of it.
const LETTER_WIDTH: f64 = 0.62;
/// Room that a label of the axis wants, mm.
const LABEL: f64 = 9.0;
/// Half the height of a band, mm.
const BAND: f64 = 1.5;

/// Draws the options `width` mm wide, one row each, in the comparison's order.
///
/// A row shows a hollow ring where it is calmest, a filled square where it is windiest, and a band
/// between the two; figures and the verdict in words stand beside it. Once gaps are planned, a
/// second line shows the same option with those gaps sealed.
#[must_use]
pub fn options(comparison: &Comparison, width: f64) -> Scene {
    let rows: Vec<Row<'_>> = (1..)
        .zip(&comparison.options)
        .map(|(number, option): (usize, _)| Row {
            number,
            name: &option.name,
            now: Line::new(comparison, option),
            then: after_plan(comparison, number - 1),
        })
        .collect();
    let height = HEAD + rows.iter().map(Row::height).sum::<f64>() + FOOT;
    let mut scene = Scene::new(width, height);
    scene.description = description(comparison, &rows);
    let axis = Axis::new(comparison.target_rh, &rows, width, height - FOOT);
    axis.draw(&mut scene);
    heads(&mut scene, width);
    let mut top = HEAD;
    for row in &rows {
        row.draw(&mut scene, &axis, top + ROW / 2.0);
        top += row.height();
    }
    axis.target(&mut scene, comparison.target_rh);
    scene
}

/// An option with the planned gaps sealed; nothing while none is planned.
fn after_plan(comparison: &Comparison, option: usize) -> Option<Line<'_>> {
    let then = comparison.after_plan.as_ref()?.comparison.as_ref().ok()?;
    Some(Line::new(then, then.options.get(option)?))
}

fn humidity(option: &OptionAnswer, case: usize) -> Option<f64> {
    let case = option.cases.get(case)?.as_ref().ok()?;
    Some(case.rh)
}

fn percent(rh: f64) -> String {
    Kind::RelativeHumidity.text(rh)
}

/// Verdict in a sign and words, and the colour that says the same once more.
#[must_use]
pub fn verdict_words(option: &OptionAnswer) -> (&'static str, Role) {
    match option.verdict {
        Ok(Verdict::StillAndWindy) => ("✔ still and windy", Role::Well),
        Ok(Verdict::OnlyStill) => ("▲ only when still", Role::Partly),
        Ok(Verdict::OnlyWindy) => ("▲ only when windy", Role::Partly),
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
        words.push_str(&format!("; {}: {}", row.name, row.now.told()));
        if let Some(then) = &row.then {
            words.push_str(&format!("; after the plan: {}", then.told()));
        }
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
        let lines = rows
            .iter()
            .flat_map(|row| [Some(&row.now), row.then.as_ref()]);
        let lines = lines.flatten();
        let shown = lines.flat_map(|line| [line.still, line.windy]).flatten();
        let least = shown.fold(target, f64::min);
        let least = ((least - 0.03) * 10.0).floor() / 10.0;
        let left = (width * 0.27).clamp(34.0, 82.0);
        Self {
            left,
            right: (width - RIGHT - CLEAR).max(left + 20.0),
            bottom,
            least: least.clamp(0.0, 0.9),
        }
    }

    fn x(&self, rh: f64) -> f64 {
        let share = (rh - self.least) / (1.0 - self.least);
        self.left + share.clamp(0.0, 1.0) * (self.right - self.left)
    }

    fn upright(&self, rh: f64, top: f64, stroke: Stroke) -> Shape {
        let x = self.x(rh);
        Shape::line(vec![Point::new(x, top), Point::new(x, self.bottom)], stroke)
    }

    /// Every how many tenths there is room for a label.
    fn labelled(&self) -> i32 {
        let apart = (self.right - self.left) / (1.0 - self.least) / 10.0;
        [1, 2, 5]
            .into_iter()
            .find(|tenths| apart * f64::from(*tenths) >= LABEL)
            .unwrap_or(10)
    }

    fn draw(&self, scene: &mut Scene) {
        for tenth in 0..=10 {
            let rh = f64::from(tenth) / 10.0;
            if rh < self.least - 1e-9 {
                continue;
            }
            scene.add(self.upright(rh, HEAD - 1.0, Stroke::solid(Role::Ground, 0.2)));
            if tenth % self.labelled() == 0 {
                let at = Point::new(self.x(rh), self.bottom + 2.2);
                scene.text(at, percent(rh), 2.2, Role::Faint, Anchor::Middle);
            }
        }
        let middle = f64::midpoint(self.left, self.right);
        let at = Point::new(middle, self.bottom + 6.0);
        scene.text(at, "RH inside", 2.2, Role::Faint, Anchor::Middle);
    }

    fn target(&self, scene: &mut Scene, target: f64) {
        scene.add(self.upright(target, HEAD - 2.0, Stroke::dashed(Role::Own, 0.45)));
        let at = Point::new(self.x(target), 3.6);
        let words = format!("target {}", percent(target));
        scene.text(at, words, LETTER, Role::Own, Anchor::Middle);
    }
}

/// The heads over the figures, each behind its sign.
fn heads(scene: &mut Scene, width: f64) {
    let still = Point::new(width - RIGHT + STILL, 3.6);
    let windy = Point::new(width - RIGHT + WINDY, 3.6);
    for (at, words) in [(still, "still"), (windy, "windy")] {
        scene.text(at, words, 2.2, Role::Faint, Anchor::Right);
    }
    ring(scene, Point::new(still.x - 1.2, 7.0), Role::Ink);
    square(scene, Point::new(windy.x - 1.2, 7.0), Role::Ink);
}

fn ring(scene: &mut Scene, centre: Point, role: Role) {
    scene.add(Shape::circle(
        centre,
        1.15,
        Role::Body,
        Stroke::solid(role, 0.45),
    ));
}

fn square(scene: &mut Scene, centre: Point, role: Role) {
    scene.add(Shape::rectangle(around(centre, 1.05, 1.05), role, None));
}

/// The corners of a rectangle round a point.
fn around(centre: Point, half_width: f64, half_height: f64) -> (Point, Point) {
    let corner =
        |side: f64| Point::new(centre.x + side * half_width, centre.y + side * half_height);
    (corner(-1.0), corner(1.0))
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
    number: usize,
    name: &'a str,
    now: Line<'a>,
    /// With the planned gaps sealed.
    then: Option<Line<'a>>,
}

impl Row<'_> {
    fn height(&self) -> f64 {
        if self.then.is_some() {
            ROW + AFTER
        } else {
            ROW
        }
    }

    fn draw(&self, scene: &mut Scene, axis: &Axis, y: f64) {
        let number = Point::new(5.0, y);
        scene.text(
            number,
            self.number.to_string(),
            LETTER,
            Role::Faint,
            Anchor::Right,
        );
        let name = shortened(self.name, axis.left - 9.0);
        scene.text(Point::new(6.5, y), name, LETTER, Role::Ink, Anchor::Left);
        self.now.draw(scene, axis, y, BAND);
        if let Some(then) = &self.then {
            let y = y + AFTER;
            let at = Point::new(6.5, y);
            scene.text(at, "after the plan", 2.2, Role::Faint, Anchor::Left);
            then.draw(scene, axis, y, BAND * 0.6);
        }
    }
}

/// What an option brings, as surveyed or after the plan.
struct Line<'a> {
    option: &'a OptionAnswer,
    still: Option<f64>,
    windy: Option<f64>,
}

impl<'a> Line<'a> {
    fn new(comparison: &Comparison, option: &'a OptionAnswer) -> Self {
        Self {
            option,
            still: humidity(option, comparison.calmest),
            windy: humidity(option, comparison.windiest),
        }
    }

    fn told(&self) -> String {
        let figure = |rh: Option<f64>| rh.map_or_else(|| "not known".to_owned(), percent);
        let verdict = verdict_words(self.option).0;
        format!(
            "still {}, windy {}, {}",
            figure(self.still),
            figure(self.windy),
            verdict
                .trim_start_matches(|sign: char| !sign.is_ascii())
                .trim()
        )
    }

    fn draw(&self, scene: &mut Scene, axis: &Axis, y: f64, half_band: f64) {
        let (words, role) = verdict_words(self.option);
        if let (Some(still), Some(windy)) = (self.still, self.windy) {
            let (from, to) = (axis.x(still.min(windy)), axis.x(still.max(windy)));
            let centre = Point::new(f64::midpoint(from, to), y);
            let half = (to - from) / 2.0;
            let band = around(centre, half, half_band);
            scene.add(Shape::rectangle(
                band,
                Role::Glass,
                Stroke::solid(role, 0.25),
            ));
            ring(scene, Point::new(axis.x(still), y), role);
            square(scene, Point::new(axis.x(windy), y), role);
        } else {
            let at = Point::new(axis.left + 2.0, y);
            scene.text(at, "not known", LETTER, Role::Faint, Anchor::Left);
        }
        let right = scene.width - RIGHT;
        for (x, rh) in [(STILL, self.still), (WINDY, self.windy)] {
            if let Some(rh) = rh {
                let at = Point::new(right + x, y);
                scene.text(at, percent(rh), LETTER, Role::Ink, Anchor::Right);
            }
        }
        let at = Point::new(right + WINDY + 3.0, y);
        scene.text(at, words, LETTER, role, Anchor::Left);
    }
}

#[cfg(test)]
mod tests;
