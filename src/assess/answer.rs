//! The answers: what a survey comes to.
//!
//! Nothing here is a default in place of a missing number: a result that cannot be given is
//! [`NotKnown`] with the reason. Values are SI; a name that is not SI carries its unit.

use crate::physics::MoistAir;
use crate::physics::units::{GRAMS_PER_HOUR, LITRES_PER_DAY};
use crate::survey::{
    CodeOfPractice, Facing, Finding, GapId, HeaterId, Purpose, SetUp, SpaceId, WeatherId, ZoneId,
};

pub use super::not_known::{Answer, NotKnown};
pub use super::worked::{Source, Working};

/// Everything worked out from one survey, for the set-up it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Assessment {
    /// The set-up all of this is for.
    pub set_up: SetUp,
    /// What was noticed, errors first.
    pub findings: Vec<Finding>,
    /// Gross internal volume, m³.
    pub volume_m3: Answer<f64>,
    /// One answer for each gap, in the ledger's order.
    pub gaps: Vec<GapAnswer>,
    /// Leakage areas and their totals.
    pub leakage: Leakage,
    /// One answer for each weather case, in the survey's order.
    pub cases: Vec<CaseAnswer>,
    /// Index of the case with the least wind, and of the one with the most.
    pub calmest_and_windiest: Option<(usize, usize)>,
    /// Mean ACH over the cases by their weights, per hour.
    pub season_ach_per_h: Answer<f64>,
    /// Heat that the fabric loses per kelvin.
    pub fabric: Answer<Fabric>,
    /// Safety ventilation against its table.
    pub safety: Safety,
    /// By how much more than by its size each gap lets through by the measurements; empty where none
    /// weighs.
    pub calibrated: Vec<(GapId, f64)>,
}

impl Assessment {
    /// What a gap lets through.
    ///
    /// # Errors
    /// [`NotKnown`] where a size is missing or impossible, where the gap is the outer opening of
    /// a compartment, and where this holds no such gap.
    pub fn leakage_of(&self, gap: GapId) -> Answer<&LeakageFigures> {
        let answer = self.gaps.iter().find(|answer| answer.id == gap);
        match answer.map(|answer| &answer.leakage) {
            Some(GapLeakage::Known(figures)) => Ok(figures),
            Some(GapLeakage::NotSized { reason } | GapLeakage::Impossible { reason }) => {
                Err(NotKnown::because(reason.clone()))
            }
            Some(GapLeakage::Compartment) => Err(NotKnown::because(
                "an outer opening of a compartment: it counts only through the gaps behind it",
            )),
            None => Err(NotKnown::because("it was not assessed")),
        }
    }
}

/// What one gap lets through.
#[derive(Clone, Debug, PartialEq)]
pub struct GapAnswer {
    /// The gap.
    pub id: GapId,
    /// Its leakage as it stands in this set-up, all of its count together.
    pub leakage: GapLeakage,
}

/// Whether and how a gap counts.
#[derive(Clone, Debug, PartialEq)]
pub enum GapLeakage {
    /// It counts with these figures.
    Known(LeakageFigures),
    /// A size was left out: it is in no total, and a finding says so.
    NotSized {
        /// Which sizes are missing.
        reason: String,
    },
    /// Something recorded of it is impossible: it is left out everywhere, and a finding says why.
    Impossible {
        /// What is wrong.
        reason: String,
    },
    /// The outer opening of a compartment: it counts only through the gaps behind it.
    Compartment,
}

impl GapLeakage {
    /// The figures, where there are any.
    #[must_use]
    pub fn figures(&self) -> Option<&LeakageFigures> {
        match self {
            Self::Known(figures) => Some(figures),
            _ => None,
        }
    }
}

/// Flows at reference air (20 °C, 1.2041 kg/m³) and the areas they amount to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LeakageFigures {
    /// Flow at 4 Pa, m³/s.
    pub flow_4pa: f64,
    /// Flow at 10 Pa, m³/s.
    pub flow_10pa: f64,
    /// Flow at 50 Pa, m³/s.
    pub flow_50pa: f64,
    /// Effective leakage area, ELA: 4 Pa, discharge coefficient 1, m².
    pub ela: f64,
    /// Equivalent leakage area, EqLA: 10 Pa, discharge coefficient 0.611, m².
    pub eqla: f64,
}

