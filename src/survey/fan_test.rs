//! A fan test: what was set up, what was covered for it, and the readings in both directions.

use super::ids::{FanTestId, GapId};
use super::site::SetUp;

/// Whether a test was made before or after the work.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Tested {
    /// With nothing sealed yet.
    #[default]
    AsFound,
    /// With the work done that the ledger says.
    AfterWork,
}

impl Tested {
    /// Both, in the order of the job.
    pub const ALL: [Self; 2] = [Self::AsFound, Self::AfterWork];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::AsFound => "as found, before any sealing",
            Self::AfterWork => "after the work",
        }
    }
}

/// One steady reading.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FanReading {
    /// Pressure between inside and outside, Pa, without its sign.
    pub pressure_pa: Option<f64>,
    /// Flow through the fan, m³/h of the air that passes it.
    pub flow_m3_per_h: Option<f64>,
}

/// The readings in one direction.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FanReadings {
    /// The readings.
    pub readings: Vec<FanReading>,
    /// Pressure with the fan covered, before the readings, Pa; positive where it acts the same way
    /// as the fan.
    pub zero_before_pa: Option<f64>,
    /// The same after them.
    pub zero_after_pa: Option<f64>,
}

/// An opening that was covered or taped over for a test.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Covered {
    /// The gap of the ledger, where it is one.
    pub gap: Option<GapId>,
    /// Which opening, in words.
    pub what: String,
    /// Somebody has uncovered it again.
    pub uncovered: bool,
}

/// A fan test.
#[derive(Clone, Debug, PartialEq)]
pub struct FanTest {
    /// Its number.
    pub id: FanTestId,
    /// The user's name for it.
    pub name: String,
    /// Day of the test, `YYYY-MM-DD`, or empty.
    pub date: String,
    /// Fan and gauges, with their calibration.
    pub instrument: String,
    /// Before or after the work.
    pub tested: Tested,
    /// How the closable gaps stood.
    pub set_up: SetUp,
    /// What was closed and how, in words.
    pub closed: String,
    /// What was covered for the test.
    pub covered: Vec<Covered>,
    /// Air inside, °C.
    pub inside_c: Option<f64>,
    /// Air outside, °C.
    pub outside_c: Option<f64>,
    /// Air pressure of the place, hPa; `None` is that of the altitude.
    pub barometer_hpa: Option<f64>,
    /// Wind at the vehicle, m/s.
    pub wind_m_s: Option<f64>,
    /// The fan blows out of the vehicle.
    pub blowing_out: FanReadings,
    /// The fan blows into it.
    pub blowing_in: FanReadings,
    /// Free words.
    pub note: String,
}

impl FanTest {
    /// A test of which nothing is known yet.
    #[must_use]
    pub fn new(id: FanTestId, set_up: SetUp) -> Self {
        Self {
            id,
            name: String::new(),
            date: String::new(),
            instrument: String::new(),
            tested: Tested::AsFound,
            set_up,
            closed: String::new(),
            covered: Vec::new(),
            inside_c: None,
            outside_c: None,
            barometer_hpa: None,
            wind_m_s: None,
            blowing_out: FanReadings::default(),
            blowing_in: FanReadings::default(),
            note: String::new(),
        }
    }

    /// What is still covered.
    pub fn still_covered(&self) -> impl Iterator<Item = &Covered> {
        self.covered.iter().filter(|one| !one.uncovered)
    }

    /// Whether this gap was covered for it.
    #[must_use]
    pub fn covers(&self, gap: GapId) -> bool {
        self.covered.iter().any(|one| one.gap == Some(gap))
    }
}
