//! Weather by the hour: read from the open format of building simulation or from rows of readings, or
//! made from monthly means. Text in, rows out: no input or output, no clock, no survey.

mod calendar;
pub mod epw;
mod fill;
mod hour;
mod invent;
mod logged;
mod means;
mod season;
mod words;

pub use calendar::{Day, MonthDay, days_in_month};
pub use fill::LONGEST_GAP_H;
pub use hour::{Hour, Place, Weather};
pub use invent::invent;
pub use logged::LoggedError;
pub use means::{MonthlyWeather, WinterMeans};
pub use season::{
    is_of_one_year, is_of_several_years, season, season_between, usual_season, whole_winters,
};
