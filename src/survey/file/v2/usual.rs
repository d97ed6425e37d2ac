//! Format 2: what of a survey is usual for such a vehicle, and not measured.

use super::super::stored::{Entry, list, record, words};
use super::super::v1::ids::{ApplianceId, FabricId, WeatherId};

words! {
    /// A typical winter that weather was taken from.
    TypicalWinter {
        MildMaritime = "mild_maritime",
        HighPlain = "high_plain",
        Continental = "continental",
        Alpine = "alpine",
        Northern = "northern",
    }
}

record! {
    /// The parts that are usual ones.
    #[serde(default)]
    #[derive(Default)]
    Usual {
        #[serde(skip_serializing_if = "Option::is_none")]
        winter: Option<TypicalWinter>,
        #[serde(deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        fabric: Vec<FabricId>,
        #[serde(deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        appliances: Vec<ApplianceId>,
        #[serde(deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        weather: Vec<WeatherId>,
        #[serde(skip_serializing_if = "is_not")]
        design_outside: bool,
        #[serde(skip_serializing_if = "is_not")]
        altitude: bool,
    }
}

fn is_not(marked: &bool) -> bool {
    !marked
}

impl Usual {
    pub(super) fn is_nothing(&self) -> bool {
        self.winter.is_none()
            && self.fabric.is_empty()
            && self.appliances.is_empty()
            && self.weather.is_empty()
            && !self.design_outside
            && !self.altitude
    }
}

macro_rules! entries {
    ($($name:ident = $word:literal),+ $(,)?) => {$(
        impl Entry for $name {
            const WORD: &'static str = $word;
            fn number(&self) -> Option<u32> {
                Some(self.0)
            }
        }
    )+};
}

entries!(
    FabricId = "usual element of the fabric",
    ApplianceId = "usual appliance",
    WeatherId = "usual weather case",
);
