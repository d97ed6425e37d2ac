//! Format 2: tests of the air change.

use super::super::stored::{Entry, Number, Text, list, numbered, numbers, record, words};
use super::SetUp;
use super::fan_test::Tested;

numbers!(AirTestId);

words! {
    /// What the air change is told by.
    AirTestBy {
        PeopleLeft = "people_left",
        Gas = "gas",
        Moisture = "moisture",
        WaterCollected = "water_collected",
    }
}

record! {
    /// One reading.
    AirReading {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        minutes: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        value: Option<Number>,
    }
}

impl Entry for AirReading {
    const WORD: &'static str = "reading";
}

record! {
    /// A test of the air change.
    AirTest {
        id: AirTestId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        date: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        instrument: Text,
        by: AirTestBy,
        tested: Tested,
        set_up: SetUp,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        closed: Text,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside_c: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        outside_c: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wind_m_s: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        background: Option<Number>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        readings: Vec<AirReading>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        hours: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        collected_l: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        given_off_l: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside_rh_percent: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        outside_rh_percent: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        start_rh_percent: Option<Number>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        end_rh_percent: Option<Number>,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        note: Text,
    }
}

numbered!(AirTest = "air test");
