//! Leakage that nobody found: as much again as was found, spread over the faces by area.

use super::Leak;
use crate::assess::answer::{Answer, Leakage, NotKnown};
use crate::assess::envelope::{Envelope, direction_deg, sharp_area};
use crate::assess::exposure::WindSide;
use crate::physics::leakage::{DEFAULT_EXPONENT, LeakageArea, from_leakage_area};
use crate::physics::pressure_coefficient::{Face, WindBody};
use crate::physics::{FlowLaw, GapFlow};
use crate::survey::Survey;

/// One leak on each face, with the found gaps' equivalent leakage area shared out by the face's
/// area and the usual flow exponent \[A\].
pub(super) fn leaks(survey: &Survey, envelope: &Envelope, leakage: &Leakage) -> Answer<Vec<Leak>> {
    let vehicle = &survey.vehicle;
    let sizes = (|| {
        Some((
            vehicle.length_m?,
            vehicle.width_m?,
            vehicle.floor_height_m?,
            vehicle.height_m?,
        ))
    })();
    let (length, width, floor, roof) =
        sizes.ok_or_else(|| NotKnown::because("an outside size of the vehicle is not given"))?;
    let body = WindBody {
        set: survey.site.pressure_set,
        shelter: survey.site.shelter,
        skirted: vehicle.skirted,
        length,
        width,
    };
    let found = leakage.all.clone()?.figures.eqla;
    let height = roof - floor;
    let area = |face| match face {
        Face::Front | Face::Rear => width * height,
        Face::Nearside | Face::Offside => length * height,
        Face::Roof | Face::Underfloor => length * width,
    };
    let whole: f64 = Face::ALL.into_iter().map(area).sum();
    let leak = |face: Face| {
        let law: FlowLaw = from_leakage_area(
            found * area(face) / whole,
            LeakageArea::Eqla10Pa,
            DEFAULT_EXPONENT,
        );
        let flow = GapFlow::new(law).map_err(|error| NotKnown::because(error.to_string()))?;
        let (z_low, z_high) = match face {
            Face::Roof => (roof, roof),
            Face::Underfloor => (floor, floor),
            _ => (floor, roof),
        };
        Ok(Leak {
            ledger: None,
            flow,
            z_low,
            z_high,
            wind: WindSide::Face(face),
            coefficients: std::array::from_fn(|at| body.coefficient(face, direction_deg(at))),
            area: sharp_area(&flow),
            side: 0,
        })
    };
    // Where nothing was found there is nothing to take a share of.
    if found <= 0.0 || envelope.leaks().is_empty() {
        return Ok(Vec::new());
    }
    Face::ALL.into_iter().map(leak).collect()
}
