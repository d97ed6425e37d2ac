//! The gaps on the body: area by leakage, shape by purpose, outline by certainty.

use super::Show;
use super::layout::Layout;
use crate::assess::{Assessment, DirectionAnswer, GapLeakage};
use crate::figure::scene::{Anchor, Dash, Point, Role, Scene, Shape};
use crate::survey::Survey;
use crate::survey::gap::{Certainty, Facing, Gap, Purpose, WorkState};

/// Radius of the smallest mark, mm, also of gaps that are not sized.
const LEAST_RADIUS: f64 = 1.3;
/// Radius of the largest mark, mm.
const MOST_RADIUS: f64 = 6.0;
/// EqLA of the gap with the largest mark, m²; larger ones are drawn no larger.
const MOST_AREA: f64 = 60e-4;

/// Radius by leakage area: the mark's area grows in proportion.
fn radius(leakage: &GapLeakage) -> f64 {
    let area = leakage.figures().map_or(0.0, |figures| figures.eqla);
    (MOST_RADIUS * (area / MOST_AREA).sqrt()).clamp(LEAST_RADIUS, MOST_RADIUS)
}

fn role(gap: &Gap) -> Role {
    match gap.purpose {
        Purpose::Unintended => Role::Leak,
        Purpose::SafetyVentilation | Purpose::GasDropOut | Purpose::ApplianceAir => Role::Protected,
        Purpose::Drain | Purpose::UserVentilation => Role::Own,
    }
}

fn dash(certainty: Certainty) -> Dash {
    match certainty {
        Certainty::Measured => Dash::Solid,
        Certainty::Estimated => Dash::Dashed,
        Certainty::Guessed => Dash::Dotted,
    }
}

/// A regular polygon with its first corner at an angle, degrees clockwise from the top.
fn regular(centre: Point, radius: f64, corners: u32, first_deg: f64) -> Vec<Point> {
    (0..corners)
        .map(|corner| {
            let share = f64::from(corner) / f64::from(corners);
            let angle = (first_deg + 360.0 * share).to_radians();
            Point::new(
                centre.x + radius * angle.sin(),
                centre.y - radius * angle.cos(),
            )
        })
        .collect()
}

/// The shape of a purpose: circle unintended, square safety ventilation, triangle pointing down
/// gas drop-out, hexagon appliance air, diamond drain, triangle pointing up user ventilation.
fn shape(centre: Point, radius: f64, gap: &Gap, fill: Option<Role>, outline: Role) -> Shape {
    let (width, dash) = (0.45, dash(gap.certainty));
    let polygon = |corners, first_deg, stretch: f64| Shape::Polygon {
        points: regular(centre, radius * stretch, corners, first_deg),
        fill,
        outline: Some(outline),
        width,
        dash,
    };
    // The stretch gives every shape about the area of the circle.
    match gap.purpose {
        Purpose::Unintended => Shape::Circle {
            centre,
            radius,
            fill,
            outline: Some(outline),
            width,
            dash,
        },
        Purpose::SafetyVentilation => polygon(4, 45.0, 1.25),
        Purpose::GasDropOut => polygon(3, 180.0, 1.55),
        Purpose::ApplianceAir => polygon(6, 0.0, 1.1),
        Purpose::Drain => polygon(4, 0.0, 1.25),
        Purpose::UserVentilation => polygon(3, 0.0, 1.55),
    }
}

/// Draws all gaps, the largest first, so that small ones lie on top.
pub(super) fn gaps(
    scene: &mut Scene,
    layout: &Layout,
    survey: &Survey,
    assessment: &Assessment,
    show: &Show<'_>,
) {
    let mut placed: Vec<(&Gap, Point, bool, f64)> = survey
        .gaps
        .iter()
        .map(|gap| {
            let leakage = assessment.gaps.iter().find(|answer| answer.id == gap.id);
            let radius = leakage.map_or(LEAST_RADIUS, |answer| radius(&answer.leakage));
            let (point, complete) = layout.place(gap.facing, &gap.position);
            (gap, point, complete, radius)
        })
        .collect();
    placed.sort_by(|a, b| b.3.total_cmp(&a.3).then(a.0.id.cmp(&b.0.id)));
    for (gap, centre, complete, radius) in placed {
        let selected = show.selected == Some(gap.id);
        let sealed = gap.state == WorkState::Sealed;
        let role = role(gap);
        let outline = if selected { Role::Selected } else { Role::Ink };
        // A gap without a full place is drawn hollow in the middle of its face.
        let fill = (complete && !sealed).then_some(role);
        scene.add_gap(gap.id, shape(centre, radius, gap, fill, outline));
        if selected {
            scene.add(Shape::Circle {
                centre,
                radius: radius + 1.6,
                fill: None,
                outline: Some(Role::Selected),
                width: 0.6,
                dash: Dash::Solid,
            });
        }
        if show.numbers || selected {
            let at = Point::new(centre.x + radius + 0.9, centre.y - radius - 0.4);
            let role = if selected { Role::Selected } else { Role::Ink };
            scene.text(at, gap.id.to_string(), 2.2, role, Anchor::Left);
        }
    }
}

/// Draws the air of one direction: arrows towards the middle of the body come in, arrows away
/// from it go out, broad ones carry more.
pub(super) fn flows(
    scene: &mut Scene,
    layout: &Layout,
    survey: &Survey,
    direction: &DirectionAnswer,
) {
    let most = direction
        .flows
        .iter()
        .flatten()
        .map(|flow| flow.in_kg_s.max(flow.out_kg_s))
        .fold(0.0, f64::max);
    if most <= 0.0 {
        return;
    }
    for (gap, flow) in survey.gaps.iter().zip(&direction.flows) {
        let Some(flow) = flow else { continue };
        let Some((at, reach)) = scene.gap_extent(gap.id) else {
            continue;
        };
        for (amount, role, inward) in [
            (flow.in_kg_s, Role::Inward, true),
            (flow.out_kg_s, Role::Outward, false),
        ] {
            // Below a five-hundredth of the largest nothing could be seen.
            if amount > most / 500.0 {
                let strength = (amount / most).sqrt();
                arrow(scene, layout, gap, (at, reach), strength, role, inward);
            }
        }
    }
}

fn arrow(
    scene: &mut Scene,
    layout: &Layout,
    gap: &Gap,
    (at, reach): (Point, f64),
    strength: f64,
    role: Role,
    inward: bool,
) {
    let face = layout.drawn_on(gap.facing, &gap.position);
    let (dx, dy): (f64, f64) = match face {
        Facing::Nearside => (0.0, -1.0),
        Facing::Offside => (0.0, 1.0),
        Facing::Front => (1.0, 0.0),
        Facing::Rear => (-1.0, 0.0),
        Facing::Roof => (0.7, 0.7),
        Facing::Underfloor | Facing::Cavity(_) => (0.7, -0.7),
    };
    let length = 4.0 + 7.0 * strength;
    // A tall gap may do both: its arrows stand side by side.
    let aside = if inward { 0.9 } else { -0.9 };
    let at = Point::new(at.x + dy.abs() * aside, at.y + dx.abs() * aside);
    let near = Point::new(at.x - dx * reach, at.y - dy * reach);
    let far = Point::new(near.x - dx * length, near.y - dy * length);
    let (from, to) = if inward { (far, near) } else { (near, far) };
    scene.add(Shape::Arrow {
        from,
        to,
        role,
        width: 0.3 + 1.4 * strength,
    });
}
