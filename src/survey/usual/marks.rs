//! The marks: which parts of a survey are usual ones.

use crate::survey::ids::{ApplianceId, FabricId, WeatherId};
use crate::survey::typical_winters::TypicalWinter;

/// Which parts of a survey are usual ones, and not measured.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Usual {
    /// The winter that weather was taken from last.
    pub winter: Option<TypicalWinter>,
    /// Elements of the fabric.
    pub fabric: Vec<FabricId>,
    /// Appliances, which somebody has still to look for.
    pub appliances: Vec<ApplianceId>,
    /// Weather cases.
    pub weather: Vec<WeatherId>,
    /// The outside temperature that heaters are sized for.
    pub design_outside: bool,
    /// The height above sea level.
    pub altitude: bool,
}

/// A part of a survey that may be a usual one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UsualPart {
    /// An element of the fabric.
    Fabric(FabricId),
    /// An appliance.
    Appliance(ApplianceId),
    /// A weather case.
    Weather(WeatherId),
    /// The outside temperature that heaters are sized for.
    DesignOutside,
    /// The height above sea level.
    Altitude,
}

impl Usual {
    /// Whether a part is a usual one.
    #[must_use]
    pub fn has(&self, part: UsualPart) -> bool {
        match part {
            UsualPart::Fabric(id) => self.fabric.contains(&id),
            UsualPart::Appliance(id) => self.appliances.contains(&id),
            UsualPart::Weather(id) => self.weather.contains(&id),
            UsualPart::DesignOutside => self.design_outside,
            UsualPart::Altitude => self.altitude,
        }
    }

    /// Whether nothing is.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        let none = Self {
            winter: self.winter,
            ..Self::default()
        };
        *self == none
    }

    /// Takes the mark from a part.
    pub(in crate::survey) fn forget(&mut self, part: UsualPart) {
        match part {
            UsualPart::Fabric(id) => self.fabric.retain(|one| *one != id),
            UsualPart::Appliance(id) => self.appliances.retain(|one| *one != id),
            UsualPart::Weather(id) => self.weather.retain(|one| *one != id),
            UsualPart::DesignOutside => self.design_outside = false,
            UsualPart::Altitude => self.altitude = false,
        }
    }
}
