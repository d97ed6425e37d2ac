#![allow(missing_docs)]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PressureSet {
    LowRise,
    WallAverage,
}
