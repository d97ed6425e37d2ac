//! The elements of the fabric as sun and sky see them.

use crate::assess::answer::Answer;
use crate::assess::drying::Spot;
use crate::assess::fabric::element_u;
use crate::assess::not_known::NotKnown;
use crate::assess::possible::length_and_width;
use crate::physics::pressure_coefficient::Face;
use crate::physics::sky::{net_loss, outside_coefficient};
use crate::physics::sun::{Light, Plane, Sun, on_plane};
use crate::survey::fabric::BuildUp;
use crate::survey::{FabricElement, FabricPart, Facing, Stay, Survey};

/// Share of the sun that comes through a pane: single acrylic, double acrylic, glass **\[S\]**.
const THROUGH_SINGLE: f64 = 0.8;
const THROUGH_DOUBLE: f64 = 0.68;
const THROUGH_GLASS: f64 = 0.83;
/// A stated U-value below this is that of a double pane, W/(m² K) **\[A\]**.
const DOUBLE_BELOW: f64 = 3.6;
/// What drawn blinds let in of the sun **\[A\]**.
const BLINDS: f64 = 0.5;
/// Directions over which a heading that is not known is a mean.
const HEADINGS: u32 = 16;
/// The sides: facing, and the angle off the front.
const SIDES: [(Facing, Face); 4] = [
    (Facing::Front, Face::Front),
    (Facing::Offside, Face::Offside),
    (Facing::Rear, Face::Rear),
    (Facing::Nearside, Face::Nearside),
];

/// What an element is to sun and sky.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Outside {
    /// Takes up this share of the sun.
    Opaque(f64),
    /// Lets this share of the sun through.
    Pane(f64),
}

/// One element.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Element {
    /// U A with its thermal bridges, W/K.
    ua: f64,
    area: f64,
    outside: Outside,
    /// How much of the sky it sees: 1, ½ or 0.
    sees: f64,
    /// Share on the roof, and on front, offside, rear, nearside.
    level: f64,
    sides: [f64; 4],
}

/// Light on the planes of the body in one hour, W/m².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct OnBody {
    level: f64,
    sides: [f64; 4],
}

impl OnBody {
    /// With the front pointing so many degrees clockwise from north; mean over all headings where
    /// that is not known.
    pub(super) fn new(sun: &Sun, light: &Light, heading_deg: Option<f64>) -> Self {
        let upright = |facing_deg: f64| on_plane(sun, light, Plane::Upright { facing_deg });
        let side = |face: Face| match (heading_deg, face.normal_deg()) {
            (Some(heading), Some(off)) => upright(heading + off),
            _ => {
                let all =
                    (0..HEADINGS).map(|at| upright(f64::from(at) * 360.0 / f64::from(HEADINGS)));
                all.sum::<f64>() / f64::from(HEADINGS)
            }
        };
        Self {
            level: on_plane(sun, light, Plane::Level),
            sides: SIDES.map(|(_, face)| side(face)),
        }
    }
}

/// What the outside does to an element in one hour.
pub(super) struct Seen {
    /// Heat through it from sun and sky, W.
    pub(super) gain: f64,
    /// Outside temperature that it sees, °C.
    pub(super) seen_c: f64,
}

/// All elements.
///
/// # Errors
/// [`NotKnown`] where a build-up, an area, or the size that shares walls over the sides is not known.
pub(super) fn elements(survey: &Survey, stay: &Stay) -> Answer<Vec<Element>> {
    survey
        .fabric
        .iter()
        .map(|own| element(survey, stay, own))
        .collect()
}

fn element(survey: &Survey, stay: &Stay, own: &FabricElement) -> Answer<Element> {
    let area = own.area_m2.ok_or_else(|| {
        NotKnown::because(format!(
            "the area of {} is not given",
            crate::assess::fabric::element_words(own)
        ))
    })?;
    let u = element_u(own)?;
    let (level, sides) = faces(survey, own)?;
    let sees = if level > 0.0 {
        1.0
    } else if sides.iter().any(|share| *share > 0.0) {
        0.5
    } else {
        0.0
    };
    let outside = match own.part {
        FabricPart::Window | FabricPart::Rooflight => {
            let blinds = if stay.blinds_drawn { BLINDS } else { 1.0 };
            Outside::Pane(through(own, u) * blinds)
        }
        _ => Outside::Opaque(stay.colour.absorbs()),
    };
    Ok(Element {
        ua: u * area * (1.0 + own.bridge_percent / 100.0),
        area,
        outside,
        sees,
        level,
        sides,
    })
}

