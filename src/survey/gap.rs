//! A gap: one leakage point, or several alike, and all that was written down about it.

pub use super::gap_part::GapPart;
use super::ids::{GapId, SpaceId, ZoneId};
use super::photo::Photo;
pub use super::remedy::{CostBasis, Remedy, RemedyKind, WorkState};
use super::site::SetUp;

/// A place group for gaps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Zone {
    /// Its number.
    pub id: ZoneId,
    /// Its name.
    pub name: String,
}

/// A space under or in the vehicle, open to outside, that a gap may open into.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Cavity {
    /// Engine bay.
    EngineBay,
    /// Wheel arch.
    WheelArch,
    /// Outside locker.
    Locker,
    /// Compartment behind a refrigerator.
    RefrigeratorCompartment,
}

/// The outside a gap opens to. Nearside is left, offside right, seen facing forward.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Facing {
    /// Front wall.
    Front,
    /// Rear wall.
    Rear,
    /// Left side.
    Nearside,
    /// Right side.
    Offside,
    /// Roof.
    Roof,
    /// Underfloor.
    Underfloor,
    /// A cavity.
    Cavity(Cavity),
}

impl Facing {
    /// Every facing, in the order offered.
    pub const ALL: [Self; 10] = [
        Self::Front,
        Self::Rear,
        Self::Nearside,
        Self::Offside,
        Self::Roof,
        Self::Underfloor,
        Self::Cavity(Cavity::EngineBay),
        Self::Cavity(Cavity::WheelArch),
        Self::Cavity(Cavity::Locker),
        Self::Cavity(Cavity::RefrigeratorCompartment),
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
            Self::Nearside => "nearside (left)",
            Self::Offside => "offside (right)",
            Self::Roof => "roof",
            Self::Underfloor => "underfloor",
            Self::Cavity(Cavity::EngineBay) => "engine bay",
            Self::Cavity(Cavity::WheelArch) => "wheel arch",
            Self::Cavity(Cavity::Locker) => "locker",
            Self::Cavity(Cavity::RefrigeratorCompartment) => "refrigerator compartment",
        }
    }

    /// The facing on the other side of the vehicle; only the two sides change.
    #[must_use]
    pub fn mirrored(self) -> Self {
        match self {
            Self::Nearside => Self::Offside,
            Self::Offside => Self::Nearside,
            other => other,
        }
    }
}

/// What a grille is made of, for the share of it that is free when nobody measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum GrilleMaterial {
    /// Metal or plastic louvre: 75 % free.
    Metal,
    /// Wooden louvre: 25 % free.
    Wood,
}

/// Which area a stated figure is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AreaConvention {
    /// Geometric free area: what a ruler finds.
    Free,
    /// Equivalent area: of a sharp opening, discharge coefficient 0.61, with the same flow at 1 Pa.
    EquivalentAt1Pa,
    /// Effective leakage area, ELA: at 4 Pa with discharge coefficient 1.
    EffectiveAt4Pa,
}

impl AreaConvention {
    /// Every convention, in the order offered.
    pub const ALL: [Self; 3] = [Self::Free, Self::EquivalentAt1Pa, Self::EffectiveAt4Pa];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Free => "free area",
            Self::EquivalentAt1Pa => "equivalent area at 1 Pa (not EqLA)",
            Self::EffectiveAt4Pa => "effective leakage area, ELA, at 4 Pa",
        }
    }
}

/// Form and sizes of one gap. A size that was not taken is `None`.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// A narrow gap: long, thin, and as deep as the material it passes through.
    NarrowGap {
        /// Length along the gap, mm.
        length_mm: Option<f64>,
        /// Clear width, mm: what the feeler gauge says.
        width_mm: Option<f64>,
        /// Depth through the material, mm, in the direction of the air.
        depth_mm: Option<f64>,
        /// Right-angled bends on the way.
        bends: u32,
    },
    /// A round hole.
    RoundHole {
        /// Diameter, mm.
        diameter_mm: Option<f64>,
    },
    /// A rectangular hole.
    RectangularHole {
        /// Width, mm.
        width_mm: Option<f64>,
        /// Height, mm.
        height_mm: Option<f64>,
    },
    /// The ring left between a round hole and a pipe or cable through it.
    RingGap {
        /// Diameter of the hole, mm.
        hole_mm: Option<f64>,
        /// Diameter of the pipe or cable bundle, mm.
        pipe_mm: Option<f64>,
    },
    /// A grille, louvre or mesh.
    Grille {
        /// Width of the grille, mm.
        width_mm: Option<f64>,
        /// Height of the grille, mm.
        height_mm: Option<f64>,
        /// What it is made of, for the free share when that is not known.
        material: GrilleMaterial,
        /// Free share of the gross area, %, if known.
        free_percent: Option<f64>,
    },
    /// An area stated by a maker or another survey.
    StatedArea {
        /// Area, mm².
        area_mm2: Option<f64>,
        /// Which area it is.
        convention: AreaConvention,
        /// Flow exponent of an effective area; 0.65 if not given.
        exponent: Option<f64>,
    },
    /// A flow found by test.
    FlowTest {
        /// Flow, m³/h, at reference air 20 °C.
        flow_m3_per_h: Option<f64>,
        /// Pressure difference of the test, Pa.
        at_pa: Option<f64>,
        /// Flow exponent; 0.65 if not given.
        exponent: Option<f64>,
    },
}

