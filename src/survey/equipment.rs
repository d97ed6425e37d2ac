//! Machines, heaters, fans and sources of moisture.

use crate::physics::machine::{Kind, MakerPoint};
use crate::physics::units::LITRES_PER_DAY;

use super::ids::{FanId, HeaterId, MachineId, SourceId, SpaceId};

/// How a drying machine takes water from the air.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MachineKind {
    /// Compressor and cold coil.
    Compressor,
    /// Desiccant rotor with a tank.
    DesiccantRotor,
    /// Thermoelectric cold plate.
    Thermoelectric,
    /// Tub of salt that gathers brine.
    SaltTub,
}

impl MachineKind {
    /// Every kind, in the order offered.
    pub const ALL: [Self; 4] = [
        Self::Compressor,
        Self::DesiccantRotor,
        Self::Thermoelectric,
        Self::SaltTub,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Compressor => "compressor dehumidifier",
            Self::DesiccantRotor => "desiccant rotor",
            Self::Thermoelectric => "thermoelectric dehumidifier",
            Self::SaltTub => "salt tub",
        }
    }
}

/// A further figure of the maker's: removal and power at a state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MachinePoint {
    /// Room temperature, °C.
    pub temperature_c: f64,
    /// Relative humidity, %.
    pub rh_percent: f64,
    /// Water removed, L/day.
    pub removal_l_per_day: f64,
    /// Electric power, W.
    pub power_w: f64,
}

/// A state of the air that makers commonly state removal at \[C\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatingState {
    /// Temperature, °C.
    pub temperature_c: f64,
    /// Relative humidity, %.
    pub rh_percent: f64,
}

impl RatingState {
    /// Those offered for a plate: common practice, no source \[C\].
    pub const USUAL: [Self; 2] = [
        Self {
            temperature_c: 27.0,
            rh_percent: 60.0,
        },
        Self {
            temperature_c: 30.0,
            rh_percent: 80.0,
        },
    ];
    /// What is said beside them. In warmer and damper air every machine gathers more: whoever takes
    /// the upper state reckons with the weaker machine, and does not buy too small a one.
    pub const WORDS: &str = "No air stated on the plate? Makers commonly state 27 °C 60 % or 30 °C 80 % [C]. \
                             Where you cannot tell, take 30 °C 80 %: the machine then counts as the weaker one.";

    /// Its name.
    #[must_use]
    pub fn name(self) -> String {
        format!("{} °C {} %", self.temperature_c, self.rh_percent)
    }
}

/// A drying machine with its maker's figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Machine {
    /// Its number.
    pub id: MachineId,
    /// The user's name for it; sizes, not makers.
    pub name: String,
    /// How it works.
    pub kind: MachineKind,
    /// Water removed at the rating state, L/day.
    pub rated_removal_l_per_day: Option<f64>,
    /// Temperature of the rating state, °C.
    pub rated_temperature_c: Option<f64>,
    /// Relative humidity of the rating state, %.
    pub rated_rh_percent: Option<f64>,
    /// Electric power, W.
    pub power_w: Option<f64>,
    /// Air moved by its own fan, m³/h.
    pub airflow_m3_per_h: Option<f64>,
    /// Lowest room temperature the maker allows, °C.
    pub lowest_room_c: Option<f64>,
    /// Free surface of a salt tub, m².
    pub tub_area_m2: Option<f64>,
    /// What a salt tub holds before it runs over, L.
    pub tub_l: Option<f64>,
    /// Stops when the target humidity is reached.
    pub hygrostat: bool,
    /// Further figures of the maker's.
    pub points: Vec<MachinePoint>,
    /// What it costs to buy, in the survey's currency.
    pub price: Option<f64>,
    /// What a month of it costs besides power and fuel: salt, filters, service.
    pub upkeep_per_month: Option<f64>,
    /// Whether it is there already, so that nothing has to be bought.
    pub owned: bool,
}

impl Machine {
    /// A machine of which nothing is known but how it works; it stops at the target humidity.
    #[must_use]
    pub fn new(id: MachineId, kind: MachineKind) -> Self {
        Self {
            id,
            name: String::new(),
            kind,
            rated_removal_l_per_day: None,
            rated_temperature_c: None,
            rated_rh_percent: None,
            power_w: None,
            airflow_m3_per_h: None,
            lowest_room_c: None,
            tub_area_m2: None,
            tub_l: None,
            hygrostat: true,
            points: Vec::new(),
            price: None,
            upkeep_per_month: None,
            owned: false,
        }
    }

    /// The maker's figures in SI: the rating, where its state and the power are known, and the
    /// further points.
    #[must_use]
    pub fn maker_points(&self) -> Vec<MakerPoint> {
        let point = |t_c: f64, rh_percent: f64, litres_per_day: f64, power: f64| MakerPoint {
            t_c,
            rh: rh_percent / 100.0,
            removal: litres_per_day / LITRES_PER_DAY,
            power,
        };
        let rating = (|| {
            Some(point(
                self.rated_temperature_c?,
                self.rated_rh_percent?,
                self.rated_removal_l_per_day?,
                self.power_w?,
            ))
        })();
        let further = self.points.iter().map(|further| {
            point(
                further.temperature_c,
                further.rh_percent,
                further.removal_l_per_day,
                further.power_w,
            )
        });
        rating.into_iter().chain(further).collect()
    }
}

