//! The catalogue of fields: every number, choice and text of a survey, told once.
//!
//! Findings, the window's fields with their help, the tables of the ledger and the page on the
//! file format read it. The ranges are assumptions of this project \[A\]: wide enough for any
//! leisure vehicle on a road. A number outside its range is an error at its field, and whatever
//! depends on it is *not known*.

mod equipment;
mod fabric;
mod gap;
mod vehicle;
mod weather;

/// A field of a survey, in the order of the form. Its entry in the catalogue says the rest.
#[expect(missing_docs, reason = "the label and the help of each say what it is")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Field {
    // the survey itself, the vehicle and where it stands
    Title,
    Scene,
    Surveyor,
    Date,
    Reference,
    Notes,
    SetUp,
    VehicleKind,
    Length,
    Width,
    RoofHeight,
    FloorHeight,
    Skirted,
    InsideLength,
    InsideWidth,
    InsideHeight,
    Volume,
    Berths,
    Terrain,
    Shelter,
    Heading,
    PrevailingWind,
    Altitude,
    PressureSet,
    // weather cases, target states, prices, and what drying depends on
    Wind,
    Outside,
    OutsideRh,
    Inside,
    WarmerBy,
    HeldAt,
    InsideRh,
    Weight,
    TargetRh,
    SetTemperature,
    FrostGuard,
    Comfort,
    DesignOutside,
    Currency,
    Electricity,
    Gas,
    LiquidFuel,
    Workshop,
    Tax,
    ContentsMass,
    ContentsMoisture,
    HeatCapacity,
    Sun,
    Salt,
    HookUp,
    Battery,
    // zones, and gaps with their sizes, places and remedies
    ZoneName,
    GapName,
    Zone,
    Facing,
    CavityPressure,
    Space,
    Form,
    GapLength,
    GapWidth,
    GapDepth,
    Bends,
    Diameter,
    HoleWidth,
    HoleHeight,
    RingHole,
    RingPipe,
    GrilleMaterial,
    FreeShare,
    StatedArea,
    StatedAs,
    FlowExponent,
    TestFlow,
    TestPressure,
    GapCount,
    Certainty,
    Purpose,
    Along,
    Across,
    MiddleHeight,
    Rise,
    LeadsTo,
    Behind,
    AreaInFront,
    Closing,
    OpenLaidUp,
    OpenInUse,
    ClosedLeaves,
    Damp,
    GapNote,
    Photos,
    Caption,
    State,
    StateDate,
    Remedy,
    RemedyWords,
    LeakLeft,
    CostBasis,
    MaterialCost,
    Minutes,
    NotFound,
    // spaces, the openings between them, and the fabric
    Name,
    SpaceVolume,
    WarmerThanFirst,
    From,
    To,
    Part,
    Area,
    BuildUp,
    UValue,
    Bridges,
    Outline,
    OutlineFacing,
    OutlineAlong,
    OutlineUp,
    OutlineWidth,
    OutlineHeight,
    Material,
    Thickness,
    Conductivity,
    Resistance,
    // appliances, heaters, drying machines, moisture sources and fans
    ApplianceKind,
    RoomSealed,
    Fuel,
    Rating,
    SetPoint,
    MachineKind,
    TubArea,
    RatedRemoval,
    RatedTemperature,
    RatedRh,
    Power,
    Airflow,
    LowestRoom,
    Hygrostat,
    PointTemperature,
    PointRh,
    PointRemoval,
    PointPower,
    SourceKind,
    SourceCount,
    SourceRate,
    SourceHours,
    SourceLaidUp,
    SourceInUse,
    FanDirection,
    FanFlow,
    FanLaidUp,
    FanInUse,
}

/// The numbers that physics, or plain sense, allows for a field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Unit, as shown behind the number; empty for a plain number.
    pub unit: &'static str,
    /// Lowest value allowed.
    pub lowest: f64,
    /// Highest value allowed.
    pub highest: f64,
}

impl Range {
    /// Whether the value is a number inside the range.
    #[must_use]
    pub fn allows(&self, value: f64) -> bool {
        value.is_finite() && (self.lowest..=self.highest).contains(&value)
    }

    /// The range in words: `0.5 to 15 m`.
    #[must_use]
    pub fn in_words(&self) -> String {
        let words = format!("{} to {} {}", self.lowest, self.highest, self.unit);
        words.trim_end().to_owned()
    }
}

/// What is said of one field.
#[derive(Clone, Copy)]
struct Entry {
    field: Field,
    key: &'static str,
    file_key: &'static str,
    label: &'static str,
    words: &'static str,
    range: Option<Range>,
    help: &'static str,
}

