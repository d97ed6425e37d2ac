//! What the comparison answers. SI, shares 0 to 1; a name that is neither carries its unit.

mod judged;
mod sizes;
mod told;

pub use judged::{NEAR, Proviso, Shortfall, Standing, Verdict};
pub(super) use told::in_all_weathers;

pub use sizes::{AchPoint, Capacity, HeaterFor, HeaterSize, NeedCurve, Offer, SizedFor, Sizing};

use crate::assess::answer::{Answer, NotKnown};
use crate::physics::MoistAir;
use crate::physics::coupled::Running;
use crate::survey::{FabricId, Finding, GapId, HeaterId, MachineId, MachineKind, SetUp, WeatherId};

/// The options beside each other, and what follows for sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// The set-up all of this is for.
    pub set_up: SetUp,
    /// Relative humidity to hold.
    pub target_rh: f64,
    /// Temperature that sizes are for, °C: comfort in use, else the set temperature for drying.
    pub inside_c: f64,
    /// The weather cases, in the survey's order.
    pub cases: Vec<ComparedCase>,
    /// All weights together, before they are made shares of one.
    pub weights: f64,
    /// What the shares of the season are shares of.
    pub shares: Shares,
    /// Index of the case with the least wind.
    pub calmest: usize,
    /// Index of the case with the most wind.
    pub windiest: usize,
    /// The options, in the order shown; the first is to do nothing.
    pub options: Vec<OptionAnswer>,
    /// What was noticed about targets, options and supply.
    pub findings: Vec<Finding>,
    /// What to look for when buying.
    pub sizing: Sizing,
    /// Time and power to warm up, one for the calmest and one for the windiest case.
    pub warm_up: Vec<WarmUp>,
    /// Air for each sleeper at night in the calmest case.
    pub night_air: Answer<NightAir>,
    /// All of this once more with the planned gaps sealed; `None` while no gap is planned.
    pub after_plan: Option<AfterPlan>,
}

/// The comparison with the gaps sealed that are marked as planned.
#[derive(Clone, Debug, PartialEq)]
pub struct AfterPlan {
    /// The gaps that are sealed then, each to what its remedy leaves.
    pub gaps: Vec<GapId>,
    /// The comparison then, with the same options in the same order and no further plan.
    pub comparison: Answer<Box<Comparison>>,
}

impl Comparison {
    /// Name of a weather case, by its index.
    #[must_use]
    pub fn case_name(&self, case: usize) -> &str {
        self.cases.get(case).map_or("", |case| &case.name)
    }

    /// Index of a weather case.
    #[must_use]
    pub fn case_index(&self, id: WeatherId) -> Option<usize> {
        self.cases.iter().position(|case| case.id == id)
    }

    /// What an option comes to in a weather case, both by their index.
    ///
    /// # Errors
    /// [`NotKnown`] where it is not, or where there is no such option or case.
    pub fn state(&self, option: usize, case: usize) -> Answer<&OptionCase> {
        let state = self
            .options
            .get(option)
            .and_then(|option| option.cases.get(case))
            .ok_or_else(|| NotKnown::because("there is no such weather case"))?;
        state.as_ref().map_err(Clone::clone)
    }

    /// Relative humidity inside with an option, mean over the season.
    ///
    /// # Errors
    /// [`NotKnown`] where that of a case with a share is not, no case has one, or there is no such
    /// option.
    pub fn mean_rh(&self, option: usize) -> Answer<f64> {
        let option = self.options.get(option);
        option.map_or_else(
            || Err(NotKnown::because("there is no such option")),
            |option| option.mean_rh.clone(),
        )
    }

    /// All of this with the planned gaps sealed, where gaps are planned and it is known.
    #[must_use]
    pub fn sealed(&self) -> Option<&Self> {
        self.after_plan.as_ref()?.comparison.as_deref().ok()
    }

    /// An option after the plan, by its index; `None` while no gap is planned.
    #[must_use]
    pub fn option_after_plan(&self, option: usize) -> Option<Answer<&OptionAnswer>> {
        let plan = self.after_plan.as_ref()?;
        match &plan.comparison {
            Ok(then) => then.options.get(option).map(Ok),
            Err(unknown) => Some(Err(unknown.clone())),
        }
    }
}

