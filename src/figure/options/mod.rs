//! The options beside each other: the relative humidity each brings in every weather case, against
//! the target, and for how much of the season it holds it.

use super::letters::wide;
use super::scene::{Anchor, Dash, Point, Role, Scene, Shape, Stroke};
use super::styles::{self, Style};
use crate::assess::drying::{Comparison, OptionAnswer, Standing};
use crate::assess::quantity::Kind;
use crate::physics::counts::count;

/// Height of an option's row, mm.
const ROW: f64 = 6.8;
/// Height of the line below it for the same option after the plan, mm.
const AFTER: f64 = 5.4;
/// Height of a line of the key to the marks, mm.
const KEY: f64 = 4.2;
/// Height of the head with the target's name, mm.
const HEAD: f64 = 8.0;
/// Height of the axis at the foot, mm.
const FOOT: f64 = 9.0;
/// Width of the season's bar and the verdict at the right, mm.
const RIGHT: f64 = 60.0;
/// Width of the season's bar, mm.
const SEASON: f64 = 17.0;
/// Half its height, mm.
const SEASON_HALF: f64 = 1.3;
/// Room for a mark at the right end of the scale, mm.
const CLEAR: f64 = 4.0;
/// Height of letters, mm.
const LETTER: f64 = 2.5;
/// Width of a letter on average, in heights of it.
const LETTER_WIDTH: f64 = 0.62;
/// Room that a label of the axis wants, mm.
const LABEL: f64 = 9.0;
/// Half the size of a mark, mm.
const MARK: f64 = 0.9;
/// From one weather case's mark to the next, and from the first to the last at most, mm.
const APART: f64 = 1.6;
const SPREAD: f64 = 4.2;
/// Room before and behind an option's name, mm; least and greatest room for names with it, mm and as a share
/// of the width; least room for the marks, mm.
const BESIDE_NAME: f64 = 9.0;
const LEAST_NAMES: f64 = 34.0;
const NAMES: f64 = 0.4;
const LEAST_SCALE: f64 = 20.0;
/// Letters of a weather case's name in the key.
const NAME_MOST: usize = 30;

/// Draws the options `width` mm wide, one row each, in the comparison's order.
///
/// A row shows a mark for each weather case, as those are marked throughout, one below the other so
/// that none hides another; beside them a bar of the season, as wide for each case as its share, filled
/// where the target is held; then the verdict in words. Once gaps are planned, a second line shows the
/// same option with those gaps sealed.
#[must_use]
pub fn options(comparison: &Comparison, width: f64) -> Scene {
    let extremes = (comparison.calmest, comparison.windiest);
    let marks = styles::of_cases(comparison.cases.len(), extremes);
    let rows: Vec<Row<'_>> = (1..)
        .zip(&comparison.options)
        .map(|(number, option): (usize, _)| Row {
            number,
            name: &option.name,
            now: Line::new(comparison, option),
            then: after_plan(comparison, number - 1),
        })
        .collect();
    let key = Key::new(comparison, width);
    let top = key.height + HEAD;
    let height = top + rows.iter().map(Row::height).sum::<f64>() + FOOT;
    let mut scene = Scene::new(width, height);
    scene.description = description(comparison, &rows);
    key.draw(&mut scene, &marks);
    let axis = Axis::new(comparison.target_rh, &rows, width, (top, height - FOOT));
    axis.draw(&mut scene);
    let at = Point::new(width - RIGHT, top - 4.4);
    scene.text(at, "held, by the season", 2.2, Role::Faint, Anchor::Left);
    let mut y = top;
    for row in &rows {
        row.draw(&mut scene, (&axis, &marks), y + ROW / 2.0);
        y += row.height();
    }
    axis.target(&mut scene, comparison.target_rh);
    scene
}

