//! The gaps on the body: area by leakage, shape by purpose, outline by certainty.

use super::labels::{LARGE, LabelPlace, SIZE, labels, labels_as_before};
use super::layout::Layout;
use super::seam::{Openings, seam};
use super::spread::{Placed, spread};
use crate::assess::{Assessment, DirectionAnswer, GapLeakage};
use crate::figure::scene::{Anchor, Dash, Point, Role, Scene, Shape, Stroke, nearest_on_line};
use crate::physics::counts::count;
use crate::survey::gap::{Certainty, Facing, Gap, Purpose, WorkState};
use crate::survey::{FittingId, GapId, Survey};
use std::collections::HashMap;

/// What to draw on the body.
#[derive(Clone, Copy, Debug, Default)]
pub struct Show<'a> {
    /// The gap drawn as selected.
    pub selected: Option<GapId>,
    /// Gaps selected together with it.
    pub also: &'a [GapId],
    /// One wind direction, to draw its flows and neutral level.
    pub direction: Option<&'a DirectionAnswer>,
    /// Whether each mark carries its number.
    pub numbers: bool,
    /// Whether numbers are large: of few marks, on paper that somebody works by.
    pub large: bool,
    /// The fitting drawn as chosen.
    pub fitting: Option<FittingId>,
    /// Where the numbers were, while a mark is being moved: each stays there beside its mark, and no
    /// place is looked for.
    pub before: Option<&'a [LabelPlace]>,
}

/// Where the mark of a gap is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkPlace {
    /// The gap.
    pub gap: GapId,
    /// Middle of its mark.
    pub at: Point,
    /// How far the mark reaches from there, or from its line, mm.
    pub reach: f64,
    /// Its line, of a long gap; empty of any other.
    pub path: Vec<Point>,
    /// The point that moves to another place with the gap.
    pub grip: Point,
    /// The face that it is drawn on.
    pub face: Facing,
    /// How many gaps share the mark, this one counted.
    pub sharing: usize,
}

/// Radius of the smallest mark, mm, also of gaps that are not sized.
const LEAST_RADIUS: f64 = 1.3;
/// Radius of the largest mark, mm.
const MOST_RADIUS: f64 = 6.0;
/// Millimetres for each metre from which marks have their full size.
const FULL_SCALE: f64 = 16.0;
/// EqLA of the gap with the largest mark, m²; larger ones are drawn no larger.
const MOST_AREA: f64 = 60e-4;
/// A gap is drawn as a line from this length on the drawing on, mm …
const LEAST_LINE: f64 = 5.0;
/// … if that is so many times the radius of its mark.
const LONG: f64 = 3.0;
/// The thinnest and the broadest line, mm.
const THINNEST: f64 = 0.7;
const BROADEST: f64 = 2.4;
/// The line of a sealed gap, mm.
const CLOSED: f64 = 0.45;
/// Letters beside the selected mark, mm.
const SELECTED: f64 = 2.6;
/// Width of a letter by its height, on average.
const MEAN_LETTER: f64 = 0.66;
/// Letters of a name beside the selected mark.
const LONGEST_NAME: usize = 26;

/// Radius by leakage area: the mark's area grows in proportion. `most` is that of the largest.
fn radius(leakage: &GapLeakage, most: f64) -> f64 {
    let area = leakage.figures().map_or(0.0, |figures| figures.eqla);
    (most * (area / MOST_AREA).sqrt()).clamp(LEAST_RADIUS, most)
}

/// Radius of the largest mark on a body of this scale: on a small one marks would hide it.
fn largest(scale: f64) -> f64 {
    MOST_RADIUS * (scale / FULL_SCALE).clamp(0.6, 1.0)
}

/// Radius of the largest mark among so many on this body: where they crowd, large ones would hide
/// the rest.
fn among(layout: &Layout, marks: usize) -> f64 {
    let round = 2.0 * (layout.sizes.height_m + layout.sizes.width_m);
    let faces = layout.sizes.length_m * round * layout.scale * layout.scale;
    let spacing = (faces / count(marks.max(1))).sqrt();
    (spacing / 2.0).max(1.5 * LEAST_RADIUS)
}

