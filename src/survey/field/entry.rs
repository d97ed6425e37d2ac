//! What the catalogue holds of each field.

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
    Underside,
    SkirtFreeArea,
    UnderfloorByPlace,
    InsideLength,
    InsideWidth,
    InsideHeight,
    Volume,
    Berths,
    CodeOfPractice,
    Terrain,
    Shelter,
    Heading,
    PrevailingWind,
    Altitude,
    PressureSet,
    // the customer, and the papers about the job
    Customer,
    CustomerAddress,
    Registration,
    QuotationNumber,
    QuotationDate,
    ValidUntil,
    OrderNumber,
    OrderDate,
    InvoiceNumber,
    InvoiceDate,
    PayBy,
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
    MaterialTax,
    ContentsMass,
    ContentsMoisture,
    HeatCapacity,
    Sun,
    Salt,
    HookUp,
    Battery,
    // how it stands through a winter, and which winter
    Winter,
    MonthMean,
    MonthRange,
    MonthRh,
    MonthWind,
    MonthSun,
    WeatherFile,
    Latitude,
    SeasonFirst,
    SeasonLast,
    BodyColour,
    Blinds,
    Covered,
    PresentFrom,
    PresentTo,
    Stores,
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
    GapPart,
    Purpose,
    PurposeConfirmed,
    PurposeWas,
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
    AfterWork,
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
    RatedInput,
    AppliancesConfirmed,
    Fuel,
    Rating,
    SetPoint,
    MachineKind,
    TubArea,
    TubHolds,
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
    Owned,
    Price,
    Upkeep,
    SourceKind,
    SourceCount,
    SourceRate,
    SourceHours,
    SourceLaidUp,
    SourceInUse,
    FanDirection,
    FanFlow,
    FanMostPressure,
    FanLaidUp,
    FanInUse,
    // measurements: whether they weigh, and fan tests
    Calibrated,
    FanTestName,
    FanTestDate,
    Instrument,
    Tested,
    TestedSetUp,
    ClosedForTest,
    CoveredForTest,
    CoveredGap,
    CoveredWhat,
    Uncovered,
    TestInside,
    TestOutside,
    Barometer,
    TestWind,
    ZeroBefore,
    ZeroAfter,
    ReadPressure,
    ReadFlow,
    TestNote,
    // measurements: tests of the air change
    AirTestName,
    AirTestDate,
    AirTestInstrument,
    AirTestBy,
    AirTestTested,
    AirTestSetUp,
    AirTestClosed,
    AirTestInside,
    AirTestOutside,
    AirTestWind,
    Background,
    AirReadingAt,
    AirReading,
    CollectedFor,
    Collected,
    GivenOff,
    MeanInsideRh,
    MeanOutsideRh,
    StartRh,
    EndRh,
    AirTestNote,
    // measurements: loggers and trials
    LoggerName,
    Hung,
    HungPlace,
    LoggerFile,
    Mapping,
    Sensor,
    BelowFreezing,
    TooWarm,
    TooDamp,
    OffsetFrom,
    CheckedAgainst,
    CheckedBeside,
    CheckedFrom,
    CheckedTo,
    LeftOut,
    LoggerNote,
    TrialName,
    InsideSeries,
    OutsideFrom,
    OutsideSeries,
    ClockAhead,
    ReferencePeriod,
    PeriodFrom,
    PeriodTo,
    RanWhat,
    RanMachine,
    RanHeater,
    RanWords,
    WaterCollected,
    PeriodKwh,
    PeriodVents,
    PeriodPeople,
    PeriodNote,
    TrialNote,
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
pub(super) struct Entry {
    pub(super) field: Field,
    pub(super) key: &'static str,
    pub(super) file_key: &'static str,
    pub(super) label: &'static str,
    pub(super) words: &'static str,
    pub(super) range: Option<Range>,
    pub(super) help: &'static str,
    pub(super) empty: &'static str,
    pub(super) rows: usize,
    pub(super) direction: bool,
}

/// An entry of a choice or a text; `key` is also the name in the survey file.
pub(super) const fn of(field: Field, key: &'static str, label: &'static str) -> Entry {
    Entry {
        field,
        key,
        file_key: key,
        label,
        words: label,
        range: None,
        help: "",
        empty: "",
        rows: 1,
        direction: false,
    }
}

impl Entry {
    /// Another name in the survey file, where the record around it says what it is of.
    pub(super) const fn stored_as(mut self, file_key: &'static str) -> Self {
        self.file_key = file_key;
        self
    }

    /// It is a number: words for it in a sentence, its unit and its range.
    pub(super) const fn range(
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

    /// What is taken while it is empty, or what might stand there.
    pub(super) const fn empty(mut self, words: &'static str) -> Self {
        self.empty = words;
        self
    }

    /// It is a text of several lines.
    pub(super) const fn rows(mut self, rows: usize) -> Self {
        self.rows = rows;
        self
    }

    /// It is a direction, in degrees clockwise from north.
    pub(super) const fn direction(mut self) -> Self {
        self.direction = true;
        self
    }

    pub(super) const fn help(mut self, help: &'static str) -> Self {
        self.help = help;
        self
    }
}
