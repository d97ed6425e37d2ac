//! Leakage that nobody found: as much again as was found, spread over the faces by area.

use crate::assess::answer::{Answer, Leakage};
use crate::assess::envelope::Envelope;
use crate::assess::exposure::{Leak, WindSide};
use crate::assess::law::sharp_area;
use crate::physics::leakage::{DEFAULT_EXPONENT, LeakageArea, from_leakage_area};
use crate::physics::pressure_coefficient::FloorPlace;
use crate::physics::{Face, GapFlow, PlacedFlow};

/// One leak on each face, into the first space, with the found gaps' equivalent leakage area
/// shared out by the face's area and the usual flow exponent \[A\].
pub(super) fn leaks(envelope: &Envelope, leakage: &Leakage) -> Answer<Vec<Leak>> {
    let (length, width) = envelope.plan()?;
    let (floor, roof) = (envelope.floor(), envelope.roof());
    let height = roof - floor;
    let found = leakage.all.clone()?.figures.eqla;
    // Where nothing was found there is nothing to take a share of.
    if found <= 0.0 || envelope.leaks().is_empty() {
        return Ok(Vec::new());
    }
    let area = |face| match face {
        Face::Front | Face::Rear => width * height,
        Face::Nearside | Face::Offside => length * height,
        Face::Roof | Face::Underfloor => length * width,
    };
    let whole: f64 = Face::ALL.into_iter().map(area).sum();
    let leak = |face: Face| {
        let flow = GapFlow::new(from_leakage_area(
            found * area(face) / whole,
            LeakageArea::Eqla10Pa,
            DEFAULT_EXPONENT,
        ))?;
        let (z_low, z_high) = match face {
            Face::Roof => (roof, roof),
            Face::Underfloor => (floor, floor),
            _ => (floor, roof),
        };
        Ok(Leak {
            ledger: None,
            space: 0,
            placed: PlacedFlow {
                flow,
                z_low,
                z_high,
            },
            wind: WindSide::Face(face),
            place: FloorPlace::default(),
            area: sharp_area(&flow),
        })
    };
    Face::ALL.into_iter().map(leak).collect()
}