/// A total of several gaps.
#[derive(Clone, Debug, PartialEq)]
pub struct LeakageTotal {
    /// How many ledger lines are in it.
    pub gaps: usize,
    /// Ledger lines that belong here but are not sized, and so are not in it.
    pub not_sized: usize,
    /// Ledger lines that belong here but are left out, since what is recorded of them cannot be.
    pub left_out: usize,
    /// Their flows and areas together.
    pub figures: LeakageFigures,
}

impl LeakageTotal {
    /// Whether gaps that belong here are missing from it, so that it is at least so much.
    #[must_use]
    pub fn lacks_some(&self) -> bool {
        self.not_sized + self.left_out > 0
    }

    /// Its flows and areas.
    ///
    /// # Errors
    /// [`NotKnown`] where gaps belong to it and none of them counts: it is then not nothing.
    pub fn known(&self) -> Answer<&LeakageFigures> {
        let why = match (self.gaps, self.not_sized, self.left_out) {
            (1.., ..) | (0, 0, 0) => return Ok(&self.figures),
            (0, 1.., 0) => "none of these gaps is sized yet",
            (0, ..) => "none of these gaps is sized, or what is recorded of them cannot be",
        };
        Err(NotKnown::because(why))
    }

    /// What is missing from it: `2 not sized, 1 left out`; nothing where it is whole.
    #[must_use]
    pub fn lacking(&self) -> Option<String> {
        let parts = [(self.not_sized, "not sized"), (self.left_out, "left out")];
        let told = parts.into_iter().filter(|(count, _)| *count > 0);
        let words: Vec<String> = told
            .map(|(count, what)| format!("{count} {what}"))
            .collect();
        (!words.is_empty()).then(|| words.join(", "))
    }
}

/// Leakage areas and their totals.
#[derive(Clone, Debug, PartialEq)]
pub struct Leakage {
    /// All gaps that lead into the living space.
    pub all: Answer<LeakageTotal>,
    /// Those that nobody wanted: every purpose but safety ventilation, gas drop-out and
    /// appliance air.
    pub unintended: Answer<LeakageTotal>,
    /// Safety ventilation.
    pub safety_ventilation: Answer<LeakageTotal>,
    /// Totals by zone, in the survey's order.
    pub by_zone: Vec<(ZoneId, Answer<LeakageTotal>)>,
    /// Totals by facing; only facings that have gaps.
    pub by_facing: Vec<(Facing, Answer<LeakageTotal>)>,
    /// Totals by purpose; only purposes that have gaps.
    pub by_purpose: Vec<(Purpose, Answer<LeakageTotal>)>,
    /// Flow exponent of all gaps together, fitted between 4 and 50 Pa.
    pub exponent: Answer<f64>,
    /// Air changes per hour at 50 Pa, all gaps.
    pub n50_per_h: Answer<f64>,
    /// Flow at 50 Pa for each square metre of envelope, m³/(h m²), all gaps.
    pub q50_per_envelope_m3_per_h_m2: Answer<f64>,
    /// Area of the envelope: outside walls, roof and floor, m².
    pub envelope_m2: Answer<f64>,
    /// Side of the square hole that has the unintended gaps' EqLA, m.
    pub square_side: Answer<f64>,
    /// Ledger lines that are not sized.
    pub not_sized: Vec<GapId>,
    /// Ledger lines that are left out, since what is recorded of them cannot be.
    pub left_out: Vec<GapId>,
}

/// What one weather case comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseAnswer {
    /// The weather case.
    pub id: WeatherId,
    /// Its name.
    pub name: String,
    /// Share of all weights.
    pub share: f64,
    /// Its air change.
    pub air: Answer<CaseAir>,
    /// Water to remove to hold the target humidity.
    pub drying: Answer<CaseDrying>,
    /// Heat to hold temperatures.
    pub heat: Answer<CaseHeat>,
    /// What each of the survey's heaters holds in this wind, in its order.
    pub heaters: Vec<CaseHeater>,
}

/// What a heater holds in the wind of one weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseHeater {
    /// The heater.
    pub id: HeaterId,
    /// Temperature that it is to hold, °C: its set point, or without one that of frost guard while
    /// laid up and of comfort in use.
    pub inside_c: f64,
    /// Heat to hold it at the design outside temperature, W.
    pub needed_w: Answer<f64>,
    /// Coldest outside air in which its rating is enough, °C.
    pub lowest_outside_c: Answer<f64>,
    /// The same for the temperature of frost guard, whatever it is set to; `None` in use.
    pub frost_guard: Option<GuardHeat>,
}

