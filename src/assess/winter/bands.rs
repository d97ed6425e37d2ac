//! The numbers told of a season, and where the draws of each lie.

use super::count::{Season, quantile};
use crate::assess::answer::Answer;
use crate::assess::not_known::NotKnown;
use crate::assess::quantity::Kind;
use crate::physics::counts::count;

/// Share of the draws below a band, and above it.
const OUTSIDE: f64 = 0.05;

/// A number told of a season.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Mean relative humidity, 0 to 1.
    MeanRh,
    /// Share of the hours above 60 %.
    Above60,
    /// The same above 70 %.
    Above70,
    /// The same above 80 %.
    Above80,
    /// Nights with frost inside.
    FrostNights,
    /// Hours in which water condenses.
    WetHours,
    /// Highest index of mould on boards at the worst place.
    Mould,
    /// Water taken by machine or tub, L.
    Water,
    /// Energy of machine and heater, kWh.
    Energy,
    /// Cost of that energy.
    Cost,
}

impl Figure {
    /// All.
    pub const ALL: [Self; 10] = [
        Self::MeanRh,
        Self::Above60,
        Self::Above70,
        Self::Above80,
        Self::FrostNights,
        Self::WetHours,
        Self::Mould,
        Self::Water,
        Self::Energy,
        Self::Cost,
    ];

    /// What a season comes to; `None` where it is not known.
    #[must_use]
    pub fn of(self, season: &Season) -> Option<f64> {
        match self {
            Self::MeanRh => Some(season.humidity.mean),
            Self::Above60 => Some(season.humidity.share_above[0]),
            Self::Above70 => Some(season.humidity.share_above[1]),
            Self::Above80 => Some(season.humidity.share_above[2]),
            Self::FrostNights => Some(count(season.frost.nights)),
            Self::WetHours => Some(count(season.condensation_hours)),
            Self::Mould => season.worst_mould(),
            Self::Water => Some(season.removed_l),
            Self::Energy => Some(season.machine_kwh + season.heater_kwh),
            Self::Cost => season.cost.as_ref().ok().copied(),
        }
    }

    /// Where nine draws in ten lie, without a unit.
    #[must_use]
    pub fn span(self, band: &Band) -> String {
        if !matches!(self, Self::Mould | Self::FrostNights | Self::WetHours) {
            return self.kind().span(band.low, band.high);
        }
        // By tenths or whole numbers, not by digits.
        let (low, high) = (self.number(band.low), self.number(band.high));
        if low == high {
            low
        } else {
            format!("{low} to {high}")
        }
    }

    /// A value of it, without a unit: nights and hours are whole ones.
    #[must_use]
    pub fn number(self, value: f64) -> String {
        match self {
            Self::FrostNights | Self::WetHours => format!("{value:.0}"),
            _ => self.kind().number(value),
        }
    }

    /// How it is written.
    #[must_use]
    pub fn kind(self) -> Kind {
        match self {
            Self::MeanRh => Kind::RelativeHumidity,
            Self::Above60 | Self::Above70 | Self::Above80 => Kind::WholePercent,
            Self::FrostNights | Self::WetHours | Self::Cost => Kind::Plain,
            Self::Mould => Kind::MouldIndex,
            Self::Water => Kind::Litres,
            Self::Energy => Kind::KilowattHours,
        }
    }
}

/// Where nine draws of ten lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// One draw in twenty lies below.
    pub low: f64,
    /// Half of the draws lie below.
    pub median: f64,
    /// One draw in twenty lies above.
    pub high: f64,
}

/// How sure a winter is: the draws made.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubted {
    /// How many.
    pub draws: usize,
    /// The bands of each option, in their order.
    pub bands: Vec<Answer<Bands>>,
}

/// The band of each number of [`Figure::ALL`]; `None` where it is not known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bands([Option<Band>; Figure::ALL.len()]);

/// What one draw comes to for one option, as [`Figure::ALL`] has it.
pub type Drawn = [Option<f64>; Figure::ALL.len()];

impl Bands {
    /// The band of a number.
    #[must_use]
    pub fn of(&self, figure: Figure) -> Option<Band> {
        let at = Figure::ALL.iter().position(|own| *own == figure)?;
        self.0.get(at).copied().flatten()
    }

    /// Bands of draws.
    ///
    /// # Errors
    /// [`NotKnown`] where there are none.
    pub fn through(draws: &[Drawn]) -> Answer<Self> {
        if draws.is_empty() {
            return Err(NotKnown::because("no draws were asked for"));
        }
        let mut bands = [None; Figure::ALL.len()];
        for (at, band) in bands.iter_mut().enumerate() {
            let values = draws.iter().map(|draw| draw.get(at).copied().flatten());
            *band = values.collect::<Option<Vec<f64>>>().map(|mut values| {
                values.sort_by(f64::total_cmp);
                Band {
                    low: quantile(&values, OUTSIDE),
                    median: quantile(&values, 0.5),
                    high: quantile(&values, 1.0 - OUTSIDE),
                }
            });
        }
        Ok(Self(bands))
    }
}
