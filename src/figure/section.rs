//! A section through the body: the pressure that drives air in or out at each height, the inside
//! pressure, and the neutral level.

use super::scene::{Anchor, Point, Role, Scene, Shape, Stroke};
use crate::assess::number::significant;
use crate::assess::{CaseAir, DirectionAnswer};
use crate::survey::Vehicle;

const GRAVITY: f64 = 9.81;
/// Heights at which the pressure is drawn.
const ARROWS: u32 = 7;
/// Longest arrow, mm.
const LONGEST: f64 = 22.0;
/// Pressures below this are drawn as none, Pa.
const NOTHING: f64 = 1e-4;

/// Pressure outside less inside at a height, for a gap that the wind neither presses nor sucks,
/// Pa.
///
/// ```text
/// Δp(z) = −p_i − (ρ_o − ρ_i) g (z − z_m)
/// ```
/// p_i inside pressure at mid-height z_m, Pa; ρ density of outside and inside air, kg/m³;
/// z height above ground, m.
#[must_use]
pub fn driving_pressure(air: &CaseAir, direction: &DirectionAnswer, above_middle: f64) -> f64 {
    let lighter = air.outside.density() - air.inside.density();
    -direction.inside_pressure - lighter * GRAVITY * above_middle
}

/// Draws the section `width` mm wide; `None` where floor or roof height is not known.
#[must_use]
pub fn section(
    vehicle: &Vehicle,
    air: &CaseAir,
    direction: &DirectionAnswer,
    width: f64,
) -> Option<Scene> {
    let (floor, roof) = (vehicle.floor_height_m?, vehicle.height_m?);
    if !(roof > floor && floor >= 0.0 && roof.is_finite()) {
        return None;
    }
    let height = width * 0.5;
    let mut scene = Scene::new(width, height);
    let ground = height - 5.0;
    let scale = (ground - 9.0) / roof;
    let y = |z: f64| ground - z * scale;
    let (left, right) = (width * 0.36, width * 0.64);
    body(&mut scene, (left, right), (y(floor), y(roof)), ground);
    let middle = f64::midpoint(floor, roof);
    let at = |z: f64| driving_pressure(air, direction, z - middle);
    let most = at(floor).abs().max(at(roof).abs());
    for step in 0..ARROWS {
        let share = (f64::from(step) + 0.5) / f64::from(ARROWS);
        let z = floor + share * (roof - floor);
        arrow(&mut scene, (left, y(z)), at(z), most);
    }
    for (z, place) in [(floor, "floor"), (roof, "roof")] {
        let words = format!("{} Pa at the {place}", signed(at(z)));
        scene.text(
            Point::new(right + 3.0, y(z)),
            words,
            2.8,
            Role::Ink,
            Anchor::Left,
        );
    }
    let inside = format!("{} Pa", signed(direction.inside_pressure));
    let centre = f64::midpoint(left, right);
    scene.text(
        Point::new(centre, y(middle) - 2.2),
        "inside",
        2.6,
        Role::Faint,
        Anchor::Middle,
    );
    scene.text(
        Point::new(centre, y(middle) + 2.2),
        inside,
        3.0,
        Role::Ink,
        Anchor::Middle,
    );
    let neutral = neutral(
        &mut scene,
        direction.neutral_level,
        (floor, roof),
        (left, right),
        y,
    );
    scene.description = format!(
        "Section through the body. Outside less inside pressure away from the wind: {} Pa at the floor, {} Pa \
         at the roof; inside {} Pa at mid-height; neutral level {neutral}",
        signed(at(floor)),
        signed(at(roof)),
        signed(direction.inside_pressure)
    );
    Some(scene)
}

fn signed(pressure: f64) -> String {
    if pressure.abs() < NOTHING {
        return "0".to_owned();
    }
    let sign = if pressure < 0.0 { "−" } else { "+" };
    format!("{sign}{}", significant(pressure.abs(), 2))
}

fn body(scene: &mut Scene, (left, right): (f64, f64), (floor, roof): (f64, f64), ground: f64) {
    let width = scene.width;
    scene.add(Shape::line(
        vec![
            Point::new(width * 0.04, ground),
            Point::new(width * 0.96, ground),
        ],
        Stroke::solid(Role::Faint, 0.3),
    ));
    for x in [left + (right - left) * 0.14, right - (right - left) * 0.14] {
        let radius = ((ground - floor) * 0.5).max(0.5);
        scene.add(Shape::circle(
            Point::new(x, ground - radius),
            radius,
            Role::Ground,
            Stroke::solid(Role::Ink, 0.3),
        ));
    }
    let corner = 1.6;
    scene.add(Shape::polygon(
        vec![
            Point::new(left, floor),
            Point::new(left, roof + corner),
            Point::new(left + corner, roof),
            Point::new(right - corner, roof),
            Point::new(right, roof + corner),
            Point::new(right, floor),
        ],
        Role::Body,
        Stroke::solid(Role::Ink, 0.5),
    ));
}

