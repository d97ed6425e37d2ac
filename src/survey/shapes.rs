//! Starting shapes: gaps that nearly every vehicle has, each with sizes to start from.
//!
//! Every size here is a guess of this project \[A\], of the order found in leisure vehicles: it
//! saves typing where a gap is seen and not yet measured. A gap recorded with these sizes is
//! *guessed* until somebody has measured or estimated it.

use super::Survey;
use super::gap::{
    Behind, Cavity, Certainty, Closing, Facing, Form, Gap, GapPart, GrilleMaterial, LeadsTo,
    Purpose,
};
use super::ids::{GapId, ZoneId};
use super::leave::asks_purpose;

/// A common gap with sizes to start from.
#[derive(Clone, Debug, PartialEq)]
pub struct StartingShape {
    /// What it is; also the name that the gap is given.
    pub name: &'static str,
    /// The outside it opens to, where that is always the same.
    pub facing: Option<Facing>,
    /// Form and guessed sizes \[A\].
    pub form: Form,
    /// Height that it spans, m, guessed \[A\]; `None` is flat.
    pub rise_m: Option<f64>,
    /// What part it is.
    pub part: GapPart,
    /// What it is there for.
    pub purpose: Purpose,
    /// Whether it leaks by itself.
    pub leads_to: LeadsTo,
    /// How it closes, if it does.
    pub closing: Option<Closing>,
}

impl StartingShape {
    const fn new(name: &'static str, part: GapPart, form: Form) -> Self {
        Self {
            name,
            facing: None,
            form,
            rise_m: None,
            part,
            purpose: Purpose::Unintended,
            leads_to: LeadsTo::LivingSpace,
            closing: None,
        }
    }

    const fn facing(mut self, facing: Facing) -> Self {
        self.facing = Some(facing);
        self
    }

    const fn rise(mut self, rise_m: f64) -> Self {
        self.rise_m = Some(rise_m);
        self
    }

    const fn purpose(mut self, purpose: Purpose) -> Self {
        self.purpose = purpose;
        self
    }

    const fn compartment(mut self) -> Self {
        self.leads_to = LeadsTo::Compartment;
        self
    }

    /// A gap of this shape: its sizes are guesses until somebody measures them.
    #[must_use]
    pub fn gap(&self, survey: &Survey, id: GapId, zone: ZoneId, facing: Facing) -> Gap {
        let mut gap = Gap::new(id, zone, facing, self.form.clone());
        self.name.clone_into(&mut gap.name);
        gap.certainty = Certainty::Guessed;
        gap.position.rise_m = self.rise_m;
        gap.leads_to = self.leads_to;
        gap.closing = self.closing;
        gap.part = self.part;
        gap.purpose = asked_purpose(survey, &gap, self.purpose);
        gap.behind = only_outer_opening(survey, facing);
        gap
    }
}

/// What a gap is there for where nobody has said it: a grille, or what stands among vents, is never
/// unintended before somebody has said so.
#[must_use]
pub fn asked_purpose(survey: &Survey, gap: &Gap, own: Purpose) -> Purpose {
    if own == Purpose::Unintended && asks_purpose(survey, gap) {
        Purpose::NotSaid
    } else {
        own
    }
}

/// What lies in front of a gap behind the refrigerator: its outer opening, where the ledger holds
/// just one.
#[must_use]
pub fn only_outer_opening(survey: &Survey, facing: Facing) -> Option<Behind> {
    if facing != Facing::Cavity(Cavity::RefrigeratorCompartment) {
        return None;
    }
    let mut outer = survey
        .gaps
        .iter()
        .filter(|gap| gap.leads_to == LeadsTo::Compartment)
        .filter(|gap| !other_compartment(gap));
    match (outer.next(), outer.next()) {
        (Some(only), None) => Some(Behind::Gap(only.id)),
        _ => None,
    }
}

/// Whether it leads into another compartment than the refrigerator's: a gas locker, a box of a battery,
/// a tank, a burner.
fn other_compartment(gap: &Gap) -> bool {
    let part = matches!(
        gap.part,
        GapPart::Flue | GapPart::BatteryVent | GapPart::ToiletVent
    );
    part || gap.purpose == Purpose::GasDropOut
}

const fn narrow(length_mm: f64, width_mm: f64, depth_mm: f64, bends: u32) -> Form {
    Form::NarrowGap {
        length_mm: Some(length_mm),
        width_mm: Some(width_mm),
        depth_mm: Some(depth_mm),
        bends,
    }
}

const fn ring(hole_mm: f64, pipe_mm: f64) -> Form {
    Form::RingGap {
        hole_mm: Some(hole_mm),
        pipe_mm: Some(pipe_mm),
    }
}