/// The colour of an opening by what it is there for.
pub(crate) fn role(purpose: Purpose) -> Role {
    match purpose {
        Purpose::Unintended => Role::Leak,
        Purpose::SafetyVentilation | Purpose::GasDropOut | Purpose::ApplianceAir => Role::Protected,
        Purpose::NotSaid | Purpose::Drain | Purpose::UserVentilation => Role::Own,
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
/// gas drop-out, hexagon appliance air, diamond drain, triangle pointing up user ventilation,
/// pentagon not said.
pub(super) fn shape(
    centre: Point,
    radius: f64,
    (purpose, certainty): (Purpose, Certainty),
    fill: Option<Role>,
    outline: Role,
) -> Shape {
    let outline = Stroke::new(outline, 0.45, dash(certainty));
    let polygon = |corners, first_deg, stretch: f64| {
        Shape::polygon(
            regular(centre, radius * stretch, corners, first_deg),
            fill,
            outline,
        )
    };
    // The stretch gives every shape about the area of the circle.
    match purpose {
        Purpose::Unintended => Shape::circle(centre, radius, fill, outline),
        Purpose::NotSaid => polygon(5, 0.0, 1.15),
        Purpose::SafetyVentilation => polygon(4, 45.0, 1.25),
        Purpose::GasDropOut => polygon(3, 180.0, 1.55),
        Purpose::ApplianceAir => polygon(6, 0.0, 1.1),
        Purpose::Drain => polygon(4, 0.0, 1.25),
        Purpose::UserVentilation => polygon(3, 0.0, 1.55),
    }
}

/// How long a line is, mm.
fn length_of(path: &[Point]) -> f64 {
    let ends = path.iter().zip(path.iter().skip(1));
    ends.map(|(from, to)| from.distance(*to)).sum()
}

/// The line of a long gap and how broad it is: the line covers as much as the mark would.
fn line(layout: &Layout, gap: &Gap, openings: &Openings, radius: f64) -> Option<(Vec<Point>, f64)> {
    let path = seam(layout, gap, openings)?;
    let long = length_of(&path);
    if long < LEAST_LINE.max(LONG * radius) {
        return None;
    }
    let breadth = std::f64::consts::PI * radius * radius / long;
    // Not so broad that nobody could see it is broken.
    let breadth = breadth.clamp(THINNEST, BROADEST).min(long / 7.0);
    Some((path, breadth))
}

/// Where every mark is, those that would cover each other apart, in the order of the ledger.
fn placed<'s>(
    layout: &Layout,
    (survey, openings): (&'s Survey, &Openings),
    assessment: &Assessment,
) -> Vec<Placed<'s>> {
    let leakages: HashMap<GapId, &GapLeakage> = assessment
        .gaps
        .iter()
        .map(|answer| (answer.id, &answer.leakage))
        .collect();
    let most = largest(layout.scale).min(among(layout, survey.gaps.len()));
    let mut placed: Vec<Placed<'_>> = survey
        .gaps
        .iter()
        .map(|gap| {
            let leakage = leakages.get(&gap.id);
            let radius = leakage.map_or(LEAST_RADIUS, |leakage| radius(leakage, most));
            let (place, complete) = layout.place(gap.facing, &gap.position);
            let line = line(layout, gap, openings, radius);
            let home = line
                .as_ref()
                .and_then(|(path, _)| nearest_on_line(path, place))
                .unwrap_or(place);
            let (path, breadth) = line.unwrap_or_default();
            Placed {
                gap,
                home,
                at: home,
                // A sign on the line, where the purpose needs one, is as small as a mark may be.
                radius: match (path.is_empty(), gap.purpose) {
                    (true, _) => radius,
                    (false, Purpose::Unintended) => (breadth / 2.0).max(0.6),
                    (false, _) => LEAST_RADIUS,
                },
                path,
                breadth,
                grip: place,
                complete,
                sharing: 1,
                first: true,
            }
        })
        .collect();
    spread(&mut placed);
    placed
}

/// Draws all gaps, the largest first, so that small ones lie on top, and tells where they and their
/// numbers are, in the order of the ledger.
pub(super) fn gaps(
    scene: &mut Scene,
    layout: &Layout,
    (survey, openings): (&Survey, &Openings),
    assessment: &Assessment,
    show: &Show<'_>,
) -> (Vec<MarkPlace>, Vec<LabelPlace>) {
    let placed = placed(layout, (survey, openings), assessment);
    for mark in &placed {
        leader(scene, mark);
    }
    let mut order: Vec<&Placed<'_>> = placed.iter().collect();
    order.sort_by(|a, b| {
        let lines_first = b.is_line().cmp(&a.is_line());
        let larger_first = b.radius.total_cmp(&a.radius);
        lines_first.then(larger_first).then(a.gap.id.cmp(&b.gap.id))
    });
    let order = || order.iter().filter(|mark| mark.first);
    for mark in order() {
        one(scene, mark);
    }
    // After all marks, so that none hides a number.
    let numbered: Vec<(&Placed<'_>, String)> = order()
        .filter_map(|mark| Some((*mark, label(mark, show.numbers)?)))
        .collect();
    let labels = match show.before {
        Some(before) => labels_as_before(scene, &numbered, before),
        None => labels(scene, &numbered, if show.large { LARGE } else { SIZE }),
    };
    let also = placed
        .iter()
        .filter(|mark| show.also.contains(&mark.gap.id));
    for mark in also.filter(|mark| show.selected != Some(mark.gap.id)) {
        ring(scene, mark);
    }
    // Above all others, where nothing covers it.
    let selected = placed
        .iter()
        .find(|mark| show.selected == Some(mark.gap.id));
    if let Some(mark) = selected {
        span(scene, layout, mark);
        highlight(scene, mark);
    }
    let places = placed.iter().map(|mark| MarkPlace {
        gap: mark.gap.id,
        at: mark.at,
        reach: mark.radius,
        path: mark.line(),
        grip: if mark.is_line() { mark.grip } else { mark.at },
        face: layout.drawn_on(mark.gap.facing, &mark.gap.position),
        sharing: mark.sharing,
    });
    (places.collect(), labels)
}

/// A thin line from where a gap is to its mark drawn beside.
fn leader(scene: &mut Scene, mark: &Placed<'_>) {
    if mark.sharing == 1 && !mark.is_line() && mark.home.distance(mark.at) > 0.1 {
        scene.add(Shape::line(
            vec![mark.home, mark.at],
            Stroke::solid(Role::Ink, 0.2),
        ));
    }
}

/// The mark of one gap, or of several that share it.
fn one(scene: &mut Scene, mark: &Placed<'_>) {
    let (gap, centre, radius) = (mark.gap, mark.at, mark.radius);
    let sealed = gap.state == WorkState::Sealed;
    if mark.sharing > 1 {
        return several(scene, mark);
    }
    if mark.is_line() {
        return long(scene, mark);
    }
    // A gap without a full place is drawn hollow in the middle of its face, one that is sealed
    // hollow with a stroke through it.
    let fill = (mark.complete && !sealed).then(|| role(gap.purpose));
    let kind = (gap.purpose, gap.certainty);
    scene.add_gap(gap.id, shape(centre, radius, kind, fill, Role::Ink));
    if sealed {
        let (from, to) = mark.stroke();
        scene.add(Shape::line(vec![from, to], Stroke::solid(Role::Ink, 0.4)));
    }
}

/// A long gap: a line as broad as it leaks, broken as its size is known, with the sign of its
/// purpose on it unless nobody wanted it. Sealed it is thin and struck.
fn long(scene: &mut Scene, mark: &Placed<'_>) {
    let (gap, sealed) = (mark.gap, mark.gap.state == WorkState::Sealed);
    let stroke = if sealed {
        Stroke::solid(Role::Ink, CLOSED)
    } else {
        let dash = dash(gap.certainty);
        Stroke::new(role(gap.purpose), mark.breadth, dash)
    };
    scene.add_gap(gap.id, Shape::line(mark.line(), stroke));
    if gap.purpose != Purpose::Unintended {
        let fill = (!sealed).then(|| role(gap.purpose));
        let kind = (gap.purpose, gap.certainty);
        scene.add_gap(gap.id, shape(mark.at, mark.radius, kind, fill, Role::Ink));
    }
    if sealed {
        let (from, to) = mark.stroke();
        scene.add(Shape::line(vec![from, to], Stroke::solid(Role::Ink, 0.4)));
    }
}

/// The number of a gap, or how many share the mark; nothing where numbers are not shown.
fn label(mark: &Placed<'_>, numbers: bool) -> Option<String> {
    if mark.sharing > 1 {
        return Some(format!("{} gaps", mark.sharing));
    }
    let sign = if mark.complete { "" } else { " ?" };
    numbers.then(|| format!("{}{sign}", mark.gap.id))
}

/// Two rings: too many gaps to be told apart at this size.
fn several(scene: &mut Scene, mark: &Placed<'_>) {
    let ring = |radius, fill| Shape::circle(mark.at, radius, fill, Stroke::solid(Role::Ink, 0.45));
    scene.add_gap(mark.gap.id, ring(mark.reach(), Some(Role::Body)));
    scene.add(ring(mark.radius, Some(Role::Ground)));
}

/// The height that the selected gap spans.
fn span(scene: &mut Scene, layout: &Layout, mark: &Placed<'_>) {
    if mark.is_line() {
        return;
    }
    if let Some((lower, upper)) = layout.ends(mark.gap) {
        scene.add(Shape::line(
            vec![lower, upper],
            Stroke::solid(Role::Selected, 0.5),
        ));
    }
}

/// What marks a gap as selected: a ring round its mark, a broad edge along its line.
fn ring(scene: &mut Scene, mark: &Placed<'_>) {
    if !mark.is_line() {
        scene.add(Shape::circle(
            mark.at,
            mark.radius + 1.6,
            None,
            Stroke::solid(Role::Selected, 0.6),
        ));
        return;
    }
    for (role, beyond) in [(Role::Selected, 1.8), (Role::Body, 0.7)] {
        let stroke = Stroke::solid(role, mark.breadth + beyond);
        scene.add(Shape::line(mark.line(), stroke));
    }
    one(scene, mark);
}

/// What marks it as selected, with its number and name beside.
fn highlight(scene: &mut Scene, mark: &Placed<'_>) {
    let (gap, centre) = (mark.gap, mark.at);
    ring(scene, mark);
    let name = gap.shown_name();
    let words = match name.char_indices().nth(LONGEST_NAME) {
        Some((cut, _)) => format!("{} {}…", gap.id, name.get(..cut).unwrap_or(name)),
        None => format!("{} {name}", gap.id),
    };
    // Under the mark, so that its number above stays readable, and never out of the drawing.
    let (side, anchor) = if centre.x > scene.width * 0.6 {
        (-1.0, Anchor::Right)
    } else {
        (1.0, Anchor::Left)
    };
    let reach = mark.radius + 2.2;
    let at = Point::new(centre.x + side * reach, centre.y + reach * 0.6);
    backing(scene, at, side, words.chars().count());
    scene.text(at, words, SELECTED, Role::Selected, anchor);
}

/// A ground under a text of so many letters, so that lines and marks do not run through it.
fn backing(scene: &mut Scene, at: Point, side: f64, letters: usize) {
    let length = side * (count(letters) * SELECTED * MEAN_LETTER + 0.8);
    let (half, back) = (SELECTED * 0.85, side * -0.6);
    let corner = |x: f64, y: f64| Point::new(at.x + x, at.y + y);
    scene.add(Shape::rectangle(
        (corner(back, -half), corner(length, half)),
        Role::Body,
        Stroke::solid(Role::Selected, 0.2),
    ));
}

/// Draws the air of one direction: arrows from the left down to a mark come in, arrows from it up to
/// the right go out, broad ones carry more.
pub(super) fn flows(scene: &mut Scene, places: &[MarkPlace], direction: &DirectionAnswer) {
    let most = direction
        .flows
        .iter()
        .flatten()
        .map(|flow| flow.in_kg_s.max(flow.out_kg_s))
        .fold(0.0, f64::max);
    if most <= 0.0 {
        return;
    }
    for (flow, place) in direction.flows.iter().zip(places) {
        let Some(flow) = flow else { continue };
        let (at, reach) = (place.at, place.reach);
        for (amount, role, inward) in [
            (flow.in_kg_s, Role::Inward, true),
            (flow.out_kg_s, Role::Outward, false),
        ] {
            // Below a five-hundredth of the largest nothing could be seen.
            if amount > most / 500.0 {
                let strength = (amount / most).sqrt();
                arrow(scene, (at, reach), strength, role, inward);
            }
        }
    }
}

fn arrow(scene: &mut Scene, (at, reach): (Point, f64), strength: f64, role: Role, inward: bool) {
    const SLANT: f64 = std::f64::consts::FRAC_1_SQRT_2;
    let length = 4.0 + 7.0 * strength;
    // A tall gap may do both: its arrows stand beside each other.
    let side = if inward { -SLANT } else { SLANT };
    let beyond = |by: f64| Point::new(at.x + side * by, at.y - SLANT * by);
    let (near, far) = (beyond(reach), beyond(reach + length));
    let (from, to) = if inward { (far, near) } else { (near, far) };
    scene.add(Shape::arrow(from, to, role, 0.3 + 1.4 * strength));
}