/// An arrow at the wall: into the body where air comes in, out of it where it leaves.
fn arrow(scene: &mut Scene, (wall, y): (f64, f64), pressure: f64, most: f64) {
    if pressure.abs() < NOTHING || most <= 0.0 {
        return;
    }
    let length = (LONGEST * pressure.abs() / most).max(1.2);
    let outside = Point::new(wall - length, y);
    let at_wall = Point::new(wall, y);
    let (from, to, role) = if pressure > 0.0 {
        (outside, at_wall, Role::Inward)
    } else {
        (at_wall, outside, Role::Outward)
    };
    scene.add(Shape::arrow(from, to, role, 0.5));
}

/// The line of the neutral level, and the level in words.
fn neutral(
    scene: &mut Scene,
    level: Option<f64>,
    (floor, roof): (f64, f64),
    (left, right): (f64, f64),
    y: impl Fn(f64) -> f64,
) -> String {
    let beyond = |words: &str| words.to_owned();
    let words = match level {
        None => beyond("none: inside and outside air weigh the same"),
        Some(level) if level > roof => beyond("above the roof"),
        Some(level) if level < floor => beyond("below the floor"),
        Some(level) => {
            scene.add(Shape::line(
                vec![
                    Point::new(left - LONGEST, y(level)),
                    Point::new(right + 2.0, y(level)),
                ],
                Stroke::dashed(Role::Own, 0.4),
            ));
            let words = format!("{} m", significant(level, 3));
            let text = format!("neutral level {words}");
            let at = Point::new(right + 3.0, y(level));
            scene.text(at, text, 2.8, Role::Own, Anchor::Left);
            return words;
        }
    };
    let at = Point::new(scene.width * 0.5, 3.0);
    let text = format!("neutral level {words}");
    scene.text(at, text, 2.8, Role::Own, Anchor::Middle);
    words
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::survey::file;

    fn sample() -> crate::survey::Survey {
        let text = include_str!("../../sample-surveys/two-opening-check.ron");
        file::parse(text).unwrap()
    }

    /// Two openings of 100 cm² 2 m apart, 20 °C inside, 0 °C outside, dry air, calm: the neutral
    /// level lies 0.9647 m above the lower (form of API RP 500 \[S\]). The pressure there is none,
    /// and away from it changes by the difference of the densities times g.
    #[test]
    fn the_pressure_is_nothing_at_the_neutral_level() {
        let survey = sample();
        let assessment = assess(&survey);
        let calm = assessment.cases[0].air.as_ref().unwrap();
        // The lower opening stands at 0.5 m.
        let level = calm.directions[0].neutral_level.unwrap();
        assert!((level - 1.4647).abs() < 2e-3, "{level}");
        for case in &assessment.cases {
            let air = case.air.as_ref().unwrap();
            let vehicle = &survey.vehicle;
            let middle = vehicle.middle_height_m().unwrap();
            for direction in &air.directions {
                let Some(level) = direction.neutral_level else {
                    continue;
                };
                let there = driving_pressure(air, direction, level - middle);
                assert!(there.abs() < 1e-6, "{}: {there}", case.name);
                let below = driving_pressure(air, direction, level - middle - 1.0);
                let weight = (air.outside.density() - air.inside.density()) * 9.81;
                assert!((below - weight).abs() < 1e-6, "{}: {below}", case.name);
            }
        }
    }

    #[test]
    fn warm_air_leaves_above_the_neutral_level_and_cold_comes_in_below() {
        let survey = sample();
        let assessment = assess(&survey);
        let air = assessment.cases[0].air.as_ref().unwrap();
        let scene = section(&survey.vehicle, air, &air.directions[0], 90.0).unwrap();
        let arrows: Vec<(f64, bool)> = scene
            .marks
            .iter()
            .filter_map(|mark| match mark.shape {
                Shape::Arrow { from, to, .. } => Some((from.y, to.x > from.x)),
                _ => None,
            })
            .collect();
        assert!(arrows.len() >= 4);
        // Drawn from the floor up: first in, at the top out.
        assert!(arrows.first().unwrap().1, "{arrows:?}");
        assert!(!arrows.last().unwrap().1, "{arrows:?}");
        assert!(arrows.first().unwrap().0 > arrows.last().unwrap().0);
        assert!(scene.description.contains("neutral level"));
    }

    #[test]
    fn without_heights_there_is_no_section() {
        let survey = sample();
        let assessment = assess(&survey);
        let air = assessment.cases[0].air.as_ref().unwrap();
        let mut vehicle = survey.vehicle.clone();
        vehicle.floor_height_m = None;
        assert!(section(&vehicle, air, &air.directions[0], 90.0).is_none());
    }
}
