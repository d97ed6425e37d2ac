//! Gapledger surveys the air leakage of leisure vehicles.
//!
//! The layers only import downwards: [`physics`] knows numbers, [`climate`] hours of
//! weather, [`survey`] what was recorded, [`assess`] turns a survey into answers, and the surfaces stand on top.

pub mod assess;
pub mod climate;
pub mod figure;
pub mod fonts;
pub mod headless;
pub mod physics;
pub mod report;
pub mod series;
pub mod sheet;
pub mod survey;
pub mod tasks;
#[cfg(feature = "window")]
pub mod window;
