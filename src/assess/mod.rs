//! Survey in, answers out.
//!
//! [`assess`] is a pure function: the same survey gives the same answers, to the last bit.
//! It does no input or output, reads no clock and starts no thread.

pub mod answer;
mod assessment;
pub mod calibration;
pub mod cautions;
pub mod curves;
pub mod drying;
mod envelope;
mod exposure;
mod fabric;
mod factors;
pub mod flues;
mod in_air;
pub mod in_short;
mod inside;
mod interval;
mod law;
mod leakage;
mod mark;
pub mod measured;
mod model;
mod money;
mod not_known;
mod parking;
mod possible;
mod prepared;
pub mod quantity;
pub mod reach;
pub mod safety;
pub mod sealing;
pub mod shown;
mod sleepers;
mod sound;
pub mod spaces;
mod spread;
mod stores;
mod study;
pub mod topic;
pub mod uncertainty;
mod walk;
mod weather;
mod wind_choices;
pub mod winter;
pub mod words;
mod worked;
mod working;
mod written_money;

pub use crate::survey::number;
pub use answer::{
    Answer, Assessment, CaseAir, CaseAnswer, CaseDrying, CaseHeat, CrossCheck, DirectionAnswer,
    Fabric, GapAirFlow, GapAnswer, GapLeakage, HeatInput, HeatNeed, InnerAirFlow, Leakage,
    LeakageFigures, LeakageTotal, NotKnown, RequiredRemoval, Safety, SafetyRequirement,
    SafetyVerdict, Source, SpaceAir, Working,
};
pub use assessment::assess;
pub use curves::{FaceTotal, TemperatureCurve, WindCurve, WindPoint, face_totals};
pub use drying::Comparison;
pub use leakage::total as leakage_total;
pub use mark::Mark;
pub use parking::Parking;
pub use study::{Best, Drawing, Part, Study, compare};
pub use topic::{DryingTopic, Topic};
pub use walk::{WalkRound, walk_round};
pub use wind_choices::{WindChoice, WindChoices};
pub use working::{drying_working, ranking_working, uncertainty_working, working};

#[cfg(test)]
pub(crate) mod tests;