impl Form {
    /// The trade's word for the form.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Self::NarrowGap { .. } => "narrow gap",
            Self::RoundHole { .. } => "round hole",
            Self::RectangularHole { .. } => "rectangular hole",
            Self::RingGap { .. } => "ring round a pipe",
            Self::Grille { .. } => "grille",
            Self::StatedArea { .. } => "stated area",
            Self::FlowTest { .. } => "flow test",
        }
    }

    /// One of each form with nothing measured yet, in the order offered.
    #[must_use]
    pub fn blanks() -> [Self; 7] {
        [
            Self::NarrowGap {
                length_mm: None,
                width_mm: None,
                depth_mm: None,
                bends: 0,
            },
            Self::RoundHole { diameter_mm: None },
            Self::RectangularHole {
                width_mm: None,
                height_mm: None,
            },
            Self::RingGap {
                hole_mm: None,
                pipe_mm: None,
            },
            Self::Grille {
                width_mm: None,
                height_mm: None,
                material: GrilleMaterial::Metal,
                free_percent: None,
            },
            Self::StatedArea {
                area_mm2: None,
                convention: AreaConvention::Free,
                exponent: None,
            },
            Self::FlowTest {
                flow_m3_per_h: None,
                at_pa: None,
                exponent: None,
            },
        ]
    }
}

/// Where on the vehicle the middle of the gap is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Position {
    /// Distance from the front of the body towards the rear, m.
    pub along_m: Option<f64>,
    /// Distance from the nearside towards the offside, m.
    pub across_m: Option<f64>,
    /// Height of the middle of the gap above ground, m.
    pub height_m: Option<f64>,
    /// Height that the gap spans, m: a door seal spans the height of its door. `None` is flat.
    pub rise_m: Option<f64>,
}

/// What the opening is there for. What may be done about it says [`super::leave`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Purpose {
    /// Nobody has said it yet.
    NotSaid,
    /// Nobody wanted it.
    Unintended,
    /// Fixed ventilation for the people inside.
    SafetyVentilation,
    /// Lets leaked gas fall out.
    GasDropOut,
    /// Air for or from an appliance: combustion air, flue, refrigerator ventilation.
    ApplianceAir,
    /// Lets water out.
    Drain,
    /// Ventilation that the user opens and closes.
    UserVentilation,
}

impl Purpose {
    /// Every purpose, in the order offered.
    pub const ALL: [Self; 7] = [
        Self::NotSaid,
        Self::Unintended,
        Self::SafetyVentilation,
        Self::GasDropOut,
        Self::ApplianceAir,
        Self::Drain,
        Self::UserVentilation,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::NotSaid => "purpose not said",
            Self::Unintended => "unintended",
            Self::SafetyVentilation => "safety ventilation",
            Self::GasDropOut => "gas drop-out",
            Self::ApplianceAir => "appliance air",
            Self::Drain => "drain",
            Self::UserVentilation => "user ventilation",
        }
    }

    /// Whether the opening protects people and must stay open.
    #[must_use]
    pub fn must_stay_open(self) -> bool {
        matches!(
            self,
            Self::SafetyVentilation | Self::GasDropOut | Self::ApplianceAir
        )
    }
}

/// How a closable gap stands in each set-up, and what it still lets through when closed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closing {
    /// Stands open when the vehicle is laid up.
    pub open_laid_up: bool,
    /// Stands open when the vehicle is in use.
    pub open_in_use: bool,
    /// Share of the open flow that passes when closed, %.
    pub leaves_percent: f64,
}

impl Closing {
    /// Whether it stands open in the set-up.
    #[must_use]
    pub fn is_open(&self, set_up: SetUp) -> bool {
        set_up.choose(self.open_laid_up, self.open_in_use)
    }

