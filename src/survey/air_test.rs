//! A test of the air change in the weather there is: the decay of something in the air that nobody adds
//! to any longer, or the water that a machine collects.

use super::fan_test::Tested;
use super::ids::AirTestId;
use super::site::SetUp;

/// What the air change is told by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum AirTestBy {
    /// Carbon dioxide of people who have left.
    #[default]
    PeopleLeft,
    /// A gas let in from a bottle, no fuel and no flame.
    Gas,
    /// Water in the air, after airing or after its source has ended.
    Moisture,
    /// Water that a machine collected over a period.
    WaterCollected,
}

impl AirTestBy {
    /// All, the usual first.
    pub const ALL: [Self; 4] = [
        Self::PeopleLeft,
        Self::Gas,
        Self::Moisture,
        Self::WaterCollected,
    ];

    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::PeopleLeft => "carbon dioxide, after everybody has left",
            Self::Gas => "a gas from a bottle, never a fuel",
            Self::Moisture => "water in the air, after its source has ended",
            Self::WaterCollected => "water that a machine collected",
        }
    }

    /// The unit of the readings and of the outside air; empty where it may be any.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::PeopleLeft => "ppm",
            Self::Moisture => "g/kg",
            Self::Gas | Self::WaterCollected => "",
        }
    }

    /// Whether readings fall over time.
    #[must_use]
    pub fn is_decay(self) -> bool {
        self != Self::WaterCollected
    }
}

/// A reading of what is in the air.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AirReading {
    /// Minutes since the first reading.
    pub minutes: Option<f64>,
    /// What was read, in the unit of all readings and of the outside air.
    pub value: Option<f64>,
}

/// A test of the air change.
#[derive(Clone, Debug, PartialEq)]
pub struct AirTest {
    /// Its number.
    pub id: AirTestId,
    /// The user's name for it.
    pub name: String,
    /// Day of the test, `YYYY-MM-DD`, or empty.
    pub date: String,
    /// What was read with.
    pub instrument: String,
    /// What the air change is told by.
    pub by: AirTestBy,
    /// Before or after the work.
    pub tested: Tested,
    /// How the closable gaps stood.
    pub set_up: SetUp,
    /// What was open and what was closed, in words.
    pub closed: String,
    /// Mean of the air inside, °C.
    pub inside_c: Option<f64>,
    /// Mean of the air outside, °C.
    pub outside_c: Option<f64>,
    /// Mean wind at the vehicle, m/s.
    pub wind_m_s: Option<f64>,
    /// What the outside air has of it, in the unit of the readings.
    pub background: Option<f64>,
    /// The readings of a decay.
    pub readings: Vec<AirReading>,
    /// Hours over which water was collected.
    pub hours: Option<f64>,
    /// Water collected, L.
    pub collected_l: Option<f64>,
    /// Water given off inside meanwhile, by people, cooking and wet things, L.
    pub given_off_l: Option<f64>,
    /// Mean relative humidity inside, %.
    pub inside_rh_percent: Option<f64>,
    /// Mean relative humidity outside, %.
    pub outside_rh_percent: Option<f64>,
    /// Relative humidity inside when it began, %.
    pub start_rh_percent: Option<f64>,
    /// Relative humidity inside when it ended, %.
    pub end_rh_percent: Option<f64>,
    /// Free words.
    pub note: String,
}

impl AirTest {
    /// A test of which nothing is known yet.
    #[must_use]
    pub fn new(id: AirTestId, set_up: SetUp) -> Self {
        Self {
            id,
            name: String::new(),
            date: String::new(),
            instrument: String::new(),
            by: AirTestBy::default(),
            tested: Tested::AsFound,
            set_up,
            closed: String::new(),
            inside_c: None,
            outside_c: None,
            wind_m_s: None,
            background: None,
            readings: Vec::new(),
            hours: None,
            collected_l: None,
            given_off_l: None,
            inside_rh_percent: None,
            outside_rh_percent: None,
            start_rh_percent: None,
            end_rh_percent: None,
            note: String::new(),
        }
    }
}