/// Share of the sun that comes through a pane.
fn through(own: &FabricElement, u: f64) -> f64 {
    let BuildUp::Layers(layers) = &own.build_up else {
        return if u < DOUBLE_BELOW {
            THROUGH_DOUBLE
        } else {
            THROUGH_SINGLE
        };
    };
    let glass = |material: &str| {
        let material = material.to_lowercase();
        material.contains("glass") && !material.contains("fibre")
    };
    let panes = layers.iter().filter(|layer| layer.thickness_mm.is_some());
    if layers.iter().any(|layer| glass(&layer.material)) {
        THROUGH_GLASS
    } else if panes.count() > 1 {
        THROUGH_DOUBLE
    } else {
        THROUGH_SINGLE
    }
}

/// Shares of an element on the roof and on the sides: its own facing, or shared over the sides by
/// their lengths.
fn faces(survey: &Survey, own: &FabricElement) -> Answer<(f64, [f64; 4])> {
    let nothing = [0.0; 4];
    if let Some(outline) = own.outline {
        let side = SIDES.map(|(facing, _)| f64::from(u8::from(facing == outline.facing)));
        return Ok(match outline.facing {
            Facing::Roof => (1.0, nothing),
            Facing::Underfloor | Facing::Cavity(_) => (0.0, nothing),
            _ => (0.0, side),
        });
    }
    match own.part {
        FabricPart::Roof | FabricPart::Rooflight => Ok((1.0, nothing)),
        FabricPart::Floor => Ok((0.0, nothing)),
        FabricPart::Wall | FabricPart::Window | FabricPart::Door | FabricPart::CabMetal => {
            let (length, width) = length_and_width(survey)?;
            let around = 2.0 * (length + width);
            let (end, side) = (width / around, length / around);
            Ok((0.0, [end, side, end, side]))
        }
    }
}

impl Element {
    /// Area on which water may condense, m²: none on the floor.
    pub(super) fn film_area(&self) -> f64 {
        if self.sees > 0.0 { self.area } else { 0.0 }
    }

    /// What light, sky and wind do to it.
    ///
    /// ```text
    /// opaque  Q = U A (α I − F ΔR)/h_e            T_sa = T_o + (α I − F ΔR)/h_e
    /// pane    Q = g s A I − U A F ΔR/h_e          T_sa = T_o − F ΔR/h_e
    /// ```
    /// where U A has its thermal bridges, I is the light on its plane, W/m², F how much of the sky it
    /// sees, ΔR the sky's loss ([`net_loss`]), h_e that of [`outside_coefficient`], α the share of
    /// the sun that it takes up, g what a pane lets through and s what blinds leave of it.
    pub(super) fn seen(&self, outside_c: f64, on: &OnBody, infrared: f64, wind: f64) -> Seen {
        let h = outside_coefficient(wind);
        let sides = self.sides.iter().zip(&on.sides);
        let light = self.level * on.level + sides.map(|(share, on)| share * on).sum::<f64>();
        let sky = self.sees * net_loss(outside_c, infrared) / h;
        match self.outside {
            Outside::Opaque(absorbs) => {
                let warmer = if self.sees > 0.0 {
                    absorbs * light / h - sky
                } else {
                    0.0
                };
                Seen {
                    gain: self.ua * warmer,
                    seen_c: outside_c + warmer,
                }
            }
            Outside::Pane(through) => Seen {
                gain: through * self.area * light - self.ua * sky,
                seen_c: outside_c - sky,
            },
        }
    }

    /// What it does where neither sun nor sky reaches it.
    pub(super) fn covered(outside_c: f64) -> Seen {
        Seen {
            gain: 0.0,
            seen_c: outside_c,
        }
    }
}

/// What mould could grow on: neither glass nor what has no surface inside.
pub(super) fn can_mould(spot: Spot) -> bool {
    spot != Spot::Glass
}
