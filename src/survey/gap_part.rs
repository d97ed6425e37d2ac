//! What part of the vehicle a gap is: what may be done about it hangs on that before its width.

/// What part of the vehicle a gap is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum GapPart {
    /// Nobody has said it yet.
    #[default]
    NotSaid,
    /// A joint, seam or edge between parts that never move.
    FixedJoint,
    /// The seal of a door, window, rooflight or flap.
    MovingSeal,
    /// A pipe, hose, cable or shaft passes here; no gas pipe.
    Passage,
    /// A gas pipe passes here.
    GasPassage,
    /// A hole that nothing passes through any more.
    Hole,
    /// A grille, louvre or mesh.
    Grille,
    /// The way out for water.
    Drain,
    /// The gap round a refrigerator, between its cabinet and the furniture.
    RefrigeratorSurround,
    /// A flue, its collar, or a duct for combustion air.
    Flue,
    /// The vent of a battery box.
    BatteryVent,
    /// The vent of a toilet tank.
    ToiletVent,
}

impl GapPart {
    /// Every part, in the order offered.
    pub const ALL: [Self; 12] = [
        Self::NotSaid,
        Self::FixedJoint,
        Self::MovingSeal,
        Self::Passage,
        Self::GasPassage,
        Self::Hole,
        Self::Grille,
        Self::Drain,
        Self::RefrigeratorSurround,
        Self::Flue,
        Self::BatteryVent,
        Self::ToiletVent,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::NotSaid => "part not said",
            Self::FixedJoint => "fixed joint or seam",
            Self::MovingSeal => "seal of a door, window, rooflight or flap",
            Self::Passage => "pipe or cable passage",
            Self::GasPassage => "gas pipe's passage",
            Self::Hole => "hole no longer used",
            Self::Grille => "grille, louvre or mesh",
            Self::Drain => "drain",
            Self::RefrigeratorSurround => "refrigerator surround",
            Self::Flue => "flue or combustion-air duct",
            Self::BatteryVent => "battery box vent",
            Self::ToiletVent => "toilet tank vent",
        }
    }
}