/// One weather case of the comparison.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparedCase {
    /// The weather case.
    pub id: WeatherId,
    /// Its name, or its number where it has none.
    pub name: String,
    /// Wind at the weather station, m/s.
    pub wind_m_s: f64,
    /// Share of all weights.
    pub share: f64,
    /// Outside air.
    pub outside: Answer<MoistAir>,
    /// Inside temperature at which warmth alone reaches the target, nothing given off, °C.
    pub warmth_alone_c: Answer<f64>,
}

/// What is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OptionKind {
    /// Nothing.
    Nothing,
    /// Every closable ventilator and locker opening stands open.
    LockersOpen,
    /// A drying machine of this kind.
    Machine(MachineKind),
    /// A heater, on its thermostat.
    BackgroundHeat,
    /// As much heat as the large machine's electric power, all the time.
    SameHeat,
    /// The heater and the large machine together.
    HeatAndMachine,
}

/// One option in every weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct OptionAnswer {
    /// What is done.
    pub kind: OptionKind,
    /// The survey's machine, if it is one of the survey's.
    pub machine: Option<MachineId>,
    /// The survey's heater, if it is one of the survey's.
    pub heater: Option<HeaterId>,
    /// Its name: the user's, or the size of the generic one.
    pub name: String,
    /// Machine or heater come from the generic library: an assumption of this project.
    pub generic: bool,
    /// Lowest inside temperature at which the machine runs, °C, where it has one.
    pub lowest_room_c: Option<f64>,
    /// The state in each weather case, in their order.
    pub cases: Vec<Answer<OptionCase>>,
    /// Over how much of the season it holds the target.
    pub verdict: Answer<Verdict>,
    /// Share of the season over which it holds the target or comes within [`NEAR`] of it, 0 to 1.
    pub nearly_held: f64,
    /// Relative humidity inside, mean over the season.
    pub mean_rh: Answer<f64>,
    /// What has to be said beside the verdict.
    pub provisos: Vec<Proviso>,
    /// The verdict in a plain sentence with its numbers.
    pub sentence: String,
    /// Air that the machine's own fan moves, room volumes an hour; `None` without a fan.
    pub room_volumes_per_h: Option<Answer<f64>>,
    /// What it asks of the supply; `None` where it draws nothing.
    pub supply: Option<Answer<Supply>>,
    /// Electricity over a month, the weather cases by their shares, kWh.
    pub kwh_per_month: Answer<f64>,
    /// What running it costs, the weather cases by their shares.
    pub costs: RunningCost,
    /// What has to be bought for it.
    pub to_buy: ToBuy,
}

impl OptionAnswer {
    /// Its name, with a star where it is generic; the star is explained where it is shown.
    #[must_use]
    pub fn starred_name(&self) -> String {
        format!("{}{}", self.name, if self.generic { "*" } else { "" })
    }
}

/// One option in one weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct OptionCase {
    /// Inside air.
    pub inside: MoistAir,
    /// Relative humidity inside.
    pub rh: f64,
    /// Dew point inside, °C; `None` for dry air.
    pub dew_point_c: Option<f64>,
    /// Dry air that flows through, kg/s.
    pub dry_air_kg_s: f64,
    /// Air changes at inside-air density, per hour.
    pub ach_per_h: Answer<f64>,
    /// Water that the machine removes, kg/s.
    pub removal_kg_s: f64,
    /// Water to remove to hold the target at this temperature, kg/s: what the air brings above
    /// the target, and what is given off inside.
    pub load_kg_s: f64,
    /// Share of the time that the machine runs.
    pub duty: f64,
    /// Electric power of the machine, mean, W.
    pub machine_w: f64,
    /// Heat of the heater, mean, W.
    pub heater_w: f64,
    /// What the machine does.
    pub running: Running,
    /// Water that condenses, on the cold surfaces and because the air cannot hold it, kg/s.
    pub condensation_kg_s: f64,
    /// What it draws and burns.
    pub energy: Energy,
    /// The fall of the relative humidity against doing nothing, and what it is owed to; `None`
    /// where it is under half a point.
    pub fall: Option<Fall>,
    /// Whether the target is held.
    pub holds: bool,
    /// Why it is not; `None` where it is.
    pub shortfall: Option<Shortfall>,
    /// How much warmer it is without the machine than the machine needs to start, K: below zero it
    /// does not start. `None` without a machine, or where it starts in any cold.
    pub start_margin_k: Option<f64>,
    /// Share of its strength that ice leaves to the coil of a compressor that runs; `None` without
    /// one.
    pub ice_leaves: Option<f64>,
    /// How much colder it is than the heater's set point, K; `None` where it is as warm as that, or
    /// there is no such heater.
    pub below_set_point_k: Option<f64>,
    /// Cold surfaces in this state.
    pub surfaces: Vec<Surface>,
    /// Drying out damp contents; `None` where they were not recorded or nothing can be said.
    pub dry_out: Option<DryOut>,
}