/// What frost guard takes of a heater in the wind of one weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct GuardHeat {
    /// Heat to hold it at the design outside temperature, W.
    pub needed_w: Answer<f64>,
    /// Coldest outside air in which the heater's rating is enough, °C.
    pub lowest_outside_c: Answer<f64>,
}

/// The air change of one weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseAir {
    /// Outside air.
    pub outside: MoistAir,
    /// Inside air.
    pub inside: MoistAir,
    /// Wind speed at the roof's height as computed from the weather station's, m/s.
    pub wind_at_body: f64,
    /// Wind speed used: never below 0.5 m/s, since air is never quite still.
    pub wind_used: f64,
    /// One answer for each of the sixteen wind directions.
    pub directions: Vec<DirectionAnswer>,
    /// Mean gross inflow of outside air over all directions, kg/s.
    pub mean_inflow_kg_s: f64,
    /// Mean ACH at inside-air density, per hour; `None` where the volume is not known.
    pub mean_ach_per_h: Answer<f64>,
    /// Index of the direction with the least air change.
    pub lowest: usize,
    /// Index of the direction with the most.
    pub highest: usize,
    /// Air into each space that the survey lists.
    pub spaces: Vec<SpaceAir>,
    /// The simplified model's ACH, for comparison.
    pub cross_check: Answer<CrossCheck>,
}

/// The simplified cross-check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrossCheck {
    /// Stack coefficient, (L/s)²/(cm⁴ K).
    pub stack_coefficient: f64,
    /// Wind coefficient, (L/s)²/(cm⁴ (m/s)²).
    pub wind_coefficient: f64,
    /// Volume flow, m³/s.
    pub flow: f64,
    /// Air changes per hour.
    pub ach_per_h: f64,
}

/// The air balance in one wind direction.
#[derive(Clone, Debug, PartialEq)]
pub struct DirectionAnswer {
    /// Where the wind comes from, degrees clockwise from the vehicle's front.
    pub from_front_deg: f64,
    /// The same by compass, where the heading is known.
    pub compass_deg: Option<f64>,
    /// Inside pressure at mid-height, Pa.
    pub inside_pressure: f64,
    /// Height above ground at which inside and outside pressure are equal for a gap without
    /// wind pressure, m; `None` where there is no density difference worth the name.
    pub neutral_level: Option<f64>,
    /// Gross inflow of outside air, kg/s.
    pub inflow_kg_s: f64,
    /// Gross outflow, kg/s.
    pub outflow_kg_s: f64,
    /// The one-sided rule gave more than the balance and was used for the inflow.
    pub one_sided: bool,
    /// ACH at inside-air density, per hour.
    pub ach_per_h: Answer<f64>,
    /// Flow through each gap, in the ledger's order; `None` for gaps that are in no balance.
    pub flows: Vec<Option<GapAirFlow>>,
    /// Flow through each inner opening, in the survey's order.
    pub inner_flows: Vec<InnerAirFlow>,
    /// Pressure at mid-height of each space that the survey lists, Pa.
    pub space_pressures: Vec<f64>,
}

/// Air through one inner opening; a tall one may pass it both ways at once.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct InnerAirFlow {
    /// From its first space to its second, kg/s.
    pub forward_kg_s: f64,
    /// Back, kg/s.
    pub back_kg_s: f64,
}

/// Air that one space gets, mean over all directions.
#[derive(Clone, Debug, PartialEq)]
pub struct SpaceAir {
    /// The space.
    pub id: SpaceId,
    /// Outside air coming in through its own gaps and fans, kg/s.
    pub mean_inflow_kg_s: f64,
    /// The same as air changes of the space, per hour, at its air's density.
    pub ach_per_h: Answer<f64>,
    /// Air coming in from other spaces through inner openings, kg/s. A tall opening that passes
    /// air both ways counts with what comes in.
    pub mean_from_spaces_kg_s: f64,
    /// The same as air changes of the space, per hour, at its air's density. It is no outside
    /// air: what it brings was let in elsewhere.
    pub from_spaces_per_h: Answer<f64>,
}

/// Air through one gap; a tall gap may let it in low and out high at once.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct GapAirFlow {
    /// In, kg/s.
    pub in_kg_s: f64,
    /// Out, kg/s.
    pub out_kg_s: f64,
}

/// Water to remove in one weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseDrying {
    /// Water given off inside, kg/s, mean over the day.
    pub source_kg_s: f64,
    /// With the inside at outside temperature.
    pub at_outside_temperature: RequiredRemoval,
    /// With the inside at the set temperature.
    pub at_set_temperature: RequiredRemoval,
}

