//! Survey in, answers out.
//!
//! [`assess`] is a pure function: the same survey gives the same answers, to the last bit.
//! It does no input or output, reads no clock and starts no thread.

pub mod answer;
pub mod topic;

pub use answer::{
    Answer, Assessment, CaseAir, CaseAnswer, CaseDrying, CaseHeat, CrossCheck, DirectionAnswer,
    Fabric, GapAirFlow, GapAnswer, GapLeakage, HeatNeed, Leakage, LeakageFigures, LeakageTotal,
    Mark, NotKnown, RequiredRemoval, Safety, SafetyRequirement, SafetyVerdict, Source, Working,
};
pub use topic::Topic;