/// An option with the planned gaps sealed; nothing while none is planned.
fn after_plan(comparison: &Comparison, option: usize) -> Option<Line<'_>> {
    let then = comparison.after_plan.as_ref()?.comparison.as_ref().ok()?;
    Some(Line::new(then, then.options.get(option)?))
}

fn percent(rh: f64) -> String {
    Kind::RelativeHumidity.text(rh)
}

/// The colour that says once more what the sign of a verdict says.
#[must_use]
pub fn role(standing: Standing) -> Role {
    match standing {
        Standing::Well => Role::Well,
        Standing::Partly => Role::Partly,
        Standing::Not | Standing::NotKnown => Role::Faint,
    }
}

fn description(comparison: &Comparison, rows: &[Row<'_>]) -> String {
    let mut words = format!(
        "Relative humidity that each option brings in each weather case, and for how much of the season \
         it holds the target of {}",
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

/// The weather cases with their marks, in as many lines as they take.
struct Key {
    entries: Vec<(Point, String)>,
    height: f64,
}

impl Key {
    fn new(comparison: &Comparison, width: f64) -> Self {
        let mut at = Point::new(5.5, KEY / 2.0);
        let mut entries = Vec::new();
        for case in &comparison.cases {
            let name: String = case.name.chars().take(NAME_MOST).collect();
            let words = if comparison.cases.len() > 1 && comparison.weights > 0.0 {
                format!("{name}, {}", Kind::Share.text(case.share))
            } else {
                name
            };
            let long = length(&words) + 9.0;
            if at.x > 5.5 && at.x + long > width {
                at = Point::new(5.5, at.y + KEY);
            }
            entries.push((at, words));
            at.x += long;
        }
        Self {
            entries,
            height: at.y + KEY / 2.0,
        }
    }

    fn draw(&self, scene: &mut Scene, marks: &[Style]) {
        for ((at, words), style) in self.entries.iter().zip(marks) {
            styles::mark(scene, *at, MARK, *style);
            let at = Point::new(at.x + 2.5, at.y);
            scene.text(at, words.as_str(), LETTER, Role::Ink, Anchor::Left);
        }
    }
}

/// How long words are about, mm.
fn length(words: &str) -> f64 {
    count(words.chars().count()) * LETTER * LETTER_WIDTH
}

struct Axis {
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    least: f64,
}

impl Axis {
    /// From a round tenth below everything shown up to saturation.
    fn new(target: f64, rows: &[Row<'_>], width: f64, (top, bottom): (f64, f64)) -> Self {
        let lines = rows
            .iter()
            .flat_map(|row| [Some(&row.now), row.then.as_ref()]);
        let lines = lines.flatten();
        let shown = lines.flat_map(|line| line.humidities.iter().flatten().copied());
        let least = shown.fold(target, f64::min);
        let least = ((least - 0.03) * 10.0).floor() / 10.0;
        // As the names are long, while the marks keep room.
        let names = rows.iter().map(|row| wide(row.name, LETTER) + BESIDE_NAME);
        let most = (NAMES * width).min(width - RIGHT - CLEAR - LEAST_SCALE);
        let left = names.fold(LEAST_NAMES, f64::max).min(most.max(LEAST_NAMES));
        Self {
            left,
            right: (width - RIGHT - CLEAR).max(left + LEAST_SCALE),
            top,
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
        let points = vec![Point::new(x, top), Point::new(x, self.bottom)];
        Shape::line(points, Stroke { role, width, dash })
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
            scene.add(self.upright(rh, self.top - 1.0, Role::Ground, 0.2, Dash::Solid));
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
        scene.add(self.upright(target, self.top - 2.0, Role::Own, 0.45, Dash::Dashed));
        let at = Point::new(self.x(target), self.top - 4.4);
        let words = format!("target {}", percent(target));
        scene.text(at, words, LETTER, Role::Own, Anchor::Middle);
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

    fn draw(&self, scene: &mut Scene, scale: (&Axis, &[Style]), y: f64) {
        let number = Point::new(5.0, y);
        scene.text(
            number,
            self.number.to_string(),
            LETTER,
            Role::Faint,
            Anchor::Right,
        );
        let looks = (Role::Ink, Anchor::Left);
        let room = scale.0.left - BESIDE_NAME;
        scene.text_within(Point::new(6.5, y), self.name, LETTER, looks, room);
        self.now.draw(scene, scale, y);
        if let Some(then) = &self.then {
            let y = y + f64::midpoint(ROW, AFTER);
            let at = Point::new(6.5, y);
            scene.text(at, "after the plan", 2.2, Role::Faint, Anchor::Left);
            then.draw(scene, scale, y);
        }
    }
}

/// What an option brings, as surveyed or after the plan.
struct Line<'a> {
    comparison: &'a Comparison,
    option: &'a OptionAnswer,
    /// In each weather case.
    humidities: Vec<Option<f64>>,
}

impl<'a> Line<'a> {
    fn new(comparison: &'a Comparison, option: &'a OptionAnswer) -> Self {
        let cases = option.cases.iter();
        Self {
            comparison,
            option,
            humidities: cases
                .map(|case| case.as_ref().ok().map(|state| state.rh))
                .collect(),
        }
    }

    fn told(&self) -> String {
        let cases = self.comparison.cases.iter().zip(&self.humidities);
        let each = cases.map(|(case, rh)| {
            let rh = rh.map_or_else(|| "not known".to_owned(), percent);
            format!("{rh} in “{}”", case.name)
        });
        let each: Vec<String> = each
            .chain([self.option.verdict_words(self.comparison)])
            .collect();
        each.join(", ")
    }

    fn draw(&self, scene: &mut Scene, (axis, marks): (&Axis, &[Style]), y: f64) {
        let known = || self.humidities.iter().flatten().copied();
        if known().next().is_none() {
            let at = Point::new(axis.left + 2.0, y);
            scene.text(at, "not known", LETTER, Role::Faint, Anchor::Left);
        } else {
            let low = axis.x(known().fold(f64::INFINITY, f64::min));
            let high = axis.x(known().fold(f64::NEG_INFINITY, f64::max));
            let range = vec![Point::new(low, y), Point::new(high, y)];
            scene.add(Shape::line(range, Stroke::solid(Role::Faint, 0.3)));
        }
        let steps = count(self.humidities.len().saturating_sub(1));
        let step = APART.min(SPREAD / steps.max(1.0));
        let mut at = y - steps * step / 2.0;
        for (rh, style) in self.humidities.iter().zip(marks) {
            if let Some(rh) = rh {
                styles::mark(scene, Point::new(axis.x(*rh), at), MARK, *style);
            }
            at += step;
        }
        let standing = self.option.standing();
        let words = self
            .option
            .signed_verdict(self.comparison)
            .replace(" of the season", "");
        let left = scene.width - RIGHT;
        self.season(scene, Point::new(left, y));
        let at = Point::new(left + SEASON + 2.0, y);
        let looks = (role(standing), Anchor::Left);
        scene.text_within(at, &words, LETTER, looks, RIGHT - SEASON - 2.0);
    }

    /// The season from left to right, each weather case as wide as its share, filled where it is held.
    fn season(&self, scene: &mut Scene, mut at: Point) {
        for (case, state) in self.comparison.cases.iter().zip(&self.option.cases) {
            let width = case.share * SEASON;
            let Ok(state) = state else {
                at.x += width;
                continue;
            };
            if width > 0.0 {
                let fill = state.holds.then_some(Role::Well);
                let from = Point::new(at.x, at.y - SEASON_HALF);
                let to = Point::new(at.x + width, at.y + SEASON_HALF);
                let outline = Stroke::solid(Role::Faint, 0.25);
                scene.add(Shape::rectangle((from, to), fill, outline));
            }
            at.x += width;
        }
    }
}

#[cfg(test)]
mod tests;
