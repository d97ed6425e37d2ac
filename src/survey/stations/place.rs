//! What a station and a usual place are.

use crate::survey::gap::{Facing, GapPart, Purpose};
use crate::survey::shapes::{SHAPES, StartingShape};
use crate::survey::{FittingKind, VehicleKind};

/// A way to look for a gap. None of them is a flame: there may be gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Look {
    /// A torch.
    Torch,
    /// A smoke pencil.
    Smoke,
    /// A wet hand.
    Hand,
    /// A feeler gauge.
    Gauge,
    /// A sheet of paper.
    Paper,
    /// The eyes alone.
    Eye,
}

impl Look {
    /// Every way.
    pub const ALL: [Self; 6] = [
        Self::Torch,
        Self::Smoke,
        Self::Hand,
        Self::Gauge,
        Self::Paper,
        Self::Eye,
    ];

    /// How to do it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Torch => "At dusk, shine a torch along it from inside and look from outside.",
            Self::Smoke => {
                "Hold a smoke pencil close, never a flame: the smoke bends where air comes through."
            }
            Self::Hand => "In wind, run a wet hand along it: moving air feels cold.",
            Self::Gauge => "Push a feeler gauge in at several places; the middle value counts.",
            Self::Paper => {
                "Close it on a sheet of paper and pull: where the paper slides out, the seal does \
                 not press."
            }
            Self::Eye => "Look whether it is there and free, and measure it; leave it open.",
        }
    }
}

/// Which of several fittings alike a place belongs to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Which {
    /// The largest, at its middle.
    Largest,
    /// The largest, at its front edge.
    LargestEdge,
    /// The one after the largest, at its middle.
    Second,
    /// The one after the largest, at its front edge.
    SecondEdge,
    /// The one nearest to the ground.
    Lowest,
    /// The one furthest from the ground.
    Highest,
}

/// A place where such vehicles usually leak, or have an opening that protects people.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualPlace {
    /// The word that stands for it in files. It never changes, and no other place of such a vehicle
    /// has it.
    pub id: &'static str,
    /// What is there; also the name that a gap found there is given.
    pub name: &'static str,
    /// The starting shape that a gap there has, by name.
    shape: &'static str,
    /// Which of the usual zones it belongs to.
    pub(super) zone: usize,
    /// The outside that it opens to.
    pub facing: Facing,
    /// Where it usually is: share of the way from front to rear, from nearside to offside, and from
    /// floor to roof.
    pub(super) at: [f64; 3],
    /// The window, door or vent that it belongs to, if it belongs to one.
    pub(super) fitting: Option<(FittingKind, Which)>,
    /// Whether it opens into a compartment of its own that is closed towards the living space.
    pub(super) compartment: bool,
    /// How to look.
    pub looks: &'static [Look],
    kinds: &'static [VehicleKind],
}

/// A station of the walk round.
#[derive(Debug, PartialEq)]
pub struct Station {
    /// The word that stands for it in files. It never changes.
    pub id: &'static str,
    /// Where one stands.
    pub name: &'static str,
    /// Whether one stands inside.
    pub inside: bool,
    /// What to beware of there.
    pub caution: Option<&'static str>,
    pub(super) all: &'static [UsualPlace],
}

/// The usual zones by their place among [`crate::survey::starting::ZONE_NAMES`].
pub(super) mod zone {
    pub(in crate::survey::stations) const CAB: usize = 0;
    pub(in crate::survey::stations) const FLOOR_EDGE: usize = 1;
    pub(in crate::survey::stations) const ROOFLIGHTS: usize = 2;
    pub(in crate::survey::stations) const FRIDGE_VENTS: usize = 3;
    pub(in crate::survey::stations) const DOORS: usize = 4;
    pub(in crate::survey::stations) const WINDOWS: usize = 5;
    pub(in crate::survey::stations) const SERVICES: usize = 6;
}

