//! SI numbers in, SI numbers out: moist air, openings, wind and balances. Knows no survey.
pub mod pressure_coefficient;
pub mod wind;
