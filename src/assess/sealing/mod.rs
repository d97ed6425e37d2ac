//! What to seal first, for the money, and what must stay open.
//!
//! Nothing here goes by area: what sealing a gap saves is found by solving the air balance again
//! with that gap sealed, in every weather case and wind direction. Sealing one gap shifts air to
//! the others, so that savings do not add up; both the sum and the truth are shown.
//!
//! Openings that protect people cannot get in: a plan takes only [`Sealable`]s, and one is made
//! only where [`leave`](crate::survey::leave::leave) says so.
//!
//! ```
//! use gapledger::assess::sealing::{Aim, Prospect, plan};
//! use gapledger::survey::file;
//! let survey = file::load("sample-surveys/farmyard-caravan.ron".as_ref())?.survey;
//! let prospect = Prospect::new(&survey)?;
//! let chosen = prospect.best_within(Aim::AchWindy, 60.0)?;
//! let plan = plan(&survey, &chosen)?;
//! assert!(plan.cost <= 60.0);
//! assert!(plan.after.ach_windy_per_h? < plan.before.ach_windy_per_h?);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! There is no way round it:
//!
//! ```compile_fail
//! use gapledger::assess::sealing::plan;
//! use gapledger::survey::{GapId, Survey, VehicleKind};
//! // A gap's number is no leave to seal it.
//! let _ = plan(&Survey::new(VehicleKind::PanelVan), &[GapId(1)]);
//! ```
//!
//! ```compile_fail
//! use gapledger::assess::sealing::Sealable;
//! use gapledger::survey::GapId;
//! // Its fields are its own.
//! let _ = Sealable { gap: GapId(1) };
//! ```

mod aim;
mod best;
mod bill;
mod cost;
mod heed;
mod library;
mod order;
mod payback;
mod plan;
mod promise;
mod prospect;
mod sealable;
mod tax;
mod watch;
mod work;

#[cfg(test)]
mod tests;

pub use aim::{Aim, Figures, WINTER_DAYS};
pub use bill::{Bill, Line, Tax};
pub use cost::Cost;
pub use library::{starting_leak_left_percent, starting_remedy};
pub use order::{Order, Sequence, Step};
pub use payback::{MOST_WINTERS, Payback};
pub use plan::{
    AirPerSleeper, FlowShift, Plan, PlannedGap, PlannedWork, Together, after, marked_planned, plan,
};
pub(crate) use plan::{air_per_sleeper, plan_of};
pub use prospect::{LeftOpen, Prospect, Ranked, Ranking};
pub use sealable::{Sealable, StaysOpen};
pub use watch::Watch;
pub(crate) use work::usual_aim;
pub use work::{Chosen, Purchase, Wish, Work, WorkStep, nothing_to_seal};
