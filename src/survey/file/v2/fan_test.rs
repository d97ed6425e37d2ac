//! Format 2: fan tests.

use super::super::stored::{Entry, Number, Text, list, numbered, numbers, record, words};
use super::super::v1::ids::GapId;
use super::SetUp;

numbers!(FanTestId);

words! {
    /// Before or after the work.
    Tested {
        AsFound = "as_found",
        AfterWork = "after_work",
    }
}

record! {
    /// One reading.
    FanReading {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pressure_pa: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        flow_m3_per_h: Option<Number>,
    }
}

impl Entry for FanReading {
    const WORD: &'static str = "reading";
}

record! {
    /// The readings in one direction.
    #[derive(Default)]
    #[serde(default)]
    FanReadings {
        #[serde(deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        readings: Vec<FanReading>,
        #[serde(skip_serializing_if = "Option::is_none")]
        zero_before_pa: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        zero_after_pa: Option<Number>,
    }
}

impl FanReadings {
    /// Whether nothing was written down.
    fn is_nothing(&self) -> bool {
        self.readings.is_empty() && self.zero_before_pa.is_none() && self.zero_after_pa.is_none()
    }
}

record! {
    /// An opening that was covered for a test.
    Covered {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        gap: Option<GapId>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        what: Text,
        #[serde(default)]
        uncovered: bool,
    }
}

impl Entry for Covered {
    const WORD: &'static str = "covered opening";
}

record! {
    /// A fan test.
    FanTest {
        id: FanTestId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        date: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        instrument: Text,
        tested: Tested,
        set_up: SetUp,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        closed: Text,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        covered: Vec<Covered>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside_c: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        outside_c: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        barometer_hpa: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wind_m_s: Option<Number>,
        #[serde(default, skip_serializing_if = "FanReadings::is_nothing")]
        blowing_out: FanReadings,
        #[serde(default, skip_serializing_if = "FanReadings::is_nothing")]
        blowing_in: FanReadings,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        note: Text,
    }
}

numbered!(FanTest = "fan test");