/// What an option draws and burns, mean.
#[derive(Clone, Debug, PartialEq)]
pub struct Energy {
    /// Electricity, machine and heater, W.
    pub electric_w: f64,
    /// Electricity a day, kWh.
    pub kwh_per_day: f64,
    /// Gas, kg a day.
    pub gas_kg_per_day: f64,
    /// Liquid fuel, L a day.
    pub liquid_fuel_l_per_day: f64,
    /// Cost of a day.
    pub cost_per_day: Answer<f64>,
    /// Cost of a month of such weather.
    pub cost_per_month: Answer<f64>,
}

/// What running an option costs, the weather of the season by its shares.
#[derive(Clone, Debug, PartialEq)]
pub struct RunningCost {
    /// A month of the season: power, fuel and upkeep.
    pub per_month: Answer<f64>,
    /// All of the season, November to March.
    pub per_winter: Answer<f64>,
    /// What a month takes besides power and fuel.
    pub upkeep_per_month: Answer<f64>,
}

/// What has to be bought for an option.
#[derive(Clone, Debug, PartialEq)]
pub enum ToBuy {
    /// Nothing: no machine or heater belongs to it.
    Nothing,
    /// Nothing: all that belongs to it is there already.
    Owned,
    /// What is not there yet, at this price.
    Costs(Answer<f64>),
}

impl ToBuy {
    /// Money to spend.
    ///
    /// # Errors
    /// [`NotKnown`] where a price is not given.
    pub fn money(&self) -> Answer<f64> {
        match self {
            Self::Nothing | Self::Owned => Ok(0.0),
            Self::Costs(price) => price.clone(),
        }
    }
}

/// What shares of the season are shares of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shares {
    /// The weather cases, each by its weight.
    WeatherCases,
    /// The hours of a winter.
    Winter,
}

/// A fall of the relative humidity, and what it is owed to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// Relative humidity with nothing done.
    pub rh_without: f64,
    /// Share owed to warmth: the same water in the option's temperature and air flow. Above 1
    /// where the option adds water.
    pub warmth_share: f64,
    /// Share owed to the water removed.
    pub water_share: f64,
}

/// What an option asks of the electric supply.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Supply {
    /// Power with everything running, W.
    pub peak_w: f64,
    /// Current at 230 V, A.
    pub current_a: f64,
    /// Whether 10 A at 230 V suffice.
    pub within_10_a: bool,
    /// Whether 16 A at 230 V suffice.
    pub within_16_a: bool,
    /// Whether the recorded supply suffices; `None` where none is recorded.
    pub within_own: Option<bool>,
    /// Days on the recorded batteries in the calmest case; `None` where none are recorded or
    /// nothing is drawn.
    pub battery_days: Option<f64>,
}

/// A cold surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Surface {
    /// The fabric element.
    pub element: FabricId,
    /// Its name.
    pub name: String,
    /// The surface meant.
    pub spot: Spot,
    /// Its area, m²; `None` where it is not given: then nothing condenses on it in the balance.
    pub area_m2: Option<f64>,
    /// Temperature factor of the surface.
    pub temperature_factor: f64,
    /// Outside temperature that it sees: colder than the air for roof and glass on a clear
    /// night, °C.
    pub outside_seen_c: f64,
    /// Its temperature, °C.
    pub temperature_c: f64,
    /// Relative humidity at it; above 1 water condenses.
    pub surface_rh: f64,
    /// Highest relative humidity at it: 0.8 against mould, 0.6 against corrosion of metal, 1 on
    /// glass.
    pub limit: f64,
    /// Water condenses on it.
    pub condenses: bool,
    /// Water that condenses on it, kg/s.
    pub condensed_kg_s: f64,
    /// The limit is exceeded.
    pub exceeds: bool,
    /// Kelvin that the inside must be warmer to clear it, the heater raised and all else as it
    /// follows from that; zero where it is clear, `None` where no warmth in reach does.
    pub kelvin_to_clear: Answer<Option<f64>>,
    /// Relative humidity inside at this temperature that clears it.
    pub rh_to_clear: f64,
    /// Water to remove in all, at this temperature and air flow, to clear it, kg/s; zero where it
    /// is clear.
    pub removal_to_clear_kg_s: Answer<f64>,
}