const fn hole(diameter_mm: f64) -> Form {
    Form::RoundHole {
        diameter_mm: Some(diameter_mm),
    }
}

const fn grille(width_mm: f64, height_mm: f64) -> Form {
    Form::Grille {
        width_mm: Some(width_mm),
        height_mm: Some(height_mm),
        material: GrilleMaterial::Metal,
        free_percent: None,
    }
}

const MOVES: GapPart = GapPart::MovingSeal;
const JOINT: GapPart = GapPart::FixedJoint;
const PASSES: GapPart = GapPart::Passage;
const BAY: Facing = Facing::Cavity(Cavity::EngineBay);
const BEHIND_REFRIGERATOR: Facing = Facing::Cavity(Cavity::RefrigeratorCompartment);

/// The starting shapes, in the order of a walk round: doors, windows, roof, cab, floor, service
/// holes, then the openings that protect people or are somebody's own.
pub const SHAPES: &[StartingShape] = &[
    // Twice 1750 and twice 650 mm.
    StartingShape::new("door seal all round", MOVES, narrow(4800.0, 1.0, 20.0, 1)).rise(1.75),
    StartingShape::new("sliding door seal", MOVES, narrow(5600.0, 1.5, 20.0, 1)).rise(1.6),
    StartingShape::new("rear doors seal", MOVES, narrow(8100.0, 1.2, 20.0, 1))
        .facing(Facing::Rear)
        .rise(1.7),
    StartingShape::new("window seal", MOVES, narrow(2800.0, 0.4, 12.0, 1)).rise(0.5),
    StartingShape::new("locker flap", MOVES, narrow(2200.0, 1.0, 15.0, 1)).rise(0.35),
    StartingShape::new("toilet flap", MOVES, narrow(1300.0, 0.8, 15.0, 1)).rise(0.3),
    // Four times 400 mm, and twice 700 and twice 500 mm.
    StartingShape::new("rooflight frame", JOINT, narrow(1600.0, 0.6, 25.0, 1)).facing(Facing::Roof),
    StartingShape::new("large rooflight frame", JOINT, narrow(2400.0, 0.6, 25.0, 1))
        .facing(Facing::Roof),
    StartingShape::new("aerial or cable through the roof", PASSES, ring(14.0, 8.0))
        .facing(Facing::Roof),
    StartingShape::new("pedal grommet", PASSES, ring(42.0, 36.0)).facing(BAY),
    StartingShape::new("steering column boot", PASSES, ring(60.0, 56.0)).facing(BAY),
    StartingShape::new("cable loom through the bulkhead", PASSES, ring(50.0, 44.0)).facing(BAY),
    StartingShape::new("wheel-arch joint", JOINT, narrow(1800.0, 0.5, 20.0, 1))
        .facing(Facing::Cavity(Cavity::WheelArch)),
    StartingShape::new("step well seam", JOINT, narrow(1500.0, 0.5, 15.0, 1))
        .facing(Facing::Underfloor),
    StartingShape::new("floor edge joint", JOINT, narrow(2000.0, 0.3, 30.0, 1))
        .facing(Facing::Underfloor),
    StartingShape::new("cable hole", PASSES, ring(14.0, 8.0)).facing(Facing::Underfloor),
    StartingShape::new("water pipe hole", PASSES, ring(22.0, 15.0)).facing(Facing::Underfloor),
    StartingShape::new("waste pipe hole", PASSES, ring(40.0, 28.0)).facing(Facing::Underfloor),
    StartingShape::new("open hole, no longer used", GapPart::Hole, hole(12.0)),
    // Behind its grilles: the outer opening is asked for in the ledger.
    StartingShape::new(
        "refrigerator surround",
        GapPart::RefrigeratorSurround,
        narrow(2800.0, 1.5, 50.0, 1),
    )
    .facing(BEHIND_REFRIGERATOR)
    .rise(0.8),
    StartingShape {
        leads_to: LeadsTo::Compartment,
        ..StartingShape::new("refrigerator grille", GapPart::Grille, grille(450.0, 200.0))
            .purpose(Purpose::ApplianceAir)
    },
    StartingShape::new("heater flue collar", GapPart::Flue, ring(84.0, 80.0))
        .purpose(Purpose::ApplianceAir),
    StartingShape::new("gas drop-out in the floor", GapPart::Hole, hole(40.0))
        .facing(Facing::Underfloor)
        .purpose(Purpose::GasDropOut),
    StartingShape::new(
        "fixed ventilator in the floor",
        GapPart::Grille,
        grille(150.0, 150.0),
    )
    .facing(Facing::Underfloor)
    .purpose(Purpose::SafetyVentilation),
    StartingShape::new("fixed ventilator in the roof", GapPart::Grille, hole(80.0))
        .facing(Facing::Roof)
        .purpose(Purpose::SafetyVentilation),
    StartingShape::new("shower or floor drain", GapPart::Drain, hole(20.0))
        .facing(Facing::Underfloor)
        .purpose(Purpose::Drain),
    StartingShape {
        closing: Some(Closing::CLOSED),
        ..StartingShape::new(
            "ventilator that closes",
            GapPart::Grille,
            grille(200.0, 100.0),
        )
        .purpose(Purpose::UserVentilation)
    },
    StartingShape::new("fixed glass joint", JOINT, narrow(4500.0, 0.2, 15.0, 1)).rise(0.8),
    StartingShape::new("seam of wall or roof", JOINT, narrow(2000.0, 0.2, 25.0, 1)),
    StartingShape::new("body-to-cab joint", JOINT, narrow(4500.0, 0.5, 25.0, 1)).rise(1.6),
    StartingShape::new("card of a cab door", JOINT, narrow(2400.0, 0.5, 10.0, 1)).rise(0.6),
    StartingShape::new("ceiling lining joint", JOINT, narrow(3000.0, 0.2, 10.0, 1))
        .facing(Facing::Roof),
    StartingShape::new(
        "joint towards a locker",
        JOINT,
        narrow(2000.0, 0.5, 15.0, 1),
    )
    .rise(0.5),
    StartingShape::new("rooflight lid", MOVES, narrow(1600.0, 0.5, 15.0, 1)).facing(Facing::Roof),
    StartingShape::new(
        "flap of a socket or filler",
        MOVES,
        narrow(500.0, 0.8, 10.0, 1),
    )
    .rise(0.1),
    StartingShape::new(
        "gas pipe through the floor",
        GapPart::GasPassage,
        ring(14.0, 10.0),
    )
    .facing(Facing::Underfloor),
    StartingShape::new("heater air intake", GapPart::Flue, hole(24.0))
        .facing(Facing::Underfloor)
        .purpose(Purpose::ApplianceAir)
        .compartment(),
    // Their boxes are closed towards the living space.
    StartingShape::new("battery box vent", GapPart::BatteryVent, hole(15.0))
        .facing(Facing::Underfloor)
        .purpose(Purpose::ApplianceAir)
        .compartment(),
    StartingShape::new("toilet tank vent", GapPart::ToiletVent, hole(20.0))
        .purpose(Purpose::ApplianceAir)
        .compartment(),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::findings::find;
    use crate::survey::{Severity, VehicleKind};

    fn named(name: &str) -> &'static StartingShape {
        SHAPES.iter().find(|shape| shape.name == name).unwrap()
    }

    #[test]
    fn every_shape_stands_once_and_a_gap_made_from_it_has_no_error() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        for (at, shape) in SHAPES.iter().enumerate() {
            assert!(SHAPES[..at].iter().all(|other| other.name != shape.name));
            let id = GapId(u32::try_from(at).unwrap() + 1);
            let facing = shape.facing.unwrap_or(Facing::Nearside);
            let mut gap = Gap::new(id, survey.zones[0].id, facing, shape.form.clone());
            gap.position.rise_m = shape.rise_m;
            survey.gaps.push(gap);
        }
        for finding in find(&survey) {
            let about_gap = matches!(finding.place.item, crate::survey::Item::Gap(_));
            assert!(
                !about_gap || finding.severity != Severity::Error,
                "{finding:?}"
            );
        }
    }

    /// What lets out leaked gas, feeds a burner, leads its fumes away or airs the people inside
    /// is never a gap to seal: appliance and ventilation openings as EN 721 and EN 1949 treat
    /// them \[M\].
    #[test]
    fn openings_that_protect_people_say_so() {
        for name in [
            "refrigerator grille",
            "heater flue collar",
            "gas drop-out in the floor",
            "fixed ventilator in the floor",
            "fixed ventilator in the roof",
            "heater air intake",
            "battery box vent",
            "toilet tank vent",
        ] {
            assert!(named(name).purpose.must_stay_open(), "{name}");
        }
        let sealable = SHAPES
            .iter()
            .filter(|shape| !shape.purpose.must_stay_open());
        assert_eq!(sealable.count(), SHAPES.len() - 8);
        assert_eq!(
            named("gas pipe through the floor").part,
            GapPart::GasPassage
        );
        assert_eq!(named("refrigerator surround").purpose, Purpose::Unintended);
    }
}
