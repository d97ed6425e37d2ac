//! Format 2: loggers' readings and trials.

use super::super::stored::{
    DataName, Entry, Moment, Number, Stored, Text, list, numbered, numbers, record, words,
};
use super::super::v1::ids::{HeaterId, MachineId};
use crate::survey::file::live;

numbers!(SeriesId, TrialId, PeriodId);

words! {
    /// Where a logger hung.
    Hung {
        Inside = "inside",
        Outside = "outside",
        Elsewhere = "elsewhere",
    }
    /// How it is known by how much it is off.
    OffsetFrom {
        NotChecked = "not_checked",
        SideBySide = "side_by_side",
        Salt = "salt",
        Certificate = "certificate",
    }
    /// What a logger was held against.
    Against {
        Logger = "logger",
        SodiumChloride = "sodium_chloride",
        MagnesiumChloride = "magnesium_chloride",
    }
    /// What humidity below freezing means.
    BelowFreezing {
        OverWater = "over_water",
        OverIce = "over_ice",
    }
    /// How the text of a file is encoded.
    Encoding {
        Utf8 = "utf_8",
        Utf16Low = "utf_16_low",
        Utf16High = "utf_16_high",
        Windows1252 = "windows_1252",
    }
    /// The sign between columns.
    Separator {
        Comma = "comma",
        Semicolon = "semicolon",
        Tab = "tab",
    }
    /// The sign before decimals.
    Decimal {
        Point = "point",
        Comma = "comma",
    }
    /// The order of a date.
    DateOrder {
        YearMonthDay = "year_month_day",
        DayMonthYear = "day_month_year",
        MonthDayYear = "month_day_year",
    }
    /// What was read.
    What {
        Temperature = "temperature",
        RelativeHumidity = "relative_humidity",
        DewPoint = "dew_point",
        AbsoluteHumidity = "absolute_humidity",
        CarbonDioxide = "carbon_dioxide",
        Pressure = "pressure",
        Wind = "wind",
        WindDirection = "wind_direction",
        Global = "global",
        Direct = "direct",
        Diffuse = "diffuse",
        CloudCover = "cloud_cover",
    }
    /// In which unit.
    LoggerUnit {
        Celsius = "celsius",
        Fahrenheit = "fahrenheit",
        Percent = "percent",
        Share = "share",
        GramsPerM3 = "g_per_m3",
        Ppm = "ppm",
        Pascal = "pa",
        Hectopascal = "hpa",
        MmOfMercury = "mmhg",
        MetresPerSecond = "m_per_s",
        KilometresPerHour = "km_per_h",
        MilesPerHour = "mph",
        Knots = "kn",
        Degrees = "deg",
        WattsPerM2 = "w_per_m2",
    }
    /// Where the outside air is from.
    OutsideFrom {
        Logger = "logger",
        WeatherFile = "weather_file",
        Cases = "cases",
    }
    /// What kind of thing ran.
    Ran {
        NotSaid = "not_said",
        Nothing = "nothing",
        Equipment = "equipment",
        Other = "other",
    }
    /// How vents stood.
    Vents {
        NotSaid = "not_said",
        Open = "open",
        Closed = "closed",
    }
}

/// What a column is used for.
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::survey::file) enum LoggerColumn {
    #[serde(rename = "left_out")]
    LeftOut,
    #[serde(rename = "moment")]
    Moment,
    #[serde(rename = "date")]
    Date,
    #[serde(rename = "time_of_day")]
    TimeOfDay,
    #[serde(rename = "readings")]
    Readings {
        what: What,
        unit: LoggerUnit,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        sensor: Text,
    },
}

impl Stored for LoggerColumn {
    type Live = live::LoggerColumn;

    fn live(self) -> Self::Live {
        match self {
            Self::LeftOut => Self::Live::LeftOut,
            Self::Moment => Self::Live::Moment,
            Self::Date => Self::Live::Date,
            Self::TimeOfDay => Self::Live::TimeOfDay,
            Self::Readings { what, unit, sensor } => Self::Live::Readings {
                what: what.live(),
                unit: unit.live(),
                sensor: sensor.live(),
            },
        }
    }

