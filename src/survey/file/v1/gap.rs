//! Format 1: zones, and what gaps are made of.

use super::super::live;
use super::super::stored::{Entry, Number, Stored, Text, choice, numbered, record, words};
use super::ids::{GapId, ZoneId};
use serde::{Deserialize, Serialize};

record! {
    /// A place group for gaps.
    Zone {
        id: ZoneId,
        name: Text,
    }
}

/// The zones of a file that lists none.
pub(in crate::survey::file) fn usual_zones() -> Vec<Zone> {
    [
        "cab",
        "floor edge",
        "rooflights",
        "fridge vents",
        "doors",
        "windows",
        "lockers & service holes",
    ]
    .into_iter()
    .zip(1..)
    .map(|(name, id)| Zone {
        id: ZoneId(id),
        name: Text(name.to_owned()),
    })
    .collect()
}

/// The outside a gap opens to; the cavities stand beside the faces as words of their own.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(in crate::survey::file) enum Facing {
    Front,
    Rear,
    Nearside,
    Offside,
    Roof,
    Underfloor,
    EngineBay,
    WheelArch,
    Locker,
    RefrigeratorCompartment,
}

impl Stored for Facing {
    type Live = live::Facing;

    fn live(self) -> live::Facing {
        match self {
            Self::Front => live::Facing::Front,
            Self::Rear => live::Facing::Rear,
            Self::Nearside => live::Facing::Nearside,
            Self::Offside => live::Facing::Offside,
            Self::Roof => live::Facing::Roof,
            Self::Underfloor => live::Facing::Underfloor,
            Self::EngineBay => live::Facing::Cavity(live::Cavity::EngineBay),
            Self::WheelArch => live::Facing::Cavity(live::Cavity::WheelArch),
            Self::Locker => live::Facing::Cavity(live::Cavity::Locker),
            Self::RefrigeratorCompartment => {
                live::Facing::Cavity(live::Cavity::RefrigeratorCompartment)
            }
        }
    }

    fn stored(live: &live::Facing) -> Self {
        match live {
            live::Facing::Front => Self::Front,
            live::Facing::Rear => Self::Rear,
            live::Facing::Nearside => Self::Nearside,
            live::Facing::Offside => Self::Offside,
            live::Facing::Roof => Self::Roof,
            live::Facing::Underfloor => Self::Underfloor,
            live::Facing::Cavity(live::Cavity::EngineBay) => Self::EngineBay,
            live::Facing::Cavity(live::Cavity::WheelArch) => Self::WheelArch,
            live::Facing::Cavity(live::Cavity::Locker) => Self::Locker,
            live::Facing::Cavity(live::Cavity::RefrigeratorCompartment) => {
                Self::RefrigeratorCompartment
            }
        }
    }
}

words! {
    /// What a grille is made of.
    GrilleMaterial {
        Metal = "metal",
        Wood = "wood",
    }
    /// Which area a stated figure is.
    AreaConvention {
        Free = "free",
        EquivalentAt1Pa = "equivalent",
        EffectiveAt4Pa = "effective",
    }
    /// Where the air goes.
    LeadsTo {
        LivingSpace = "living_space",
        Compartment = "compartment",
    }
    /// How the size was found.
    Certainty {
        Measured = "measured",
        Estimated = "estimated",
        Guessed = "guessed",
    }
    /// What the material cost is counted by.
    CostBasis {
        Piece = "piece",
        Metre = "metre",
    }
    /// Where the work stands.
    WorkState {
        Open = "open",
        Planned = "planned",
        Sealed = "sealed",
        Deferred = "deferred",
    }
}

choice! {
    /// Form and sizes of one gap.
    Form {
        NarrowGap = "narrow_gap" {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            length_mm: Option<Number>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            width_mm: Option<Number>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            depth_mm: Option<Number>,
            #[serde(default)]
            bends: u32,
        }
        RoundHole = "round_hole" {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            diameter_mm: Option<Number>,
        }
        RectangularHole = "rectangular_hole" {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            width_mm: Option<Number>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            height_mm: Option<Number>,
        }
        RingGap = "ring_gap" {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            hole_mm: Option<Number>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pipe_mm: Option<Number>,
        }
        Grille = "grille" {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            width_mm: Option<Number>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            height_mm: Option<Number>,
            material: GrilleMaterial,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            free_percent: Option<Number>,
        }
        StatedArea = "stated_area" {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            area_mm2: Option<Number>,
            convention: AreaConvention,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            exponent: Option<Number>,
        }
        FlowTest = "flow_test" {
            #[serde(default, skip_serializing_if = "Option::is_none")]
            flow_m3_per_h: Option<Number>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            at_pa: Option<Number>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            exponent: Option<Number>,
        }
    }
}

record! {
    /// Where the middle of the gap is.
    #[derive(Default)]
    #[serde(default)]
    Position {
        #[serde(skip_serializing_if = "Option::is_none")]
        along_m: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        across_m: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        height_m: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        rise_m: Option<Number>,
    }
}

impl Position {
    pub(in crate::survey::file) fn is_unknown(&self) -> bool {
        let known = [self.along_m, self.across_m, self.height_m, self.rise_m];
        known.iter().all(Option::is_none)
    }
}

record! {
    /// How a closable gap stands in each set-up.
    Closing {
        #[serde(default)]
        open_laid_up: bool,
        #[serde(default)]
        open_in_use: bool,
        #[serde(default = "ten_percent")]
        leaves_percent: Number,
    }
}

fn ten_percent() -> Number {
    Number(10.0)
}

/// The outer opening that a gap lies behind.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::survey::file) enum Behind {
    #[serde(rename = "gap")]
    Gap(GapId),
    #[serde(rename = "opening")]
    Opening {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        free_area_mm2: Option<Number>,
    },
}

impl Stored for Behind {
    type Live = live::Behind;

    fn live(self) -> live::Behind {
        match self {
            Self::Gap(id) => live::Behind::Gap(id.live()),
            Self::Opening { free_area_mm2 } => live::Behind::Opening {
                free_area_mm2: free_area_mm2.live(),
            },
        }
    }

    fn stored(live: &live::Behind) -> Self {
        match live {
            live::Behind::Gap(id) => Self::Gap(Stored::stored(id)),
            live::Behind::Opening { free_area_mm2 } => Self::Opening {
                free_area_mm2: Stored::stored(free_area_mm2),
            },
        }
    }
}

impl CostBasis {
    pub(in super::super) fn piece() -> Self {
        Self::Piece
    }
}

choice! {
    /// A mark on a photo, in shares of the upright picture.
    PhotoMark {
        Circle = "circle" { across: Number, down: Number, radius: Number, }
        Arrow = "arrow" {
            from_across: Number,
            from_down: Number,
            across: Number,
            down: Number,
        }
    }
}

impl Entry for PhotoMark {
    const WORD: &'static str = "mark";
}

impl Certainty {
    pub(in crate::survey::file) fn estimated() -> Self {
        Self::Estimated
    }
}

numbered!(Zone = "zone");

impl LeadsTo {
    pub(in crate::survey::file) fn living_space() -> Self {
        Self::LivingSpace
    }
}

impl WorkState {
    pub(in crate::survey::file) fn open() -> Self {
        Self::Open
    }
}
