//! A winter hour by hour: what every option of drying and heating comes to through a season.
//!
//! [`Winter::new`] makes the weather and the vehicle ready; each option is then marched through the
//! season by itself ([`Winter::season`]), so that they can be shared out to threads.

mod air;
mod bands;
mod compared;
mod count;
mod doubt;
mod elements;
mod hours;
mod laid;
mod mould;
mod of_stay;
mod options;
mod run;
mod throughout;

pub use bands::{Band, Bands, Doubted, Drawn, Figure};
pub use compared::compared;
pub use count::{COLDEST_CORNER_K, COUNTED_RH, Frost, Humidity, Season};

pub use doubt::{Doubt, MOST_WINTER_DRAWS, WINTER_DRAWS};
pub use laid::{Apart, LEAST_HOURS, Laid, LaidOver, laid_over};
pub use mould::{MouldAt, MouldSpot};
pub use of_stay::{sound, typical, typical_weather};
pub use options::WinterOption;
pub use run::{Weathered, Winter};
pub use throughout::{Throughout, WORTH_NAMING};

use crate::climate::{Weather, invent};
use crate::survey::TypicalWinter;

/// The seed of invented weather: the same winter for everybody.
const SEED: u64 = 20_261_128;

/// The weather of a typical winter, hour by hour.
#[must_use]
pub fn invented(winter: TypicalWinter) -> Weather {
    invent(&winter.means(), winter.name(), SEED)
}

/// Heat capacity, J/K for each m³ of volume, where none is given **\[A\]**: that of
/// [`crate::physics::warm_up`].
pub use crate::physics::warm_up::USUAL_HEAT_CAPACITY_PER_M3;

pub use super::stores::{USUAL_BUFFER, USUAL_BUFFER_AREA_PER_M3};

#[cfg(test)]
mod tests;