    fn stored(live: &Self::Live) -> Self {
        match live {
            live::LoggerColumn::LeftOut => Self::LeftOut,
            live::LoggerColumn::Moment => Self::Moment,
            live::LoggerColumn::Date => Self::Date,
            live::LoggerColumn::TimeOfDay => Self::TimeOfDay,
            live::LoggerColumn::Readings { what, unit, sensor } => Self::Readings {
                what: What::stored(what),
                unit: LoggerUnit::stored(unit),
                sensor: Text::stored(sensor),
            },
        }
    }
}

impl Entry for LoggerColumn {
    const WORD: &'static str = "column";
}

/// Which clock the times are of.
#[derive(Default, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::survey::file) enum LoggerZone {
    #[default]
    #[serde(rename = "unnamed")]
    Unnamed,
    #[serde(rename = "offset")]
    Offset { ahead_s: i64 },
    #[serde(rename = "named")]
    Named { name: Text },
}

impl LoggerZone {
    fn is_unnamed(&self) -> bool {
        matches!(self, Self::Unnamed)
    }
}

impl Stored for LoggerZone {
    type Live = live::LoggerZone;

    fn live(self) -> Self::Live {
        match self {
            Self::Unnamed => Self::Live::Unnamed,
            Self::Offset { ahead_s } => Self::Live::Offset(ahead_s),
            Self::Named { name } => Self::Live::Named(name.live()),
        }
    }

    fn stored(live: &Self::Live) -> Self {
        match live {
            live::LoggerZone::Unnamed => Self::Unnamed,
            live::LoggerZone::Offset(ahead_s) => Self::Offset { ahead_s: *ahead_s },
            live::LoggerZone::Named(name) => Self::Named {
                name: Text::stored(name),
            },
        }
    }
}

record! {
    /// How a logger's file is read.
    Mapping {
        encoding: Encoding,
        separator: Separator,
        decimal: Decimal,
        lines_before: usize,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        order: Option<DateOrder>,
        #[serde(default, skip_serializing_if = "LoggerZone::is_unnamed")]
        zone: LoggerZone,
        #[serde(default)]
        clock_ahead_s: i64,
        #[serde(deserialize_with = "list")]
        columns: Vec<LoggerColumn>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        sheet: Text,
    }
}

record! {
    /// Readings that do not count.
    LeftOut {
        from: Moment,
        to: Moment,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        what: Option<What>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        why: Text,
    }
}

impl Entry for LeftOut {
    const WORD: &'static str = "stretch left out";
}

record! {
    /// Hours in which a logger was checked.
    LoggerCheck {
        against: Against,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        beside: Option<SeriesId>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        from: Option<Moment>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        to: Option<Moment>,
    }
}

record! {
    /// Readings of a logger.
    LoggerSeries {
        id: SeriesId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        hung: Hung,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        place: Text,
        file: DataName,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        original: Text,
        mapping: Mapping,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        sensor: Text,
        #[serde(default = "over_water")]
        below_freezing: BelowFreezing,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        too_warm_k: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        too_damp_percent: Option<Number>,
        #[serde(default = "not_checked")]
        offset_from: OffsetFrom,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        check: Option<LoggerCheck>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        left_out: Vec<LeftOut>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        note: Text,
    }
}

fn over_water() -> BelowFreezing {
    BelowFreezing::OverWater
}

fn not_checked() -> OffsetFrom {
    OffsetFrom::NotChecked
}

record! {
    /// A stretch of a trial.
    Period {
        id: PeriodId,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        from: Option<Moment>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        to: Option<Moment>,
        #[serde(default = "ran_not_said")]
        ran: Ran,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        machine: Option<MachineId>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        heater: Option<HeaterId>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        words: Text,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        water_kg: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        used_kwh: Option<Number>,
        #[serde(default = "vents_not_said")]
        vents: Vents,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        people: Option<Number>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        note: Text,
    }
}

fn ran_not_said() -> Ran {
    Ran::NotSaid
}

fn vents_not_said() -> Vents {
    Vents::NotSaid
}

record! {
    /// A trial.
    Trial {
        id: TrialId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside: Option<SeriesId>,
        outside_from: OutsideFrom,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        outside: Option<SeriesId>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        clock_ahead_h: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reference: Option<PeriodId>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        periods: Vec<Period>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        note: Text,
    }
}

numbered!(LoggerSeries = "logger", Trial = "trial", Period = "period",);