const EVERY: &[VehicleKind] = &VehicleKind::ALL;
pub(super) const DRIVEN: &[VehicleKind] = &[
    VehicleKind::PanelVan,
    VehicleKind::CoachBuilt,
    VehicleKind::Integrated,
];
pub(super) const VAN: &[VehicleKind] = &[VehicleKind::PanelVan];
pub(super) const COACH_BUILT: &[VehicleKind] = &[VehicleKind::CoachBuilt];
/// With a body made of panels.
pub(super) const PANELLED: &[VehicleKind] = &[
    VehicleKind::TouringCaravan,
    VehicleKind::CoachBuilt,
    VehicleKind::Integrated,
    VehicleKind::Other,
];
/// Without a driver's place.
pub(super) const NOT_DRIVEN: &[VehicleKind] = &[VehicleKind::TouringCaravan, VehicleKind::Other];
/// With doors at the cab as a van has them.
pub(super) const CAB_DOORS: &[VehicleKind] = &[VehicleKind::PanelVan, VehicleKind::CoachBuilt];
/// With a garage at the rear.
pub(super) const GARAGE: &[VehicleKind] = &[VehicleKind::CoachBuilt, VehicleKind::Integrated];

/// A place by its word, name and starting shape; where it is follows.
pub(super) const fn place(id: &'static str, name: &'static str, shape: &'static str) -> UsualPlace {
    UsualPlace {
        id,
        name,
        shape,
        zone: 0,
        facing: Facing::Nearside,
        at: [0.5, 0.0, 0.5],
        fitting: None,
        compartment: false,
        looks: &[],
        kinds: EVERY,
    }
}

impl UsualPlace {
    /// Its zone, the outside it opens to, and where it usually is.
    pub(super) const fn at(mut self, zone: usize, facing: Facing, at: [f64; 3]) -> Self {
        self.zone = zone;
        self.facing = facing;
        self.at = at;
        self
    }

    /// The window, door or vent that it belongs to.
    pub(super) const fn with(mut self, kind: FittingKind, which: Which) -> Self {
        self.fitting = Some((kind, which));
        self
    }

    /// It opens into a compartment of its own that is closed towards the living space.
    pub(super) const fn into_compartment(mut self) -> Self {
        self.compartment = true;
        self
    }

    /// How to look there.
    pub(super) const fn look(mut self, looks: &'static [Look]) -> Self {
        self.looks = looks;
        self
    }

    /// On which vehicles it is.
    pub(super) const fn on(mut self, kinds: &'static [VehicleKind]) -> Self {
        self.kinds = kinds;
        self
    }

    /// The shape that a gap there starts from.
    #[must_use]
    pub fn shape(&self) -> Option<&'static StartingShape> {
        SHAPES.iter().find(|shape| shape.name == self.shape)
    }

    /// Whether what is there counts among the leaks: openings that protect people, and those that
    /// somebody opens and closes, do not.
    #[must_use]
    pub fn leaks(&self) -> bool {
        self.shape().is_some_and(|shape| {
            let kept = matches!(
                shape.part,
                GapPart::Flue | GapPart::BatteryVent | GapPart::ToiletVent
            );
            let meant = shape.purpose.must_stay_open() || shape.purpose == Purpose::UserVentilation;
            !kept && !meant
        })
    }

    /// How to look there, in sentences.
    #[must_use]
    pub fn how_to_look(&self) -> String {
        let words: Vec<&str> = self.looks.iter().map(|look| look.words()).collect();
        words.join(" ")
    }
}

impl Station {
    /// Its places on such a vehicle.
    pub fn places(&self, kind: VehicleKind) -> impl Iterator<Item = &'static UsualPlace> {
        let all = self.all.iter();
        all.filter(move |place| place.kinds.contains(&kind))
    }

    /// Where one stands, and on which side of the wall.
    #[must_use]
    pub fn words(&self) -> String {
        let side = if self.inside { "Inside" } else { "Outside" };
        format!("{side}: {}", self.name)
    }
}