/// Water to remove to hold the target humidity at one inside temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RequiredRemoval {
    /// Inside temperature, °C.
    pub inside_c: f64,
    /// Dry air that flows through, kg/s.
    pub dry_air_kg_s: f64,
    /// Humidity ratio outside, kg/kg.
    pub outside_humidity_ratio: f64,
    /// Humidity ratio at the target, kg/kg.
    pub target_humidity_ratio: f64,
    /// Water to remove, kg/s; never below zero.
    pub removal_kg_s: f64,
    /// RH inside if nothing is removed, 0…1; above 1 is reported as 1 with condensation.
    pub rh_without_removal: f64,
}

impl RequiredRemoval {
    /// Water to remove, g/h.
    #[must_use]
    pub fn g_per_h(&self) -> f64 {
        self.removal_kg_s * GRAMS_PER_HOUR
    }

    /// Water to remove, litres a day.
    #[must_use]
    pub fn l_per_day(&self) -> f64 {
        self.removal_kg_s * LITRES_PER_DAY
    }
}

/// Heat in one weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseHeat {
    /// To hold the set temperature for drying in this case's outside air.
    pub set_temperature: HeatNeed,
    /// To hold the frost-guard set point at the design outside temperature, in this wind.
    pub frost_guard: HeatNeed,
    /// To hold the comfort temperature at the design outside temperature, in this wind.
    pub comfort: HeatNeed,
}

/// Heat to hold one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatNeed {
    /// Temperature held, °C.
    pub inside_c: f64,
    /// Outside temperature, °C.
    pub outside_c: f64,
    /// ACH at that temperature difference, at inside-air density, per hour.
    pub ach_per_h: Answer<f64>,
    /// Dry air that flows through, kg/s.
    pub dry_air_kg_s: f64,
    /// Heat that the air takes along, W.
    pub air_w: f64,
    /// Heat through the fabric, W.
    pub fabric_w: Answer<f64>,
}

impl HeatNeed {
    /// Air and fabric together, W.
    ///
    /// # Errors
    /// Where the fabric's share is not known.
    pub fn total_w(&self) -> Answer<f64> {
        self.fabric_w.clone().map(|fabric| self.air_w + fabric)
    }
}

/// Heat through the fabric.
#[derive(Clone, Debug, PartialEq)]
pub struct Fabric {
    /// Sum of U·A with thermal bridges, W/K.
    pub ua_w_per_k: f64,
    /// U-value without bridges, W/(m² K), and U·A with them, W/K, by element in order.
    pub elements: Vec<(f64, f64)>,
    /// Area of all elements, m².
    pub area_m2: f64,
}

/// Fixed ventilation against the minimum free areas of a code of practice.
#[derive(Clone, Debug, PartialEq)]
pub struct Safety {
    /// The code of practice.
    pub code: CodeOfPractice,
    /// Plan area, m².
    pub plan_area_m2: Answer<f64>,
    /// What it asks for.
    pub required: Answer<SafetyRequirement>,
    /// Surveyed free area in the roof, m².
    pub high_in_roof: Answer<f64>,
    /// Surveyed free area high up elsewhere, m².
    pub high_elsewhere: Answer<f64>,
    /// Surveyed free area low down, m².
    pub low: Answer<f64>,
    /// What follows.
    pub verdict: SafetyVerdict,
}

/// Minimum free areas of fixed ventilation, m².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SafetyRequirement {
    /// High, if all of it is in the roof.
    pub high_in_roof: f64,
    /// High, if all of it is elsewhere.
    pub high_elsewhere: f64,
    /// And low.
    pub low: f64,
    /// Whether an appliance that is not room-sealed was taken into account.
    pub open_flued: bool,
    /// What it goes by, where that is heat input and not plan area.
    pub heat_input: Option<HeatInput>,
}

/// What minimum free areas may go by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatInput {
    /// Rated heat input of the appliances that are not room-sealed, MJ/h.
    pub mj_per_h: f64,
    /// Sleeping places.
    pub berths: u32,
}

/// Whether the surveyed safety ventilation suffices.
#[derive(Clone, Debug, PartialEq)]
pub enum SafetyVerdict {
    /// It meets the minimum, as far as free areas say.
    Meets,
    /// It is below the minimum.
    Below {
        /// Share of the high area required that is there, 0…1 or more.
        high_share: f64,
        /// Share of the low area required that is there.
        low_share: f64,
    },
    /// It cannot be said.
    NotKnown(NotKnown),
}