    /// Closed in both set-ups, leaving 10 % (assumption of this project).
    pub const CLOSED: Self = Self {
        open_laid_up: false,
        open_in_use: false,
        leaves_percent: 10.0,
    };
}

/// Where air goes that comes in through the opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LeadsTo {
    /// Into the living space: it leaks by itself.
    LivingSpace,
    /// Into a compartment sealed from the living space, such as behind a refrigerator: it
    /// counts only as the outer opening that other gaps lie behind.
    Compartment,
}

/// The outer opening that a gap lies behind: the same air passes both.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Behind {
    /// Another gap of the ledger, which must lead to a compartment. Several gaps behind one
    /// opening share its area in proportion to their own.
    Gap(GapId),
    /// An opening that is not in the ledger, with its free area in mm².
    Opening {
        /// Free area, mm².
        free_area_mm2: Option<f64>,
    },
}

/// How the size was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Certainty {
    /// Measured with a gauge.
    Measured,
    /// Estimated on seeing it.
    Estimated,
    /// Guessed without seeing all of it.
    Guessed,
}

impl Certainty {
    /// Every certainty, in the order offered.
    pub const ALL: [Self; 3] = [Self::Measured, Self::Estimated, Self::Guessed];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Measured => "measured",
            Self::Estimated => "estimated",
            Self::Guessed => "guessed",
        }
    }
}

/// One leakage point, or several alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// Its number, printed beside its mark.
    pub id: GapId,
    /// The zone it belongs to.
    pub zone: ZoneId,
    /// What it is, in the surveyor's words.
    pub name: String,
    /// The outside it opens to.
    pub facing: Facing,
    /// Pressure coefficient of the cavity, where the surveyor knows one.
    pub cavity_pressure_coefficient: Option<f64>,
    /// Form and sizes of one of them.
    pub form: Form,
    /// How many alike.
    pub count: u32,
    /// Where its middle is.
    pub position: Position,
    /// What part of the vehicle it is.
    pub part: GapPart,
    /// What it is there for.
    pub purpose: Purpose,
    /// Somebody has looked at both ends and confirms that it protects nobody.
    pub purpose_confirmed: bool,
    /// What it was there for before somebody changed that by hand, where it protected people then.
    pub purpose_was: Option<Purpose>,
    /// How it closes, if it does.
    pub closing: Option<Closing>,
    /// Whether it leaks by itself or only into a compartment.
    pub leads_to: LeadsTo,
    /// The outer opening it lies behind.
    pub behind: Option<Behind>,
    /// The space it opens into; `None` is the first.
    pub space: Option<SpaceId>,
    /// How its size was found.
    pub certainty: Certainty,
    /// Its photos, in the order shown.
    pub photos: Vec<Photo>,
    /// Damp reading beside it: percent or words; empty if none.
    pub damp: String,
    /// Free notes.
    pub note: String,
    /// How it would be sealed.
    pub remedy: Option<Remedy>,
    /// Where the work on it stands.
    pub state: WorkState,
    /// Date of the state state, `YYYY-MM-DD`, or empty.
    pub state_date: String,
}

impl Gap {
    /// Its name, or what it is where it has none.
    #[must_use]
    pub fn shown_name(&self) -> &str {
        match self.name.trim() {
            "" => self.form.name(),
            name => name,
        }
    }

    /// The same in a line that tells of it, cut where no person would have written so much.
    #[must_use]
    pub fn name_in_a_line(&self) -> String {
        const MOST: usize = 60;
        let name = self.shown_name();
        match name.char_indices().nth(MOST) {
            Some((end, _)) => format!("{}\u{2026}", name.get(..end).unwrap_or_default()),
            None => name.to_owned(),
        }
    }

    /// A new gap with nothing measured: one of it, size estimated, state open. It is unintended,
    /// but for a grille, whose purpose is not said.
    #[must_use]
    pub fn new(id: GapId, zone: ZoneId, facing: Facing, form: Form) -> Self {
        let purpose = match form {
            Form::Grille { .. } => Purpose::NotSaid,
            _ => Purpose::Unintended,
        };
        Self {
            id,
            zone,
            name: String::new(),
            facing,
            cavity_pressure_coefficient: None,
            form,
            count: 1,
            position: Position::default(),
            part: GapPart::NotSaid,
            purpose,
            purpose_confirmed: false,
            purpose_was: None,
            closing: None,
            leads_to: LeadsTo::LivingSpace,
            behind: None,
            space: None,
            certainty: Certainty::Estimated,
            photos: Vec::new(),
            damp: String::new(),
            note: String::new(),
            remedy: None,
            state: WorkState::Open,
            state_date: String::new(),
        }
    }
}