impl Surface {
    /// The element and which surface of it is meant.
    #[must_use]
    pub fn words(&self) -> String {
        let spot = match self.spot {
            Spot::Plain => "",
            Spot::Bridge => ", thermal bridge",
            Spot::Glass => ", glass",
            Spot::Metal => ", bare metal",
        };
        let element = match self.name.trim() {
            "" => "element without a name",
            name => name,
        };
        format!("{element}{spot}")
    }
}

/// Which surface of an element is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Spot {
    /// The middle of it.
    Plain,
    /// A frame, rib or other thermal bridge in it.
    Bridge,
    /// Glass.
    Glass,
    /// Bare metal.
    Metal,
}

/// Drying out damp contents, besides the steady load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DryOut {
    /// Moisture of the contents in balance with the target, share of the dry mass.
    pub balance_moisture: f64,
    /// Water they hold above that, kg.
    pub water_kg: f64,
    /// Water the option can take from them at the target, kg/s; zero or less: nothing to spare.
    pub spare_kg_s: f64,
    /// Days until it is out, at least; `None` where there is nothing to spare.
    pub days: Option<f64>,
}

/// Warming up from the outside temperature to comfort.
#[derive(Clone, Debug, PartialEq)]
pub struct WarmUp {
    /// The weather case.
    pub id: WeatherId,
    /// From, °C.
    pub from_c: f64,
    /// To, °C.
    pub to_c: f64,
    /// Heat capacity, J/K, and whether it is assumed from the volume.
    pub heat_capacity: Answer<(f64, bool)>,
    /// Heat that fabric and air take at the end, W/K.
    pub conductance_w_per_k: Answer<f64>,
    /// Power that warms up within an hour, W.
    pub power_for_an_hour_w: Answer<f64>,
    /// Heaters with the time they take, s; `None` where a heater never gets there.
    pub heaters: Vec<(String, Answer<Option<f64>>)>,
}

/// Air at night.
#[derive(Clone, Debug, PartialEq)]
pub struct NightAir {
    /// The weather case.
    pub id: WeatherId,
    /// Sleepers, one for each berth.
    pub sleepers: u32,
    /// Air for each, m³/s.
    pub per_sleeper_m3_s: f64,
    /// Carbon dioxide that it settles at, ppm; `None` where that would be more than
    /// [`MOST_PPM`].
    pub carbon_dioxide_ppm: Option<f64>,
}

/// Carbon dioxide beyond which no figure means anything, ppm: nobody lives to see it settle.
pub const MOST_PPM: f64 = 40_000.0;

/// How fresh the air of sleepers is, by its carbon dioxide: guide values of the German Environment
/// Agency, 2008 **\[M\]**.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Freshness {
    /// Up to 1000 ppm.
    Fresh,
    /// Above that, up to 2000 ppm.
    Stuffy,
    /// Above 2000 ppm: no place to stay in.
    TooLittleAir,
}

/// Carbon dioxide above which a room wants more air, ppm.
const STUFFY_PPM: f64 = 1000.0;
/// Carbon dioxide above which a room is no place to stay in, ppm.
const TOO_LITTLE_AIR_PPM: f64 = 2000.0;

impl NightAir {
    /// How fresh it is.
    #[must_use]
    pub fn freshness(&self) -> Freshness {
        match self.carbon_dioxide_ppm {
            Some(ppm) if ppm <= STUFFY_PPM => Freshness::Fresh,
            Some(ppm) if ppm <= TOO_LITTLE_AIR_PPM => Freshness::Stuffy,
            _ => Freshness::TooLittleAir,
        }
    }
}