impl MachineKind {
    /// The behaviour of the kind.
    #[must_use]
    pub fn behaviour(self) -> Kind {
        match self {
            Self::Compressor => Kind::Compressor,
            Self::DesiccantRotor => Kind::DesiccantRotor,
            Self::Thermoelectric => Kind::Thermoelectric,
            Self::SaltTub => Kind::SaltTub,
        }
    }
}

/// What a heater burns or draws.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum HeaterFuel {
    /// Electricity.
    Electricity,
    /// Gas, with flue.
    FluedGas,
    /// Gas, without flue: its water and carbon monoxide stay inside.
    UnfluedGas,
    /// Liquid fuel, with flue.
    LiquidFuel,
}

impl HeaterFuel {
    /// Every fuel, in the order offered.
    pub const ALL: [Self; 4] = [
        Self::Electricity,
        Self::FluedGas,
        Self::UnfluedGas,
        Self::LiquidFuel,
    ];

    /// Whether a flame burns in it, which is never left alone.
    #[must_use]
    pub fn is_flame(self) -> bool {
        self != Self::Electricity
    }

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Electricity => "electric",
            Self::FluedGas => "gas with flue",
            Self::UnfluedGas => "gas without flue",
            Self::LiquidFuel => "liquid fuel with flue",
        }
    }
}

/// A heater.
#[derive(Clone, Debug, PartialEq)]
pub struct Heater {
    /// Its number.
    pub id: HeaterId,
    /// The user's name for it.
    pub name: String,
    /// What it burns or draws.
    pub fuel: HeaterFuel,
    /// Heat given to the room at full output, W.
    pub rating_w: Option<f64>,
    /// Thermostat set point, °C; `None` runs at full output all the time.
    pub set_point_c: Option<f64>,
    /// What it costs to buy, in the survey's currency.
    pub price: Option<f64>,
    /// What a month of it costs besides power and fuel: filters, service.
    pub upkeep_per_month: Option<f64>,
    /// Whether it is there already, so that nothing has to be bought.
    pub owned: bool,
}

impl Heater {
    /// A heater of which nothing is known but what it burns or draws.
    #[must_use]
    pub fn new(id: HeaterId, fuel: HeaterFuel) -> Self {
        Self {
            id,
            name: String::new(),
            fuel,
            rating_w: None,
            set_point_c: None,
            price: None,
            upkeep_per_month: None,
            owned: false,
        }
    }
}

/// Which way a fan moves air.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FanDirection {
    /// From inside to outside.
    Extract,
    /// From outside to inside.
    Supply,
}

/// Pressure that stops a fan whose maker does not say, Pa **\[A\]**.
pub const USUAL_MOST_PRESSURE_PA: f64 = 60.0;

/// A fan between inside and outside.
#[derive(Clone, Debug, PartialEq)]
pub struct Fan {
    /// Its number.
    pub id: FanId,
    /// The user's name for it.
    pub name: String,
    /// Which way it moves air.
    pub direction: FanDirection,
    /// Flow against no pressure, m³/h of the air it moves: that of outside for supply, that of its
    /// space for extract.
    pub flow_m3_per_h: Option<f64>,
    /// Pressure that stops it, Pa; `None` is [`USUAL_MOST_PRESSURE_PA`].
    pub most_pressure_pa: Option<f64>,
    /// Runs when the vehicle is laid up.
    pub on_laid_up: bool,
    /// Runs when the vehicle is in use.
    pub on_in_use: bool,
    /// The space it moves air of; `None` is the first.
    pub space: Option<SpaceId>,
}

/// What gives off water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SourceKind {
    /// A person awake.
    PersonAwake,
    /// A person asleep.
    PersonAsleep,
    /// Cooking.
    Cooking,
    /// Clothes drying.
    Clothes,
    /// A flame without flue.
    UnfluedFlame,
    /// Something else.
    Other,
}

impl SourceKind {
    /// Every kind, in the order offered.
    pub const ALL: [Self; 6] = [
        Self::PersonAwake,
        Self::PersonAsleep,
        Self::Cooking,
        Self::Clothes,
        Self::UnfluedFlame,
        Self::Other,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::PersonAwake => "person awake",
            Self::PersonAsleep => "person asleep",
            Self::Cooking => "cooking",
            Self::Clothes => "clothes drying",
            Self::UnfluedFlame => "flame without flue",
            Self::Other => "other source",
        }
    }

    /// Water given off by one while it lasts, g/h, where a figure is at hand.
    ///
    /// Person awake 55, asleep 40 g/h: BS 5250 \[M, from memory\]. Cooking 600…1500 g/h, here
    /// 1000 \[S, middle of the published span\].
    #[must_use]
    pub fn usual_rate_g_per_h(self) -> Option<f64> {
        match self {
            Self::PersonAwake => Some(55.0),
            Self::PersonAsleep => Some(40.0),
            Self::Cooking => Some(1000.0),
            Self::Clothes | Self::UnfluedFlame | Self::Other => None,
        }
    }
}

/// A source of moisture inside.
#[derive(Clone, Debug, PartialEq)]
pub struct MoistureSource {
    /// Its number.
    pub id: SourceId,
    /// The user's name for it.
    pub name: String,
    /// What it is.
    pub kind: SourceKind,
    /// How many alike.
    pub count: u32,
    /// Water given off by one while it lasts, g/h.
    pub rate_g_per_h: Option<f64>,
    /// Hours a day it lasts.
    pub hours_per_day: f64,
    /// Present when the vehicle is laid up.
    pub laid_up: bool,
    /// Present when the vehicle is in use.
    pub in_use: bool,
}