/// An entry of a choice or a text; `key` is also the name in the survey file.
const fn of(field: Field, key: &'static str, label: &'static str) -> Entry {
    Entry {
        field,
        key,
        file_key: key,
        label,
        words: label,
        range: None,
        help: "",
    }
}

impl Entry {
    /// Another name in the survey file, where the record around it says what it is of.
    const fn stored_as(mut self, file_key: &'static str) -> Self {
        self.file_key = file_key;
        self
    }

    /// It is a number: words for it in a sentence, its unit and its range.
    const fn range(
        mut self,
        words: &'static str,
        unit: &'static str,
        lowest: f64,
        highest: f64,
    ) -> Self {
        self.words = words;
        self.range = Some(Range {
            unit,
            lowest,
            highest,
        });
        self
    }

    const fn help(mut self, help: &'static str) -> Self {
        self.help = help;
        self
    }
}

const PARTS: [&[Entry]; 5] = [
    vehicle::FIELDS,
    weather::FIELDS,
    gap::FIELDS,
    fabric::FIELDS,
    equipment::FIELDS,
];

const COUNT: usize = Field::FanInUse as usize + 1;

/// The whole catalogue: each entry at the place of its field.
const CATALOGUE: &[Entry; COUNT] = &catalogue();

#[expect(
    clippy::indexing_slicing,
    reason = "it runs while compiling: an entry missing, twice or out of order is a compile error"
)]
const fn catalogue() -> [Entry; COUNT] {
    let mut all = [vehicle::FIELDS[0]; COUNT];
    let mut filled = 0;
    let mut part = 0;
    while part < PARTS.len() {
        let mut at = 0;
        while at < PARTS[part].len() {
            let entry = PARTS[part][at];
            assert!(entry.field as usize == filled, "an entry is out of order");
            all[filled] = entry;
            filled += 1;
            at += 1;
        }
        part += 1;
    }
    assert!(filled == COUNT, "a field has no entry");
    all
}

impl Field {
    /// Every field, in the order of the catalogue.
    pub fn all() -> impl Iterator<Item = Self> {
        CATALOGUE.iter().map(|entry| entry.field)
    }

    #[expect(
        clippy::indexing_slicing,
        reason = "the compiler has put the entry of each field at its place"
    )]
    const fn entry(self) -> &'static Entry {
        &CATALOGUE[self as usize]
    }

    /// Its name in the findings of the JSON; the same as in the survey file unless the file tells
    /// it from others by the record around it.
    #[must_use]
    pub const fn key(self) -> &'static str {
        self.entry().key
    }

    /// Its name in the survey file.
    #[must_use]
    pub const fn file_key(self) -> &'static str {
        self.entry().file_key
    }

    /// Its label in a form.
    #[must_use]
    pub const fn label(self) -> &'static str {
        self.entry().label
    }

    /// Words for it in a sentence, as a person would say them.
    #[must_use]
    pub const fn words(self) -> &'static str {
        self.entry().words
    }

    /// Its range, where it is a number.
    #[must_use]
    pub const fn range(self) -> Option<&'static Range> {
        self.entry().range.as_ref()
    }

    /// Its unit, as shown behind the number; empty for plain numbers, choices and texts.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self.range() {
            Some(range) => range.unit,
            None => "",
        }
    }

    /// Whether the field may hold this number.
    #[must_use]
    pub fn allows(self, value: f64) -> bool {
        self.range().is_none_or(|range| range.allows(value))
    }

    /// What to enter, and how to measure it on site.
    #[must_use]
    pub const fn help(self) -> &'static str {
        self.entry().help
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_is_told_once_and_has_its_help() {
        for (at, entry) in CATALOGUE.iter().enumerate() {
            let Entry { key, label, .. } = *entry;
            assert!(!key.is_empty() && !label.is_empty());
            assert!(entry.help.ends_with('.'), "{key} {label}");
            assert!((20..260).contains(&entry.help.len()), "{key} {label}");
            let same = |other: &Entry| (other.key, other.label) == (key, label);
            assert!(!CATALOGUE[..at].iter().any(same), "{key} {label}");
        }
    }

    #[test]
    fn a_range_holds_its_ends_and_nothing_that_is_not_a_number() {
        for field in Field::all() {
            let Some(range) = field.range() else { continue };
            assert!(range.lowest < range.highest, "{field:?}");
            assert!(range.allows(range.lowest) && range.allows(range.highest));
            assert!(!range.allows(f64::NAN) && !range.allows(f64::INFINITY));
        }
    }
}
